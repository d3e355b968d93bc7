package prior_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"roomful"
	"roomful/prior"
)

// anybody draws a person of whom anything may have been typed.
func anybody(t *rapid.T) roomful.Athlete {
	odd := rapid.OneOf(rapid.Float64(), rapid.Float64Range(0, 2000), rapid.SampledFrom([]float64{0, -1, math.NaN(), math.Inf(1)}))
	p := roomful.Athlete{
		Division: rapid.SampledFrom([]roomful.Division{a, b, roomful.AnyDivision}).Draw(t, "division"),
		Born:     roomful.Date{Year: rapid.SampledFrom([]int{0, 1, 1880, 1950, 1990, 2015, 2099}).Draw(t, "born")},
		MassKg:   odd.Draw(t, "mass"),
		HeightCm: odd.Draw(t, "height"),
	}
	if rapid.Bool().Draw(t, "trained") {
		months := odd.Draw(t, "months")
		p.Months = &months
	}
	for _, k := range everything() {
		switch rapid.IntRange(0, 3).Draw(t, string(k.Test)) {
		case 0:
			p.Known = append(p.Known, kg(k.Test, odd.Draw(t, "odd")))
		case 1:
			p.Known = append(p.Known, kg(k.Test, k.Value*rapid.Float64Range(0.2, 4).Draw(t, "factor")))
		}
	}
	for _, id := range []roomful.MovementID{"pull-up", "handstand-hold", "double-under", "snatch", "no-such-thing"} {
		p.Skills = append(p.Skills, roomful.SkillLevel{Movement: id, Level: rapid.SampledFrom([]roomful.Level{0, 1, 2, 3}).Draw(t, "level")})
	}
	return p
}

// Whatever is typed, every capacity stays a number with a spread that a
// population could have, the same each time, and doubts end.
func TestAnythingTypedGivesAbilities(t *testing.T) {
	lex := moving()
	rapid.Check(t, func(t *rapid.T) {
		p := anybody(t)
		ab := prior.Of(p, lex, day)
		again := prior.Of(p, lex, day)
		for i, d := range ab.Dims {
			if sd := d.SD(); math.IsNaN(d.Centre) || math.IsInf(d.Centre, 0) || !(sd > 0 && sd < 3) {
				t.Fatalf("%s: centre %v, spread %v", d.Capacity, d.Centre, sd)
			}
			if d.Centre != again.Dims[i].Centre {
				t.Fatalf("%s: %v and %v", d.Capacity, d.Centre, again.Dims[i].Centre)
			}
		}
		if n := len(prior.Doubts(p, lex, day)); n > 25 {
			t.Fatalf("%d doubts", n)
		}
	})
}
