package prior

import (
	"math"

	"roomful"
)

// tests lists the figures a person may bring along, in the order of a people
// file, with the words used for them and the capacities they speak of first.
var tests = [...]struct {
	test     roomful.Test
	words    string
	capacity roomful.Capacity
}{
	{roomful.TestSquat, "squat", roomful.OneRM(roomful.BackSquat)},
	{roomful.TestDeadlift, "deadlift", roomful.OneRM(roomful.Deadlift)},
	{roomful.TestBench, "bench press", roomful.OneRM(roomful.BenchPress)},
	{roomful.TestPress, "press", roomful.OneRM(roomful.Press)},
	{roomful.TestClean, "clean", roomful.OneRM(roomful.Clean)},
	{roomful.TestSnatch, "snatch", roomful.OneRM(roomful.Snatch)},
	{roomful.TestPullUps, "pull-ups", roomful.OwnMax("pull-up")},
	{roomful.TestPushUps, "push-ups in 2 min", roomful.OwnMax("push-up")},
	{roomful.TestSitUps, "sit-ups in 2 min", roomful.OwnMax("sit-up")},
	{roomful.TestBurpees, "burpees in 3 min", roomful.OwnMax("burpee")},
	{roomful.TestDoubleUnders, "double-unders", roomful.TripLogit("double-under")},
	{roomful.TestRow2k, "2 km row", roomful.CapVO2max},
	{roomful.TestRun5k, "5 km run", roomful.CapVO2max},
	{roomful.TestVO2max, "VO2max", roomful.CapVO2max},
}

// readings returns what the person's figures and skills say of abilities that
// nothing has told yet. A figure that is not a possible one is left out; see
// [Doubts].
func readings(a roomful.Athlete, ab *roomful.Abilities, lex roomful.Lexicon) []reading {
	var rs []reading
	for _, t := range tests {
		v, ok := a.Measured(t.test)
		dim := ab.Index(t.capacity)
		if !ok || dim < 0 || !possible(t.test, v) {
			continue
		}
		rs = append(rs, readTest(t.test, v, dim, ab, lex))
		rs[len(rs)-1].label = t.words
	}
	return append(rs, readSkills(a, ab, lex)...)
}

// slowest is the longest time trial that is reckoned with, in seconds.
const slowest = 5400

// possible reports whether a figure can be reckoned with at all. The quickest
// times lie a little beyond the best ever done (from memory).
func possible(t roomful.Test, v float64) bool {
	switch t {
	case roomful.TestPullUps, roomful.TestPushUps, roomful.TestSitUps, roomful.TestBurpees, roomful.TestDoubleUnders:
		return v >= 0 && v <= 1000
	case roomful.TestVO2max:
		return v > 5 && v <= 100
	case roomful.TestRow2k:
		return v >= 320 && v <= slowest
	case roomful.TestRun5k:
		return v >= 720 && v <= slowest
	default:
		return v > 0 && v <= 1000
	}
}

// readTest returns what one figure says of the capacity at dim.
func readTest(t roomful.Test, v float64, dim int, ab *roomful.Abilities, lex roomful.Lexicon) reading {
	one := []term{{dim, 1}}
	switch t {
	case roomful.TestPullUps:
		return reading{terms: one, value: math.Log(max(v, noneCounts.one())), keep: maximumNoise.one()}
	case roomful.TestPushUps, roomful.TestSitUps, roomful.TestBurpees:
		w, _ := windowOf(t, lex)
		return w.read(v, dim, ab)
	case roomful.TestDoubleUnders:
		return reading{terms: one, value: bestRunLogit(v), noise: bestNoise.one()}
	case roomful.TestRow2k, roomful.TestRun5k:
		tr, _ := trialOf(t, ab)
		return tr.read(v, dim, ab)
	case roomful.TestVO2max:
		return reading{terms: one, value: math.Log(v), noise: oxygenNoise.one()}
	default:
		return reading{terms: one, value: math.Log(v), keep: liftNoise.one()}
	}
}

// bestRunLogit returns the log-odds of a trip behind a best unbroken run. Runs
// are geometric, and the mean run is one over the odds of a trip; the best of a
// few is longer. Somebody without a single one is taken to make one in five.
func bestRunLogit(best float64) float64 {
	return -math.Log(max(best/bestOverMean.one(), 0.25))
}

// spare moves the centre of each body-weight maximum that a figure speaks of so
// far towards it that the surprise left is a moderate one. Many people have none
// or very few of one movement for want of practice; that is the movement's own,
// and must not make them weak in everything.
func spare(a roomful.Athlete, ab *roomful.Abilities, lex roomful.Lexicon) {
	for _, t := range tests {
		v, ok := a.Measured(t.test)
		dim := ab.Index(t.capacity)
		w, windowed := windowOf(t.test, lex)
		if !ok || dim < 0 || !possible(t.test, v) || !windowed && t.test != roomful.TestPullUps {
			continue
		}
		d, told, sure := &ab.Dims[dim], max(v, noneCounts.one()), true
		logN := math.Log(told)
		if windowed {
			logN, sure = w.maximum(told, ab.Dims[ab.Index(roomful.CapSpeed)].Centre)
		}
		gap := logN - d.Centre
		if gap < 0 && !sure {
			continue // the person already does that many
		}
		if beyond := math.Abs(gap) - surpriseSDs.one()*d.SD(); beyond > 0 {
			d.Centre += math.Copysign(beyond, gap)
		}
	}
}

// measured reports whether one of the person's figures speaks of a capacity
// first.
func measured(a roomful.Athlete, c roomful.Capacity) bool {
	for _, t := range tests {
		if v, ok := a.Measured(t.test); t.capacity == c && ok && possible(t.test, v) {
			return true
		}
	}
	return false
}

// Told returns the figure of a people file behind a word that abilities name among
// what informed them, and the capacity it speaks of first; ok is false for anything
// else.
func Told(word string) (t roomful.Test, of roomful.Capacity, ok bool) {
	for _, one := range tests {
		if one.words == word {
			return one.test, one.capacity, true
		}
	}
	return "", "", false
}

// Likeness is the word among what informed abilities for the person that somebody is
// said to be like.
const Likeness = likeness
