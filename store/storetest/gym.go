package storetest

import (
	"context"
	"errors"
	"testing"
	"time"

	"roomful"
	"roomful/store"
)

// anotherGym: nothing of one gym is seen or changed from the books of another.
func anotherGym(t *testing.T, h *house) {
	h.somebody("mo")
	h.sheet("d1", "text")
	h.update(func(tx *store.Tx) error {
		_, err := tx.In(ours).PutAttempt(store.Attempt{ID: "a1", Person: "mo", Document: "d1", Text: "5", TypedAt: Now})
		return err
	})
	for what, f := range map[string]func(*store.Books) error{
		"person":   func(b *store.Books) error { _, err := b.Person("mo"); return err },
		"document": func(b *store.Books) error { _, err := b.Document("d1"); return err },
		"attempt":  func(b *store.Books) error { _, err := b.Attempt("a1"); return err },
		"erase":    func(b *store.Books) error { return b.Erase("mo") },
		"withdraw": func(b *store.Books) error { return b.Withdraw("a1") },
		"read":     func(b *store.Books) error { return b.PutResolved("mo", map[string]store.Resolved{"a1": {}}) },
		"publish":  func(b *store.Books) error { return b.Publish("e1", "d1", store.Readers{}) },
	} {
		if err := h.Update(context.Background(), store.By{At: Now}, func(tx *store.Tx) error { return f(tx.In(theirs)) }); !errors.Is(err, store.ErrMissing) {
			t.Errorf("%s from another gym: %v", what, err)
		}
	}
	h.refuse(nil, func(tx *store.Tx) error {
		_, err := tx.In(theirs).PutAttempt(store.Attempt{ID: "a2", Person: "mo", Document: "d1", Text: "5", TypedAt: Now})
		return err
	})
	h.refuse(store.ErrMissing, func(tx *store.Tx) error {
		return tx.In("no gym").PutPerson(store.Person{Athlete: roomful.Athlete{ID: "x"}})
	})
}

// drop: a gym goes with all that was kept of it, and no other does.
func drop(t *testing.T, h *house) {
	anotherGym(t, h)
	h.update(func(tx *store.Tx) error {
		return tx.In(theirs).PutPerson(store.Person{Athlete: roomful.Athlete{ID: "bo", Name: "Bo"}})
	})
	h.update(func(tx *store.Tx) error { return tx.DropGym(ours) })
	h.same("ours", len(look(h, func(b *store.Books) ([]store.Person, error) { return b.People(true) })), 0)
	if err := h.View(context.Background(), func(tx *store.Tx) error {
		gyms, err := tx.Gyms()
		if err == nil && (len(gyms) != 1 || gyms[0].ID != theirs) {
			t.Errorf("gyms %+v", gyms)
		}
		_, other := tx.In(theirs).Person("bo")
		return errors.Join(err, other)
	}); err != nil {
		t.Error(err)
	}
}

// ended: what is read when nobody waits for it any more fails by that, in the same words
// whatever the database says of being interrupted.
func ended(t *testing.T, h *house) {
	h.somebody("mo")
	for _, c := range []struct {
		end  func() (context.Context, context.CancelFunc)
		want error
	}{
		{func() (context.Context, context.CancelFunc) { return context.WithCancel(context.Background()) }, context.Canceled},
		{func() (context.Context, context.CancelFunc) {
			return context.WithTimeout(context.Background(), 20*time.Millisecond)
		}, context.DeadlineExceeded},
	} {
		ctx, cancel := c.end()
		err := h.View(ctx, func(tx *store.Tx) error {
			if c.want == context.Canceled {
				cancel()
			}
			<-ctx.Done()
			for {
				if _, err := tx.In(ours).People(true); err != nil {
					return err
				}
			}
		})
		cancel()
		if err != c.want {
			t.Errorf("it fails by %v, not %v", err, c.want)
		}
	}
}
