package score

import (
	"math"
	"slices"

	"roomful"
)

// plain is the probability of having improved where no forecast is needed: harder or
// equal in every way with a score at least as good is better, and the other way round.
// Else it is NaN.
func (c Comparer) plain(out roomful.Comparison) float64 {
	if math.IsNaN(out.Difference) || out.Tier == roomful.TierDifferent && len(out.Earlier.Done.Work.All()) != len(out.Later.Done.Work.All()) {
		return math.NaN()
	}
	if otherPiece(out.Earlier.Done, out.Later.Done) != "" || len(out.Earlier.Done.Segments)+len(out.Later.Done.Segments) > 0 ||
		!sameDose(out.Earlier.Done.Dose, out.Later.Done.Dose) {
		return math.NaN()
	}
	harder, easier := 0, 0
	before, now := out.Earlier.Done.Work.All(), out.Later.Done.Work.All()
	for i := range now {
		switch c.harder(before[i], now[i], out.Later.Reading.Kind) {
		case 1:
			harder++
		case -1:
			easier++
		case unclear:
			return math.NaN()
		}
	}
	switch gain := out.Difference * better(out.Later.Reading.Kind); {
	case harder > 0 && easier == 0 && gain >= 0:
		return 1
	case easier > 0 && harder == 0 && gain <= 0:
		return 0
	}
	return math.NaN()
}

// unclear is neither harder nor easier: another movement, or more of one thing and
// less of another.
const unclear = 2

// harder says whether a line became harder, 1, or easier, -1; 0 is the same.
func (c Comparer) harder(a, b roomful.Task, kind roomful.ScoreKind) int {
	if a.Movement != b.Movement {
		from, to := c.Lexicon.Movement(a.Movement), c.Lexicon.Movement(b.Movement)
		switch {
		case to != nil && slices.Contains(to.Easier, a.Movement):
			return 1
		case from != nil && slices.Contains(from.Easier, b.Movement):
			return -1
		}
		return unclear
	}
	up := false
	down := false
	for _, v := range [][2]float64{{a.LoadKg(), b.LoadKg()}, {a.HeightCm, b.HeightCm}, {a.Amount, b.Amount}} {
		if !near(v[0], v[1]) {
			up, down = up || v[1] > v[0], down || v[1] < v[0]
		}
	}
	switch {
	case up && down, a.Unit != b.Unit:
		return unclear
	case !near(a.Amount, b.Amount) && kind != roomful.TimeScore:
		return unclear // a longer round makes fewer of them
	case up:
		return 1
	case down:
		return -1
	}
	return 0
}
