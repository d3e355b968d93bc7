package equation

// B. Epley 1985, Boyd Epley Workout (secondary source): 1RM = w (1 + r/30), for
// 2 to about 10 repetitions. At r = 1 it would add a thirtieth.

func epleyShare(reps float64) float64 { return 1 / (1 + reps/30) }

func epleyReps(share float64) float64 { return 30 * (1/share - 1) }
