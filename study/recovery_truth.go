package study

import "roomful/sim"

// Perturbed is a truth that the model does not know: muscles recover at half the
// rate, and breaks, sets and days vary half as much again.
func Perturbed(c sim.Constants) *sim.Constants {
	c.LocalFast, c.LocalSlow = 2*c.LocalFast, 2*c.LocalSlow
	c.BreakSpread, c.SetSpread, c.DayOxygen = 1.5*c.BreakSpread, 1.5*c.SetSpread, 1.5*c.DayOxygen
	return &c
}

// Further are other truths, one that abilities follow in part at best and one that lies
// the other way: for information, no gate rests on them.
var Further = []struct {
	Words string
	Of    func(sim.Constants) *sim.Constants
}{
	{"lifting gets 15 % less oxygen, breaks are half as long again and 2.7 times as likely", func(c sim.Constants) *sim.Constants {
		c.PhiLift, c.BreakSeconds, c.BreakBase = 0.85*c.PhiLift, 1.5*c.BreakSeconds, c.BreakBase+1
		return &c
	}},
	{"muscles recover at twice the rate", func(c sim.Constants) *sim.Constants {
		c.LocalFast, c.LocalSlow = c.LocalFast/2, c.LocalSlow/2
		return &c
	}},
}
