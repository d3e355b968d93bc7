package exchange

import (
	"slices"
	"strings"
)

// nearest returns the candidate that word was most likely meant to be, or ""
// when none is near: at most one slip in four letters, and one in short words.
func nearest(word string, candidates []string) string {
	word = strings.ToLower(word)
	best, least := "", 1+max(1, len([]rune(word))/4)
	for _, c := range candidates {
		if d := slips(word, strings.ToLower(c)); d < least {
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

// slips counts the letters to insert, drop, change or exchange with their
// neighbour to turn a into b (optimal string alignment).
func slips(a, b string) int {
	x, y := []rune(a), []rune(b)
	two, one := make([]int, len(y)+1), make([]int, len(y)+1)
	for j := range one {
		one[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row := make([]int, len(y)+1)
		row[0] = i
		for j := 1; j <= len(y); j++ {
			cost := 1
			if x[i-1] == y[j-1] {
				cost = 0
			}
			row[j] = min(one[j]+1, row[j-1]+1, one[j-1]+cost)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], two[j-2]+1)
			}
		}
		two, one = one, row
	}
	return one[len(y)]
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
