package infer

import (
	"math"
	"testing"
)

// TestStandIn compares what a stand-in leaves of belief with sums over a fine grid: the
// middle always, the spread wherever the score leaves it narrower than before.
func TestStandIn(t *testing.T) {
	const sd = 0.06
	for _, spread := range []float64{0.03, 0.1, 0.3} {
		for _, gap := range []float64{0, 0.05, 0.1, 0.2, 0.5, 2} {
			var sum, mean, square float64
			for v := -8 * spread; v < 8*spread; v += spread / 400 {
				r := (gap - v) / sd
				p := math.Exp(-v*v/(2*spread*spread)) * ((1-WildShare)*density(r) + WildShare/WildSpread*density(r/WildSpread))
				sum, mean, square = sum+p, mean+p*v, square+p*v*v
			}
			mean /= sum
			variance := square/sum - mean*mean
			for name, old := range map[string]standIn{"fresh": {}, "again": {value: 4.9 + gap, weight: 50}} {
				// Belief holds what stood in before, which is taken out of it.
				weight := 1/(spread*spread) + old.weight
				now := old.renew(5+gap, sd, (5/(spread*spread)+old.weight*old.value)/weight, 1/weight)
				after := 1/(spread*spread) + now.weight
				got := (now.weight * (now.value - 5)) / after
				if math.Abs(got-mean) > 1e-5 {
					t.Errorf("%s, spread %.2f, score %+.2f: mean %.5f, by sums %.5f", name, spread, gap, got, mean)
				}
				if variance < 0.95*spread*spread && math.Abs(after*variance-1) > 1e-3 {
					t.Errorf("%s, spread %.2f, score %+.2f: spread %.5f, by sums %.5f", name, spread, gap, math.Sqrt(1/after), math.Sqrt(variance))
				}
			}
		}
	}
}

// TestToward goes half way between a reading of 1 with weight 3 and one of 2 with
// weight 1: 1.25 with weight 2.
func TestToward(t *testing.T) {
	got := standIn{1, 3}.toward(standIn{2, 1}, 0.5)
	differ(t, "value", got.value, 1.25)
	differ(t, "weight", got.weight, 2)
}
