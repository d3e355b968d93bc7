// Package crowd makes gyms to measure a store with: many members, years of days, and
// scores as people type them. The same plan makes the same gyms.
//
// Members are like the people of a folder, each a little better or worse throughout.
// What they score on a day lies where the model forecasts it for whom they are like; it
// creeps up over the years. Nothing of it is true of anybody.
package crowd

import (
	"context"
	"fmt"
	"strings"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/store"
	"roomful/transfer"
)

// Plan is how much to make.
type Plan struct {
	Gyms, Members, Years int
	Seed                 uint64
	Until                roomful.Date // the last day
	Like                 transfer.Folder
}

// Bounds of a plan: beyond them it is a mistake.
const (
	mostGyms    = 1000
	mostMembers = 20_000
	mostYears   = 50
)

// Comes is how often somebody comes, of five days a week (judgement).
const comes = 0.46

// runs is how often a piece is simulated for whom members are like.
const runs = 64

// rowsAtOnce is how many scores are stored in one update.
const rowsAtOnce = 2000

// Make makes the gyms of a plan. Tell is called with how many scores there are.
func Make(ctx context.Context, s *store.Store, d *day.Day, p Plan, tell func(scores int)) error {
	if p.Gyms < 1 || p.Members < 1 || p.Years < 1 || p.Gyms > mostGyms || p.Members > mostMembers || p.Years > mostYears {
		return &roomful.Error{Summary: fmt.Sprintf("making %d gyms of %d members over %d years", p.Gyms, p.Members, p.Years),
			Hint: fmt.Sprintf("ask for 1 to %d gyms, 1 to %d members and 1 to %d years", mostGyms, mostMembers, mostYears)}
	}
	m := &maker{Plan: p, store: s, day: d, tell: tell}
	if err := m.read(ctx); err != nil {
		return err
	}
	for g := range p.Gyms {
		if err := m.gym(ctx, g); err != nil {
			return err
		}
	}
	return nil
}

// maker is the work in hand.
type maker struct {
	Plan
	store  *store.Store
	day    *day.Day
	tell   func(int)
	people []roomful.Athlete
	sheets []sheet
	scores int
}

// read reads the folder and forecasts its days.
func (m *maker) read(ctx context.Context) error {
	m.people, _ = exchange.ReadPeople(strings.NewReader(m.Like.People.Text), m.day.Lexicon, m.Until)
	for _, f := range m.Like.Sheets {
		session, _ := m.day.Check(ctx, f.Text)
		got, err := m.day.Forecast(ctx, day.Question{Session: session, People: m.people, Runs: runs, Seed: 1, Today: m.Until}, true)
		if err != nil {
			continue // nobody scores on it
		}
		name := f.Name[strings.LastIndexByte(f.Name, '/')+1:]
		one := sheet{name: strings.TrimSuffix(name, ".txt"), text: f.Text, date: session.Date.String(), session: session, piece: got.Piece, kind: got.Kind, readings: map[string]*store.Read{}}
		for _, a := range got.Athletes {
			one.goes = append(one.goes, a.Score)
		}
		m.sheets = append(m.sheets, one)
	}
	if len(m.people) == 0 || len(m.sheets) == 0 {
		return &roomful.Error{Summary: "making gyms: the folder has no people or no days to score on", Hint: "give people.csv and sheets"}
	}
	return nil
}
