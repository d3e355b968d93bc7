package kernel

// PowerFor returns the metabolic power in W/kg that a body chooses for a bout
// of a machine or of running that lasts tau seconds when left seconds of the
// piece remain, and what of the bout is paid by oxygen: oxygen uptake at its
// height less its lag, and a share of the reserve that would be spent by the
// end.
func (b *Body) PowerFor(m Mode, tau, left float64) float64 {
	_, lacking := lag(tau * b.uptake(m))
	oxygen := 1 - (1-b.oxygen)*lacking
	reserve := b.W * max(0, b.C.SpendTo-b.Spent())
	if m == Run {
		reserve *= b.C.RunReserve
	}
	return b.Supply[m]*oxygen + reserve/max(tau, b.C.MachineShare*max(60, left))
}

// Bout performs tau seconds at a metabolic power in W/kg.
func (b *Body) Bout(m Mode, watts, tau float64) {
	b.spend(m, watts*tau, tau)
	b.now += tau
	b.PeakD = max(b.PeakD, b.Spent())
}
