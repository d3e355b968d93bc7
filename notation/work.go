package notation

import (
	"roomful"
)

// workLine reads a line of work: a new piece that needs no head, a slot, or
// elements and clauses.
func (p *parser) workLine(l *line) {
	pt := p.part
	if p.looseHead(l) {
		return
	}
	c := at(l)
	if n, ok := p.slotKey(&c); ok {
		pt.slot, pt.slotIndent, pt.slotOpen, pt.slotted = n, l.indent, c.done(), true
		if l.tokens[0].kind == word && l.tokens[0].text[0] != 's' && pt.oddEven.isZero() {
			pt.oddEven = l.span(0, c.i)
		}
		if !c.done() {
			p.elements(l, c)
		}
		return
	}
	if pt.slot != 0 && !pt.slotOpen && l.indent <= pt.slotIndent {
		pt.slot = 0
	}
	if joined := c; joined.takeAny(joiners...) && joined.done() {
		p.then = true
		return
	}
	if p.partLabel(l) {
		return
	}
	if p.aside(l) {
		return
	}
	p.elements(l, c)
}

// partLabel = "part" letter [ ":" ] .
// The letter is kept for the piece that follows.
func (p *parser) partLabel(l *line) bool {
	c := at(l)
	if !c.take("part") {
		return false
	}
	letter := c.peek(0)
	c.i++
	c.mark(":")
	if !c.done() || letter.kind != word || len(letter.text) != 1 || letter.text[0] > 'h' {
		return false
	}
	p.nextLabel = letter.text
	return true
}

// joiners lead from one piece to the next without a pause.
var joiners = []string{"then straight into", "straight into", "directly into", "then into", "into", "then", "followed by"}

// slotKey = ( "odd" | "even" | [ "min" | "minute" | "station" ] n ) ":" .
func (p *parser) slotKey(c *cursor) (n int, ok bool) {
	from := c.i
	if c.takeAny("odd minutes", "odd minute", "odd min", "odds", "odd") {
		n = 1
	} else if c.takeAny("even minutes", "even minute", "even min", "evens", "even") {
		n = 2
	}
	if n == 0 {
		named := c.takeAny("min", "minute", "mins", "station", "slot", "interval")
		t := c.peek(0)
		if t.kind != number || t.value != float64(int(t.value)) || named && t.value > 60 {
			c.i = from
			return 0, false
		}
		n = int(t.value)
		c.i++
		if !c.mark(":") && !(named && (c.mark("-") || c.mark(")"))) {
			c.i = from
			return 0, false
		}
		return n, true
	}
	if c.mark(":") || c.mark("-") || c.done() {
		return n, true
	}
	c.i = from
	return 0, false
}

// aside keeps a line of prose, or one with a label of its own ("Rx+: 70/50 kg"),
// as a note.
func (p *parser) aside(l *line) bool {
	if !p.labelled(l) && !prose(l) && !p.remarked(l) {
		return false
	}
	pt := p.part
	pt.notes = append(pt.notes, l.text(0))
	p.hint(l.whole(), quote(l.text(0))+" is kept as a note", "write note: before it to keep this quiet")
	return true
}

// remarked reports whether a short line is a remark rather than a misspelt
// movement: it has no figure, several words, and is like no name.
func (p *parser) remarked(l *line) bool {
	if !scored(p.part.kind) || len(l.tokens) < 2 {
		return false
	}
	words := 0
	for _, t := range l.tokens {
		switch {
		case figureKind(t), t.text == ";", t.text == "@", t.text == ",", t.text == "+":
			return false
		case t.kind == word:
			words++
		}
	}
	closed := l.tokens[len(l.tokens)-1]
	if words < 3 && !(words == 2 && (closed.text == "!" || closed.text == ".")) {
		return false
	}
	r := p.probe(at(l), false)
	r.run()
	if len(r.elements) != 1 || r.elements[0].move != nil || r.elements[0].Amount.Unit != roomful.Rep || r.f.structured() {
		return false
	}
	return len(p.near(r.elements[0].Words)) == 0
}

// labelled reports whether a line begins with a word that names neither a
// movement nor anything else, and a colon.
func (p *parser) labelled(l *line) bool {
	for i, t := range l.tokens {
		switch {
		case t.text == ":" && i > 0:
			_, n := p.match(at(l))
			r := p.probe(at(l), false)
			return n < i && r.division(l.words[0], true) == 0 && !r.clause()
		case t.kind != word && t.text != "+" || i > 3:
			return i == 1 && l.words[0] == "rx"
		}
	}
	return len(l.tokens) <= 2 && l.words[0] == "rx"
}

// prose reports whether a line is a sentence rather than an element: it begins
// with no figure, and is long or ends like a sentence.
func prose(l *line) bool {
	first, last := l.tokens[0], l.tokens[len(l.tokens)-1]
	if figureKind(first) || len(l.tokens) < 4 {
		return false
	}
	words := 0
	for _, t := range l.tokens {
		if t.kind == number || t.kind == clock || t.text == ";" || t.text == "@" {
			return false
		}
		if t.kind == word {
			words++
		}
	}
	return words > 8 || words > 3 && (last.text == "." || last.text == "!" || last.text == "?")
}

// placeSuffix sorts out "3 rounds of" among the lines: those before are the
// once, those after it the round, and what comes back to the left is the last.
func (p *parser) placeSuffix(l *line, r *reading) {
	pt := p.part
	if pt.kind != roomful.Main || pt.block != inRound {
		return
	}
	inner := r.f.rounds.set() || !r.f.ladderAt.isZero()
	outer := pt.facts.rounds.set() || !pt.facts.ladderAt.isZero() || pt.facts.interval.set()
	switch {
	case inner && !outer && len(pt.round) > 0 && len(pt.once) == 0:
		pt.once, pt.round = pt.round, nil
		pt.nested = l.indent
		p.hint(l.whole(), "the lines above are read as once, those below as the round", "write once: and round: to say so")
	case pt.nested >= 0 && len(pt.round) > 0 && (l.indent <= pt.nested && pt.round[0].indent > pt.nested || l.words[0] == "then"):
		pt.block, pt.blockIndent, pt.filled, pt.deeper = inLast, l.indent-1, false, true
		p.hint(l.whole(), "read as last, after the rounds", "write last: to say so")
	}
	for i := range r.elements {
		r.elements[i].indent = l.indent
	}
}
