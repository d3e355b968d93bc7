package desk

import (
	"context"
	"slices"
	"time"

	"roomful"
	"roomful/day"
	"roomful/store"
)

// Ask asks about a day.
type Ask struct {
	Gym   string
	Now   time.Time
	Sheet string // its name
	Class string // of those who have a place in it; empty for everybody who comes
	Piece string // empty for the main one
	Home  bool   // with what everybody has at home
	Shown bool   // of the sheet as members see it
	Anew  bool   // by what is known now, where a published day stands on what was known then
	// Alone is whom the answer may be about alone where there are more people than fit
	// into one; empty for nobody.
	Alone string
	// Text is what somebody is typing, in the place of what is saved; Typist is who: a
	// later text of theirs breaks off the work on an earlier one.
	Text, Typist string
}

// Asked is a question about a day with what belongs to it.
type Asked struct {
	day.Question
	Day   *day.Day       // with the gym's own settings
	Sheet store.Document // by its id and name, with the text that is asked about
	Start time.Duration  // of the class, since midnight; nought without one
	Home  bool
	// Stands is the change by which a published day stands, nought for what is known now.
	Stands int64
}

// Person is one of those whom a question is about.
func (a Asked) Person(id string) (roomful.Athlete, error) {
	i := slices.IndexFunc(a.People, func(one roomful.Athlete) bool { return one.ID == id })
	if i < 0 {
		return roomful.Athlete{}, store.ErrMissing
	}
	return a.People[i], nil
}

// Asked lays out the question about a day for whoever asks something else of it than
// everybody's versions; [Desk.Turn] is to be waited for before.
func (d *Desk) Asked(ctx context.Context, a Ask) (q Asked, err error) {
	err = d.store.View(ctx, func(tx *store.Tx) error {
		g, err := d.Open(tx.In(a.Gym), a.Now)
		if err != nil {
			return err
		}
		r, err := g.recipe(a)
		if err == nil {
			q, _, err = r.gather(ctx, g)
		}
		return err
	})
	return q, err
}
