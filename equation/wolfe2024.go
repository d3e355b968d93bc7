package equation

import "math"

// WolfeLift is a lift of the table of Wolfe 2024.
type WolfeLift uint8

// The lifts that were tested.
const (
	WolfeSquat WolfeLift = iota
	WolfeBench
	WolfeDeadlift
)

// Mean repetitions to failure of 17 women at four shares of the maximum: Wolfe
// 2024, International Journal of Strength and Conditioning 4(1), doi
// 10.47206/ijsc.v4i1.266 (abstract read). They lie well above every law of
// [RepLaw] at light loads.
var (
	wolfeShares = [...]float64{0.65, 0.75, 0.85, 0.95}
	wolfeReps   = [...][len(wolfeShares)]float64{
		WolfeSquat:    {26.1, 18.0, 10.3, 4.1},
		WolfeBench:    {21.3, 14.4, 9.0, 2.5},
		WolfeDeadlift: {23.4, 15.7, 9.6, 3.4},
	}
)

// WolfeReps returns the mean repetitions to failure at a share of the maximum
// from 0.65 to 0.95, straight between the shares tested; NaN outside.
func WolfeReps(lift WolfeLift, share float64) float64 {
	for i := 1; i < len(wolfeShares); i++ {
		low, high := wolfeShares[i-1], wolfeShares[i]
		if share >= low && share <= high {
			part := (share - low) / (high - low)
			return wolfeReps[lift][i-1] + part*(wolfeReps[lift][i]-wolfeReps[lift][i-1])
		}
	}
	return math.NaN()
}
