package storetest

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"slices"
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
			steps = append(steps[:len(steps):len(steps)], draw(t, gym))
		}
		for _, s := range steps {
			got := kindOf(h.Update(context.Background(), store.By{Account: "coach", At: Now}, func(tx *store.Tx) error { return s.do(tx.In(gym)) }))
			if want := s.onModel(m); got != want {
				t.Fatalf("answered %v, the model %v", got, want)
			}
		}
		var got kept
		if err := h.View(context.Background(), func(tx *store.Tx) (err error) { got, err = keptBy(tx, gym); return err }); err != nil {
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
	putClass(store.Class{ID: "c1", Day: day, Start: "06:00", Capacity: 1}), signUp("c1", "p1"), signUp("c1", "p2"), putAttempt("a1", "p1", "d1", "5"),
	putAccount("k1", "p1"), putAccount("k2", "")}

// drawn are the ids and words of a step. Ids are few, so that things meet; some lead
// nowhere.
type drawn struct {
	*rapid.T
	gym                                       string
	person, document, class, attempt, account string
	text                                      string
	number                                    int
}

// among draws one of few ids.
func (d drawn) among(kind string, n int) string {
	return fmt.Sprint(kind, rapid.IntRange(1, n).Draw(d.T, kind))
}

// secret draws one of two hashes. What they name is found from every gym, so that each
// gym has its own.
func (d drawn) secret(kind string) string { return d.gym + d.among(kind, 2) }

// draw draws a step.
func draw(t *rapid.T, gym string) step {
	d := drawn{T: t, gym: gym}
	d.person, d.document, d.class, d.attempt, d.account = d.among("p", 4), d.among("d", 3), d.among("c", 2), d.among("a", 4), d.among("k", 3)
	d.text = rapid.SampledFrom([]string{"", "a", "5+20", "é\n雨"}).Draw(t, "text")
	d.number = rapid.IntRange(0, 3).Draw(t, "number")
	kind := rapid.SampledFrom([]map[string]func(drawn) step{training, training, sayings, doors}).Draw(t, "kind")
	return kind[rapid.SampledFrom(slices.Sorted(maps.Keys(kind))).Draw(t, "what")](d)
}

// training are steps about who trains, what is on and what came of it.
var training = map[string]func(drawn) step{
	"sign up": func(d drawn) step { return signUp(d.class, d.person) },
	"leave": func(d drawn) step {
		state := rapid.SampledFrom([]string{store.Out, store.Missed}).Draw(d.T, "state")
		return step{func(b *store.Books) error { return b.Leave(d.class, d.person, state) }, func(m *model) error { return m.leave(d.class, d.person, state) }}
	},
	"erase": func(d drawn) step {
		return step{func(b *store.Books) error { return b.Erase(d.person) }, func(m *model) error { return m.erase(d.person) }}
	},
	"class": func(d drawn) step {
		c := store.Class{ID: d.class, Day: day.Plus(rapid.IntRange(0, 2).Draw(d.T, "ahead")), Start: "17:30", Capacity: d.number, CalledOff: rapid.Bool().Draw(d.T, "off")}
		if rapid.Bool().Draw(d.T, "with sheet") {
			c.Document = d.document
		}
		return putClass(c)
	},
	"score": func(d drawn) step { return putAttempt(d.attempt, d.person, d.document, d.text) },
	"withdraw": func(d drawn) step {
		return step{func(b *store.Books) error { return b.Withdraw(d.attempt) }, func(m *model) error { return m.withdraw(d.attempt) }}
	},
	"person": func(d drawn) step { return putPerson(d.person, d.text, int64(d.number)) },
	"limit": func(d drawn) step {
		l := store.Limit{ID: d.among("l", 3), Person: d.person, Limit: roomful.Limit{What: "back"}, Since: day, Note: d.text}
		return step{func(b *store.Books) error { return b.PutLimit(l) }, func(m *model) error { return m.putLimit(l) }}
	},
	"drop limit": func(d drawn) step {
		l := d.among("l", 3)
		return step{func(b *store.Books) error { return b.DropLimit(d.person, l) }, func(m *model) error { return m.dropLimit(d.person, l) }}
	},
	"sheet": func(d drawn) step { return save(d.document, d.among("n", 4), d.text, int64(d.number)) },
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

func putAccount(id, person string) step {
	a := store.Account{ID: id, Person: person, Role: store.Member, MadeAt: Now}
	return step{func(b *store.Books) error { return b.PutAccount(a) }, func(m *model) error { return m.putAccount(a) }}
}

func signUp(class, person string) step {
	return step{func(b *store.Books) error { _, err := b.SignUp(class, person); return err }, func(m *model) error { return m.signUp(class, person) }}
}

func putAttempt(id, person, document, text string) step {
	a := store.Attempt{ID: id, Person: person, Document: document, Day: day, Text: text, TypedAt: Now}
	return step{func(b *store.Books) error { _, err := b.PutAttempt(a); return err }, func(m *model) error { return m.putAttempt(a) }}
}
