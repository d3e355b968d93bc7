package webtest

import (
	"testing"

	"roomful"
	"roomful/catalogue"
	"roomful/day"
	"roomful/desk"
	"roomful/store"
	"roomful/web/browser"
)

// standing are the scenes of what was given out and stands, and of what cannot be written
// down.
var standing = []Scene{
	{Name: "coach-day-otherwise", Of: "GET /sheets/{name}", As: store.Coach, Path: "/sheets/the-tall-gamp-again?class=class-2&wait=yes", First: otherwise, Then: seeOtherwise},
	{Name: "member-sore-unwritten", Of: "POST /sheets/{name}/sore/{person}", As: store.Member, Path: "/sheets/the-tall-gamp-again/sore/rhona", First: unwritten, Then: stopUnwritten},
}

// otherwise publishes the day, and has it learnt afterwards what the scores of the member
// have shown.
func otherwise(t testing.TB, g *Gym) {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	d := desk.New(day.New(lex), g.Store)
	defer d.Close()
	g.Update(t, func(b *store.Books) error {
		sheets, err := b.OnDay(roomful.DateOf(Now))
		if err != nil {
			return err
		}
		if err := b.PutLearning(store.Learning{Percent: 100, DoneAt: Now}); err != nil {
			return err
		}
		return b.Publish("given", sheets[0].ID, store.Readers{})
	})
	g.Update(t, func(b *store.Books) error {
		seq, err := b.Seq()
		if err != nil {
			return err
		}
		at, err := d.Open(b, Now)
		if err != nil {
			return err
		}
		record, err := at.Record(t.Context(), Member, 0)
		if err != nil {
			return err
		}
		asks, err := at.Asks(Member, record.Record)
		if err != nil {
			return err
		}
		l, err := at.LearnPerson(t.Context(), asks)
		if err != nil {
			return err
		}
		return b.PutLearnt(store.Learnt{Person: l.Person, Abilities: *l.Abilities, Shift: l.Shift, Seq: seq, Model: day.ModelEdition})
	})
}

// seeOtherwise sees who would do otherwise.
func seeOtherwise(t *browser.Tab) { t.See("Would now do otherwise") }

// unwritten has the database refuse every limit.
func unwritten(t testing.TB, g *Gym) {
	t.Helper()
	if _, err := g.Store.Queue().Exec(`CREATE TRIGGER refused BEFORE INSERT ON limits BEGIN SELECT RAISE(ABORT, 'the disk is full'); END`); err != nil {
		t.Fatal(err)
	}
}

// stopUnwritten answers a question with a yes that cannot be written down.
func stopUnwritten(t *browser.Tab) {
	stopBack(t)
	t.See("It could not be written down just now.")
}
