package infer

// How an emulator is made; judgement, tried on pieces of one to three movements.
const (
	pointsOf    = 200   // abilities tried for an emulator
	morePoints  = 400   // where so many were not enough
	runsOf      = 16    // runs at each
	freshPoints = 24    // abilities that check one
	freshRuns   = 400   // runs at each
	rejectOver  = 0.03  // mean absolute error of the log-score
	rejectShare = 0.5   // or so much of what one person's score varies by itself,
	rejectEver  = 0.08  // and never more than this
	sdOfAbs     = 1.253 // sd of a normal error whose mean size is 1
	leastPoints = 60    // points where everything could be done, for there to be an emulator
	stretch     = 1.3   // points reach so much wider than what is believed
	mostInputs  = 12    // capacities an emulator follows; the rest is noise
	feltOver    = 0.002 // change of a log-score from which on a piece feels a capacity
)

// How a score is weighed.
const (
	leastSD    = 0.01 // of a log-score: a watch and a count are not better
	edge       = 0.1  // sd of the logarithm of how far an element is from what can just be done
	leastScore = 0.02 // stands for a score of nothing, which has no logarithm
)

// WildShare is the share of scores that something else than the forecaster's noise
// explains, a slip of the pen or a twisted ankle, and WildSpread how many times wider than
// the noise they lie; common practice, no source.
const (
	WildShare  = 0.03
	WildSpread = 5
)

// ModelError is the sd of what the model gets wrong about a piece, in its log-score,
// the same every time the piece is done. Half of its figures lie within 7 % of
// published ones (doc/calibration.md), which holds how groups differ too; 5 % is
// judgement, after values from 0 to 7 % were tried (doc/inference-calibration.md). It
// bounds what a piece can tell however often it is done.
const ModelError = 0.05

// OxygenWalk is how far supply of oxygen wanders in the square root of a week,
// in log units: 1-2 % a week, a guess.
const OxygenWalk = 0.015
