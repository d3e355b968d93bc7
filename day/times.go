package day

import (
	"context"

	"roomful"
	"roomful/score"
)

// Time is one of somebody's attempts at a piece, beside the one before it; nil for the
// first, and while a question about either is open.
type Time struct {
	roomful.Entry
	Beside *roomful.Comparison
}

// Times lays all of somebody's attempts at a piece beside each other, by day.
func (d *Day) Times(ctx context.Context, q TypedQuestion) ([]Time, error) {
	part, err := pieceOf(q.Session, q.Piece)
	if err != nil {
		return nil, err
	}
	tries := q.tries(part.Name())
	c := score.Comparer{Forecaster: d.Forecaster, Lexicon: d.Lexicon, Seed: q.Seed, Workers: q.Workers, Unit: q.Who.Unit, Runs: typedRuns}
	var out []Time
	for i, e := range tries {
		one := Time{Entry: e}
		if i > 0 && e.Reading.Question == nil && tries[i-1].Reading.Question == nil {
			got, err := c.Compare(ctx, q.believed(d), tries[i-1], e)
			if err != nil {
				return out, err
			}
			one.Beside = &got
		}
		out = append(out, one)
	}
	return out, nil
}
