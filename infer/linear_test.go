package infer

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
)

// The plain loops agree with gonum's routines.
func TestAgainstGonum(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	const n = 23
	half := mat.NewDense(n, n+3, nil)
	for i := range n {
		for j := range n + 3 {
			half.Set(i, j, r.NormFloat64())
		}
	}
	var full mat.SymDense
	full.SymOuterK(1, half)
	a, b := matrix(n), make([]float64, n)
	for i := range n {
		b[i] = r.NormFloat64()
		for j := range n {
			a[i][j] = full.At(i, j)
		}
	}
	var want mat.Cholesky
	if !want.Factorize(&full) {
		t.Fatal("gonum finds no factor")
	}
	var lower mat.TriDense
	want.LTo(&lower)
	var x mat.VecDense
	if err := want.SolveVecTo(&x, mat.NewVecDense(n, b)); err != nil {
		t.Fatal(err)
	}
	var inv mat.SymDense
	if err := want.InverseTo(&inv); err != nil {
		t.Fatal(err)
	}
	l, ok := root(a)
	if !ok {
		t.Fatal("no factor")
	}
	got, back := solve(l, b), inverse(l)
	for i := range n {
		differ(t, "solution", got[i], x.AtVec(i))
		for j := range n {
			differ(t, "inverse", back[i][j], inv.At(i, j))
			if j <= i {
				differ(t, "factor", l[i][j], lower.At(i, j))
			}
		}
	}
	mean, variance := meanVariance(b)
	wantMean, wantVariance := stat.MeanVariance(b, nil)
	differ(t, "mean", mean, wantMean)
	differ(t, "variance", variance, wantVariance)
	a[n-1][n-1] = -1
	if _, ok := root(a); ok {
		t.Error("a matrix with a negative diagonal has a factor")
	}
}

func differ(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-8*(1+math.Abs(want)) {
		t.Errorf("%s %g, gonum %g", what, got, want)
	}
}

// A surface passes through a curved function of two inputs.
func TestSurface(t *testing.T) {
	f := func(x []float64) float64 { return 2 + 0.3*x[0] - 0.1*x[1] + 0.05*x[0]*x[1] + 0.1*math.Exp(-x[0]) }
	r := rand.New(rand.NewPCG(1, 2))
	var points [][]float64
	var values, noise []float64
	for range 150 {
		x := []float64{r.NormFloat64(), 3 * r.NormFloat64()}
		points, values, noise = append(points, x), append(values, f(x)+0.01*r.NormFloat64()), append(noise, 1e-4)
	}
	s := newSurface(points, values, noise, false)
	for _, x := range [][]float64{{0, 0}, {1, -2}, {-1.2, 3}, {0.4, 1}} {
		if got := s.at(x); math.Abs(got-f(x)) > 0.015 {
			t.Errorf("at %v: %.4f, want %.4f", x, got, f(x))
		}
	}
}
