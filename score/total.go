package score

import (
	"math"

	"roomful"
)

// counts reports whether an amount is of repetitions or calories.
func counts(u roomful.Unit) bool { return u.Base() == roomful.Rep || u.Base() == roomful.Calorie }

// countOf sums the repetitions and calories of lines; step is the rung of a
// ladder, for lines without an amount.
func countOf(es []roomful.Element, d roomful.Division, step int) int {
	sum := 0.0
	for _, e := range es {
		switch {
		case e.Movement == roomful.Rest:
		case !e.Amount.Stated():
			sum += float64(step)
		case counts(e.Amount.Unit):
			sum += e.Amount.For(d)
		}
	}
	return int(math.Round(sum))
}

// RoundSize returns the repetitions and calories of round n, from 0, as a division
// has it.
func RoundSize(p roomful.Part, d roomful.Division, n int) int {
	step := 0
	switch f := p.Format.(type) {
	case roomful.RoundsInTime:
		step, _ = f.Ladder.Step(n)
	case roomful.ForTime:
		step, _ = f.Ladder.Step(n)
	case roomful.Every:
		return countOf(slot(p.Round, n), d, 0)
	}
	return countOf(p.Round, d, step)
}

// slot returns the lines of interval n, from 0, of alternating ones.
func slot(es []roomful.Element, n int) []roomful.Element {
	last := 0
	for _, e := range es {
		last = max(last, e.Slot)
	}
	if last == 0 {
		return es
	}
	var out []roomful.Element
	for _, e := range es {
		if e.Slot == 0 || e.Slot == n%last+1 {
			out = append(out, e)
		}
	}
	return out
}

// totalOf is what was done in whole rounds and repetitions, once included.
func totalOf(p roomful.Part, d roomful.Division, rounds, reps int) int {
	sum := countOf(p.Once, d, 0) + reps
	for n := range min(rounds, 10_000) {
		sum += RoundSize(p, d, n)
	}
	return sum
}

// wholeOf is all that a piece for time asks for.
func wholeOf(p roomful.Part, f roomful.ForTime, d roomful.Division) int {
	return totalOf(p, d, max(f.Rounds, len(f.Ladder.Steps), 1), 0) + countOf(p.Last, d, 0)
}
