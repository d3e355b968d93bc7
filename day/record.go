package day

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"roomful"
	"roomful/score"
)

// RecordQuestion asks for everybody's record from scores as they were written down.
type RecordQuestion struct {
	People []roomful.Athlete
	Sheets map[string]roomful.Session // by key
	Logged []roomful.Logged
	// Known is what was read before: it is not read again, and what is the same as one of
	// its scores takes that.
	Known roomful.Record
	// Others, when set, finds what others scored on a sheet, for who wrote that theirs
	// was the same as somebody's.
	Others func(sheet string) (roomful.Record, error)
	// ByHand are the versions that were set, by the key of their sheet.
	ByHand map[string][]ByHand
}

// Unread is a score that nothing was made of.
type Unread struct {
	Line int // in the file of attempts
	Err  error
}

// Record reads every score against its sheet and resolves what was done, a line to
// each piece, by day. "Same as last time" and "same as Marit" take what that
// attempt has. Scores that cannot be read are listed and left out.
func (d *Day) Record(q RecordQuestion) (roomful.Record, []Unread) {
	out := slices.Clone(q.Known)
	var unread []Unread
	for _, l := range q.Logged {
		entries, err := d.entries(q, l)
		if err != nil {
			unread = append(unread, Unread{l.Line, err})
		}
		out = append(out, entries...)
	}
	order := make([]int, len(out))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(out[i].On.String(), out[j].On.String()) })
	sorted := make(roomful.Record, len(out))
	for to, from := range order {
		sorted[to] = out[from]
	}
	for to, from := range order {
		if from < len(q.Known) {
			continue
		}
		if err := d.copyOver(q, sorted, to); err != nil {
			unread = append(unread, Unread{sorted[to].Line, err})
		}
	}
	slices.SortStableFunc(unread, func(a, b Unread) int { return cmp.Compare(a.Line, b.Line) })
	return sorted, unread
}

// dayOf is when an attempt was, the sheet's day when it does not say.
func (d *Day) dayOf(q RecordQuestion, l roomful.Logged) roomful.Date {
	if l.On.IsZero() {
		return q.Sheets[l.Sheet].Date
	}
	return l.On
}

// entries reads one score.
func (d *Day) entries(q RecordQuestion, l roomful.Logged) ([]roomful.Entry, error) {
	session, known := q.Sheets[l.Sheet]
	who := slices.IndexFunc(q.People, func(a roomful.Athlete) bool { return a.ID == l.Athlete })
	if !known || who < 0 {
		return nil, &roomful.Error{Summary: "nobody knows who this was, or on which sheet", Hint: "name a person and a sheet that are there"}
	}
	part, err := pieceOf(session, l.Piece)
	if err != nil {
		return nil, err
	}
	a := q.People[who]
	attempt, err := score.Read(score.Asked{Session: session, Piece: part.Name(), Division: a.Division, Unit: a.Unit, People: q.People, Lexicon: d.Lexicon}, l.Text)
	if err != nil {
		return nil, err
	}
	var out []roomful.Entry
	for _, r := range attempt.Readings {
		e := roomful.Entry{Athlete: a.ID, Name: a.Name, Division: a.Division, Unit: a.Unit, On: d.dayOf(q, l), Sheet: l.Sheet, Title: session.Title, Again: session.Again, Reading: r, Line: l.Line}
		if e.Done, err = d.done(q, e); err != nil {
			return out, err
		}
		out = append(out, e)
	}
	return out, nil
}

// done resolves what an entry's reading says was done.
func (d *Day) done(q RecordQuestion, e roomful.Entry) (roomful.Done, error) {
	who := slices.IndexFunc(q.People, func(a roomful.Athlete) bool { return a.ID == e.Athlete })
	return d.Done(DoneQuestion{Who: q.People[who], People: q.People, Session: q.Sheets[e.Sheet], Reading: e.Reading, On: e.On, ByHand: q.ByHand[e.Sheet]})
}

// copyOver fills in what "same as" stands for, from an attempt that comes earlier,
// or on the same day from another person's.
func (d *Day) copyOver(q RecordQuestion, all roomful.Record, i int) error {
	e := &all[i]
	if e.Reading.SameAs == "" {
		return nil
	}
	var from *roomful.Entry
	for k := range all {
		o := &all[k]
		if k == i || o.Done.Piece.Name() != e.Done.Piece.Name() || math.IsNaN(o.Done.Score) {
			continue
		}
		mine := o.Athlete == e.Athlete && k < i && (o.Title == e.Title || o.Title == e.Again || o.Again != "" && o.Again == e.Again)
		if mine && e.Reading.SameAs == "last time" || theirs(o, e) && !mine {
			from = o
		}
	}
	if from == nil && q.Others != nil && e.Reading.SameAs != "last time" {
		others, err := q.Others(e.Sheet)
		if err != nil {
			return err
		}
		if k := slices.IndexFunc(others, func(o roomful.Entry) bool {
			return theirs(&o, e) && o.Done.Piece.Name() == e.Done.Piece.Name() && !math.IsNaN(o.Done.Score)
		}); k >= 0 {
			from = &others[k]
		}
	}
	if from == nil {
		return &roomful.Error{Summary: e.Name + " wrote that it was the same as " + e.Reading.SameAs + ", and there is no such score", Hint: "ask for the score itself"}
	}
	e.Reading = sameAs(e.Reading, from.Reading)
	var err error
	if e.Done, err = d.done(q, *e); err == nil {
		e.Done.Assumed = append(e.Done.Assumed, "the same as "+e.Reading.SameAs)
	}
	return err
}

// theirs reports whether a score is the one, of another on the same day, that somebody
// says theirs is the same as.
func theirs(o, e *roomful.Entry) bool {
	return o.Sheet == e.Sheet && o.On == e.On && o.Athlete != e.Athlete && strings.EqualFold(o.Name, e.Reading.SameAs)
}

// sameAs is a reading with what it does not say taken from another: the score, and
// the changes.
func sameAs(r, from roomful.Reading) roomful.Reading {
	if r.Rounds == nil && r.Reps == nil && r.Seconds == nil && r.Metres == nil && len(r.LoadsKg) == 0 && !r.Capped {
		r.Rounds, r.Reps, r.Seconds, r.Metres, r.TotalReps = from.Rounds, from.Reps, from.Seconds, from.Metres, from.TotalReps
		r.EachSeconds, r.EachReps, r.Capped, r.Left = from.EachSeconds, from.EachReps, from.Capped, from.Left
	}
	if len(r.LoadsKg) == 0 {
		r.LoadsKg, r.Misses = from.LoadsKg, from.Misses
	}
	if len(r.Changes) == 0 && r.AsWritten == nil {
		r.Changes, r.AsWritten = from.Changes, from.AsWritten
	}
	return r
}
