package roomful

import "slices"

// Done is what one person did of a piece and what came of it: the version with
// every amount and load resolved, so that it can be done again by the simulator.
type Done struct {
	Piece  Part
	Before []Part // the pieces before it on the same clock
	Lead   []Work // what they did of those
	Work   Work
	Dose   Dose
	// Segments are what was done from when, when it changed on the way.
	Segments []Segment
	// Score is in the unit of the forecaster's scores: s, rounds with the part of the
	// next, repetitions, kg, m; NaN when none was kept.
	Score float64
	// Capped says that the time ran out. Score is then the cap in s, and all that is
	// known is that the whole would have taken longer; Counted says how far they came.
	Capped  bool
	Counted float64 // repetitions and calories done; NaN when not known
	// MissedKg is the lightest load that was tried in the sets and missed, heavier than
	// those that were made; 0 when none was.
	MissedKg float64
	// Cannot are the places in Work.All of elements tried that could not be done
	// once. With any, Score says nothing.
	Cannot []int
	// Splits are how long each round or interval took in s, from the first, as far as
	// they were said.
	Splits []float64
	// Changed says in words that anybody may read what was not as the sheet has it
	// for their division.
	Changed []string
	// Easier says that lines which nothing was said about were taken as easier than
	// written, since as written they are beyond the person.
	Easier bool
	// Assumed are the things that nobody said and that were filled in.
	Assumed []string
}

// Otherwise says in words that anybody may read what was not as the sheet has it, how
// much of it was done included.
func (d Done) Otherwise() []string {
	out := slices.Clone(d.Changed)
	if !d.Dose.Whole() && d.Dose.Say != "" {
		out = append(out, d.Dose.Say)
	}
	return out
}

// AtEnd returns the work as it was in the end, when it changed on the way.
func (d Done) AtEnd() Work {
	if n := len(d.Segments); n > 0 {
		return d.Segments[n-1].Work
	}
	return d.Work
}

// RoundSize returns the repetitions and calories of round n, from 0, as it was done in
// the end.
func (d Done) RoundSize(n int) float64 {
	f, _ := d.Piece.Format.(RoundsInTime)
	w := d.AtEnd()
	return w.Counted(f.Ladder, n+1, 0) - w.Counted(f.Ladder, n, 0)
}

// Entry is an attempt in somebody's record: the day, the sheet, one of its pieces
// and what was done of it.
type Entry struct {
	Athlete  string // id
	Name     string
	Division Division
	Unit     MassUnit // that they think in
	On       Date
	Sheet    string // the name of its file without the ending
	Title    string
	Again    string // the title of the sheet that it repeats
	Reading  Reading
	Done     Done
	Line     int // where it stands in the file of attempts, 0 when it is in none
}

// Record is attempts of one person or of many, by day.
type Record []Entry
