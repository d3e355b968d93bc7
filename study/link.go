package study

import (
	"math"

	"roomful"
)

// Link is the correlation over people between something of theirs and a
// measure of a piece.
type Link struct {
	Between []roomful.Capacity // summed when several
	Sheet   string
	Of      Measure
	// Ranked compares places instead of amounts: a few people near their limit
	// have times so long that they alone decide a straight correlation.
	Ranked bool
}

func (f Link) predict(b *bench, g *Group) (Prediction, error) {
	rs, err := b.run(g, f.Sheet)
	if err != nil {
		return Prediction{}, err
	}
	x := make([]float64, len(rs))
	for i, r := range rs {
		x[i] = total(r.abilities, f.Between)
	}
	y := values(rs, f.Of)
	if f.Ranked {
		x, y = places(x, y)
	}
	return single(correlation(x, y)), nil
}

// places returns each pair's places among the pairs that are numbers; who is level
// shares the middle of their places.
func places(x, y []float64) (px, py []float64) {
	var a, b []float64
	for i := range x {
		if !math.IsNaN(x[i]) && !math.IsNaN(y[i]) {
			a, b = append(a, x[i]), append(b, y[i])
		}
	}
	return placed(a), placed(b)
}

// placed returns the place of each value, the least first.
func placed(v []float64) []float64 {
	out := make([]float64, len(v))
	for i, x := range v {
		for _, y := range v {
			switch {
			case y < x:
				out[i]++
			case y == x:
				out[i] += 0.5
			}
		}
	}
	return out
}

// total sums capacities of one person.
func total(a *roomful.Abilities, cs []roomful.Capacity) float64 {
	var sum float64
	for _, c := range cs {
		v, _ := a.Median(c)
		sum += v
	}
	return sum
}

// Together is the correlation over people between two capacities, on their own
// scales.
type Together struct{ A, B roomful.Capacity }

func (f Together) predict(b *bench, g *Group) (Prediction, error) {
	var x, y []float64
	for _, m := range b.of(g) {
		x, y = append(x, centre(m.abilities, f.A)), append(y, centre(m.abilities, f.B))
	}
	return single(correlation(x, y)), nil
}

func centre(a *roomful.Abilities, c roomful.Capacity) float64 {
	if i := a.Index(c); i >= 0 {
		return a.Dims[i].Centre
	}
	return math.NaN()
}

// correlated is the band of correlations that a sample of n people with a
// correlation r does not speak against at 95 % (Fisher's z).
func correlated(r float64, n int) Rule {
	half := 1.96 / math.Sqrt(float64(n-3))
	z := math.Atanh(r)
	return between(math.Tanh(z-half), math.Tanh(z+half), "within the sample's 95 % interval")
}
