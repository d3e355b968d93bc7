package equation

// J. Lander 1985, NSCA Journal (secondary source): 1RM = 100 w/(101.3 −
// 2.67123 r), for 2 to about 10 repetitions.

func landerShare(reps float64) float64 { return (101.3 - 2.67123*reps) / 100 }

func landerReps(share float64) float64 { return (101.3 - 100*share) / 2.67123 }
