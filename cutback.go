package roomful

import "time"

// CutBack is what to do with somebody who is far behind, or far ahead, in the
// middle of a piece: where this ends, and what to change now.
type CutBack struct {
	Athlete, Name string
	At            time.Duration // on the piece's clock
	Done          float64       // repetitions and calories by then
	Expected      Quantiles     // what was to be expected by then
	Ends          AthleteForecast
	Meets         bool // the effort as it is, in half of the runs or more
	// Cuts are what would help, the one to try first in front; none when nothing
	// does or when nothing need be changed.
	Cuts []Cut
}

// Cut is one change to go on with.
type Cut struct {
	What    string // "lighter: 42.5 kg"
	Say     string // to the person; anybody may hear it
	Ends    AthleteForecast
	Segment Segment // what is noted when it is taken
}

// Wider returns the same belief with every spread multiplied: somebody who does
// not go as forecast is unlike what was believed of them.
func (a *Abilities) Wider(times float64) *Abilities {
	w := *a
	w.Dims = make([]Dim, len(a.Dims))
	for i, d := range a.Dims {
		loads := make([]FactorLoad, len(d.Loads))
		for k, l := range d.Loads {
			loads[k] = FactorLoad{l.Factor, l.SD * times}
		}
		d.Loads = loads
		w.Dims[i] = d
	}
	return &w
}

// Counted returns the repetitions and calories of so many whole rounds of the
// work and some of the next, once included when it counts.
func (w Work) Counted(l Ladder, rounds int, extra float64) float64 {
	counts := func(ts []Task, step float64) (n float64) {
		for _, t := range ts {
			switch {
			case t.Unit != Rep && t.Unit != Calorie:
			case t.Amount > 0:
				n += t.Amount
			default:
				n += step
			}
		}
		return n
	}
	sum := counts(w.Once, 0) + extra
	for r := range rounds {
		step, _ := l.Step(r)
		sum += counts(w.Round, float64(step))
	}
	return sum
}
