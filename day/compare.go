package day

import (
	"context"
	"slices"
	"strings"

	"roomful"
	"roomful/score"
)

// CompareQuestion asks how people did on a sheet beside the last time they did it.
type CompareQuestion struct {
	Session roomful.Session // this sheet, or the one it repeats
	Piece   string          // empty for every scored one
	People  []roomful.Athlete
	Record  roomful.Record
	// Believed is what is believed of people by id; what is not here is learnt from the
	// record.
	Believed map[string]*roomful.Abilities
	Seed     uint64
	Workers  int
}

// Compared is how one person's attempt stands beside their last. With a single
// attempt there is only what to match next.
type Compared struct {
	Who  roomful.Athlete
	Only *roomful.Entry // the attempt, when it is the only one
	roomful.Comparison
}

// Compare lays everybody's latest attempt at a sheet beside the one before it.
func (d *Day) Compare(ctx context.Context, q CompareQuestion) ([]Compared, error) {
	var out []Compared
	for _, a := range q.People {
		for _, part := range q.Session.Pieces() {
			if q.Piece != "" && part.Name() != q.Piece {
				continue
			}
			tries := attemptsAt(q, a, part.Name())
			if len(tries) == 0 {
				continue
			}
			one, err := d.compare(ctx, q, a, tries)
			if err != nil {
				return out, err
			}
			out = append(out, one)
		}
	}
	if len(out) == 0 {
		if len(q.People) == 1 {
			return nil, &roomful.Error{Summary: q.People[0].Name + " has no score on " + q.Session.Title + ", so there is nothing to beat yet", Hint: "log one, or ask for a forecast"}
		}
		return nil, noScore(q.Session)
	}
	return out, nil
}

// attemptsAt lists a person's attempts at a piece of the sheet or of those it belongs
// with, by day.
func attemptsAt(q CompareQuestion, a roomful.Athlete, piece string) roomful.Record {
	var out roomful.Record
	for _, e := range q.Record {
		if e.Athlete == a.ID && e.Done.Piece.Name() == piece && sameFamily(e, q.Session) {
			out = append(out, e)
		}
	}
	return out
}

// sameFamily reports whether an attempt was at a sheet, at one that it repeats, or at
// one that repeats the same.
func sameFamily(e roomful.Entry, s roomful.Session) bool {
	family := func(title, again string) string {
		if again != "" {
			title = again
		}
		return strings.ToLower(title)
	}
	return family(e.Title, e.Again) == family(s.Title, s.Again)
}

// before is what is believed of a person when a day began: what they told, and the
// scores that they had by then.
func (d *Day) before(ctx context.Context, q CompareQuestion, a roomful.Athlete, on roomful.Date) (*roomful.Abilities, error) {
	if known := q.Believed[a.ID]; known != nil {
		return known, nil
	}
	past := slices.DeleteFunc(slices.Clone(q.Record), func(e roomful.Entry) bool { return e.Athlete != a.ID || e.On.String() >= on.String() })
	if len(past) == 0 {
		return d.abilities(a, q.People, nil, on), nil
	}
	got, err := d.Learn(ctx, LearnQuestion{People: q.People, Record: past, Today: on, Seed: q.Seed, Workers: q.Workers})
	return got.Abilities[a.ID], err
}

// compare lays the last of somebody's attempts beside the one before it.
func (d *Day) compare(ctx context.Context, q CompareQuestion, a roomful.Athlete, tries roomful.Record) (Compared, error) {
	c := score.Comparer{Forecaster: d.Forecaster, Lexicon: d.Lexicon, Seed: q.Seed, Workers: q.Workers, Unit: a.Unit}
	later := tries[len(tries)-1]
	earlier := slices.Clone(tries[:len(tries)-1])
	on := later.On
	if len(earlier) > 0 {
		on = earlier[len(earlier)-1].On
	}
	who, err := d.before(ctx, q, a, on)
	out := Compared{Who: a}
	if err != nil {
		return out, err
	}
	if len(earlier) == 0 {
		out.Only = &later
		out.Beat, err = c.Next(ctx, who, later)
		return out, err
	}
	out.Comparison, err = c.Compare(ctx, who, earlier[len(earlier)-1], later)
	if err == nil && len(earlier) > 1 {
		out.Beat, err = c.Next(ctx, who, c.Best(tries))
	}
	return out, err
}
