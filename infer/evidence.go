package infer

import (
	"math"

	"roomful"
)

// evidence is a result made ready: which dims it speaks of and what it says.
type evidence struct {
	label    string
	weeks    int // before today
	emulator *Emulator
	deed     deed
	inputs   []float64 // at the prior's centre
	dims     []int     // of the inputs that are capacities; -1 for one the person lacks
	observed float64   // the logarithm of the score, or of the cap
	capped   bool
	fade     float64 // of the rounds as told; NaN when they were not
	// shared is how many results of the person are of the same structure: what the
	// model gets wrong about a piece it gets wrong every time.
	shared  float64
	margins []margin
	// What stands in for the score and for the fade, so far.
	scoreSeen, fadeSeen standIn
}

// score notes what an emulator needs to judge a result's score.
func (ev *evidence) score(e *Emulator, a *roomful.Abilities, r *Result) {
	ev.emulator, ev.deed = e, doing(Case{a, r})
	ev.inputs = e.inputs.of(a, r)
	for _, c := range e.inputs.capacities {
		ev.dims = append(ev.dims, a.Index(c))
	}
	ev.fade = fadeOf(r.Splits)
	ev.observed = math.Log(max(r.Score, leastScore))
	if _, timed := r.Piece.Format.(roomful.ForTime); timed {
		ev.capped = r.Capped
	}
}

// pull is how something observed moves a straight line of abilities: towards
// where, and how strongly (the slope and the curvature of its log-likelihood).
type pull struct {
	force, weight float64 // derivative and negative second derivative
}

// above is the pull of knowing that a value, seen through noise, is more than
// nought.
func above(value, sd float64) pull {
	z := value / sd
	tail := 0.5 * math.Erfc(-z/math.Sqrt2)
	if tail < 1e-12 { // far on the wrong side: as a normal around the edge
		return pull{-value / (sd * sd), 1 / (sd * sd)}
	}
	mills := density(z) / tail
	return pull{mills / sd, mills * (mills + z) / (sd * sd)}
}

// density is the standard normal one.
func density(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }
