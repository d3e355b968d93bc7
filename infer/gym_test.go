package infer_test

import (
	"math"
	"testing"

	"roomful"
	"roomful/infer"
)

// one is a belief about a single capacity.
func one(centre, sd float64, informed ...string) *roomful.Abilities {
	return &roomful.Abilities{Factors: 1, Dims: []roomful.Dim{{Capacity: roomful.CapVO2max, Centre: centre, Informed: informed,
		Loads: []roomful.FactorLoad{{Factor: 0, SD: sd}}}}}
}

// TestPopulation compares the gym's shift with the closed form of a normal mean: n
// people whose results say +0.2 with as much noise as people differ, 0.1, and a
// mean of the gym that is believed to lie within 0.05.
func TestPopulation(t *testing.T) {
	const spread, off = 0.1, 0.2
	for _, n := range []int{1, 4, 20, 400} {
		var g infer.Population
		for range n {
			// A result with the prior's own precision halves the variance and comes half way.
			g.Add(one(3.7, spread), one(3.7+off/2, spread/math.Sqrt2))
		}
		w := float64(n) / (spread*spread + spread*spread)
		want := off * w / (w + 1/(0.05*0.05))
		if got := g.Without(-1)[roomful.CapVO2max]; math.Abs(got-want) > 1e-12 {
			t.Errorf("%d people: shift %v, want %v", n, got, want)
		}
		if got := g.Without(0)[roomful.CapVO2max]; n == 1 && got != 0 || got >= want {
			t.Errorf("%d people: without the first %v, with them %v", n, got, want)
		}
	}
}

// TestPopulationLeavesOut counts nobody whose results told next to nothing, and
// nobody's own figures.
func TestPopulationLeavesOut(t *testing.T) {
	plain, told := one(3.7, 0.1), one(3.7, 0.1, "told")
	var g infer.Population
	g.Add(plain, one(3.9, 0.0999))
	g.Add(told, one(3.9, 0.01))
	shift := g.Without(-1)
	if len(shift) != 0 {
		t.Errorf("shift %v, want none", shift)
	}
	shift = infer.Shift{roomful.CapVO2max: 0.2}
	if got := shift.Of(plain).Dims[0].Centre; math.Abs(got-3.9) > 1e-12 {
		t.Errorf("somebody new: %v", got)
	}
	if got := shift.Of(told).Dims[0].Centre; got != 3.7 {
		t.Errorf("somebody with a figure of their own was moved to %v", got)
	}
}
