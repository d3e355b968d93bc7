package catalogue

import (
	"cmp"
	"math/bits"
	"slices"
	"unicode"

	"roomful"
)

// The limits of a did-you-mean, chosen by trying: further off, it guesses.
const (
	mostSuggestions = 3
	nearEnough      = 0.7  // of 1, which is the same name
	nearWord        = 0.7  // of 1, for one word to count as another
	farBehind       = 0.15 // a worse one is not worth saying beside a better
	wordsCount      = 0.95 // the same words in another order are nearly the same name
	longest         = 48   // letters of a name; a longer one is no movement
)

// said is one way of writing a movement, as Suggest compares it.
type said struct {
	key   glyphs
	words []int // indices of the vocabulary
	m     *roomful.Movement
}

// glyphs is a squashed word with the set of its letters, which tells cheaply
// that two words are far apart.
type glyphs struct {
	text string
	set  uint64
}

func glyphsOf(s string) glyphs {
	g := glyphs{text: s}
	for i := range len(s) {
		g.set |= 1 << (s[i] & 63)
	}
	return g
}

// Suggest returns at most three movements whose names are near an unknown one,
// best first. Near is few letters added, dropped, changed or exchanged, or most
// words shared.
func (c *Catalogue) Suggest(name string) []*roomful.Movement {
	n := &c.names
	asked := n.words(name)
	for len(asked) > 1 && (unicode.IsDigit(rune(asked[0][0])) || n.ignored[asked[0]]) {
		asked = asked[1:]
	}
	asked = asked[:min(len(asked), maxWords)]
	key := glyphsOf(squash(name))
	if key.text == "" || len(key.text) > longest {
		return nil
	}
	like := n.likeness(asked)
	best := map[*roomful.Movement]float64{}
	for i := range n.said {
		s := &n.said[i]
		near := max(closeness(key, s.key, nearEnough), wordsCount*shared(like, s.words))
		if near >= nearEnough && near > best[s.m] {
			best[s.m] = near
		}
	}
	return rank(best, c.all)
}

// rank returns the nearest movements, ties in the catalogue's order.
func rank(best map[*roomful.Movement]float64, all []*roomful.Movement) []*roomful.Movement {
	if len(best) == 0 {
		return nil
	}
	var out []*roomful.Movement
	for _, m := range all {
		if best[m] > 0 {
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

// likeness gives for each word asked how near each word of the vocabulary is.
func (n *names) likeness(asked []string) [][]float64 {
	like := make([][]float64, len(asked))
	for i, w := range asked {
		like[i] = make([]float64, len(n.vocabulary))
		g := glyphsOf(w)
		for j, v := range n.vocabulary {
			like[i][j] = closeness(g, v, nearWord)
		}
	}
	return like
}

// shared is the share of words that a question and a name have in common.
func shared(like [][]float64, words []int) float64 {
	var sum float64
	for _, l := range like {
		var near float64
		for _, w := range words {
			near = max(near, l[w])
		}
		sum += near
	}
	return 2 * sum / float64(len(like)+len(words))
}

// closeness is 1 for equal words and falls with the share of letters to be
// edited; below a least value it is 0.
func closeness(a, b glyphs, least float64) float64 {
	longer := max(len(a.text), len(b.text))
	limit := int(float64(longer) * (1 - least))
	if longer > longest || longer-min(len(a.text), len(b.text)) > limit ||
		bits.OnesCount64(a.set&^b.set) > limit || bits.OnesCount64(b.set&^a.set) > limit {
		return 0
	}
	d := roomful.Slips(a.text, b.text)
	if d > limit {
		return 0
	}
	return 1 - float64(d)/float64(longer)
}
