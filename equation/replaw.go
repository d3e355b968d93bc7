package equation

import "math"

// RepLaw is a published law that ties a load, as a share of the one-repetition
// maximum, to the repetitions it allows to failure. The constants name the
// authors; each law stands in its author's file with its range.
//
// All of them were fitted on a few lifts, mostly the bench press and squat, and
// mostly up to 10 repetitions; there the highest maximum is 6 to 8 % above the
// lowest, and 25 % at 15, which a test states. People differ far more: at 80 %
// single persons have been seen to do 5 to 20 repetitions. Show a band.
//
// Meta-regression over 7,289 people (J. L. Nuzzo et al. 2024, Sports Med
// 54:303-321, doi 10.1007/s40279-023-01937-7, abstract read): both the mean
// and the spread of repetitions fall as the share rises, leg press allows more
// than bench press, and sex, age and training matter little. Its table has not
// been read, so it is cited and not computed with.
type RepLaw uint8

// The laws, by author.
const (
	Brzycki RepLaw = iota
	Epley
	Lander
	Lombardi
	Mayhew
	OConner
	Wathen
)

// repLaws holds each law's share for more than one repetition, and its inverse.
var repLaws = [...]struct {
	name  string
	share func(reps float64) float64
	reps  func(share float64) float64
}{
	Brzycki:  {"Brzycki 1993", brzyckiShare, brzyckiReps},
	Epley:    {"Epley 1985", epleyShare, epleyReps},
	Lander:   {"Lander 1985", landerShare, landerReps},
	Lombardi: {"Lombardi 1989", lombardiShare, lombardiReps},
	Mayhew:   {"Mayhew et al. 1992", mayhewShare, mayhewReps},
	OConner:  {"O'Conner et al. 1989", oconnerShare, oconnerReps},
	Wathen:   {"Wathen 1994", wathenShare, wathenReps},
}

// RepLaws lists every law, in the order of their names.
func RepLaws() []RepLaw {
	return []RepLaw{Brzycki, Epley, Lander, Lombardi, Mayhew, OConner, Wathen}
}

// String returns the authors and year.
func (l RepLaw) String() string { return repLaws[l].name }

// Share returns the part of the one-repetition maximum that can be lifted so
// many times; 1 for one repetition whatever the formula says, NaN for fewer and
// where the formula has run out (Brzycki and Lander past 36).
func (l RepLaw) Share(reps float64) float64 {
	switch {
	case !(reps >= 1):
		return math.NaN()
	case reps == 1:
		return 1
	}
	s := repLaws[l].share(reps)
	if s <= 0 {
		return math.NaN()
	}
	return math.Min(s, 1)
}

// OneRM returns the one-repetition maximum that a set to failure suggests, in
// the unit of the load; NaN as [RepLaw.Share].
func (l RepLaw) OneRM(load, reps float64) float64 { return load / l.Share(reps) }

// Reps returns the repetitions to failure at a share of the maximum: 0 above 1,
// at least 1 otherwise, infinite below what the formula can reach (0.522 for
// Mayhew, 0.488 for Wathen).
func (l RepLaw) Reps(share float64) float64 {
	switch {
	case share > 1:
		return 0
	case !(share > 0):
		return math.Inf(1)
	}
	return math.Max(1, repLaws[l].reps(share))
}
