package storetest

import (
	"slices"
	"testing"
	"time"

	"roomful"
	"roomful/store"
)

// standing is a gym whose days are published and learnt over.
type standing struct {
	*house
	t *testing.T
}

// at changes the gym at a time.
func (p standing) at(at time.Time, f func(b *store.Books) error) {
	p.t.Helper()
	if err := p.Update(p.t.Context(), store.By{Account: "coach", At: at}, func(tx *store.Tx) error { return f(tx.In(ours)) }); err != nil {
		p.t.Fatal(err)
	}
}

// learns learns of somebody, up to the change that their mass says.
func (p standing) learns(person string, mass float64) {
	p.t.Helper()
	p.at(Now, func(b *store.Books) error {
		return b.PutLearnt(store.Learnt{Person: person, Abilities: roomful.Abilities{MassKg: mass}, Seq: int64(mass), Model: "m"})
	})
}

// publish publishes a sheet and returns its edition.
func (p standing) publish(id, sheet string) store.Edition {
	p.t.Helper()
	p.at(Now, func(b *store.Books) error { return b.Publish(id, sheet, store.Readers{}) })
	all := look(p.house, func(b *store.Books) ([]store.Edition, error) { return b.Editions(sheet) })
	return all[slices.IndexFunc(all, func(e store.Edition) bool { return e.ID == id })]
}

// mass is what was known of somebody when an edition was published.
func (p standing) mass(person string, e store.Edition) float64 {
	p.t.Helper()
	return look(p.house, func(b *store.Books) (float64, error) {
		l, _, err := b.LearntBefore(person, e.Seq)
		return l.Abilities.MassKg, err
	})
}

// rows counts of whom something is put aside.
func (p standing) rows() int {
	p.t.Helper()
	return len(look(p.house, func(b *store.Books) ([]string, error) { return b.LearntSince(0) }))
}

// aside is what is put aside of somebody.
func (p standing) aside(person string) (out []float64) {
	p.t.Helper()
	for _, one := range look(p.house, func(b *store.Books) ([]store.Before, error) { return b.PutAside(person) }) {
		if out = append(out, one.Abilities.MassKg); !one.Until.Equal(Now) {
			p.t.Errorf("%s was known until %v", person, one.Until)
		}
	}
	return out
}

// before keeps what a published day rests on while it stands, and lets go of it.
func before(t *testing.T, h *house) {
	p, today := standing{h, t}, roomful.DateOf(Now)
	h.somebody("mo")
	h.somebody("bo")
	for id, on := range map[string]roomful.Date{"today": today, "ahead": today.Plus(30), "over": today.Plus(-2)} {
		h.update(func(tx *store.Tx) error {
			_, _, err := tx.In(ours).Save(store.Document{ID: id, Kind: store.Sheet, Name: id, Title: id, Day: on, Text: id})
			return err
		})
	}
	p.learns("mo", 50)
	early := p.publish("e1", "today")
	p.learns("mo", 51)
	h.same("before the gym has learnt from all", p.mass("mo", early), 51.0)
	p.at(Now, func(b *store.Books) error { return b.PutLearning(store.Learning{Percent: 100, DoneAt: Now}) })
	p.learns("mo", 52)
	h.same("after it has", p.mass("mo", early), 51.0)

	first := p.publish("e2", "today")
	for m := range 3 {
		p.learns("mo", float64(53+m))
		p.learns("bo", float64(63+m))
	}
	second := p.publish("e3", "ahead")
	p.learns("mo", 60)
	p.learns("bo", 10) // what is known rests on more: nothing is learnt
	for what, c := range map[string][2]float64{
		"the first edition":             {p.mass("mo", early), 51},
		"the second":                    {p.mass("mo", first), 52},
		"the third":                     {p.mass("mo", second), 55},
		"of whom nothing was known":     {p.mass("bo", first), 0},
		"of whom nothing is known anew": {p.mass("bo", second), 65},
	} {
		h.same(what, c[0], c[1])
	}
	h.same("put aside of mo", p.aside("mo"), []float64{51, 52, 55})
	h.same("put aside of bo, of whom nothing was known", p.aside("bo"), []float64(nil))
	h.same("learnt of since", look(h, func(b *store.Books) ([]string, error) { return b.LearntSince(second.Seq) }), []string{"mo"})
	if over := p.publish("e4", "over"); over.Stands(today) || !first.Stands(today.Plus(1)) || first.Stands(today.Plus(2)) {
		t.Errorf("what stands: %v, %v on the day after, %v on the next", over.Stands(today), first.Stands(today.Plus(1)), first.Stands(today.Plus(2)))
	}

	p.at(Now.Add(48*time.Hour), func(b *store.Books) error { return b.Publish("e5", "over", store.Readers{}) })
	h.same("today is over", p.rows(), 1)
	h.same("ahead stands", p.mass("mo", second), 55.0)
	p.at(Now.Add(32*24*time.Hour), func(b *store.Books) error { return b.Publish("e6", "over", store.Readers{}) })
	h.same("all is over", p.rows(), 0)
	p.learns("mo", 61) // by a clock that was put back
	h.update(func(tx *store.Tx) error { return tx.In(ours).Erase("mo") })
	h.same("of somebody who is erased", p.rows(), 0)
}
