package score_test

import (
	"math"
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/score"
)

// stopped is an attempt at the swings that met a cap with so many done.
func stopped(on int, kg, limit, done float64) roomful.Entry {
	e := swings(on, kg, limit)
	e.Done.Piece.Format = roomful.ForTime{Rounds: 3, Cap: time.Duration(limit) * time.Second}
	e.Done.Capped, e.Done.Counted = true, done
	return e
}

// TestCompareCapped has nobody told a time that they do not have. Who met the cap
// would have taken longer, by nobody knows how much: who finished within it was at
// least so much faster, and a time beyond it says nothing.
func TestCompareCapped(t *testing.T) {
	for _, c := range []struct {
		name           string
		earlier, later roomful.Entry
		tier           roomful.Tier
		difference     float64
		improved       float64
		sentence       string
	}{
		{"the cap, then within it", stopped(1, 24, 700, 30), swings(8, 24, 650), roomful.TierSame, -50, 1, "At least 50 seconds faster than on 1 March, on the same work."},
		{"within it, then the cap", swings(1, 24, 650), stopped(8, 24, 700, 30), roomful.TierSame, 50, 0, "At least 50 seconds slower than on 1 March, on the same work."},
		{"the cap, then on its second", stopped(1, 24, 700, 30), swings(8, 24, 700), roomful.TierSame, -1, 1, "At least 1 second faster than on 1 March, on the same work."},
		{"one cap twice", stopped(1, 24, 700, 30), stopped(8, 24, 700, 32), roomful.TierSame, -2, 1, "2 repetitions more by the cap than on 1 March, on the same work."},
		{"a sooner cap", swings(1, 24, 600), stopped(8, 24, 500, 30), roomful.TierNotComparable, math.NaN(), math.NaN(), "Not comparable with 1 March: the cap of 8:20 came before the earlier time."},
		{"a sooner cap before", stopped(1, 24, 500, 30), swings(8, 24, 600), roomful.TierNotComparable, math.NaN(), math.NaN(), "Not comparable with 1 March: the cap of 8:20 came before the later time."},
		{"two caps", stopped(1, 24, 500, 30), stopped(8, 24, 700, 32), roomful.TierNotComparable, math.NaN(), math.NaN(), "Not comparable with 1 March: both met the cap, once of 8:20 and once of 11:40."},
		{"not kept how far", stopped(1, 24, 500, math.NaN()), stopped(8, 24, 500, 32), roomful.TierNotComparable, math.NaN(), math.NaN(), "Not comparable with 1 March: both met the cap, and how far they came was not kept."},
	} {
		got := compared(t, c.earlier, c.later)
		if got.Tier != c.tier || !equal(got.Difference, c.difference) || !equal(got.Improved, c.improved) || got.Sentence != c.sentence {
			t.Errorf("%s: %s, %v, improved %v: %s", c.name, got.Tier, got.Difference, got.Improved, got.Sentence)
		}
		if one := c.earlier.Done.Capped != c.later.Done.Capped; c.tier == roomful.TierSame && got.AtLeast != one {
			t.Errorf("%s: at least is %v", c.name, got.AtLeast)
		}
	}
}

// TestLaterCapHides says nothing of who met the cap with a heavier bell where the cap
// came before what was due: 600 s with 24 kg are 624 with 28, and the cap was at 610.
// Where they were due well within it they were behind.
func TestLaterCapHides(t *testing.T) {
	if got := compared(t, swings(1, 24, 600), stopped(8, 28, 610, 30)); !math.IsNaN(got.Improved) || !strings.HasPrefix(got.Sentence, "Hard to say which was better") {
		t.Errorf("improved %v: %s", got.Improved, got.Sentence)
	}
	if got := compared(t, swings(1, 24, 600), stopped(8, 28, 700, 30)); got.Improved > 0.01 {
		t.Errorf("624 s were due, and 700 were not enough: improved %v", got.Improved)
	}
}

// TestCompareDose proves nothing by less of the work: two of three rounds with a
// heavier bell are quicker and no better for it.
func TestCompareDose(t *testing.T) {
	fewer := swings(8, 28, 400)
	fewer.Done.Dose.Rounds = 2
	got := compared(t, swings(1, 24, 600), fewer)
	if got.Tier != roomful.TierDifferent || !math.IsNaN(got.Difference) || got.Changed[1] != "2 of the rounds instead of all of it" {
		t.Errorf("%s, %v: %q", got.Tier, got.Difference, got.Changed)
	}
	half, quarter := swings(1, 24, 600), swings(8, 24, 580)
	half.Done.Dose.Work, quarter.Done.Dose.Work = 30*time.Second, 15*time.Second
	if got := compared(t, half, quarter); got.Tier != roomful.TierDifferent || got.Changed[0] != "15 s of each bout instead of 30 s of each bout" {
		t.Errorf("%s: %q", got.Tier, got.Changed)
	}
}

// TestCompareOnTheWay says on which of the days something changed on the way.
func TestCompareOnTheWay(t *testing.T) {
	lighter := func(on int) roomful.Entry {
		e := swings(on, 24, 600)
		e.Done.Segments = []roomful.Segment{{Work: e.Done.Work}, {From: 5 * time.Minute, Work: swings(on, 16, 600).Done.Work, Say: "kettlebell swing at 16 kg from 5:00"}}
		return e
	}
	for _, c := range []struct {
		earlier, later roomful.Entry
		want           string
	}{
		{lighter(1), swings(8, 24, 600), "the same to the end instead of kettlebell swing at 16 kg from 5:00"},
		{swings(1, 24, 600), lighter(8), "kettlebell swing at 16 kg from 5:00 instead of the same to the end"},
	} {
		if got := compared(t, c.earlier, c.later); got.Tier != roomful.TierOneChange || got.Changed[0] != c.want {
			t.Errorf("%s: %q, want %q", got.Tier, got.Changed, c.want)
		}
	}
	if got := compared(t, lighter(1), lighter(8)); got.Tier != roomful.TierSame {
		t.Errorf("the same change on both days: %s, %q", got.Tier, got.Changed)
	}
}

// TestBest is the best at the same work of all attempts, not of the last two.
func TestBest(t *testing.T) {
	c := score.Comparer{Lexicon: lexicon(t)}
	for _, v := range []struct {
		name  string
		tries roomful.Record
		want  float64
	}{
		{"the first of three", roomful.Record{swings(1, 24, 560), swings(8, 24, 600), swings(15, 24, 590)}, 560},
		{"quicker with a lighter bell is other work", roomful.Record{swings(1, 16, 500), swings(8, 24, 600), swings(15, 24, 610)}, 600},
		{"a sooner cap is no better time", roomful.Record{stopped(1, 24, 500, 30), swings(8, 24, 600)}, 600},
		{"alone", roomful.Record{swings(1, 24, 600)}, 600},
	} {
		if got := c.Best(v.tries).Done.Score; got != v.want {
			t.Errorf("%s: %v, want %v", v.name, got, v.want)
		}
	}
}

// equal compares two figures, and two that are not known.
func equal(a, b float64) bool { return a == b || math.IsNaN(a) && math.IsNaN(b) }
