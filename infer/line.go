package infer

import "math"

// line is a straight line through a log-score: its value in the middle, its
// slope by each input that is a capacity, and the noise around it. What the line
// misses is of the same size and sign whenever somebody does the piece again.
type line struct {
	mean, sd float64
	missed   float64 // variance of what bends away from the line
	slope    []float64
}

// straight returns the straight line that fits the log-score best where some of
// the inputs lie around x with a covariance.
// The sums are over the points of a cubature, two on each axis of the covariance
// (Arasaratnam and Haykin 2009, IEEE Trans Automat Control 54:1254-1269).
//
// What is fitted is of the emulator: its log-score, or its fade.
func straight(of func(deed, []float64) (mean, sd float64), d deed, x []float64, moved []int, cov [][]float64) line {
	for i := range cov {
		cov[i][i] += 1e-10 // a capacity known for certain
	}
	axes, ok := root(cov)
	if k := len(moved); !ok || k == 0 {
		mean, sd := of(d, x)
		return line{mean: mean, sd: sd, slope: make([]float64, k)}
	}
	n, reach := float64(2*len(moved)), math.Sqrt(float64(len(moved)))
	var out line
	var square, within float64
	along := make([]float64, len(moved)) // covariance of the score with each axis
	at := make([]float64, len(x))
	for axis := range moved {
		for _, side := range []float64{reach, -reach} {
			copy(at, x)
			for i, j := range moved {
				at[j] += side * axes[i][axis]
			}
			v, sd := of(d, at)
			out.mean, square, within = out.mean+v/n, square+v*v/n, within+sd*sd/n
			along[axis] += v * side / n
		}
	}
	out.missed = max(0, square-out.mean*out.mean-dot(along, along))
	out.sd = math.Sqrt(within)
	out.slope = backward(axes, along)
	return out
}
