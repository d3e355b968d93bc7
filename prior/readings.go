package prior

import (
	"math"

	"roomful"
	"roomful/equation"
)

// tests lists the figures a person may bring along, in the order of a people
// file, with the words used for them and the capacities they speak of first.
var tests = [...]struct {
	test     roomful.Test
	words    string
	capacity roomful.Capacity
}{
	{roomful.TestSquat, "squat", roomful.OneRM(roomful.BackSquat)},
	{roomful.TestDeadlift, "deadlift", roomful.OneRM(roomful.Deadlift)},
	{roomful.TestBench, "bench press", roomful.OneRM(roomful.BenchPress)},
	{roomful.TestPress, "press", roomful.OneRM(roomful.Press)},
	{roomful.TestClean, "clean", roomful.OneRM(roomful.Clean)},
	{roomful.TestSnatch, "snatch", roomful.OneRM(roomful.Snatch)},
	{roomful.TestPullUps, "pull-ups", roomful.OwnMax("pull-up")},
	{roomful.TestPushUps, "push-ups in 2 min", roomful.OwnMax("push-up")},
	{roomful.TestSitUps, "sit-ups in 2 min", roomful.OwnMax("sit-up")},
	{roomful.TestBurpees, "burpees in 3 min", roomful.OwnMax("burpee")},
	{roomful.TestDoubleUnders, "double-unders", roomful.TripLogit("double-under")},
	{roomful.TestRow2k, "2 km row", roomful.CapVO2max},
	{roomful.TestRun5k, "5 km run", roomful.CapVO2max},
	{roomful.TestVO2max, "VO2max", roomful.CapVO2max},
}

// readings returns what the person's figures and skills say of abilities that
// nothing has told yet. A figure that is not a possible one is left out; see
// [Doubts].
func readings(a roomful.Athlete, ab *roomful.Abilities, lex roomful.Lexicon) []reading {
	var rs []reading
	for _, t := range tests {
		v, ok := a.Measured(t.test)
		dim := ab.Index(t.capacity)
		if !ok || dim < 0 || !possible(t.test, v) {
			continue
		}
		rs = append(rs, readTest(t.test, v, dim, ab))
		rs[len(rs)-1].label = t.words
	}
	return append(rs, readSkills(a, ab, lex)...)
}

// slowest is the longest time trial that is reckoned with, in seconds.
const slowest = 5400

// possible reports whether a figure can be reckoned with at all. The quickest
// times lie a little beyond the best ever done (from memory).
func possible(t roomful.Test, v float64) bool {
	switch t {
	case roomful.TestPullUps, roomful.TestPushUps, roomful.TestSitUps, roomful.TestBurpees, roomful.TestDoubleUnders:
		return v >= 0 && v <= 1000
	case roomful.TestVO2max:
		return v > 5 && v <= 100
	case roomful.TestRow2k:
		return v >= 320 && v <= slowest
	case roomful.TestRun5k:
		return v >= 720 && v <= slowest
	default:
		return v > 0 && v <= 1000
	}
}

// readTest returns what one figure says of the capacity at dim.
func readTest(t roomful.Test, v float64, dim int, ab *roomful.Abilities) reading {
	one := []term{{dim, 1}}
	switch t {
	case roomful.TestPullUps:
		return reading{terms: one, value: math.Log(max(v, noneCounts.one())), keep: maximumNoise.one()}
	case roomful.TestPushUps:
		return total(v, pushUpTotal, pushUpPower, dim, ab)
	case roomful.TestSitUps:
		return total(v, sitUpTotal, sitUpPower, dim, ab)
	case roomful.TestBurpees:
		return total(v, burpeeTotal, burpeePower, dim, ab)
	case roomful.TestDoubleUnders:
		return reading{terms: one, value: bestRunLogit(v), noise: bestNoise.one()}
	case roomful.TestRow2k:
		return rowTrial(ab).read(v, dim, ab)
	case roomful.TestRun5k:
		return runTrial().read(v, dim, ab)
	case roomful.TestVO2max:
		return reading{terms: one, value: math.Log(v), noise: oxygenNoise.one()}
	default:
		return reading{terms: one, value: math.Log(v), keep: liftNoise.one()}
	}
}

// total reads the repetitions done in a window, rests included. They grow with
// a power of the unbroken maximum, less and less as the window itself comes to
// bind; what binds then is the person's speed:
//
//	log total = log c + p log N − (1 − p) log speed
func total(v float64, c, p constant, dim int, ab *roomful.Abilities) reading {
	power := p.one()
	return reading{
		terms: []term{{dim, power}, {ab.Index(roomful.CapSpeed), power - 1}},
		value: math.Log(max(v, noneCounts.one()) / c.one()),
		noise: totalNoise.one(),
	}
}

// bestRunLogit returns the log-odds of a trip behind a best unbroken run. Runs
// are geometric, and the mean run is one over the odds of a trip; the best of a
// few is longer. Somebody without a single one is taken to make one in five.
func bestRunLogit(best float64) float64 {
	return -math.Log(max(best/bestOverMean.one(), 0.25))
}

// trial is an all-out effort over a fixed distance, in critical-power style:
// the metabolic power it took is what oxygen supplies once it flows, and the
// reserve spread over the time.
type trial struct {
	supply float64                       // share of VO2max kept up
	power  func(seconds float64) float64 // net metabolic W/kg behind a time
}

// rowTrial is the 2 km on the rowing machine.
func rowTrial(ab *roomful.Abilities) trial {
	return trial{supplyMachine.one(), func(seconds float64) float64 {
		return equation.FlywheelPower(2000/seconds) / (rowShare.one() * ab.MassKg)
	}}
}

// runTrial is the 5 km run, by the guidelines' cost of running.
func runTrial() trial {
	return trial{supplyRun.one(), func(seconds float64) float64 {
		net := equation.RunOxygen(5000/(seconds/60), 0) - equation.RestOxygen
		return equation.OxygenWattsPerKg(net)
	}}
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

// measured reports whether one of the person's figures speaks of a capacity
// first.
func measured(a roomful.Athlete, c roomful.Capacity) bool {
	for _, t := range tests {
		if v, ok := a.Measured(t.test); t.capacity == c && ok && possible(t.test, v) {
			return true
		}
	}
	return false
}
