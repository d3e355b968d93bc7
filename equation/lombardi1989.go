package equation

import "math"

// V. P. Lombardi 1989, Beginning Weight Training (secondary source):
// 1RM = w r^0.10, from r = 1 to about 10. Beyond that it rises most slowly of
// all and allows far too many repetitions.

func lombardiShare(reps float64) float64 { return math.Pow(reps, -0.10) }

func lombardiReps(share float64) float64 { return math.Pow(share, -10) }
