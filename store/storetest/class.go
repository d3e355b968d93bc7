package storetest

import (
	"testing"

	"roomful"
	"roomful/store"
)

func classes(t *testing.T, h *house) {
	day := roomful.Date{Year: 2027, Month: 3, Day: 4}
	c := store.Class{ID: "c1", Day: day, Start: "17:30", Minutes: 60, Capacity: 2}
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutClass(c) })
	for _, id := range []string{"a", "b", "c", "d"} {
		h.somebody(id)
		h.update(func(tx *store.Tx) error { _, err := tx.In(ours).SignUp("c1", id); return err })
	}
	h.update(func(tx *store.Tx) error { _, err := tx.In(ours).SignUp("c1", "a"); return err }) // twice: keeps the place
	states := func() (out []string) {
		for _, s := range look(h, func(b *store.Books) ([]store.SignUp, error) { return b.SignUps("c1") }) {
			out = append(out, s.Person+" "+s.State)
		}
		return out
	}
	h.same("full", states(), []string{"a in", "b in", "c waiting", "d waiting"})
	h.update(func(tx *store.Tx) error { return tx.In(ours).Leave("c1", "a", store.Out) })
	h.same("one goes", states(), []string{"a out", "b in", "c in", "d waiting"})
	h.update(func(tx *store.Tx) error { _, err := tx.In(ours).SignUp("c1", "a"); return err })
	h.same("and asks again", states(), []string{"b in", "c in", "d waiting", "a waiting"})
	c.Capacity = 3
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutClass(c) })
	h.same("one place more", states(), []string{"b in", "c in", "d in", "a waiting"})
	h.update(func(tx *store.Tx) error { return tx.In(ours).Leave("c1", "b", store.Missed) })
	h.same("who did not come leaves no place when it is over", states(), []string{"b missed", "c in", "d in", "a waiting"})
	c.Capacity = 0
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutClass(c) })
	h.same("room for all", states(), []string{"b missed", "c in", "d in", "a in"})
	h.same("the day", look(h, func(b *store.Books) ([]store.Class, error) { return b.Classes(day, day) }), []store.Class{c})
	h.same("theirs", len(look(h, func(b *store.Books) ([]store.SignUp, error) { return b.SignedUp("a") })), 1)
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { _, err := tx.In(ours).SignUp("c9", "a"); return err })
	h.refuse(nil, func(tx *store.Tx) error { _, err := tx.In(ours).SignUp("c1", "nobody"); return err })
}
