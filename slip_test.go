package roomful_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"roomful"
)

func TestSlips(t *testing.T) {
	for _, k := range []struct {
		from, to string
		want     int
	}{
		{"", "", 0},
		{"", "row", 3},
		{"row", "row", 0},
		{"row", "rows", 1},         // one added
		{"thruster", "thrustr", 1}, // one dropped
		{"clean", "cleen", 1},      // one changed
		{"sqaut", "squat", 1},      // two exchanged
		{"ca", "abc", 3},           // no letter is touched twice: 2 with full Damerau-Levenshtein
		{"½ rack", "a rack", 1},
		{"kitten", "sitting", 3}, // the textbooks' example
		{strings.Repeat("a", 70), strings.Repeat("a", 69) + "b", 1},
	} {
		if got := roomful.Slips(k.from, k.to); got != k.want {
			t.Errorf("%q to %q: %d slips, want %d", k.from, k.to, got, k.want)
		}
	}
}

// TestSlipsEitherWay holds that it is as far back as it is there, that only the
// same word is no slip away, and that no more than the longer word is changed.
func TestSlipsEitherWay(t *testing.T) {
	word := rapid.StringOfN(rapid.RuneFrom([]rune("abcé ")), 0, 80, -1)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		there, back := roomful.Slips(a, b), roomful.Slips(b, a)
		if there != back || (there == 0) != (a == b) || there > max(len([]rune(a)), len([]rune(b))) {
			t.Errorf("%q to %q: %d slips there, %d back", a, b, there, back)
		}
	})
}
