package storetest

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"roomful"
	"roomful/store"
)

func changes(t *testing.T, h *house) {
	h.somebody("mo")
	got := look(h, func(b *store.Books) ([]store.Change, error) { return b.Changes(0, 9) })
	h.same("changes", got, []store.Change{{Seq: 1, At: Now, Account: "coach", Kind: "gym", Subject: ours}, {Seq: 2, At: Now, Account: "coach", Kind: "person", Subject: "mo"}})
}

// undone: an update that fails leaves nothing, though others are committed beside it.
func undone(t *testing.T, h *house) {
	oops := errors.New("oops")
	var wait sync.WaitGroup
	for i := range 20 {
		wait.Go(func() {
			err := h.Update(context.Background(), store.By{At: Now}, func(tx *store.Tx) error {
				if err := tx.In(ours).PutPerson(store.Person{Athlete: roomful.Athlete{ID: fmt.Sprintf("p%02d", i)}}); err != nil {
					return err
				}
				if i%2 == 1 {
					return oops
				}
				if i == 4 {
					panic("four")
				}
				return nil
			})
			if (err != nil) != (i%2 == 1 || i == 4) {
				t.Errorf("update %d: %v", i, err)
			}
		})
	}
	wait.Wait()
	var ids []string
	for _, p := range look(h, func(b *store.Books) ([]store.Person, error) { return b.People(true) }) {
		ids = append(ids, p.ID)
	}
	h.same("who is there", ids, []string{"p00", "p02", "p06", "p08", "p10", "p12", "p14", "p16", "p18"})
	seqs(h, 10)
}

// seqs fails unless the changes are numbered from 1 without gaps.
func seqs(h *house, want int) {
	h.t.Helper()
	got := look(h, func(b *store.Books) ([]store.Change, error) { return b.Changes(0, want+10) })
	if len(got) != want || !slices.IsSortedFunc(got, func(a, b store.Change) int { return int(a.Seq - b.Seq) }) || want > 0 && got[want-1].Seq != int64(want) {
		h.t.Errorf("%d changes, the last %+v, want %d without gaps", len(got), got[len(got)-1:], want)
	}
}

// follow: who follows hears of every change once, in order, those before included.
func follow(t *testing.T, h *house) {
	h.somebody("p00")
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	var heard []int64
	done := make(chan error)
	go func() {
		done <- h.Follow(ctx, ours, 0, func(cs []store.Change) error {
			for _, c := range cs {
				if heard = append(heard, c.Seq); c.Subject == "p20" {
					return context.Canceled
				}
			}
			return nil
		})
	}()
	for i := range 20 {
		h.somebody(fmt.Sprintf("p%02d", i+1))
	}
	if err := <-done; !errors.Is(err, context.Canceled) {
		t.Fatal(err)
	}
	for i, seq := range heard {
		if seq != int64(i+1) {
			t.Fatalf("heard %v", heard)
		}
	}
}

// behind: who is far behind is told to read all anew.
func behind(t *testing.T, h *house) {
	h.update(func(tx *store.Tx) error {
		for i := range 600 {
			if err := tx.In(ours).PutPerson(store.Person{Athlete: roomful.Athlete{ID: fmt.Sprint(i)}}); err != nil {
				return err
			}
		}
		return nil
	})
	err := h.Follow(context.Background(), ours, 0, func([]store.Change) error { return nil })
	if !errors.Is(err, store.ErrBehind) {
		t.Errorf("%v, want %v", err, store.ErrBehind)
	}
}
