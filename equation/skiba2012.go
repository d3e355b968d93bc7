package equation

import "math"

// The balance of the reserve in integral form: P. F. Skiba, W. Chidnok,
// A. Vanhatalo and A. M. Jones 2012, Med Sci Sports Exerc 44:1526-1532. All work
// above CP is forgotten with one time constant, which depends on how far below
// CP the recovery lies on average:
//
//	W'bal(t) = W' − ∫ W'exp(u) e^(−(t−u)/tau) du,   tau = 546 e^(−0.01 D) + 316 s
//
// Fitted on seven men on a bike. The general tau failed to predict exhaustion
// in a later study of 13 cyclists: print a band, not a line.

// BalanceTau returns the time constant for a mean recovery power that lies
// deficitWatts below CP.
func BalanceTau(deficitWatts float64) (seconds float64) {
	return 546*math.Exp(-0.01*deficitWatts) + 316
}

// BalanceAfter returns what is left of a full reserve after bouts in a row, in
// closed form. Recovery is the time spent at CP or less; without any, tau is
// that of D = 0.
func (c CriticalPower) BalanceAfter(bouts []Bout) (joules float64) {
	var total, easy, deficit float64
	for _, b := range bouts {
		total += b.Seconds
		if b.Watts <= c.Watts {
			easy += b.Seconds
			deficit += (c.Watts - b.Watts) * b.Seconds
		}
	}
	tau := BalanceTau(deficit / math.Max(easy, 1e-9))
	joules = c.ReserveJoules
	var start float64
	for _, b := range bouts {
		end := start + b.Seconds
		if b.Watts > c.Watts {
			kept := math.Exp(-(total-end)/tau) - math.Exp(-(total-start)/tau)
			joules -= (b.Watts - c.Watts) * tau * kept
		}
		start = end
	}
	return joules
}
