package storetest

import (
	"slices"
	"testing"
	"time"

	"roomful"
	"roomful/store"
)

// before keeps what a published day rests on while it stands, and lets go of it.
func before(t *testing.T, h *house) {
	h.somebody("mo")
	h.somebody("bo")
	today := roomful.DateOf(Now)
	for id, on := range map[string]roomful.Date{"today": today, "ahead": today.Plus(30), "over": today.Plus(-2)} {
		h.update(func(tx *store.Tx) error {
			_, _, err := tx.In(ours).Save(store.Document{ID: id, Kind: store.Sheet, Name: id, Title: id, Day: on, Text: id})
			return err
		})
	}
	at := func(at time.Time, f func(b *store.Books) error) {
		t.Helper()
		if err := h.Update(t.Context(), store.By{Account: "coach", At: at}, func(tx *store.Tx) error { return f(tx.In(ours)) }); err != nil {
			t.Fatal(err)
		}
	}
	learns := func(person string, mass float64) {
		t.Helper()
		at(Now, func(b *store.Books) error {
			return b.PutLearnt(store.Learnt{Person: person, Abilities: roomful.Abilities{MassKg: mass}, Seq: int64(mass), Model: "m"})
		})
	}
	publish := func(id, sheet string) store.Edition {
		t.Helper()
		at(Now, func(b *store.Books) error { return b.Publish(id, sheet, store.Readers{}) })
		all := look(h, func(b *store.Books) ([]store.Edition, error) { return b.Editions(sheet) })
		return all[slices.IndexFunc(all, func(e store.Edition) bool { return e.ID == id })]
	}
	mass := func(person string, e store.Edition) float64 {
		t.Helper()
		return look(h, func(b *store.Books) (float64, error) {
			l, _, err := b.LearntBefore(person, e.Seq)
			return l.Abilities.MassKg, err
		})
	}
	rows := func() int {
		t.Helper()
		return len(look(h, func(b *store.Books) ([]string, error) { return b.LearntSince(0) }))
	}
	learns("mo", 50)
	early := publish("e1", "today")
	learns("mo", 51)
	h.same("before the gym has learnt from all", mass("mo", early), 51.0)
	at(Now, func(b *store.Books) error { return b.PutLearning(store.Learning{Percent: 100, DoneAt: Now}) })
	learns("mo", 52)
	h.same("after it has", mass("mo", early), 51.0)

	first := publish("e2", "today")
	for m := range 3 {
		learns("mo", float64(53+m))
		learns("bo", float64(63+m))
	}
	second := publish("e3", "ahead")
	learns("mo", 60)
	learns("bo", 10) // what is known rests on more: nothing is learnt
	for what, c := range map[string][2]float64{
		"the first edition":             {mass("mo", early), 51},
		"the second":                    {mass("mo", first), 52},
		"the third":                     {mass("mo", second), 55},
		"of whom nothing was known":     {mass("bo", first), 0},
		"of whom nothing is known anew": {mass("bo", second), 65},
	} {
		h.same(what, c[0], c[1])
	}
	aside := func(person string) (out []float64) {
		for _, one := range look(h, func(b *store.Books) ([]store.Before, error) { return b.PutAside(person) }) {
			if out = append(out, one.Abilities.MassKg); !one.Until.Equal(Now) {
				t.Errorf("%s was known until %v", person, one.Until)
			}
		}
		return out
	}
	h.same("put aside of mo", aside("mo"), []float64{51, 52, 55})
	h.same("put aside of bo, of whom nothing was known", aside("bo"), []float64(nil))
	h.same("learnt of since", look(h, func(b *store.Books) ([]string, error) { return b.LearntSince(second.Seq) }), []string{"mo"})
	if over := publish("e4", "over"); over.Stands(today) || !first.Stands(today.Plus(1)) || first.Stands(today.Plus(2)) {
		t.Errorf("what stands: %v, %v on the day after, %v on the next", over.Stands(today), first.Stands(today.Plus(1)), first.Stands(today.Plus(2)))
	}

	at(Now.Add(48*time.Hour), func(b *store.Books) error { return b.Publish("e5", "over", store.Readers{}) })
	h.same("today is over", rows(), 1)
	h.same("ahead stands", mass("mo", second), 55.0)
	at(Now.Add(32*24*time.Hour), func(b *store.Books) error { return b.Publish("e6", "over", store.Readers{}) })
	h.same("all is over", rows(), 0)
	learns("mo", 61) // by a clock that was put back
	h.update(func(tx *store.Tx) error { return tx.In(ours).Erase("mo") })
	h.same("of somebody who is erased", rows(), 0)
}
