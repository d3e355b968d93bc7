package storetest

import (
	"context"
	"errors"
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"roomful"
	"roomful/store"
)

// day is that of whatever has one here.
var day = roomful.Date{Year: 2027, Month: 3, Day: 4}

// asModel: whatever is done, in whatever order, a store answers and ends as the model in
// memory does. Since each database is held to it, they are equal to each other.
func asModel(t *testing.T, h *house) {
	n := 0
	rapid.Check(t, func(t *rapid.T) {
		n++
		gym := fmt.Sprintf("random-%04d", n)
		h.update(func(tx *store.Tx) error { return tx.MakeGym(store.Gym{ID: gym, Name: gym, MadeAt: Now}) })
		m := newModel(gym)
		steps := beginning
		for range rapid.IntRange(1, 40).Draw(t, "steps") {
			steps = append(steps[:len(steps):len(steps)], draw(t))
		}
		for _, s := range steps {
			got := kindOf(h.Update(context.Background(), store.By{Account: "coach", At: Now}, func(tx *store.Tx) error { return s.do(tx.In(gym)) }))
			if want := s.onModel(m); got != want {
				t.Fatalf("answered %v, the model %v", got, want)
			}
		}
		var got kept
		if err := h.View(context.Background(), func(tx *store.Tx) (err error) { got, err = keptBy(tx.In(gym)); return err }); err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(m.kept(), got, cmpopts.EquateEmpty()); diff != "" {
			t.Fatalf("kept (-model +store)\n%s", diff)
		}
	})
}

// kindOf is the refusal that an error is.
func kindOf(err error) error {
	for _, known := range []error{store.ErrMissing, store.ErrStale, store.ErrTaken} {
		if errors.Is(err, known) {
			return known
		}
	}
	if err != nil {
		return refused
	}
	return nil
}

// step is something to do, on a store and on the model.
type step struct {
	do      func(*store.Books) error
	onModel func(*model) error
}

// beginning is a class with one place that somebody has and another waits for, and a
// score: what a few steps rarely reach by chance.
var beginning = []step{putPerson("p1", "", 0), putPerson("p2", "", 0), putPerson("p3", "", 0), save("d1", "n1", "", 0),
	putClass(store.Class{ID: "c1", Day: day, Start: "06:00", Capacity: 1}), signUp("c1", "p1"), signUp("c1", "p2"), putAttempt("a1", "p1", "d1", "5")}

// draw draws a step. Ids are few, so that things meet; some lead nowhere.
func draw(t *rapid.T) step {
	among := func(kind string, n int) string { return fmt.Sprint(kind, rapid.IntRange(1, n).Draw(t, kind)) }
	text := rapid.SampledFrom([]string{"", "a", "5+20", "é\n雨"}).Draw(t, "text")
	number := rapid.IntRange(0, 3).Draw(t, "number")
	person, document, class, attempt := among("p", 4), among("d", 3), among("c", 2), among("a", 4)
	switch rapid.SampledFrom([]string{"sign up", "leave", "erase", "class", "score", "withdraw", "person", "limit", "sheet", "sheet"}).Draw(t, "what") {
	case "sign up":
		return signUp(class, person)
	case "leave":
		state := rapid.SampledFrom([]string{store.Out, store.Missed}).Draw(t, "state")
		return step{func(b *store.Books) error { return b.Leave(class, person, state) }, func(m *model) error { return m.leave(class, person, state) }}
	case "erase":
		return step{func(b *store.Books) error { return b.Erase(person) }, func(m *model) error { return m.erase(person) }}
	case "class":
		c := store.Class{ID: class, Day: day, Start: "17:30", Capacity: number, CalledOff: rapid.Bool().Draw(t, "off")}
		if rapid.Bool().Draw(t, "with sheet") {
			c.Document = document
		}
		return putClass(c)
	case "score":
		return putAttempt(attempt, person, document, text)
	case "withdraw":
		return step{func(b *store.Books) error { return b.Withdraw(attempt) }, func(m *model) error { return m.withdraw(attempt) }}
	case "person":
		return putPerson(person, text, int64(number))
	case "limit":
		l := store.Limit{ID: among("l", 3), Person: person, Limit: roomful.Limit{What: "back"}, Since: day, Note: text}
		return step{func(b *store.Books) error { return b.PutLimit(l) }, func(m *model) error { return m.putLimit(l) }}
	}
	return save(document, among("n", 4), text, int64(number))
}

func putPerson(id, name string, revision int64) step {
	p := store.Person{Athlete: roomful.Athlete{ID: id, Name: name}, Revision: revision}
	return step{func(b *store.Books) error { return b.PutPerson(p) }, func(m *model) error { return m.putPerson(p) }}
}

func save(id, name, text string, revision int64) step {
	d := store.Document{ID: id, Kind: store.Sheet, Name: name, Text: text, Revision: revision}
	return step{func(b *store.Books) error { _, _, err := b.Save(d); return err }, func(m *model) error { return m.save(d) }}
}

func putClass(c store.Class) step {
	return step{func(b *store.Books) error { return b.PutClass(c) }, func(m *model) error { return m.putClass(c) }}
}

func signUp(class, person string) step {
	return step{func(b *store.Books) error { _, err := b.SignUp(class, person); return err }, func(m *model) error { return m.signUp(class, person) }}
}

func putAttempt(id, person, document, text string) step {
	a := store.Attempt{ID: id, Person: person, Document: document, Day: day, Text: text, TypedAt: Now}
	return step{func(b *store.Books) error { _, err := b.PutAttempt(a); return err }, func(m *model) error { return m.putAttempt(a) }}
}
