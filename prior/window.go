package prior

import (
	"math"

	"roomful"
)

// window is a test of most repetitions in a time, rests included. What the
// muscles allow grows with the unbroken maximum N; what the clock allows falls
// with the person's time for a repetition. The total is a smooth minimum of
// both:
//
//	total = ((k N)^−q + (most / speed)^−q)^(−1/q)
type window struct {
	logK    float64
	logMost float64 // +Inf when the movement has no time
}

// windowOf returns the window behind a test; ok is false when it is none.
func windowOf(t roomful.Test, lex roomful.Lexicon) (w window, ok bool) {
	switch t {
	case roomful.TestPushUps:
		return newWindow(lex.Movement("push-up"), 120, totalTwoMinutes), true
	case roomful.TestSitUps:
		return newWindow(lex.Movement("sit-up"), 120, totalTwoMinutes), true
	case roomful.TestBurpees:
		return newWindow(lex.Movement("burpee"), 180, totalThreeMinutes), true
	}
	return window{}, false
}

func newWindow(m *roomful.Movement, seconds float64, k constant) window {
	most := math.Inf(1)
	if m != nil && m.Pace.Skilled > 0 {
		most = windowFilled.one() * seconds / m.Pace.Skilled
	}
	return window{math.Log(k.one()), math.Log(most)}
}

// at returns the logarithm of the total at logarithms of N and speed, and its
// slopes with both.
func (w window) at(logN, logSpeed float64) (logTotal, byN, bySpeed float64) {
	q := windowBend.one()
	muscles := math.Exp(-q * (w.logK + logN))
	clock := math.Exp(-q * (w.logMost - logSpeed))
	sum := muscles + clock
	return -math.Log(sum) / q, muscles / sum, -clock / sum
}

// leastSay is the share that the muscles must have in a limit for a total to
// tell the unbroken maximum.
const leastSay = 0.25

// maximum returns the logarithm of N behind a total at a speed. sure is false
// when the clock binds too much for the total to tell: then N is at least what
// is returned.
func (w window) maximum(total, logSpeed float64) (logN float64, sure bool) {
	q, clock := windowBend.one(), w.logMost-logSpeed
	all, byClock := math.Exp(-q*math.Log(total)), math.Exp(-q*clock)
	muscles := all - byClock
	if least := byClock * leastSay / (1 - leastSay); muscles < least {
		return -math.Log(least)/q - w.logK, false
	}
	return -math.Log(muscles)/q - w.logK, true
}

// read returns what a total says, straightened at the likeliest point by a few
// Gauss-Newton steps from the person's centre.
func (w window) read(total float64, dim int, ab *roomful.Abilities) reading {
	n, speed := &ab.Dims[dim], &ab.Dims[ab.Index(roomful.CapSpeed)]
	noise, logTotal := totalNoise.one(), math.Log(max(total, noneCounts.one()))
	varN, varSpeed := n.SD()*n.SD(), speed.SD()*speed.SD()
	x, y := n.Centre, speed.Centre
	for range 12 {
		f, byN, bySpeed := w.at(x, y)
		gap := logTotal - f - byN*(n.Centre-x) - bySpeed*(speed.Centre-y)
		gain := gap / (byN*byN*varN + bySpeed*bySpeed*varSpeed + noise*noise)
		x = (x + n.Centre + varN*byN*gain) / 2
		y = (y + speed.Centre + varSpeed*bySpeed*gain) / 2
	}
	f, byN, bySpeed := w.at(x, y)
	return reading{
		terms: []term{{dim, byN}, {ab.Index(roomful.CapSpeed), bySpeed}},
		value: logTotal - f + byN*x + bySpeed*y,
		noise: noise,
	}
}
