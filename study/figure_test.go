package study

import (
	"math"
	"math/rand/v2"
	"sort"
	"testing"

	"roomful"
	"roomful/catalogue"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// By hand, for 1 to 5.
func TestStatistics(t *testing.T) {
	v := []float64{1, 2, 3, 4, 5}
	near(t, "median", quantile(v, 0.5), 3, 0)
	near(t, "a twentieth", quantile(v, 0.05), 1.2, 1e-12)
	near(t, "the top", quantile(v, 1), 5, 0)
	near(t, "standard deviation", deviation(v), math.Sqrt(2.5), 1e-12)
	near(t, "correlation", correlation(v, []float64{2, 4, 6, 8, 10}), 1, 1e-12)
	near(t, "correlation with a gap", correlation(v, []float64{5, math.NaN(), 3, 2, 1}), -1, 1e-12)
	// Products of deviations: 0 + 2 + 0 + 2 + 2, over 10.
	near(t, "correlation of a shuffle", correlation(v, []float64{3, 1, 2, 5, 4}), 0.6, 1e-12)
	p := summary([]float64{5, math.NaN(), 1, 3}, 0.5)
	if p.Value != 3 || p.OutOf != 4 || p.Unable != 1 {
		t.Errorf("three of four with a result: %+v", p)
	}
}

// Each factor's scores are those of a normal distribution's slices: their
// mean is 0 and their deviation nearly 1, whatever the order.
func TestStrata(t *testing.T) {
	for _, z := range strata(3, 200, rand.New(rand.NewPCG(7, 7))) {
		near(t, "mean", mean(z), 0, 1e-12)
		near(t, "deviation", deviation(z), 1, 0.01)
		s := append([]float64(nil), z...)
		sort.Float64s(s)
		near(t, "the 195th of 200, in the middle of its slice", s[194], 1.9189, 0.001) // of 0.9725
	}
}

// A group is centred on what its study reports and spread as it says.
func TestGroup(t *testing.T) {
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	squat := roomful.OneRM(roomful.BackSquat)
	g := &Group{Words: "men", Mean: trained(man(25, 80, known(roomful.TestSquat, 140)), 36), Spread: map[roomful.Capacity]float64{squat: 0.05}}
	var logs []float64
	for _, m := range g.draw(lex, 400, 3) {
		v, ok := m.abilities.Median(squat)
		if !ok {
			t.Fatal("no squat")
		}
		logs = append(logs, math.Log(v))
	}
	near(t, "squat", math.Exp(mean(logs)), 140, 0.5)
	near(t, "its spread", deviation(logs), 0.05, 0.003)
	press := g.abilities(lex).SD(roomful.OneRM(roomful.Press))
	near(t, "another's", press, 0.16, 0.001)
}

func TestFisher(t *testing.T) {
	// r = -0.53 of 15 people: z -0.590 ± 1.96/√12 gives -0.82 to -0.02.
	r := correlated(-0.53, 15)
	near(t, "low", r.Low, -0.82, 0.01)
	near(t, "high", r.High, -0.02, 0.01)
}
