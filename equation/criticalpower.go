package equation

import "math"

// CriticalPower is the hyperbola of H. Monod and J. Scherrer 1965, Ergonomics
// 8:329-338: a power that can be kept for long, and a store of work above it.
//
//	t = W'/(P − CP)
//
// Valid for all-out work of about 2 to 30 minutes (P. F. Skiba and D. C. Clarke
// 2021, Int J Sports Physiol Perform 16:1561). Shorter work is overrated, longer
// work too: nobody holds CP for ever. Two bouts fix the pair only as well as
// they were all-out; a repeated fit moves CP by some 2-3 % and W' by 10-20 %
// (from memory).
type CriticalPower struct {
	Watts         float64 // CP, the power that lasts
	ReserveJoules float64 // W', the work that can be done above it
}

// Bout is a stretch of work at one power.
type Bout struct{ Watts, Seconds float64 }

// FitCriticalPower returns the pair that two all-out bouts fix. ok is false
// when no pair does: equal times, or a longer bout that did less work, or one
// that was no weaker.
func FitCriticalPower(a, b Bout) (c CriticalPower, ok bool) {
	if a.Seconds > b.Seconds {
		a, b = b, a
	}
	c.Watts = (b.Watts*b.Seconds - a.Watts*a.Seconds) / (b.Seconds - a.Seconds)
	c.ReserveJoules = (a.Watts - c.Watts) * a.Seconds
	ok = a.Seconds > 0 && a.Seconds < b.Seconds && c.Watts > 0 && c.ReserveJoules > 0
	if !ok {
		return CriticalPower{}, false
	}
	return c, true
}

// Seconds returns how long a power can be kept from fresh, infinitely at
// [CriticalPower.Watts] or less.
func (c CriticalPower) Seconds(watts float64) float64 {
	if watts <= c.Watts {
		return math.Inf(1)
	}
	return c.ReserveJoules / (watts - c.Watts)
}

// Power returns the highest even power that can be kept for a time.
func (c CriticalPower) Power(seconds float64) (watts float64) {
	return c.Watts + c.ReserveJoules/seconds
}
