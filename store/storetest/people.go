package storetest

import (
	"testing"

	"roomful"
	"roomful/store"
)

func people(t *testing.T, h *house) {
	months := 0.0
	mo := store.Person{Athlete: roomful.Athlete{ID: "mo", Name: "Mo 雨", Division: roomful.DivisionB, Born: roomful.Date{Year: 1990}, MassKg: 71.5, Months: &months,
		Known: []roomful.Known{{Test: roomful.TestSquat, Value: 80}}, Skills: []roomful.SkillLevel{{Movement: "pull-up", Level: roomful.SomeSkill}},
		Home: &roomful.Kit{Home: true, Stations: map[string]int{"bike": 1}}, Like: "Ann"}}
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutPerson(mo) })
	mo.Revision = 1
	h.same("somebody", look(h, func(b *store.Books) (store.Person, error) { return b.Person("mo") }), mo)
	h.refuse(store.ErrStale, func(tx *store.Tx) error { return tx.In(ours).PutPerson(store.Person{Athlete: mo.Athlete}) })
	mo.Name, mo.LeftAt = "Moe", Now
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutPerson(mo) })
	mo.Revision = 2
	h.same("who comes", len(look(h, func(b *store.Books) ([]store.Person, error) { return b.People(false) })), 0)
	h.same("who came", look(h, func(b *store.Books) ([]store.Person, error) { return b.People(true) }), []store.Person{mo})
	h.update(func(tx *store.Tx) error { return tx.In(ours).Erase("mo") })
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).Erase("mo") })
	h.same("erased", len(look(h, func(b *store.Books) ([]store.Person, error) { return b.People(true) })), 0)
	for _, c := range look(h, func(b *store.Books) ([]store.Change, error) { return b.Changes(0, 99) }) {
		if c.Subject == "mo" {
			t.Errorf("change %d, %s, still says whom it was about", c.Seq, c.Kind)
		}
	}
}

func limits(t *testing.T, h *house) {
	h.somebody("mo")
	h.somebody("bo")
	l := store.Limit{ID: "l1", Person: "mo", Limit: roomful.Limit{What: "back", Pain: 3}, Since: roomful.Date{Year: 2027, Month: 3, Day: 1}, Word: "theirs", Note: "since the move"}
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutLimit(l) })
	l.Until, l.Review = roomful.Date{Year: 2027, Month: 3, Day: 9}, roomful.Date{Year: 2027, Month: 3, Day: 8}
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutLimit(l) })
	h.same("a limit", look(h, func(b *store.Books) ([]store.Limit, error) { return b.Limits("mo") }), []store.Limit{l})
	stolen := l
	stolen.Person = "bo"
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).PutLimit(stolen) })
	for day, on := range map[int]bool{28 - 31: false, 1: true, 9: true, 10: false} {
		if got := l.On(roomful.Date{Year: 2027, Month: 3, Day: day}); got != on {
			t.Errorf("on March %d: %v", day, got)
		}
	}
	h.update(func(tx *store.Tx) error { return tx.In(ours).DropLimit("mo", "l1") })
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).DropLimit("mo", "l1") })
}

// order: words come in the order of their bytes, whatever language the server speaks.
func order(t *testing.T, h *house) {
	for _, id := range []string{"é", "b", "B", "a-b", "aa", "A"} {
		h.somebody(id)
	}
	var ids []string
	for _, p := range look(h, func(b *store.Books) ([]store.Person, error) { return b.People(true) }) {
		ids = append(ids, p.ID)
	}
	h.same("order", ids, []string{"A", "B", "a-b", "aa", "b", "é"})
}
