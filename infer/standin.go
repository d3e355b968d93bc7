package infer

import "math"

// standIn is a normal reading of a log-score, which stands in for one whose noise has
// heavy tails: mostly normal, and now and then several times wider. The zero value says
// nothing.
type standIn struct{ value, weight float64 } // weight: of one over the variance

// renew returns what leaves the same middle and, where it can, the same spread of
// belief as the score itself does (expectation propagation: Minka 2001, UAI
// 17:362-369). Belief of the log-score, from which the stand-in so far is taken out,
// decides whether a score is wild: who may be far stronger than expected may well
// score so.
func (old standIn) renew(observed, sd, mean, variance float64) standIn {
	if left := 1 - variance*old.weight; left > 1e-6 {
		mean, variance = (mean-variance*old.weight*old.value)/left, variance/left
	}
	variance = max(variance, 1e-12)
	gap := observed - mean
	calm, wild := variance+sd*sd, variance+sd*sd*WildSpread*WildSpread
	odds := WildShare / (1 - WildShare) * math.Sqrt(calm/wild) * math.Exp(gap*gap/2*(1/calm-1/wild))
	isCalm := 1 / (1 + odds)
	gain := isCalm/calm + (1-isCalm)/wild
	apart := variance * gap * (1/calm - 1/wild)
	after := variance - variance*variance*gain + isCalm*(1-isCalm)*apart*apart
	weight := 1/after - 1/variance
	if weight < 0.1*gain { // between two minds, as wide as before: the same middle is what can be had
		return standIn{observed, gain / (1 - variance*gain)}
	}
	return standIn{((mean+variance*gain*gap)/after - mean/variance) / weight, weight}
}

// toward returns a share of the way to another stand-in.
func (old standIn) toward(next standIn, share float64) standIn {
	weight := share*next.weight + (1-share)*old.weight
	if weight <= 0 {
		return next
	}
	return standIn{(share*next.weight*next.value + (1-share)*old.weight*old.value) / weight, weight}
}
