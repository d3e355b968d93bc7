package score

import "slices"

// guessWords say that a score is not known exactly.
var guessWords = [][]string{{"i", "think"}, {"think", "i"}, {"lost", "count"}, {"or", "so"}, {"and", "a", "bit"}, {"ish"}, {"approx"}, {"approximately"}, {"roughly"},
	{"may", "have", "been"}, {"might", "have"}, {"give", "or", "take"}, {"+", "/", "-"}, {"c", "."}, {"maybe"}, {"probably"}, {"not", "sure"}, {"guess"}}

// written reads "as written", "rx" and what turns it round: "not rx", "almost rx", "rx except",
// and "scaled".
func (p *parser) written() (yes, no bool) {
	for _, words := range [][]string{{"as", "written"}, {"as", "rx'd"}, {"as", "rx"}, {"rx'd"}, {"rx’d"}, {"rxd"}, {"rx"}} {
		for i := range p.toks {
			if !p.at(i, words) {
				continue
			}
			for j := max(0, i-3); j < i; j++ {
				if p.toks[j].clause == p.toks[i].clause && slices.Contains([]string{"not", "almost", "nearly", "mostly", "half", "isn't", "wasn't", "near"}, p.word(j)) {
					no = true
					p.use(j, i)
				}
			}
			end := i + len(words)
			no = no || slices.Contains(exceptWords, p.word(end)) || p.word(end) == "+" && !p.number(end+1)
			yes = true
			p.use(i, end)
		}
	}
	for i := range p.toks {
		if slices.Contains([]string{"scaled", "sc", "modified", "adapted"}, p.word(i)) {
			no = true
			p.use(i, i+1)
		}
	}
	return yes && !no, no
}

// nothingLost are words behind "no" and "without" that take nothing from the work.
var nothingLost = wordSet(`rep reps no-reps repped repping warm break breaks breaking rest rests resting stop stops stopping pause pauses pausing problem problems issue issues
 band bands miss misses missing drop drops dropping trouble idea watch clock doubt chalk belt grips music warm-up warmup coach help one shoes sleep wait dnf`)

// leftUndone reports whether a word says that something of the work was left out.
func (p *parser) leftUndone() bool {
	for i := range p.toks {
		switch p.word(i) {
		case "skipped", "stopped", "walked":
			return true
		case "only":
			if !p.isClock(i+1) && p.word(i+2) != "+" { // "only 5+20"
				return true
			}
		case "no", "without", "ohne":
			if i+1 < len(p.toks) && p.toks[i+1].kind == wordToken && !nothingLost[p.word(i+1)] {
				return true
			}
		case "half":
			_, named := p.named.from(i + 1)
			if w := p.word(i + 1); w == "the" || w == "of" && p.word(i-1) != "first" && p.word(i-1) != "second" || named {
				return true
			}
		case "left":
			if w := p.word(i + 1); w == "early" || w == "after" {
				return true
			}
		}
	}
	return false
}
