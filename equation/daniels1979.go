package equation

import "math"

// Running outdoors, J. Daniels and J. Gilbert 1979, Oxygen Power (tables for
// runners; the coefficients are from memory). Fitted on trained runners over
// races of about 4 minutes to 4 hours. Two curves: what a speed costs, and which
// share of VO2max a runner keeps up in a race of that length. Their quotient is
// the VO2max that explains a race; in less trained runners it reads some 5-10 %
// below the laboratory's figure, since they keep up a smaller share.

// DanielsRunOxygen returns the gross oxygen uptake at a speed.
func DanielsRunOxygen(mPerMin float64) (oxygen float64) {
	return -4.60 + 0.182258*mPerMin + 0.000104*mPerMin*mPerMin
}

// DanielsShare returns the share of VO2max kept up in a race of a length.
func DanielsShare(minutes float64) float64 {
	return 0.8 + 0.1894393*math.Exp(-0.012778*minutes) + 0.2989558*math.Exp(-0.1932605*minutes)
}

// DanielsVO2max returns the VO2max that explains a race.
func DanielsVO2max(race Distance) (oxygen float64) {
	minutes := race.Seconds / 60
	return DanielsRunOxygen(race.Metres/minutes) / DanielsShare(minutes)
}
