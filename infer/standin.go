package infer

import "math"

// standIn is a normal reading of a log-score, which stands in for one whose noise has
// heavy tails: mostly normal, and now and then several times wider. The zero value says
// nothing. What it says of a log-score v is exp(push v - weight v²/2).
type standIn struct{ push, weight float64 }

// renew returns what leaves the middle of belief where the score itself does (as in
// expectation propagation: Minka 2001, UAI 17:362-369), and its middle nine tenths as wide,
// which are what is shown: a slip now and then has tails that would widen a normal belief
// throughout if its spread were met instead. Belief of the log-score, from which the
// stand-in so far is taken out, decides whether a score is wild: who may be far stronger
// than expected may well score so.
func (old standIn) renew(observed, sd, mean, variance float64) standIn {
	if left := 1 - variance*old.weight; left > 1e-6 {
		mean, variance = (mean-variance*old.push)/left, variance/left
	}
	variance = max(variance, 1e-12)
	gap := observed - mean
	calm, wild := variance+sd*sd, variance+sd*sd*WildSpread*WildSpread
	odds := WildShare / (1 - WildShare) * math.Sqrt(calm/wild) * math.Exp(gap*gap/2*(1/calm-1/wild))
	isCalm := 1 / (1 + odds)
	gain := isCalm/calm + (1-isCalm)/wild
	m := mixture{isCalm, [2]float64{variance * gap * (1/calm - gain), variance * gap * (1/wild - gain)},
		[2]float64{math.Sqrt(variance - variance*variance/calm), math.Sqrt(variance - variance*variance/wild)}}
	wide := m.wide()
	after := wide * wide
	// Where a score leaves two minds belief is no narrower than before.
	weight := max(0, 1/after-1/variance)
	return standIn{(mean+variance*gain*gap)*(weight+1/variance) - mean/variance, weight}
}

// mixture is two normals, the first with a share, about the middle of both.
type mixture struct {
	share    float64
	mean, sd [2]float64
}

// nineTenths is how many spreads on either side hold nine tenths of a normal.
const nineTenths = 1.6448536269514722

// wide is the spread of the normal about the same middle that holds as much between the
// same two ends, where these hold nine tenths.
func (m mixture) wide() float64 {
	within := func(end float64) (held float64) {
		for i, share := range [2]float64{m.share, 1 - m.share} {
			held += share / 2 * (math.Erf((end-m.mean[i])/(m.sd[i]*math.Sqrt2)) + math.Erf((end+m.mean[i])/(m.sd[i]*math.Sqrt2)))
		}
		return held
	}
	low, high := 0.0, 0.0
	for i := range m.mean {
		high = max(high, math.Abs(m.mean[i])+2*nineTenths*m.sd[i])
	}
	for range 25 { // halved so often, to a ten-millionth
		if at := (low + high) / 2; within(at) < 0.9 {
			low = at
		} else {
			high = at
		}
	}
	return (low + high) / 2 / nineTenths
}

// toward returns a share of the way to another stand-in.
func (old standIn) toward(next standIn, share float64) standIn {
	return standIn{share*next.push + (1-share)*old.push, share*next.weight + (1-share)*old.weight}
}
