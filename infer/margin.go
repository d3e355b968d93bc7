package infer

import (
	"math"
	"slices"

	"roomful"
)

// margin is how far an element is from what a person can just do once: the
// logarithm of the heaviest load over the load, or of the repetitions possible.
// Capacities are logarithms, so that it is a straight line in them.
type margin struct {
	centre float64 // at the prior's centre
	slopes []slope
	cannot bool // what was found on the day: the margin is below nought
}

// slope is how a margin changes with a dim.
type slope struct {
	dim int
	by  float64
}

// easy is a margin beyond which nothing is learnt from an element having been
// possible: a third of the heaviest load, a few repetitions.
const easy = 1.1

// margins returns those of a result's elements that say something, by some of a
// person's dims.
func (s Simulator) margins(a *roomful.Abilities, r *Result, dims []int) []margin {
	var out []margin
	centre := exact(a, func(int) float64 { return 0 })
	for i, t := range r.Work.All() {
		m := margin{cannot: slices.Contains(r.Cannot, i)}
		if len(r.Cannot) > 0 && !m.cannot {
			continue
		}
		if m, ok := s.margin(a, centre, dims, feat{t, r.atOnce(t), m.cannot}); ok {
			out = append(out, m)
		}
		if r.MissedKg > 0 && t.LoadKg() > 0 {
			t.Load = roomful.Kg(r.MissedKg)
			if m, ok := s.margin(a, centre, dims, feat{t, r.atOnce(t), true}); ok {
				out = append(out, m)
			}
		}
	}
	return out
}

// atOnce is how many repetitions of a task a result says were done in one go: those
// of a set, and else one.
func (r *Result) atOnce(t roomful.Task) float64 {
	f, ok := r.Piece.Format.(roomful.Sets)
	switch {
	case !ok || t.Unit != roomful.Rep:
		return 1
	case t.Amount > 0:
		return t.Amount
	case len(f.Reps) > 0:
		return float64(slices.Min(f.Reps))
	}
	return 1
}

// feat is a task that was tried so often in one go, and whether it could not be done.
type feat struct {
	task   roomful.Task
	reps   float64
	cannot bool
}

// margin returns the margin of a feat; ok is false when it says nothing.
func (s Simulator) margin(a, centre *roomful.Abilities, dims []int, f feat) (m margin, ok bool) {
	m.cannot = f.cannot
	if m.centre, ok = s.room(centre, f.task, f.reps); !ok {
		return m, false
	}
	var spread float64
	for _, d := range dims {
		const step = 0.05
		centre.Dims[d].Centre += step
		there, ok := s.room(centre, f.task, f.reps)
		centre.Dims[d].Centre -= step
		if by := (there - m.centre) / step; ok && by != 0 {
			m.slopes = append(m.slopes, slope{d, by})
			spread += math.Abs(by) * a.Dims[d].SD()
		}
	}
	return m, m.cannot || m.centre < max(easy, 3*spread)
}

// room returns the margin of a task done so often in one go; ok is false when
// nothing bounds it.
func (s Simulator) room(a *roomful.Abilities, t roomful.Task, reps float64) (v float64, ok bool) {
	if kg := t.LoadKg(); kg > 0 {
		if most := s.LoadFor(a, t, reps); most > 0 {
			return math.Log(most / kg), true
		}
	}
	n := s.Unbroken(a, t)
	if math.IsInf(n, 0) || n >= 900 { // nothing to lift, nothing that ends it
		return 0, false
	}
	return math.Log(max(n, 1e-3)), true
}
