package score

import "slices"

// stretch is a stretch of tokens, from the first to the one behind the last.
type stretch struct{ from, to int }

// places says where each token of a text stands, so that nobody has to look for it
// again. Some productions still look through the whole text, which [mostBytes] bounds.
type places struct {
	clauses   []stretch // by the number that tokens have
	sentences []int     // the number of the sentence, by token
	free      []int     // words that nothing was made of before figures are read, by clause
}

// placesOf lays out the tokens of a text.
func placesOf(raw string, toks []token) places {
	var at places
	at.sentences = make([]int, len(toks))
	sentence := 0
	for i, t := range toks {
		for len(at.clauses) <= t.clause {
			at.clauses = append(at.clauses, stretch{i, i})
		}
		at.clauses[t.clause].to = i + 1
		if t.text == "then" {
			sentence++
		}
		at.sentences[i] = sentence
		if slices.Contains([]string{".", ";", "|"}, t.text) || t.text == "/" && t.start > 0 && raw[t.start-1] == ' ' {
			sentence++
		}
	}
	return at
}

// clause is the stretch of the clause that token i stands in.
func (p *parser) clause(i int) stretch { return p.clauses[p.toks[i].clause] }

// says reports whether one of the words stands in a stretch.
func (p *parser) says(s stretch, words ...string) bool {
	return slices.ContainsFunc(p.toks[s.from:s.to], func(t token) bool { return slices.Contains(words, t.text) })
}

// bare reports whether a stretch has no word that nothing was made of, links and some
// others left out.
func (p *parser) bare(s stretch, others map[string]bool) bool {
	for i := s.from; i < s.to; i++ {
		if t := &p.toks[i]; t.kind == wordToken && !p.used[i] && !linkWords[t.text] && !others[t.text] {
			return false
		}
	}
	return true
}

// countFree counts the unused words of each clause once changes have been read.
func (p *parser) countFree() {
	p.free = make([]int, len(p.clauses))
	for i, t := range p.toks {
		p.free[t.clause] += b2i(t.kind == wordToken && !p.used[i])
	}
}
