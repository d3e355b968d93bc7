package infer

import (
	"math"
	"testing"
)

// bowl is a parabola of two inputs: 3 + x + 2y + 0.3 x² + 0.2 xy - 0.1 y², its noise
// growing with x.
func bowl(_ deed, x []float64) (mean, sd float64) {
	return 3 + x[0] + 2*x[1] + 0.3*x[0]*x[0] + 0.2*x[0]*x[1] - 0.1*x[1]*x[1], 0.5 + 0.1*x[0]
}

// over is a ground around (0.5, -1) with the covariance ((0.04, 0.01), (0.01, 0.09)),
// and an input between that is no capacity.
func over(of func(deed, []float64) (mean, sd float64)) *ground {
	axes, _ := root([][]float64{{0.04, 0}, {0.01, 0.09}})
	return &ground{
		of:    func(d deed, x []float64) (mean, sd float64) { return of(d, []float64{x[0], x[2]}) },
		x:     []float64{0.5, 7, -1},
		moved: []int{0, 2},
		axes:  axes,
	}
}

// TestStraight compares the line of a parabola with its mean, its mean slope and its
// mean square of noise over a normal belief, which are known: the mean is the value in
// the middle and half the trace of the second derivative times the covariance.
func TestStraight(t *testing.T) {
	l := over(bowl).straight()
	middle, _ := bowl(deed{}, []float64{0.5, -1})
	differ(t, "mean", l.mean, middle+(0.6*0.04+2*0.2*0.01-0.2*0.09)/2)
	differ(t, "slope by x", l.slope[0], 1+0.6*0.5+0.2*-1)
	differ(t, "slope by y", l.slope[1], 2+0.2*0.5-0.2*-1)
	differ(t, "noise", l.sd, math.Sqrt(0.55*0.55+0.01*0.04))
}

// TestTurn compares how the slope of a parabola turns with its second derivative H
// times the covariance times the slope: H = ((0.6, 0.2), (0.2, -0.2)), slope (1.1, 2.3).
// One that turns by more than half of itself in a spread is held back.
func TestTurn(t *testing.T) {
	g := over(bowl)
	l := g.straight()
	cx, cy := 0.04*1.1+0.01*2.3, 0.01*1.1+0.09*2.3
	got := g.turn(&l)
	differ(t, "turn by x", got[0], 0.6*cx+0.2*cy)
	differ(t, "turn by y", got[1], 0.2*cx-0.2*cy)

	g = over(func(_ deed, x []float64) (mean, sd float64) { return 0.01*x[0] + 50*x[0]*x[0] - 50*x[0], 1 })
	l = g.straight()
	var white []float64 // by each axis
	for j := range g.axes {
		v := 0.0
		for i := j; i < len(g.axes); i++ {
			v += g.axes[i][j] * g.turn(&l)[i]
		}
		white = append(white, v)
	}
	if most := mostTurn * norm(l.along) * norm(l.along); norm(white) > most+1e-9 {
		t.Errorf("turned by %.4f, at most %.4f", norm(white), most)
	}

	g = over(func(deed, []float64) (mean, sd float64) { return 4, 1 })
	if l = g.straight(); g.turn(&l) != nil {
		t.Error("a flat line turns")
	}
}
