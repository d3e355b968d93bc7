package score

import "slices"

// spans finds the stretches of the piece that each clause speaks of. Where a clause has a
// further figure, the figures of its spans are taken before they can be read as scores: "60
// from round 3", "dropped to 70 at 6:00", "first 3 rounds at 80 then 60".
func (p *parser) spans() {
	p.when = make([][]spoken, len(p.clauses))
	var before []spoken
	for c, clause := range p.clauses {
		figures, turned := 0, p.says(clause, turnWords...) // beside those of the spans
		over := p.says(clause, overWords...)
		for i := clause.from; i < clause.to; i++ {
			s, ok := p.spanAt(i, turned, before)
			if p.used[i] || !ok || s.to > clause.to || over && s.counts(p) {
				figures += b2i(p.isNumber(i) || p.isClock(i))
				continue
			}
			p.when[c], before = append(p.when[c], s), append(before, s)
			i = s.to - 1
		}
		if figures == 0 || over {
			continue
		}
		for k := range p.when[c] {
			if s := &p.when[c][k]; s.figure {
				s.taken = true
				p.use(s.from, s.to)
			}
		}
	}
}

// spanOf is the stretch of the piece that the change or the load said by some tokens was
// for: what is said behind it and before the next figure, else right before it. What
// follows "first round" with "then" begins where that ends. A stretch has one load.
func (p *parser) spanOf(said stretch, load bool) (found span, ok bool) {
	found, s := p.spanNear(said, load)
	if s == nil {
		return span{}, false
	}
	s.claimed, s.held = true, s.held || load && found == s.span
	p.use(s.from, s.to)
	return found, true
}

// spanNear finds the span that spanOf takes.
func (p *parser) spanNear(said stretch, load bool) (span, *spoken) {
	c := p.toks[said.from].clause
	here := p.when[c]
	behind := here
	if next := p.clauseOfSpans(c + 1); len(here) == 0 && next > 0 {
		behind = p.when[next]
	}
	for k := range behind {
		s := &behind[k]
		if s.from < said.to || s.held && load {
			continue
		}
		if load && p.remark(said.to, s) {
			continue // "80 kg felt light in round 1"
		}
		if p.figureIn(said.to, s.from) || p.says(stretch{said.to, s.from}, exceptWords...) || s.since != (point{}) && p.figureSoon(s.to, p.clauses[c].to) {
			break
		}
		return s.span, s
	}
	for k := range slices.Backward(here) {
		s := &here[k]
		switch rest := p.says(stretch{s.to, max(s.to, said.from)}, restWords...); {
		case s.to > said.from:
		case rest && s.until != point{}:
			return span{since: s.until}, s
		case !p.figureIn(s.to, said.from) && !(s.held && load) && !(load && remarkWords[p.word(s.to)]):
			return s.span, s
		}
	}
	return span{}, nil
}

// remarkWords behind a stretch say how it was: "last round was ugly".
var remarkWords = wordSet("was were felt feels is are got went")

// remark reports whether a stretch behind token from is not when a load was held: other words
// stand before it, or it goes on with how it was.
func (p *parser) remark(from int, s *spoken) bool {
	if remarkWords[p.word(s.to)] {
		return true
	}
	for i := from; i < s.from; i++ {
		w := p.toks[i]
		if w.kind == wordToken && !p.used[i] && !p.named.inside(i) && !linkWords[w.text] && !slices.Contains(turnWords, w.text) && !slices.Contains(restWords, w.text) && !slices.Contains(exceptWords, w.text) && w.text != "only" && w.text != "just" && implementWords[w.text] == "" {
			return true
		}
	}
	return false
}

// firstEnd is where a first stretch that is said before a token ends, and takes its words; the
// zero point when none is.
func (p *parser) firstEnd(before int) (until point) {
	for c := range p.when {
		for k := range p.when[c] {
			if s := &p.when[c][k]; s.early() && s.to <= before {
				until, s.claimed = s.until, true
				p.use(s.from, s.to)
			}
		}
	}
	return until
}

// clauseOfSpans is the first clause from c on that has more than marks, when it is no more
// than spans: "24 kg, first round only"; else 0.
func (p *parser) clauseOfSpans(c int) int {
	for ; c < len(p.clauses); c++ {
		at := p.clauses[c]
		for i := at.from; i < at.to; i++ {
			inside := slices.ContainsFunc(p.when[c], func(s spoken) bool { return s.from <= i && i < s.to })
			if w := p.toks[i]; w.kind != markToken && !inside && w.text != "only" && w.text != "just" && !linkWords[w.text] {
				return 0
			}
		}
		if len(p.when[c]) > 0 {
			return c
		}
	}
	return 0
}

// figureIn reports whether a number stands between two tokens.
func (p *parser) figureIn(from, to int) bool {
	return from < to && slices.ContainsFunc(p.toks[from:to], func(t token) bool { return t.kind == numberToken })
}

// figureSoon reports whether a number follows with no more than links before it.
func (p *parser) figureSoon(from, to int) bool {
	for i := from; i < to; i++ {
		switch w := p.toks[i]; {
		case w.kind == numberToken:
			return true
		case !linkWords[w.text] && !slices.Contains(turnWords, w.text) && !slices.Contains(restWords, w.text):
			return false
		}
	}
	return false
}

// unclaim gives the spans that nothing was done for back to the note.
func (p *parser) unclaim() {
	for _, spoken := range p.when {
		for _, s := range spoken {
			if s.taken && !s.claimed {
				p.unuse(s.from, s.to)
			}
		}
	}
}
