package equation

// M. Brzycki 1993, Journal of Physical Education, Recreation and Dance
// 64(1):88-90: 1RM = 36 w/(37 − r), from r = 1 to about 10. It meets Epley
// exactly at r = 10.

func brzyckiShare(reps float64) float64 { return (37 - reps) / 36 }

func brzyckiReps(share float64) float64 { return 37 - 36*share }
