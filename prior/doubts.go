package prior

import (
	"fmt"
	"math"
	"slices"

	"roomful"
)

// Doubts returns one plain sentence for each figure of a person that can hardly
// be right beside the others: impossible ones, lifts in the wrong order, and
// figures that lie far from what all the others suggest. Nothing is changed;
// the figures are for the person and the coach to check.
func Doubts(a roomful.Athlete, lex roomful.Lexicon, on roomful.Date) []string {
	said, named := impossible(a, on)
	for _, o := range orders {
		light, ok1 := a.Measured(o.light)
		heavy, ok2 := a.Measured(o.heavy)
		if ok1 && ok2 && light > heavy && heavy > 0 {
			said = append(said, fmt.Sprintf("%s %s is above %s %s, which is rare: check both.",
				wordsOf(o.light), a.Own(light), wordsOf(o.heavy), a.Own(heavy)))
			named = append(named, o.light, o.heavy)
		}
	}
	return append(said, unlikely(a, lex, on, named)...)
}

// orders are pairs of lifts of which nearly everybody's first is the lighter
// (common practice, no source).
var orders = [...]struct{ light, heavy roomful.Test }{
	{roomful.TestBench, roomful.TestDeadlift},
	{roomful.TestPress, roomful.TestBench},
	{roomful.TestSnatch, roomful.TestClean},
	{roomful.TestClean, roomful.TestDeadlift},
	{roomful.TestPress, roomful.TestSquat},
}

// The bounds outside which a figure about the person is doubted: common
// practice, no source.
const (
	lightestKg, heaviestKg = 25, 250
	shortestCm, tallestCm  = 90, 230
	eldest                 = 100 // years
	firstTraining          = 5   // years of age
)

// impossible returns sentences about figures that cannot be, and the tests
// among them.
func impossible(a roomful.Athlete, on roomful.Date) (said []string, named []roomful.Test) {
	say := func(format string, args ...any) { said = append(said, fmt.Sprintf(format, args...)) }
	years, known := a.Age(on)
	switch {
	case a.Born.Year > on.Year && !on.IsZero():
		say("born in %d lies ahead: check the year.", a.Born.Year)
	case known && (years > eldest || years < firstTraining):
		say("born in %d makes them %d: check the year.", a.Born.Year, years)
	case a.Months != nil && !(*a.Months >= 0 && *a.Months <= 12*eldest):
		say("%s months of training is not a figure to reckon with, and was left out.", roomful.Figure(*a.Months))
	case known && a.Months != nil && *a.Months > float64(12*(years-firstTraining+1)):
		say("%s months of training is more than fits into %d years of age: check both.", roomful.Figure(*a.Months), years)
	}
	if a.MassKg != 0 && !(a.MassKg >= lightestKg && a.MassKg <= heaviestKg) {
		say("a body mass of %s was left out: check the figure and its unit.", a.Own(a.MassKg))
	}
	if a.HeightCm != 0 && !(a.HeightCm >= shortestCm && a.HeightCm <= tallestCm) {
		say("a height of %s cm: check the figure and its unit.", roomful.Figure(a.HeightCm))
	}
	for _, t := range tests {
		if v, ok := a.Measured(t.test); ok && !possible(t.test, v) {
			say("%s: %s is not a figure to reckon with, and was left out.", t.words, figure(a, t.test, v))
			named = append(named, t.test)
		}
	}
	return said, named
}

// unlikely returns sentences about figures far from what all others suggest,
// the farthest first, each taken out before the rest are looked at again.
// Figures already named count as taken out.
func unlikely(a roomful.Athlete, lex roomful.Lexicon, on roomful.Date, named []roomful.Test) (said []string) {
	r, _ := reckon(a, on)
	ab := frameOf(lex).believe(r)
	for {
		left := a
		left.Known = slices.DeleteFunc(slices.Clone(a.Known), func(k roomful.Known) bool { return slices.Contains(named, k.Test) })
		test, gap, sds := farthest(left, ab, lex)
		if math.Abs(sds) < doubtSDs.one() {
			return said
		}
		v, _ := a.Measured(test)
		source := "age, body mass and training suggest"
		if len(left.Known) > 1 {
			source = "the other figures suggest"
		}
		said = append(said, fmt.Sprintf("%s %s: %s about %s, check it.", wordsOf(test), figure(a, test, v), source, expectedFigure(a, test, gap, ab)))
		named = append(named, test)
	}
}

// farthest returns the figure that lies farthest from what all others suggest,
// and by how much it is off, on its reading's own scale and in standard
// deviations. With S the covariance of all readings and r their gaps,
// the gap of one given the others is (S⁻¹ r)ᵢ/(S⁻¹)ᵢᵢ with variance 1/(S⁻¹)ᵢᵢ.
func farthest(a roomful.Athlete, ab *roomful.Abilities, lex roomful.Lexicon) (test roomful.Test, off, sds float64) {
	rs := readings(a, ab, lex)
	for i := range rs {
		rs[i].noise = math.Hypot(rs[i].noise, rs[i].keep)
	}
	if len(rs) == 0 {
		return "", 0, 0
	}
	p := newPosterior(ab, rs)
	for i, row := range p.inverse {
		t := testOf(rs[i].label)
		gap := dot(row, p.gap) / row[i]
		if z := gap * math.Sqrt(row[i]); doubtful(t, z) && math.Abs(z) > math.Abs(sds) {
			test, off, sds = t, gap, z
		}
	}
	return test, off, sds
}

// doubtful reports whether a figure that far off may be an error at all. Few
// repetitions are never doubted: skills take practice. Nor is a rope.
func doubtful(t roomful.Test, sds float64) bool {
	switch t {
	case roomful.TestPullUps, roomful.TestPushUps, roomful.TestSitUps, roomful.TestBurpees:
		return sds > 0
	case roomful.TestDoubleUnders, "":
		return false
	}
	return true
}

// wordsOf returns the words for a test.
func wordsOf(t roomful.Test) string {
	for _, x := range tests {
		if x.test == t {
			return x.words
		}
	}
	return string(t)
}

// testOf returns the test that words are for; empty for a skill.
func testOf(words string) roomful.Test {
	for _, x := range tests {
		if x.words == words {
			return x.test
		}
	}
	return ""
}

// figure writes a test's value as the person would.
func figure(a roomful.Athlete, t roomful.Test, v float64) string {
	switch t {
	case roomful.TestPullUps, roomful.TestPushUps, roomful.TestSitUps, roomful.TestBurpees, roomful.TestDoubleUnders:
		return roomful.Figure(math.Round(v))
	case roomful.TestRow2k, roomful.TestRun5k:
		return roomful.Clock(v)
	case roomful.TestVO2max:
		return roomful.Figure(math.Round(v)) + " mL/kg/min"
	}
	if v <= 0 {
		return roomful.Figure(v) + " kg"
	}
	return a.Own(v)
}

// expectedFigure writes what a figure was expected to be when its reading lies
// gap above that, as the person would.
func expectedFigure(a roomful.Athlete, t roomful.Test, gap float64, ab *roomful.Abilities) string {
	v, _ := a.Measured(t)
	tr, ok := trialOf(t, ab)
	if !ok {
		return figure(a, t, v*math.Exp(-gap))
	}
	reserve := ab.Dims[ab.Index(roomful.CapReserve)].Centre
	logOxygen, _ := tr.oxygen(v, reserve)
	return figure(a, t, tr.seconds(logOxygen-gap, reserve))
}
