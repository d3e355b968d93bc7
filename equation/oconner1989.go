package equation

// B. O'Conner, J. Simmons and P. O'Shea 1989, Weight Training Today (secondary
// source): 1RM = w (1 + 0.025 r), for 2 to about 10 repetitions. The lowest of
// the laws for sets of 5 to 10.

func oconnerShare(reps float64) float64 { return 1 / (1 + 0.025*reps) }

func oconnerReps(share float64) float64 { return 40 * (1/share - 1) }
