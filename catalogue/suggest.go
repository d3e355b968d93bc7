package catalogue

import (
	"cmp"
	"slices"
	"unicode"

	"roomful"
)

// The limits of a did-you-mean, chosen by trying: further off, it guesses.
const (
	mostSuggestions = 3
	nearEnough      = 0.62 // of 1, which is the same name
	farBehind       = 0.15 // a worse one is not worth saying beside a better
)

// Suggest returns at most three movements whose names are near an unknown one,
// best first. Near is few letters added, dropped, changed or exchanged, or most
// words shared.
func (c *Catalogue) Suggest(name string) []*roomful.Movement {
	words := c.names.words(name)
	for len(words) > 1 && (unicode.IsDigit(rune(words[0][0])) || c.names.ignored[words[0]]) {
		words = words[1:]
	}
	key := squash(name)
	if key == "" {
		return nil
	}
	best := map[*roomful.Movement]float64{}
	for _, s := range c.names.said {
		if near := max(closeness(key, s.key), 0.95*shared(words, s.words)); near > best[s.m] {
			best[s.m] = near
		}
	}
	return rank(best, c.all)
}

// rank returns the nearest movements of those that are near enough, ties in the
// catalogue's order.
func rank(best map[*roomful.Movement]float64, all []*roomful.Movement) []*roomful.Movement {
	var out []*roomful.Movement
	for _, m := range all {
		if best[m] >= nearEnough {
			out = append(out, m)
		}
	}
	slices.SortStableFunc(out, func(a, b *roomful.Movement) int { return cmp.Compare(best[b], best[a]) })
	for i, m := range out {
		if i == mostSuggestions || best[m] < best[out[0]]-farBehind {
			return out[:i]
		}
	}
	return out
}

// closeness is 1 for equal strings and falls with the share of letters to be
// edited.
func closeness(a, b string) float64 {
	longer := max(len(a), len(b))
	if d := len(a) - len(b); d > longer/2 || -d > longer/2 {
		return 0
	}
	return 1 - float64(distance(a, b))/float64(longer)
}

// shared is the share of words that two names have in common, a word within two
// edits of another counting by how near it is.
func shared(a, b []string) float64 {
	if len(a) == 0 || len(b) == 0 {
		return 0
	}
	var sum float64
	for _, w := range a {
		var near float64
		for _, v := range b {
			near = max(near, closeness(w, v))
		}
		if near >= 0.7 {
			sum += near
		}
	}
	return 2 * sum / float64(len(a)+len(b))
}

// distance is the number of letters to add, drop, change or exchange with their
// neighbour to make b of a (optimal string alignment).
func distance(a, b string) int {
	before, prev, row := make([]int, len(b)+1), make([]int, len(b)+1), make([]int, len(b)+1)
	for j := range prev {
		prev[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(prev[j]+1, row[j-1]+1, prev[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, prev, row = prev, row, before
	}
	return prev[len(b)]
}
