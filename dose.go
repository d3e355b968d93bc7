package roomful

import (
	"slices"
	"time"
)

// Dose is how much of a piece somebody does who does not do all of it. At most
// one of StopAt, Rounds, Ladder and Work is set; the zero value is the whole
// piece.
type Dose struct {
	// StopAt is when they stop working in a piece on a clock; the room goes on.
	StopAt time.Duration
	Rounds int           // so many rounds, bouts or sets instead of the sheet's
	Ladder []int         // steps instead of the sheet's
	Work   time.Duration // so long of each station or bout, and rest for what is left of it
	// Steady is sets at one load in the place of building up to a heaviest one, and
	// a set of a stated amount in the place of one to the last repetition.
	Steady bool
	// Say is the dose in words that anybody may read, "8 minutes of 16 today";
	// Private, for the person and coaches, is what is behind it.
	Say, Private string
}

// Whole reports whether the dose is all of the piece.
func (d Dose) Whole() bool {
	return d.StopAt == 0 && d.Rounds == 0 && len(d.Ladder) == 0 && d.Work == 0 && !d.Steady
}

// steadySet is time enough for one set of anything.
const steadySet = 15 * time.Minute

// Of returns a part as it is for somebody with this dose: a shorter window,
// fewer rounds, other steps. What does not belong to the part's format is left
// as it is.
func (d Dose) Of(p Part) Part {
	switch f := p.Format.(type) {
	case RoundsInTime:
		f.Window = shorter(f.Window, d.StopAt)
		p.Format = f
	case AmountInTime:
		f.Window = shorter(f.Window, d.StopAt)
		p.Format = f
		if f.Unbroken && d.Steady { // one set of the stated amount, with time to spare
			p.Format = Every{Interval: max(f.Window, steadySet), Count: 1}
		}
	case ForTime:
		f.Rounds = fewer(f.Rounds, d.Rounds)
		if len(d.Ladder) > 0 {
			f.Ladder, f.Rounds = Ladder{Steps: slices.Clone(d.Ladder)}, len(d.Ladder)
		}
		p.Format = f
	case Every:
		if f.Interval > 0 && d.StopAt > 0 {
			f.Count = fewer(f.Count, int(d.StopAt/f.Interval))
		}
		p.Format = f
	case Intervals:
		f.Count = fewer(f.Count, d.Rounds)
		if w := shorter(f.Work, d.Work); f.Work > 0 {
			f.Work, f.Rest = w, f.Rest+f.Work-w
		}
		p.Format = f
	case Stations:
		f.Rounds = fewer(f.Rounds, d.Rounds)
		if w := shorter(f.Work, d.Work); f.Work > 0 {
			f.Work, f.Change = w, f.Change+f.Work-w
		}
		p.Format = f
	case Sets:
		f.Build = f.Build && !d.Steady
		if d.Rounds > 0 && (d.Steady || d.Rounds < max(f.Count, len(f.Reps))) {
			f.Count, f.Reps = d.Rounds, slices.Clone(f.Reps[:min(len(f.Reps), d.Rounds)])
		}
		p.Format = f
	}
	return p
}

// shorter returns the shorter of two times, the first when the second is 0.
func shorter(whole, d time.Duration) time.Duration {
	if d > 0 && (whole == 0 || d < whole) {
		return d
	}
	return whole
}

// fewer returns the smaller of two counts, the first when the second is 0.
func fewer(whole, n int) int {
	if n > 0 && n < whole {
		return n
	}
	return whole
}
