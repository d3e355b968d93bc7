package webtest

import (
	"errors"
	"testing"

	"roomful"
	"roomful/catalogue"
	"roomful/crowd"
	"roomful/day"
	"roomful/demo"
	"roomful/desk"
	"roomful/store"
	"roomful/transfer"
)

// crowded is how many people a crowd's gym has: a class at its fullest.
const crowded = 26

// firstCrowd is what package crowd calls the first gym of its first seed.
const firstCrowd = "crowd-1-0"

// Crowd serves a gym of 26 people who are made up, with a year of scores and what those
// have shown of them, in the demo's room and with its sheets.
func Crowd(t testing.TB) *Gym {
	t.Helper()
	folder, err := transfer.Open(demo.Files)
	if err != nil {
		t.Fatal(err)
	}
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	g, d := bare(t, firstCrowd), day.New(lex)
	plan := crowd.Plan{Gyms: 1, Members: crowded, Years: 1, Seed: 1, Until: roomful.DateOf(Now), Like: folder}
	if err := crowd.Make(t.Context(), g.Store, d, plan, nil); err != nil {
		t.Fatal(err)
	}
	folder.People, folder.Attempts = nil, nil
	g.Update(t, func(b *store.Books) error {
		_, err := transfer.Import(b, folder, lex, Now)
		return err
	})
	g.learn(t, desk.New(d, g.Store))
	g.open(t, lex)
	return g
}

// learn keeps what all scores have shown of everybody, as a night does.
func (g *Gym) learn(t testing.TB, d *desk.Desk) {
	t.Helper()
	defer d.Close()
	g.Update(t, func(b *store.Books) error {
		seq, err := b.Seq()
		if err != nil {
			return err
		}
		at, err := d.Open(b, Now)
		if err != nil {
			return err
		}
		asks, err := at.AsksAll(func(person string) (roomful.Record, error) {
			got, err := at.Record(t.Context(), person, 0)
			return got.Record, err
		}, nil)
		if err != nil {
			return err
		}
		taught, err := at.LearnGym(t.Context(), asks, func(l day.Lesson) error {
			return b.PutLearnt(store.Learnt{Person: l.Person, Abilities: *l.Abilities, Shift: l.Shift, Seq: seq, Model: day.ModelEdition})
		})
		if err != nil {
			return err
		}
		kept, err := desk.Emulators(taught)
		if err != nil {
			return err
		}
		return errors.Join(b.PutEmulators(kept), b.PutLearning(store.Learning{Percent: 100, DoneAt: Now, Seq: seq, Model: day.ModelEdition, Shift: taught.Shift}))
	})
}
