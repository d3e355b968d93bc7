package score

import (
	"slices"

	"roomful"
)

// parted reads "18 42", "18-42", "18;42" and "18h42" after a piece for time, where no time
// stands in the text: minutes and seconds, which it asks about.
func (p *parser) parted(i int) int {
	if p.asked.kind != roomful.TimeScore || p.asked.count > 0 || !p.isNumber(i) || p.toks[i].value >= 100 || p.toks[i].decimals > 0 || p.pairedBefore(i) {
		return 0
	}
	j := i + 1
	j += b2i(slices.Contains([]string{"-", ";", "/", "h", ":"}, p.word(j)))
	if !p.isNumber(j) || len(p.toks[j].text) != 2 || p.toks[j].value >= 60 || p.toks[j].text[1] < '0' || p.toks[j].text[1] > '9' || p.unitAt(j+1) || slices.Contains([]string{"-", "/", "x"}, p.word(j+1)) || p.isNumber(j+1) {
		return 0
	}
	if _, named := p.named.from(j + 1); named || slices.ContainsFunc(p.toks, func(t token) bool { return t.kind == clockToken }) || p.inSpan(i) || p.inSpan(j) {
		return 0
	}
	return p.add(fact{kind: clockFact, a: 60*p.toks[i].value + p.toks[j].value, asks: true}, i, j+1-i)
}

// inSpan reports whether a token belongs to the words of a stretch of the piece.
func (p *parser) inSpan(i int) bool {
	return slices.ContainsFunc(p.when[p.toks[i].clause], func(s spoken) bool { return s.from <= i && i < s.to })
}

// away reads how far somebody was from the end of a piece for time: "9 left at cap", "8 pull-ups
// left", "8 reps short", "one rep short", "missed the cap by 8".
func (p *parser) away(i int) int {
	if p.isNumber(i) {
		j := i + 1 + p.lineAt(i+1)
		if p.word(j) == "left" && p.word(j+1) != "early" {
			return p.add(fact{kind: capFact, a: p.toks[i].value, says: capLeft}, i, j+1-i)
		}
	}
	if p.asked.kind != roomful.TimeScore {
		return 0
	}
	if p.at(i, []string{"missed", "the", "cap", "by"}) && p.isNumber(i+4) {
		return p.add(fact{kind: capFact, a: p.toks[i+4].value, says: capLeft}, i, 5+b2i(slices.Contains(repWords, p.word(i+5))))
	}
	n := 0.0
	switch {
	case p.word(i) == "one":
		n = 1
	case p.isNumber(i):
		n = p.toks[i].value
	}
	j := i + 1
	if k := p.lineAt(j); k > 0 {
		j += k
	} else {
		j += b2i(slices.Contains(repWords, p.word(j)))
	}
	if n == 0 || p.word(j) != "short" {
		return 0
	}
	for j++; slices.Contains([]string{"of", "finishing", "the", "end", "finish"}, p.word(j)); {
		j++
	}
	return p.add(fact{kind: capFact, a: n, says: capLeft}, i, j-i)
}

// atCap gives a cap of which nothing more is said the rounds beside it: "4 rounds at the cap"
// and "4+10 (TC)".
func (p *parser) atCap() {
	which := func(kinds ...factKind) int {
		return slices.IndexFunc(p.facts, func(f fact) bool { return slices.Contains(kinds, f.kind) })
	}
	c, n := which(capFact), which(plusFact, roundsFact)
	if p.asked.kind != roomful.TimeScore || c < 0 || n < 0 || p.facts[c].says != capNothing || n > c {
		return
	}
	f := &p.facts[n]
	f.kind, f.says, f.short = capFact, capRounds, p.facts[c].short
	p.facts = slices.Delete(p.facts, c, c+1)
}
