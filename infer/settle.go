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

// site is a bound's normal stand-in: it adds precision and push to a straight
// line x of the coordinates, exp(push x - precision x²/2).
type site struct {
	told            *told
	precision, push float64
}

// settle moves belief from its peak to its middle where bounds cut it off.
func (p *posterior) settle() {
	var sites []site
	for i := range p.told {
		if t := &p.told[i]; t.bound {
			sites = append(sites, site{t, t.weight, t.force + t.weight*dot(t.row, p.mode)})
		}
	}
	for range mostSweeps {
		var moved float64
		for i := range sites {
			moved = max(moved, p.improve(&sites[i]))
		}
		if moved < settledStep {
			break
		}
	}
}

// improve makes one stand-in right for what all the others say, and returns how
// far the line's mean moved.
func (p *posterior) improve(s *site) float64 {
	t := s.told
	reach := make([]float64, len(p.mode)) // covariance of the coordinates with the line
	for i, row := range p.spread {
		reach[i] = dot(row, t.row)
	}
	mean, variance := dot(t.row, p.mode), dot(t.row, reach)
	left := 1 - variance*s.precision
	if variance < 1e-12 || left < 1e-9 {
		return 0
	}
	// Without this bound, and then with the bound itself.
	without := variance / left
	middle := (mean - variance*s.push) / left
	wide := math.Hypot(t.noise, math.Sqrt(without))
	by := above(t.offset+middle, wide)
	mean2, variance2 := middle+without*by.force, without-without*without*by.weight
	if variance2 <= 0 {
		return 0
	}
	precision := 1/variance2 - 1/without
	more := precision - s.precision
	s.precision, s.push = precision, mean2/variance2-middle/without
	t.weight = precision
	// What the line learnt, everything that goes along with it learns in proportion.
	addTo(p.mode, (mean2-mean)/variance, reach)
	fall := more / (1 + more*variance)
	for i := range p.spread {
		addTo(p.spread[i], -fall*reach[i], reach)
	}
	return math.Abs(mean2 - mean)
}
