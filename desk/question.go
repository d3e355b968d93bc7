package desk

import (
	"cmp"
	"context"
	"slices"
	"sync"

	"roomful"
	"roomful/day"
	"roomful/store"
	"roomful/version"
)

// question asks about a sheet for some of the people, with what scores had shown of them
// by the change by which it stands; nought for what they have shown.
func (g *Gym) question(sheet roomful.Session, people []roomful.Athlete, stands int64) (day.Question, error) {
	q := day.Question{Session: sheet, People: people, Kit: g.Kit, Today: g.Today, Runs: version.UsualRuns, Seed: seed, Believed: map[string]*roomful.Abilities{}}
	var err error
	on := sheet.Date
	if on.IsZero() {
		if q.Today, err = g.given(stands); err != nil {
			return q, err
		}
		on = q.Today
	}
	for _, a := range people { // one by one: a class is few of those who come
		believed, err := g.believed(a, on, stands)
		if err != nil {
			return q, err
		}
		if believed != nil {
			q.Believed[a.ID] = believed
		}
	}
	q.Past, err = g.past(sheet, people, on, stands)
	return q, err
}

// given is the day on which an edition was published, by the change that published it;
// today for nought. A day without a date is counted from there, so that no night moves it.
func (g *Gym) given(stands int64) (roomful.Date, error) {
	if stands == 0 {
		return g.Today, nil
	}
	all, err := g.editions()
	for _, e := range all {
		if e.Seq == stands {
			return roomful.DateOf(g.base.gym.Clock(e.At)), err
		}
	}
	return g.Today, err
}

// learnt is what was known of somebody by the change by which a day stands, nil for
// nothing; what is known now for nought, and where another edition of the model knew it.
func (g *Gym) learnt(person string, stands int64) (*roomful.Abilities, error) {
	if stands > 0 {
		then, known, err := g.books.LearntBefore(person, stands)
		switch {
		case err != nil:
			return nil, err
		case !known:
			return nil, nil
		case then.Model == day.ModelEdition:
			return &then.Abilities, nil
		}
	}
	now, err := g.books.Learnt(person)
	if err != nil || len(now) == 0 {
		return nil, err
	}
	return &now[0].Abilities, nil
}

// past is what some people scored on sheets with the same piece before a day, learnt from
// or not yet; of what had come by the change by which a day stands, unless that is nought.
func (g *Gym) past(sheet roomful.Session, people []roomful.Athlete, on roomful.Date, stands int64) (roomful.Record, error) {
	var out roomful.Record
	titled := sync.OnceValues(func() ([]store.Document, error) { return g.books.Titled(sheet.Title, sheet.Again) })
	for _, a := range people {
		own, err := held(g, heldKey{g.books.ID(), "past", a.ID, sheet.Title, sheet.Again, on, stands}, pastTopics, func() (roomful.Record, error) {
			if all, err := titled(); err != nil || len(all) == 0 {
				return nil, err
			}
			return g.ownPast(sheet, a.ID, on, stands)
		})
		if err != nil {
			return nil, err
		}
		out = append(out, own...)
	}
	slices.SortStableFunc(out, func(a, b roomful.Entry) int { return cmp.Compare(a.On.String(), b.On.String()) })
	return out, nil
}

// ownPast is what one person scored.
func (g *Gym) ownPast(sheet roomful.Session, person string, on roomful.Date, stands int64) (out roomful.Record, err error) {
	tried, done, err := g.books.Tried(person, sheet.Title, sheet.Again)
	if stands > 0 {
		tried, done, err = g.books.TriedBefore(person, sheet.Title, sheet.Again, stands)
	}
	if err != nil {
		return nil, err
	}
	record, err := g.resolve(context.Background(), person, tried, done)
	for _, e := range record.Record {
		if e.On.String() < on.String() {
			out = append(out, e)
		}
	}
	return out, err
}
