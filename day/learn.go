package day

import (
	"context"
	"math"
	"slices"

	"roomful"
	"roomful/infer"
)

// LearnQuestion asks what scores say of the people of a gym.
type LearnQuestion struct {
	People  []roomful.Athlete
	Record  roomful.Record
	Today   roomful.Date
	Seed    uint64
	Workers int
	// Progress, when set, is called now and then with the share done, from several
	// goroutines.
	Progress func(share float64)
}

// Learnt is what scores say of everybody, by id.
type Learnt struct {
	Abilities map[string]*roomful.Abilities
	Left      []LeftOut
	told      map[string]*roomful.Abilities // what they told alone
}

// LeftOut is an attempt that nothing was learnt from.
type LeftOut struct {
	Entry roomful.Entry
	Why   string
}

// Learn turns everybody's record into abilities. Scores that come after today are
// left out, as are those that a question is still open about.
func (d *Day) Learn(ctx context.Context, q LearnQuestion) (Learnt, error) {
	out := Learnt{Abilities: map[string]*roomful.Abilities{}, told: map[string]*roomful.Abilities{}}
	people := make([]infer.Person, len(q.People))
	from := make([][]roomful.Entry, len(q.People))
	for i, a := range q.People {
		people[i].Prior = d.abilities(a, q.People, nil, q.Today)
		for _, e := range q.Record {
			if e.Athlete != a.ID || e.On.String() > q.Today.String() && !q.Today.IsZero() {
				continue
			}
			if why := unlearnt(e); why != "" {
				out.Left = append(out.Left, LeftOut{e, why})
				continue
			}
			people[i].Results = append(people[i].Results, infer.Result{Title: e.Title, On: e.On, Done: e.Done})
			from[i] = append(from[i], e)
		}
	}
	s := infer.Simulator{Forecaster: d.Forecaster, Seed: q.Seed, Workers: q.Workers, Progress: q.Progress}
	by, err := s.Prepare(ctx, people)
	if err != nil {
		return out, err
	}
	learnt, _ := s.LearnTogether(people, q.Today, by)
	for i, a := range q.People {
		out.Abilities[a.ID], out.told[a.ID] = learnt[i].Abilities, people[i].Prior
		for _, l := range learnt[i].Left {
			out.Left = append(out.Left, LeftOut{from[i][l.Result], l.Why})
		}
	}
	slices.SortStableFunc(out.Left, func(a, b LeftOut) int { return a.Entry.Line - b.Entry.Line })
	return out, nil
}

// unlearnt says why nothing is learnt from an attempt, or "".
func unlearnt(e roomful.Entry) string {
	switch q := e.Reading.Question; {
	case q != nil:
		return "a question is open: " + q.Ask
	case math.IsNaN(e.Done.Score):
		return "no score"
	case e.Done.Score <= 0 && e.Reading.Kind != roomful.RoundsScore:
		return "a score of nothing"
	}
	return ""
}
