package sim

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"

	"roomful/sim/internal/kernel"
)

// TestQuantile compares with the same rule on values that gonum has put in
// order: small whole numbers, so that many are equal, and any others.
func TestQuantile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.SliceOfN(rapid.Float64Range(-1e6, 1e6), 1, 80).Draw(t, "values")
		if rapid.Bool().Draw(t, "whole") {
			for i := range v {
				v[i] = math.Trunc(math.Mod(v[i], 5))
			}
		}
		q := rapid.Float64Range(0, 1).Draw(t, "q")
		sorted, order := slices.Clone(v), make([]int, len(v))
		floats.Argsort(sorted, order)
		x := q * float64(len(v)-1)
		lo, hi := sorted[int(x)], sorted[min(int(x)+1, len(v)-1)]
		want := lo + (x-math.Trunc(x))*(hi-lo)
		if got := quantile(v, q); math.Abs(got-want) > 1e-9*max(1, math.Abs(want)) {
			t.Fatalf("quantile %v is %v, want %v", q, got, want)
		}
		slices.Sort(v)
		if !slices.Equal(v, sorted) {
			t.Fatal("a value was lost")
		}
	})
	if got := quantile(nil, 0.5); !math.IsNaN(got) {
		t.Errorf("of nothing: %v", got)
	}
}

// TestBell holds the cheap bell curve to the moments of a normal one: mean 0,
// spread 1, no skew; its tails are thinner, a kurtosis of 3 - 6/5/4 = 2.7 (four even
// numbers; Irwin 1927 and Hall 1927, Biometrika 19:225 and 19:240).
func TestBell(t *testing.T) {
	const n = 200_000
	r := newNoise()
	v := make([]float64, n)
	for i := range v {
		r.Seek(kernel.Mix(uint64(i), 7))
		v[i] = r.Bell()
	}
	mean, sd := stat.MeanStdDev(v, nil)
	skew, excess := stat.Skew(v, nil), stat.ExKurtosis(v, nil)
	if math.Abs(mean) > 0.01 || math.Abs(sd-1) > 0.01 || math.Abs(skew) > 0.02 || math.Abs(excess+0.3) > 0.03 {
		t.Errorf("mean %.4f, spread %.4f, skew %.4f, excess kurtosis %.4f", mean, sd, skew, excess)
	}
}
