package day

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"roomful"
	"roomful/score"
)

// TypedQuestion asks what a score says that is not kept yet.
type TypedQuestion struct {
	Session roomful.Session
	Sheet   string // its key
	Piece   string // empty for the main one
	Who     roomful.Athlete
	People  []roomful.Athlete // of whom a text may speak
	// Past is earlier scores; Believed what is believed of the person, nil for what they
	// told.
	Past     roomful.Record
	Believed *roomful.Abilities
	ByHand   []ByHand // the versions of the sheet that were set
	On       roomful.Date
	Text     string
	Seed     uint64
	Workers  int
}

// Typed is what a score says that is not kept yet, one reading to a piece.
type Typed struct {
	roomful.Attempt
	Pieces []TypedPiece
}

// TypedPiece is a reading of one piece in words, beside the last attempt at it.
type TypedPiece struct {
	roomful.Entry
	Words string // what it was read as, for anybody
	// Compared is nil when there is nothing to compare with, or a question is open.
	Compared *roomful.Comparison
}

// typedRuns is how often versions are simulated to compare what is being typed: few
// enough to answer between two letters. What is kept is compared anew.
const typedRuns = 128

// Typed reads a score against its sheet and lays it beside the last attempt, without
// keeping anything.
func (d *Day) Typed(ctx context.Context, q TypedQuestion) (Typed, error) {
	past := slices.Clone(q.Past)
	for i := range past {
		past[i].Line = 0 // the only line there is is what is typed
	}
	record := RecordQuestion{People: q.People, Sheets: map[string]roomful.Session{q.Sheet: q.Session}, Known: past,
		ByHand: map[string][]ByHand{q.Sheet: q.ByHand},
		Logged: []roomful.Logged{{Athlete: q.Who.ID, On: q.On, Sheet: q.Sheet, Piece: q.Piece, Text: q.Text, Line: 1}}}
	all, unread := d.Record(record)
	out := Typed{Attempt: roomful.Attempt{Text: q.Text}}
	for _, e := range all {
		if e.Line == 1 {
			out.Readings = append(out.Readings, e.Reading)
			out.Pieces = append(out.Pieces, TypedPiece{Entry: e, Words: d.readAs(e)})
		}
	}
	if len(out.Pieces) == 0 {
		if len(unread) > 0 {
			return out, unread[0].Err
		}
		return out, &roomful.Error{Summary: "nothing was read", Hint: "write what was done, such as 5+20 or 7:13"}
	}
	for i := range out.Pieces {
		p := &out.Pieces[i]
		tries := q.tries(p.Done.Piece.Name())
		if len(tries) == 0 || p.Reading.Question != nil {
			continue
		}
		c := score.Comparer{Forecaster: d.Forecaster, Lexicon: d.Lexicon, Seed: q.Seed, Workers: q.Workers, Unit: q.Who.Unit, Runs: typedRuns}
		got, err := c.Compare(ctx, q.believed(d), tries[len(tries)-1], p.Entry)
		if err != nil {
			return out, err
		}
		p.Compared = &got
	}
	return out, nil
}

// tries are the earlier attempts at a piece, by day.
func (q TypedQuestion) tries(piece string) roomful.Record {
	return attemptsAt(CompareQuestion{Session: q.Session, Record: q.Past}, q.Who, piece)
}

// believed is what is believed of who types.
func (q TypedQuestion) believed(d *Day) *roomful.Abilities {
	if q.Believed != nil {
		return q.Believed
	}
	return d.abilities(q.Who, q.People, nil, q.On)
}

// readAs says what a score was read as: "5 rounds + 24, front squats 35 kg".
func (d *Day) readAs(e roomful.Entry) string {
	r, words := e.Reading, score.Words(e.Reading)
	if r.Kind == roomful.RoundsScore && r.Rounds != nil && !r.Capped && r.SameAs == "" && len(r.EachSeconds) == 0 {
		words = fmt.Sprintf("%d rounds", *r.Rounds)
		if *r.Rounds == 1 {
			words = "1 round"
		}
		if r.Reps != nil && *r.Reps > 0 {
			words += fmt.Sprintf(" + %d", *r.Reps)
		}
		if r.Approximate {
			words = "about " + words
		}
	}
	out := append([]string{words}, e.Done.Otherwise()...)
	if r.Kind == roomful.LoadScore {
		return strings.Join(out, ", ")
	}
	for _, kg := range r.LoadsKg {
		if slices.ContainsFunc(r.Changes, func(c roomful.Change) bool { return c.LoadKg == kg }) {
			continue
		}
		for _, t := range e.Done.Work.All() {
			if diff := t.Load.Kg() - kg; t.Load.Value > 0 && diff < 0.01 && diff > -0.01 {
				out = append(out, d.plural(t.Movement)+" "+t.Load.Near(e.Unit).String())
				break
			}
		}
	}
	return strings.Join(out, ", ")
}

// Beat is the number to match or beat at a piece before anything is typed; false when
// there is no earlier score. It stands beside the last attempt.
func (d *Day) Beat(ctx context.Context, q TypedQuestion) (last roomful.Entry, t roomful.Target, known bool, err error) {
	part, err := pieceOf(q.Session, q.Piece)
	if err != nil {
		return last, t, false, err
	}
	tries := q.tries(part.Name())
	if len(tries) == 0 {
		return last, t, false, nil
	}
	c := score.Comparer{Forecaster: d.Forecaster, Lexicon: d.Lexicon, Seed: q.Seed, Workers: q.Workers, Unit: q.Who.Unit}
	t, err = c.Next(ctx, q.believed(d), c.Best(tries))
	return tries[len(tries)-1], t, true, err
}
