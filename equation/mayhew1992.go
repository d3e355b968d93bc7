package equation

import "math"

// J. L. Mayhew et al. 1992, Journal of Applied Sport Science Research (bench
// press, up to 15 repetitions; secondary source):
// 1RM = 100 w/(52.2 + 41.9 e^(−0.055 r)).

func mayhewShare(reps float64) float64 { return (52.2 + 41.9*math.Exp(-0.055*reps)) / 100 }

func mayhewReps(share float64) float64 { return exponentReps(share, 52.2, 41.9, 0.055) }

// exponentReps solves 100 share = floor + span e^(−rate r) for r.
func exponentReps(share, floor, span, rate float64) float64 {
	above := 100*share - floor
	if above <= 0 {
		return math.Inf(1)
	}
	return -math.Log(above/span) / rate
}
