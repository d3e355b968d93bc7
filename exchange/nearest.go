package exchange

import (
	"slices"
	"strings"

	"roomful"
)

// nearest returns the candidate that word was most likely meant to be, or ""
// when none is near: at most one slip in four letters, and one in short words.
func nearest(word string, candidates []string) string {
	word = strings.ToLower(word)
	best, least := "", 1+max(1, len([]rune(word))/4)
	for _, c := range candidates {
		if d := roomful.Slips(word, strings.ToLower(c)); d < least {
			best, least = c, d
		}
	}
	return best
}

// didYouMean returns a hint line, or other when nothing is near.
func didYouMean(word string, candidates []string, other string) string {
	if n := nearest(word, candidates); n != "" {
		return "did you mean " + n + "?"
	}
	return other
}

// oneOf writes a list as a choice, "a, b or c".
func oneOf(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	words = slices.Clone(words)
	last := words[len(words)-1]
	return strings.Join(words[:len(words)-1], ", ") + " or " + last
}
