package equation

// RepsInReserve returns how many more repetitions a rating of perceived
// exertion leaves: none at 10, one at 9, two at 8, three at 7 (M. C. Zourdos et
// al. 2016, J Strength Cond Res 30:267-275). Halves lie between. Experienced
// lifters rate within about one repetition near failure; novices, and everybody
// at 6 or less, are far less sure. Ratings are held to 1-10.
func RepsInReserve(rpe float64) (reps float64) { return 10 - min(max(rpe, 1), 10) }

// ReserveRPE is the inverse of [RepsInReserve], held to 1-10.
func ReserveRPE(reps float64) (rpe float64) { return min(max(10-reps, 1), 10) }
