package prior

import (
	"math"

	"roomful"
	"roomful/equation"
)

// trial is an all-out effort over a fixed distance, in critical-power style:
// the metabolic power it took is what oxygen supplies once it flows, and the
// reserve spread over the time.
type trial struct {
	supply float64                       // share of VO2max kept up
	power  func(seconds float64) float64 // net metabolic W/kg behind a time
}

// trialOf returns the trial behind a test; ok is false when it is none. The 2 km
// are on the rowing machine; the 5 km run goes by the guidelines' cost of
// running.
func trialOf(t roomful.Test, ab *roomful.Abilities) (tr trial, ok bool) {
	switch t {
	case roomful.TestRow2k:
		return trial{supplyMachine.one(), func(seconds float64) float64 {
			return equation.FlywheelPower(2000/seconds) / (rowShare.one() * ab.MassKg)
		}}, true
	case roomful.TestRun5k:
		return trial{supplyRun.one(), func(seconds float64) float64 {
			net := equation.RunOxygen(5000/(seconds/60), 0) - equation.RestOxygen
			return equation.OxygenWattsPerKg(net)
		}}, true
	}
	return trial{}, false
}

// read returns what a time says of VO2max, with the reserve beside it: who has
// more of the one needs less of the other.
func (t trial) read(seconds float64, vo2max int, ab *roomful.Abilities) reading {
	reserve := ab.Index(roomful.CapReserve)
	centre := ab.Dims[reserve].Centre
	logOxygen, slope := t.oxygen(seconds, centre)
	return reading{
		terms: []term{{vo2max, 1}, {reserve, -slope}},
		value: logOxygen - slope*centre,
		noise: trialNoise.one(),
	}
}

// oxygen returns the logarithm of the VO2max behind a time at a given logarithm
// of the reserve, and how it changes with that.
func (t trial) oxygen(seconds, logReserve float64) (logOxygen, slope float64) {
	spent := reserveUse.one() * math.Exp(logReserve) / seconds // W/kg
	flowing := t.supply * (1 - onsetSeconds.one()/seconds)
	power := t.power(seconds)
	oxygen := equation.RestOxygen + equation.WattsPerKgOxygen(max(power-spent, power/4))/flowing
	return math.Log(oxygen), -equation.WattsPerKgOxygen(spent) / flowing / oxygen
}

// seconds returns the time in which somebody of a VO2max and a reserve, as
// logarithms, would finish: the inverse of oxygen.
func (t trial) seconds(logOxygen, logReserve float64) float64 {
	quick, slow := 200.0, 2.0*slowest
	for range 50 {
		mid := (quick + slow) / 2
		if needed, _ := t.oxygen(mid, logReserve); needed > logOxygen {
			quick = mid
		} else {
			slow = mid
		}
	}
	return slow
}
