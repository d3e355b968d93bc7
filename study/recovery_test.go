package study

import (
	"math"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"roomful/catalogue"
	"roomful/sim"
)

// TestCRPS compares the score of draws with the closed form of a normal distribution,
// which gonum's sums give too.
func TestCRPS(t *testing.T) {
	n := distuv.Normal{Mu: 1, Sigma: 0.5, Src: rand.NewPCG(1, 2)}
	draws := make([]float64, 20_000)
	for i := range draws {
		draws[i] = n.Rand()
	}
	for _, came := range []float64{1, 0.2, 2.4} {
		want := 0.0 // ∫(F(x) − 1[x ≥ came])² dx
		for x := -4.0; x < 6; x += 1e-4 {
			f := n.CDF(x)
			if x >= came {
				f--
			}
			want += f * f * 1e-4
		}
		if got := normalCRPS(1, 0.5, came); math.Abs(got-want) > 1e-4 {
			t.Errorf("at %v: closed form %v, by sums %v", came, got, want)
		}
		if got := crps(draws, came); math.Abs(got-want) > 0.01 {
			t.Errorf("at %v: of draws %v, by sums %v", came, got, want)
		}
	}
}

// TestUneven is Pearson's chi-square as gonum has it.
func TestUneven(t *testing.T) {
	c := Cell{Inside: 93, Of: 100, Ranks: [rankBins]int{5, 15, 10, 10, 12, 8, 9, 11, 14, 6}}
	obs, exp := make([]float64, rankBins), make([]float64, rankBins)
	for i, n := range c.Ranks {
		obs[i], exp[i] = float64(n), 10
	}
	if want := stat.ChiSquare(obs, exp); math.Abs(c.Uneven()-want) > 1e-12 {
		t.Errorf("chi-square %v, gonum %v", c.Uneven(), want)
	}
	if got := c.Errors(); math.Abs(got-1) > 1e-12 { // 3 of 100 above, and one error is 3
		t.Errorf("%v standard errors, want 1", got)
	}
}

// TestRecovery runs the study with few people: the same seed gives the same tables,
// and a history makes belief narrower.
func TestRecovery(t *testing.T) {
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	run := func(workers int) Recovered {
		got, err := Recovery{Model: Model{Lexicon: lex, Constants: sim.Defaults(), People: 12, Seed: 3, Workers: workers}, Lengths: []int{1, 6}}.Run(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	a, b := run(1), run(2)
	if !reflect.DeepEqual(a, b) {
		t.Error("one worker and two do not find the same")
	}
	for i := 0; i < len(a.Cells); i += 2 {
		if short, long := a.Cells[i], a.Cells[i+1]; short.Of != 12 || long.Narrowed > short.Narrowed+1e-9 {
			t.Errorf("%s: %.2f of the spread left after one result, %.2f after six", short.Capacity, short.Narrowed, long.Narrowed)
		}
	}
	var text strings.Builder
	if _, err := WriteRecovery(&text, []Seeded{{Seed: 3, Plain: a, Other: b}}); err != nil || !strings.Contains(text.String(), "| vo2max | 6 |") {
		t.Errorf("%v: %s", err, text.String())
	}
}
