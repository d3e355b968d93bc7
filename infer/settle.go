package infer

import "math"

// A bound cuts belief off on one side, and the peak of what is left is not its
// middle. Expectation propagation (Minka 2001, UAI 17:362-369; Rasmussen and
// Williams 2006, 3.6) puts in the place of each bound the normal pull that
// leaves mean and spread right.
const (
	mostSweeps  = 30
	settledStep = 1e-6
)

// settle moves belief to where its middle is once bounds cut it off.
func (p *posterior) settle() {
	for range mostSweeps {
		var moved float64
		for i := range p.told {
			if p.told[i].bound {
				moved = max(moved, p.improve(&p.told[i]))
			}
		}
		if moved < settledStep {
			break
		}
	}
}

// improve makes one stand-in right for what all the others say, and returns how
// far the line's mean moved.
func (p *posterior) improve(t *told) float64 {
	reach := make([]float64, len(p.mean)) // covariance of the coordinates with the line
	for i, row := range p.spread {
		reach[i] = dot(row, t.row)
	}
	mean, variance := dot(t.row, p.mean), dot(t.row, reach)
	left := 1 - variance*t.weight
	if variance < 1e-12 || left < 1e-9 {
		return 0
	}
	// Without this bound, and then with the bound itself.
	without := variance / left
	middle := (mean - variance*t.push) / left
	wide := math.Hypot(t.noise, math.Sqrt(without))
	by := above(t.offset+middle, wide)
	mean2, variance2 := middle+without*by.force, without-without*without*by.weight
	if variance2 <= 0 {
		return 0
	}
	weight := 1/variance2 - 1/without
	more := weight - t.weight
	t.weight, t.push = weight, mean2/variance2-middle/without
	// What the line learnt, everything that goes along with it learns in proportion.
	addTo(p.mean, (mean2-mean)/variance, reach)
	fall := more / (1 + more*variance)
	for i := range p.spread {
		addTo(p.spread[i], -fall*reach[i], reach)
	}
	return math.Abs(mean2 - mean)
}
