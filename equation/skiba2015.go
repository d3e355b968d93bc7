package equation

import "math"

// The balance of the reserve in differential form: P. F. Skiba, J. Fulford,
// D. C. Clarke, A. Vanhatalo and A. M. Jones 2015, Eur J Appl Physiol 115:703-713
// (from memory). Above CP the reserve falls by the work done above it;
// below CP it refills exponentially, the faster the further below:
//
//	dW'/dt = −(P − CP)                      P > CP
//	W'bal  = W' − (W' − W'bal₀) e^(−(CP−P)t/W')   P ≤ CP
//
// Compare [CriticalPower.BalanceAfter], the integral form of 2012. The two part
// most when recovery is long; a test states by how much.

// Balance returns what is left of the reserve after a bout begun with
// balanceJoules. A negative balance means that the bout could not be finished.
func (c CriticalPower) Balance(balanceJoules float64, b Bout) (joules float64) {
	if b.Watts > c.Watts {
		return balanceJoules - (b.Watts-c.Watts)*b.Seconds
	}
	gap := c.ReserveJoules - balanceJoules
	return c.ReserveJoules - gap*math.Exp(-(c.Watts-b.Watts)*b.Seconds/c.ReserveJoules)
}

// SecondsLeft returns how long a power can be kept with balanceJoules left,
// infinitely at CP or less.
func (c CriticalPower) SecondsLeft(balanceJoules, watts float64) float64 {
	return CriticalPower{c.Watts, balanceJoules}.Seconds(watts)
}
