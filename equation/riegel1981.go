package equation

import "math"

// riegelExponent is how time grows with distance in running: P. S. Riegel 1981,
// American Scientist 69:285-290. Valid for 3.5 to 230 minutes. It describes the
// best performances of well-trained people; those who train little slow down
// more over long distances.
const riegelExponent = 1.06

// Distance is a length covered in a time.
type Distance struct{ Metres, Seconds float64 }

// RiegelSeconds returns the time for another distance that is as good as a
// known one.
func RiegelSeconds(known Distance, metres float64) (seconds float64) {
	return known.Seconds * math.Pow(metres/known.Metres, riegelExponent)
}
