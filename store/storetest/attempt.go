package storetest

import (
	"context"
	"fmt"
	"sync"
	"testing"
	"time"

	"roomful"
	"roomful/store"
)

func attempts(t *testing.T, h *house) {
	h.somebody("mo")
	h.sheet("d1", "text")
	a := store.Attempt{ID: "a1", Person: "mo", Document: "d1", Piece: "main b", Day: roomful.Date{Year: 2027, Month: 3, Day: 4}, Text: "5+20 w/ singles 🙂", TypedAt: Now}
	put := func(a store.Attempt) (stored bool) {
		t.Helper()
		h.update(func(tx *store.Tx) (err error) { stored, err = tx.In(ours).PutAttempt(a); return err })
		return stored
	}
	before := look(h, (*store.Books).Seq)
	if !put(a) || put(a) {
		t.Error("sent twice: stored once, and said so")
	}
	if after := look(h, (*store.Books).Seq); after != before+1 {
		t.Errorf("sent twice: %d changes", after-before)
	}
	other := a
	other.Text = "6+1"
	h.refuse(store.ErrTaken, func(tx *store.Tx) error { _, err := tx.In(ours).PutAttempt(other); return err })
	nobody := a
	nobody.ID, nobody.Person = "a2", "nobody"
	h.refuse(nil, func(tx *store.Tx) error { _, err := tx.In(ours).PutAttempt(nobody); return err })
	read := Filled[store.Read]()
	h.update(func(tx *store.Tx) error {
		return tx.In(ours).PutResolved("mo", map[string]store.Resolved{"a1": {Read: read}})
	})
	a.Account, a.Seq, a.Sheet, a.Read = "coach", before+1, "d1", &read
	h.same("a score", look(h, func(b *store.Books) (store.Attempt, error) { return b.Attempt("a1") }), a)
	h.same("theirs", look(h, func(b *store.Books) ([]store.Attempt, error) { return b.OfPerson("mo") }), []store.Attempt{a})
	h.same("of the sheet", look(h, func(b *store.Books) ([]store.Attempt, error) { return b.OfSheet("d1") }), []store.Attempt{a})
	h.update(func(tx *store.Tx) error { return tx.In(ours).Withdraw("a1") })
	h.same("withdrawn", len(look(h, func(b *store.Books) ([]store.Attempt, error) { return b.OfPerson("mo") })), 0)
	a.WithdrawnAt = Now
	for edition, want := range map[int64]int{a.Seq - 1: 0, a.Seq: 1, look(h, (*store.Books).Seq): 0} {
		h.same(fmt.Sprint("as it was by change ", edition), look(h, func(b *store.Books) (int, error) {
			all, _, err := b.TriedBefore("mo", "d1", "d1", edition)
			return len(all), err
		}), want)
	}
	h.same("and kept", look(h, func(b *store.Books) ([]store.Attempt, error) { return b.Attempts(0, 9) }), []store.Attempt{a})
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).Withdraw("a9") })
	atOnce := a
	atOnce.ID, atOnce.WithdrawnAt = "a3", time.Time{}
	put(atOnce)
	atOnce.Seq = look(h, (*store.Books).Seq)
	come := look(h, func(b *store.Books) (out [2]int64, err error) {
		n, last, err := b.Come("d1")
		return [2]int64{int64(n), last}, err
	})
	h.same("what has come of the sheet", come, [2]int64{1, atOnce.Seq})
	h.same("read when it came", look(h, func(b *store.Books) (store.Attempt, error) { return b.Attempt("a3") }), atOnce)
}

// latest: a record read in pages is the record, each score once, whatever the page ends
// on: many of a day, none of a day, one that has gone meanwhile.
func latest(t *testing.T, h *house) {
	h.somebody("mo")
	h.somebody("bo")
	h.sheet("d1", "text")
	var want []string
	for i, day := range []int{4, 2, 0, 4, 9, 4, 2, 0, 9} { // 0: not known
		on := roomful.Date{Year: 2027, Month: 3, Day: day}
		if day == 0 {
			on = roomful.Date{}
		}
		for _, person := range []string{"mo", "bo"} {
			h.update(func(tx *store.Tx) error {
				_, err := tx.In(ours).PutAttempt(store.Attempt{ID: fmt.Sprint(person, i), Person: person, Document: "d1", Day: on, Text: "5", TypedAt: Now})
				return err
			})
		}
	}
	h.update(func(tx *store.Tx) error { return tx.In(ours).Withdraw("mo3") })
	for _, a := range look(h, func(b *store.Books) ([]store.Attempt, error) { return b.OfPerson("mo") }) {
		want = append([]string{a.ID}, want...)
	}
	h.same("by day", want, []string{"mo8", "mo4", "mo5", "mo0", "mo6", "mo1", "mo7", "mo2"})
	for limit := 1; limit < 10; limit++ {
		var got []string
		for before := (store.Place{}); ; {
			page := look(h, func(b *store.Books) ([]store.Attempt, error) { return b.Latest("mo", before, limit) })
			if len(page) == 0 {
				break
			}
			for _, a := range page {
				got = append(got, a.ID)
			}
			before = page[len(page)-1].Place()
		}
		h.same(fmt.Sprint("in pages of ", limit), got, want)
	}
}

// manyAtOnce: scores sent by many at once are all there when they were acknowledged.
func manyAtOnce(t *testing.T, h *house) {
	h.somebody("mo")
	h.sheet("d1", "text")
	var wait sync.WaitGroup
	for i := range 8 {
		wait.Go(func() {
			for k := range 25 {
				a := store.Attempt{ID: fmt.Sprintf("a%d-%d", i, k), Person: "mo", Document: "d1", Text: "5", TypedAt: Now}
				if err := h.Update(context.Background(), store.By{At: Now}, func(tx *store.Tx) error { _, err := tx.In(ours).PutAttempt(a); return err }); err != nil {
					t.Error(err)
				}
				if err := h.View(context.Background(), func(tx *store.Tx) error { _, err := tx.In(ours).Attempt(a.ID); return err }); err != nil {
					t.Errorf("just stored: %v", err)
				}
			}
		})
	}
	wait.Wait()
	h.same("scores", len(look(h, func(b *store.Books) ([]store.Attempt, error) { return b.OfPerson("mo") })), 200)
	seqs(h, 203)
}
