package day

import (
	"context"

	"roomful"
	"roomful/score"
	"roomful/version"
)

// BoardQuestion asks how people scored on a sheet.
type BoardQuestion struct {
	Session roomful.Session
	Sheet   string // its key in the record
	People  []roomful.Athlete
	Record  roomful.Record
	Seed    uint64
	Workers int
}

// Boards are the boards of a sheet's pieces, in its order. Who changed something is
// shown beside who did not, with about what it would have been as written. People
// under 18, and those who asked to be left out, are shown without a place.
func (d *Day) Boards(ctx context.Context, q BoardQuestion) ([]roomful.Board, error) {
	var out []roomful.Board
	for _, part := range q.Session.Pieces() {
		b, err := d.board(ctx, q, part)
		if err != nil {
			return out, err
		}
		if len(b.Written)+len(b.Changed)+len(b.Without) > 0 {
			out = append(out, b)
		}
	}
	if len(out) == 0 {
		return nil, noScore(q.Session)
	}
	return out, nil
}

// noScore says that a sheet has no scores.
func noScore(s roomful.Session) error {
	return &roomful.Error{Summary: "nobody has a score on " + s.Title, Hint: "log one, or name another sheet"}
}

// board is the board of one piece.
func (d *Day) board(ctx context.Context, q BoardQuestion, part roomful.Part) (roomful.Board, error) {
	r := score.Ranking{Policy: d.Gym.CapPolicy, Unranked: map[string]bool{}}
	who, on := map[string]roomful.Athlete{}, map[string]roomful.Date{}
	for _, a := range q.People {
		who[a.ID] = a
	}
	for _, e := range q.Record {
		if e.Sheet != q.Sheet || e.Done.Piece.Name() != part.Name() {
			continue
		}
		r.Entries = append(r.Entries, e)
		on[e.Athlete] = e.On
		if !who[e.Athlete].Listed(e.On) {
			r.Unranked[e.Athlete] = true
		}
	}
	r.Believed = func(id string) *roomful.Abilities { return d.abilities(who[id], q.People, nil, on[id]) }
	r.Written = func(id string) roomful.Work {
		return version.AsWritten(version.Question{Part: part, Effort: q.Session.Effort, Athlete: who[id], Abilities: r.Believed(id),
			Gym: d.Gym, Lexicon: d.Lexicon, Forecaster: d.Forecaster})
	}
	c := score.Comparer{Forecaster: d.Forecaster, Lexicon: d.Lexicon, Runs: boardRuns, Seed: q.Seed, Workers: q.Workers, Unit: d.Gym.Unit}
	return c.Rank(ctx, r)
}

// boardRuns is how often each version is simulated for a board: its figures are
// rounded, and there are many.
const boardRuns = 400
