package sim

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/floats"
	"pgregory.net/rapid"
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
