package score

import "slices"

// ordinals are rounds by their place.
var ordinals = map[string]int{"first": 1, "1st": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "erste": 1, "ersten": 1, "zweite": 2, "zweiten": 2, "dritte": 3, "dritten": 3}

// ordinal reads "third" and "3rd" at token i: which place, and how many tokens say it.
func (p *parser) ordinal(i int) (n, tokens int) {
	if n = ordinals[p.word(i)]; n > 0 {
		return n, 1
	}
	if p.isNumber(i) && i+1 < len(p.toks) && p.toks[i+1].glued && ordinalEnds[p.word(i+1)] {
		return p.whole(i), 2
	}
	return 0, 0
}

// pointAt reads a place in the piece that begins at token i, "round 3", "the third round",
// "10:00", "min 7", "about halfway"; long is how many seconds it lasts, when it does, and end the
// token behind it, i when there is none.
func (p *parser) pointAt(i int) (at point, long float64, end int) {
	j := i
	for slices.Contains([]string{"about", "around", "roughly", "~", "the"}, p.word(j)) {
		j++
	}
	rounds := func(k int) bool { return slices.Contains(roundWords, p.word(k)) }
	minutes := func(k int) bool { return slices.Contains(minWords, p.word(k)) }
	switch n, tokens := p.ordinal(j); {
	case halfWords[p.word(j)]:
		return point{half: true}, 0, j + 1 + b2i(p.word(j+1) == "way")
	case p.isClock(j):
		return point{seconds: p.toks[j].value}, 0, j + 1
	case rounds(j) && p.isNumber(j+1):
		return startOf(p.whole(j + 1)), 0, j + 2
	case minutes(j) && p.isNumber(j+1):
		return point{seconds: 60 * (p.toks[j+1].value - 1)}, 60, j + 2
	case tokens > 0 && (rounds(j+tokens) || p.word(j+1) == "one" || tokens == 2 || j > i):
		return startOf(n), 0, j + tokens + b2i(rounds(j+tokens) || p.word(j+tokens) == "one")
	case slices.Contains(lastWords, p.word(j)) && rounds(j+1):
		return point{last: 1}, 0, j + 2
	case slices.Contains(lastWords, p.word(j)) && p.isNumber(j+1):
		return point{last: p.whole(j + 1)}, 0, j + 2 + b2i(rounds(j+2))
	case p.isNumber(j) && minutes(j+1):
		return point{seconds: 60 * p.toks[j].value}, 0, j + 2
	}
	return point{}, 0, i
}
