package equation

import "math"

// D. Wathen 1994, in Essentials of Strength Training and Conditioning
// (secondary source): 1RM = 100 w/(48.8 + 53.8 e^(−0.075 r)), for 2 to about 20
// repetitions.

func wathenShare(reps float64) float64 { return (48.8 + 53.8*math.Exp(-0.075*reps)) / 100 }

func wathenReps(share float64) float64 { return exponentReps(share, 48.8, 53.8, 0.075) }
