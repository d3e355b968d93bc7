package infer

import (
	"math"
	"math/rand/v2"
	"testing"
)

// TestSurfaceFindsWhatMatters: of twelve inputs a value bends with the first, as a score
// does with a heaviest load, and leans on the second, and the others are idle. A surface
// through 200 points with noise of 0.05 is off by less than that at fresh points; one to
// which all inputs are alike is off by 0.09.
func TestSurfaceFindsWhatMatters(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	truth := func(x []float64) float64 { return math.Log1p(math.Exp(3*x[0]))/3 + x[1]/2 }
	draw := func() []float64 {
		x := make([]float64, 12)
		for j := range x {
			x[j] = r.NormFloat64()
		}
		return x
	}
	const noise = 0.05
	var points [][]float64
	var values, variances []float64
	for range 200 {
		x := draw()
		points, values, variances = append(points, x), append(values, truth(x)+noise*r.NormFloat64()), append(variances, noise*noise)
	}
	s := newSurface(points, values, variances, false)
	var square float64
	const fresh = 500
	for range fresh {
		x := draw()
		off := s.at(x) - truth(x)
		square += off * off / fresh
	}
	if off := math.Sqrt(square); off > noise {
		t.Errorf("off by %.3f at fresh points, noise is %.3f", off, noise)
	}
	if idle := s.scale[5] / s.scale[0]; idle < 2 {
		t.Errorf("an idle input is drawn together %.1f times as much as the one that matters", idle)
	}
}
