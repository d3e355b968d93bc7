package sim

import (
	"math"
	"slices"

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
	var room [usualDims]float64
	return max(0, act.bound.fresh(act.bound.centre(a, room[:0]), 1))
}

// LoadFor implements [roomful.Forecaster]. A movement that takes no load, or
// that nothing bounds, has no such load: the answer is 0.
func (m *Model) LoadFor(a *roomful.Abilities, t roomful.Task, reps float64) float64 {
	act := m.compile(t, a, roomful.AnyDivision)
	if act.bound.kind == noBound || act.bound.strength < 0 || !act.movement.TakesLoad() {
		return 0
	}
	var room [usualDims]float64
	return act.bound.kgFor(act.bound.centre(a, room[:0]), 1, reps)
}

// usualDims is how many capacities somebody has: with more there is memory to get.
const usualDims = 128

// centre returns the capacities that a bound reads, at their medians, in some room.
func (b *bound) centre(a *roomful.Abilities, room []float64) []float64 {
	dims := slices.Grow(room, len(a.Dims))[:len(a.Dims)]
	for _, i := range [...]int{b.strengthDim(), b.enduranceDim()} {
		if i >= 0 {
			dims[i] = value(&a.Dims[i], a.Dims[i].Centre)
		}
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
