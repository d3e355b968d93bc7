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
	return single(correlation(x, values(rs, f.Of))), nil
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
