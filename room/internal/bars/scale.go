package bars

import (
	"math"
	"math/bits"
)

// scale turns what a loading is judged by, bars stripped, then cost, then discs
// moved, into one whole number.
type scale struct {
	grain int64 // of a cost of 1: more than all discs that could be moved
	strip int64 // of a bar below its floor: more than all costs
	moved int64 // the most that all moves can come to
	step  int64 // every loading comes to a multiple of this
	shift uint  // prices are finer than costs by so many bits
}

// most bounds what all bars can come to, so that no sum overflows.
const most = 1 << 60

// newScale returns the scale of a problem, and false when its figures are too
// fine or too large to be added up exactly.
func newScale(p *Problem) (scale, bool) {
	s := scale{grain: 1}
	worst, floors := 0.0, 0
	for i := range p.Bars {
		b := &p.Bars[i]
		for _, w := range b.Wants {
			worst += float64(w.Weight) * (math.Abs(float64(w.Target)-float64(b.Bare)) + 2*float64(b.reach(p.Sizes)))
		}
		if b.Previous != nil {
			s.moved += int64(p.Sleeve + total(b.Previous))
		}
		if b.Floor > 0 {
			floors++
		}
	}
	s.grain += s.moved
	worst = (worst + 1) * float64(s.grain)
	all := worst * float64(1+2*floors)
	if all > most {
		return s, false
	}
	s.step = p.Step() * s.grain
	if s.moved > 0 {
		s.step = 1
	}
	s.strip = (int64(worst)/s.step + 1) * s.step
	s.shift = uint(max(0, min(16, bits.LeadingZeros64(uint64(all))-3)))
	return s, true
}

// Step is the largest number known of which every cost is a multiple, whichever
// discs are on the bars.
func (p *Problem) Step() int64 {
	var step int64
	for i := range p.Bars {
		for _, w := range p.Bars[i].Wants {
			step = gcd(step, w.Weight*(w.Target-p.Bars[i].Bare))
			for _, z := range p.Sizes {
				step = gcd(step, 2*w.Weight*z.Mass)
			}
		}
	}
	return max(step, 1)
}

// gcd is the greatest common divisor, not negative.
func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	if a < 0 {
		return -a
	}
	return a
}

func total(counts []int) int {
	sum := 0
	for _, n := range counts {
		sum += n
	}
	return sum
}
