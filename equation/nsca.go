package equation

import "math"

// nscaShares is the training load chart of the National Strength and
// Conditioning Association, Essentials of Strength Training and Conditioning
// (secondary copy): the share of the maximum for 1 to 10 repetitions. Editions
// disagree from 11 on, so the chart ends there.
var nscaShares = [...]float64{1.00, 0.95, 0.93, 0.90, 0.87, 0.85, 0.83, 0.80, 0.77, 0.75}

// NSCAShare returns the chart's share of the maximum for 1 to 10 repetitions,
// straight between whole ones; NaN outside.
func NSCAShare(reps float64) float64 {
	if !(reps >= 1 && reps <= float64(len(nscaShares))) {
		return math.NaN()
	}
	i := min(int(reps), len(nscaShares)-1)
	part := reps - float64(i)
	return nscaShares[i-1] + part*(nscaShares[i]-nscaShares[i-1])
}

// NSCAReps is the inverse of [NSCAShare], for shares from 0.75 to 1; NaN
// outside.
func NSCAReps(share float64) float64 {
	for i := 1; i < len(nscaShares); i++ {
		heavy, light := nscaShares[i-1], nscaShares[i]
		if share <= heavy && share >= light {
			return float64(i) + (heavy-share)/(heavy-light)
		}
	}
	return math.NaN()
}
