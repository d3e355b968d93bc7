package infer

import (
	"math"
	"testing"
)

// TestStandIn compares what a stand-in leaves of belief with sums over a fine grid: the
// middle always, and nine tenths within its middle nine tenths wherever the score leaves
// belief narrower than before.
func TestStandIn(t *testing.T) {
	const sd = 0.06
	for _, spread := range []float64{0.03, 0.1, 0.3} {
		for _, gap := range []float64{0, 0.05, 0.1, 0.2, 0.5, 2} {
			left := func(v float64) float64 { // belief at v, but for a factor
				r := (gap - v) / sd
				return math.Exp(-v*v/(2*spread*spread)) * ((1-WildShare)*density(r) + WildShare/WildSpread*density(r/WildSpread))
			}
			for name, old := range map[string]standIn{"fresh": {}, "again": {push: 50 * (4.9 + gap), weight: 50}} {
				// Belief holds what stood in before, which is taken out of it.
				weight := 1/(spread*spread) + old.weight
				now := old.renew(5+gap, sd, (5/(spread*spread)+old.push)/weight, 1/weight)
				after := 1/(spread*spread) + now.weight
				got, wide := (now.push-5*now.weight)/after, math.Sqrt(1/after)
				var sum, mean, held float64
				for v := -8 * spread; v < 8*spread; v += spread / 1000 {
					p := left(v)
					if sum, mean = sum+p, mean+p*v; math.Abs(v-got) < nineTenths*wide {
						held += p
					}
				}
				if mean /= sum; math.Abs(got-mean) > 1e-5 {
					t.Errorf("%s, spread %.2f, score %+.2f: mean %.5f, by sums %.5f", name, spread, gap, got, mean)
				}
				if wide < 0.95*spread && math.Abs(held/sum-0.9) > 2e-3 {
					t.Errorf("%s, spread %.2f, score %+.2f: %.4f within nine tenths", name, spread, gap, held/sum)
				}
			}
		}
	}
}

// TestToward goes half way between one stand-in and another.
func TestToward(t *testing.T) {
	got := standIn{3, 3}.toward(standIn{2, 1}, 0.5)
	differ(t, "push", got.push, 2.5)
	differ(t, "weight", got.weight, 2)
}
