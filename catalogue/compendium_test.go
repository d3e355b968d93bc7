package catalogue_test

import (
	"cmp"
	"math"
	"slices"
	"testing"

	"roomful"
	"roomful/equation"
)

// The Compendium of Physical Activities lists what activities cost, in MET:
// 2011, Ainsworth et al., Med Sci Sports Exerc 43:1575, doi
// 10.1249/MSS.0b013e31821ece12, and 2024, Herrmann et al., J Sport Health Sci
// 13:6, doi 10.1016/j.jshs.2023.10.010; both by their codes, from secondary
// copies. Figures of the catalogue that were set from it stay out, since they
// could not disagree: the rope, the burpee, mountain climber, jumping jack, high
// knees and the stretches.

// listed is a row of the Compendium with the movement it describes, at a rate and
// load that the row says or that are common practice.
type listed struct {
	of      roomful.MovementID
	met     float64
	code    string
	perMin  float64 // repetitions, or metres for what goes over a distance
	loadKg  float64
	heightM float64
	watts   float64 // of a machine
}

const mphToMPerMin = 26.8

var compendium = []listed{
	{of: "row", met: 4.8, code: "2011 02071, moderate, below 100 W", watts: 75},
	{of: "row", met: 7.0, code: "2011 02072, 100 W", watts: 100},
	{of: "row", met: 8.5, code: "2011 02073, 150 W", watts: 150},
	{of: "row", met: 12.0, code: "2011 02074, 200 W", watts: 200},
	{of: "bike", met: 3.5, code: "2011 02011, 30-50 W", watts: 40},
	{of: "bike", met: 4.8, code: "2011 02017, 51-89 W", watts: 70},
	{of: "bike", met: 6.8, code: "2011 02012, 90-100 W", watts: 95},
	{of: "bike", met: 8.8, code: "2011 02013, 101-160 W", watts: 130},
	{of: "bike", met: 11.0, code: "2011 02014, 161-200 W", watts: 180},
	{of: "bike", met: 14.0, code: "2011 02015, 201-270 W", watts: 235},
	{of: "run", met: 9.8, code: "2011 12050, 6 mph", perMin: 6 * mphToMPerMin},
	{of: "run", met: 11.0, code: "2011 12070, 7 mph", perMin: 7 * mphToMPerMin},
	{of: "run", met: 11.8, code: "2011 12090, 8 mph", perMin: 8 * mphToMPerMin},
	{of: "jog", met: 8.3, code: "2011 12030, 5 mph", perMin: 5 * mphToMPerMin},
	{of: "walk", met: 2.8, code: "2011 17152, 2 mph", perMin: 2 * mphToMPerMin},
	{of: "walk", met: 4.3, code: "2011 17200, 3.5 mph, from memory", perMin: 3.5 * mphToMPerMin},
	{of: "march", met: 4.5, code: "2011 17088, marching, moderate speed", perMin: 100},
	{of: "suitcase-carry", met: 5.0, code: "2011 17020, 15 lb, level", perMin: 3 * mphToMPerMin, loadKg: 6.8},
	{of: "stair-step-up", met: 8.8, code: "2011 17134, stairs, fast", perMin: 36},
	{of: "stair-step-up", met: 7.3, code: "2024 02002, step of 6-8 in", perMin: 30},
	{of: "box-step-up", met: 9.0, code: "2024 02003, step of 10-12 in", perMin: 30, heightM: .28},
	{of: "kettlebell-swing", met: 9.8, code: "2024 02058", perMin: 20, loadKg: 20},
	{of: "squat-jump", met: 11.0, code: "2024 02214, with burpees and climbers", perMin: 20},
	{of: "push-up", met: 8.0, code: "2011 02020, vigorous", perMin: 20},
	{of: "pull-up", met: 8.0, code: "2011 02020, vigorous", perMin: 20},
	{of: "sit-up", met: 8.0, code: "2011 02020, vigorous", perMin: 30},
	{of: "lunge", met: 3.8, code: "2011 02022, moderate", perMin: 12},
	{of: "crunch", met: 2.8, code: "2011 02024, light", perMin: 20},
	{of: "superman", met: 3.5, code: "2011 02030, back exercises, light", perMin: 20},
	{of: "deadlift", met: 6.0, code: "2011 02050, power lifting, sets of 5 every 45 s", perMin: 6.7, loadKg: 100},
	{of: "back-squat", met: 5.0, code: "2011 02052, squats, sets of 10 every 2 min", perMin: 5, loadKg: 60},
	{of: "bench-press", met: 3.5, code: "2011 02054, 8-15 repetitions, sets of 10 every 2 min", perMin: 5, loadKg: 50},
}

// bodyKg is whom the Compendium speaks of, roughly.
const bodyKg = 75

// cost is the gross cost of a row in MET by the catalogue's figures, and by the
// laws that doc/model.md, rule 1, gives for what power decides.
func (l listed) cost(m *roomful.Movement) float64 {
	net := l.perMin / 60 * energy(m, bodyKg, l.loadKg, l.heightM) // W/kg above rest
	switch l.of {
	case "row":
		net = l.watts / 0.19 / bodyKg
	case "bike":
		net = l.watts/0.26/bodyKg + 1.2
	case "run":
		net = equation.OxygenWattsPerKg(equation.RunOxygen(l.perMin, 0) - equation.RestOxygen)
	}
	return 1 + net/equation.OxygenWattsPerKg(equation.RestOxygen)
}

// TestEveryCostRanksAsMeasured holds the rank correlation (Spearman) between what
// movements cost here and in the Compendium at 0.7 or more, over all rows and
// over the movements, one row of each.
func TestEveryCostRanksAsMeasured(t *testing.T) {
	c := load(t)
	var ours, theirs, ourMeans, theirMeans []float64
	for i, l := range compendium {
		m := c.Movement(l.of)
		if m == nil {
			t.Fatalf("there is no %s", l.of)
		}
		got := l.cost(m)
		t.Logf("%-17s %5.1f MET, %4.1f listed (%s)", l.of, got, l.met, l.code)
		if got < l.met/2.5 || got > l.met*2.5 {
			t.Errorf("%s costs %.1f MET and is listed with %g (%s)", l.of, got, l.met, l.code)
		}
		ours, theirs = append(ours, got), append(theirs, l.met)
		if slices.IndexFunc(compendium, func(k listed) bool { return k.of == l.of }) == i {
			ourMeans, theirMeans = append(ourMeans, got), append(theirMeans, l.met)
		}
	}
	if n := len(ourMeans); n < 15 {
		t.Errorf("only %d movements are compared", n)
	}
	rows, movements := spearman(ours, theirs), spearman(ourMeans, theirMeans)
	t.Logf("Spearman's rho is %.3f over %d rows and %.3f over %d movements", rows, len(ours), movements, len(ourMeans))
	if rows < 0.7 || movements < 0.7 {
		t.Errorf("Spearman's rho is %.3f over rows and %.3f over movements, not 0.7", rows, movements)
	}
}

// spearman is the correlation of ranks; equal values share the mean of theirs.
func spearman(a, b []float64) float64 {
	ra, rb := ranks(a), ranks(b)
	mean := float64(len(a)-1) / 2
	var ab, aa, bb float64
	for i := range ra {
		x, y := ra[i]-mean, rb[i]-mean
		ab, aa, bb = ab+x*y, aa+x*x, bb+y*y
	}
	return ab / math.Sqrt(aa*bb)
}

// ranks gives each value its place from 0, the mean of the places for ties.
func ranks(v []float64) []float64 {
	order := make([]int, len(v))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int { return cmp.Compare(v[i], v[j]) })
	out := make([]float64, len(v))
	for from := 0; from < len(order); {
		to := from + 1
		for to < len(order) && v[order[to]] == v[order[from]] {
			to++
		}
		for _, i := range order[from:to] {
			out[i] = float64(from+to-1) / 2
		}
		from = to
	}
	return out
}

// TestSpearman checks the measure itself. The IQs and hours of television
// of many textbooks have rho -29/165 (ten pairs, no ties); with ties by hand.
func TestSpearman(t *testing.T) {
	for _, k := range []struct {
		a, b []float64
		want float64
	}{
		{[]float64{1, 2, 3, 4}, []float64{10, 20, 30, 400}, 1},
		{[]float64{1, 2, 3, 4}, []float64{4, 3, 2, 1}, -1},
		{[]float64{106, 100, 86, 101, 99, 103, 97, 113, 112, 110}, []float64{7, 27, 2, 50, 28, 29, 20, 12, 6, 17}, -29. / 165},
		{[]float64{1, 1, 2, 3}, []float64{1, 2, 3, 3}, 4 / 4.5}, // ranks .5 .5 2 3 and 0 1 2.5 2.5
	} {
		if got := spearman(k.a, k.b); math.Abs(got-k.want) > 1e-6 {
			t.Errorf("%v and %v: %.6f, want %.6f", k.a, k.b, got, k.want)
		}
	}
}
