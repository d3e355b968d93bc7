package study

import (
	"math"
	"strings"
	"testing"

	"roomful"
)

// cellOf is a cell of so many people of whom so many were inside.
func cellOf(inside, of int) Cell {
	return Cell{Capacity: roomful.CapVO2max, Length: 5, Inside: inside, Of: of, Narrowed: float64(inside) / 100}
}

// TestPool puts 100 people with 90 inside and 300 with 240 inside together: 330 of 400.
func TestPool(t *testing.T) {
	got := pool([]Recovered{
		{People: 100, Cells: []Cell{cellOf(90, 100)}, CRPS: 0.04, Baseline: 0.08, Forecasts: 90, Results: 2000, Left: 3},
		{People: 300, Cells: []Cell{cellOf(240, 300)}, CRPS: 0.06, Baseline: 0.07, Forecasts: 270, Results: 6000, Left: 5,
			Refused: []Refused{{Seed: 2, Piece: "a mile"}}},
	})
	if got.People != 400 || got.Results != 8000 || got.Left != 8 || len(got.Refused) != 1 {
		t.Errorf("%+v", got)
	}
	if c := got.Cells[0]; c.Inside != 330 || c.Of != 400 || math.Abs(c.Narrowed-(0.9+3*2.4)/4) > 1e-12 {
		t.Errorf("cell %+v", c)
	}
	if math.Abs(got.CRPS-0.055) > 1e-12 || math.Abs(got.Baseline-0.0725) > 1e-12 {
		t.Errorf("scores %v and %v, want a quarter of the first and three of the second", got.CRPS, got.Baseline)
	}
}

// TestByChance sums the binomial's tails term by term. With a thousand people three
// standard errors are 28.46, so that 871 and 929 are beyond and 872 and 928 are not.
func TestByChance(t *testing.T) {
	var want float64
	for k := 0; k <= 1000; k++ {
		if k > 871 && k < 929 {
			continue
		}
		a, _ := math.Lgamma(1001)
		b, _ := math.Lgamma(float64(k) + 1)
		c, _ := math.Lgamma(float64(1000-k) + 1)
		want += math.Exp(a - b - c + float64(k)*math.Log(0.9) + float64(1000-k)*math.Log(0.1))
	}
	if got := byChance([]Cell{cellOf(0, 1000), cellOf(0, 1000)}); math.Abs(got-2*want) > 1e-9 {
		t.Errorf("%v by chance, by sums %v", got, 2*want)
	}
	for k, far := range map[int]bool{871: true, 872: false, 928: false, 929: true} {
		if c := cellOf(k, 1000); (math.Abs(c.Errors()) > mostErrors) != far {
			t.Errorf("%d of 1000: %.2f standard errors", k, c.Errors())
		}
	}
}

// TestAllowed compares with Poisson's probabilities by hand: of 0.1 expected none in
// e^-0.1 = 0.905, none or one in 0.995.
func TestAllowed(t *testing.T) {
	for expected, want := range map[float64]int{0: 0, 0.05: 0, 0.1: 1, 0.34: 1, 0.4: 2, 3: 6} {
		if got := allowed(expected); got != want {
			t.Errorf("%v expected: %d allowed, want %d", expected, got, want)
		}
	}
}

// TestGates breaks one gate at a time.
func TestGates(t *testing.T) {
	good := func() Seeded {
		a := Recovered{People: 1000, Cells: []Cell{cellOf(900, 1000)}, CRPS: 0.04, Baseline: 0.07, Forecasts: 900, Results: 20000, Left: 400}
		b := a
		b.Cells = []Cell{cellOf(800, 1000)}
		return Seeded{Seed: 1, Plain: a, Other: b, Further: []Recovered{b, a}}
	}
	for name, c := range map[string]struct {
		spoil func(*Seeded)
		kept  bool
		says  string
	}{
		"all hold": {func(*Seeded) {}, true, "400 of 20000 | holds"},
		"no gate": {func(s *Seeded) { s.Further[1].Cells = []Cell{cellOf(100, 1000)} }, true,
			"where muscles recover at twice the rate | for information | 10.0 %"},
		"a cell beyond": {func(s *Seeded) { s.Plain.Cells = []Cell{cellOf(929, 1000)} }, false, "**beyond**"},
		"another truth": {func(s *Seeded) { s.Other.Cells = []Cell{cellOf(799, 1000)} }, false, "79.9 % | **does not hold**"},
		"no better":     {func(s *Seeded) { s.Plain.CRPS = 0.07 }, false, "0.0700 | **does not hold**"},
		"a piece refused": {func(s *Seeded) {
			s.Plain.Left, s.Plain.Refused = 2814, []Refused{{11, "21-15-9", 0.041, "too abrupt"}}
		}, false, "Refused with seed 11: 21-15-9 (off by 4.1 %): too abrupt."},
	} {
		s := good()
		c.spoil(&s)
		var text strings.Builder
		kept, err := WriteRecovery(&text, []Seeded{s})
		if err != nil || kept != c.kept || !strings.Contains(text.String(), c.says) {
			t.Errorf("%s: kept %v, %v, want %q in\n%s", name, kept, err, c.says, text.String())
		}
	}
}
