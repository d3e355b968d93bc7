package desk

import (
	"cmp"
	"context"
	"slices"

	"roomful"
	"roomful/day"
	"roomful/version"
)

// Question asks about a sheet for some of the people, all who come for nil, with what
// scores have shown of them.
func (g *Gym) Question(sheet roomful.Session, people []roomful.Athlete) (day.Question, error) {
	if people == nil {
		people = g.People
	}
	q := day.Question{Session: sheet, People: people, Kit: g.Kit, Today: g.Today, Runs: version.UsualRuns, Seed: seed, Believed: map[string]*roomful.Abilities{}}
	on := sheet.Date
	if on.IsZero() {
		on = g.Today
	}
	for _, a := range people { // one by one: a class is few of those who come
		learnt, err := g.books.Learnt(a.ID)
		if err != nil {
			return q, err
		}
		if len(learnt) > 0 {
			q.Believed[a.ID] = g.Believe(a, g.all, &learnt[0].Abilities, on)
		}
	}
	var err error
	q.Past, err = g.past(sheet, people, on)
	return q, err
}

// past is what some people scored on sheets with the same piece before a day, learnt from
// or not yet.
func (g *Gym) past(sheet roomful.Session, people []roomful.Athlete, on roomful.Date) (roomful.Record, error) {
	all, err := g.books.Titled(sheet.Title, sheet.Again)
	if err != nil || len(all) == 0 {
		return nil, err
	}
	var out roomful.Record
	for _, a := range people {
		tried, done, err := g.books.Tried(a.ID, sheet.Title, sheet.Again)
		if err != nil {
			return nil, err
		}
		record, err := g.resolve(context.Background(), a.ID, tried, done)
		if err != nil {
			return nil, err
		}
		for _, e := range record.Record {
			if e.On.String() < on.String() {
				out = append(out, e)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b roomful.Entry) int { return cmp.Compare(a.On.String(), b.On.String()) })
	return out, nil
}
