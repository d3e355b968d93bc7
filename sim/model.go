package sim

import (
	"math"

	"roomful"
)

// Model is the simulator. It implements [roomful.Forecaster] and may be used
// from several goroutines at once.
type Model struct {
	lex         roomful.Lexicon
	constants   Constants
	free, paced grain // of the two passes
	// scouted is how much of a window the free pass walks at least, in s.
	scouted float64
	kept    *kept
}

var _ roomful.Forecaster = (*Model)(nil)

// New returns the model with its default constants.
func New(lex roomful.Lexicon) *Model { return NewWith(lex, Defaults()) }

// NewWith returns the model with other constants, for studies.
func NewWith(lex roomful.Lexicon, c Constants) *Model {
	return &Model{lex, c, coarse, fine, scouted, newKept()}
}

// Unbroken implements [roomful.Forecaster]. A machine or a run has no unbroken
// maximum: the answer is +Inf.
func (m *Model) Unbroken(a *roomful.Abilities, t roomful.Task) float64 {
	act := m.compile(t, a, roomful.AnyDivision)
	if act.kind != repsAction {
		return math.Inf(1)
	}
	return max(0, act.bound.fresh(centre(a), 1))
}

// LoadFor implements [roomful.Forecaster]. A movement that takes no load, or
// that nothing bounds, has no such load: the answer is 0.
func (m *Model) LoadFor(a *roomful.Abilities, t roomful.Task, reps float64) float64 {
	act := m.compile(t, a, roomful.AnyDivision)
	if act.bound.kind == noBound || act.bound.strength < 0 || !act.movement.TakesLoad() {
		return 0
	}
	return act.bound.kgFor(centre(a), 1, reps)
}

// centre returns everybody's capacities at their medians.
func centre(a *roomful.Abilities) []float64 {
	dims := make([]float64, len(a.Dims))
	for i := range a.Dims {
		dims[i] = value(&a.Dims[i], a.Dims[i].Centre)
	}
	return dims
}

// value turns a dim's coordinate on its own scale into its unit.
func value(d *roomful.Dim, x float64) float64 {
	if d.Capacity.Plain() {
		return x
	}
	return math.Exp(x)
}
