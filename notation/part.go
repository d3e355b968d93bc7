package notation

import (
	"roomful"
)

// openPart is a part with what tells where its next lines belong.
type openPart struct {
	*part
	block       block // what the next lines belong to
	blockIndent int
	filled      bool // the line of the block's key had content
	deeper      bool // lines further right have followed it
	nested      int  // indent of "3 rounds of" within the piece, -1 when none

	slot, slotIndent int
	slotOpen         bool // the slot's own line was empty
}

// block is a block of a part.
type block uint8

const (
	inRound block = iota
	inOnce
	inLast
	inStandards
	inInstead
	inNote
)

// kinds are the words that begin a part.
var kinds = []struct {
	word string
	kind roomful.PartKind
}{
	{"warm-up", roomful.WarmUp}, {"warmup", roomful.WarmUp}, {"general warm-up", roomful.WarmUp}, {"warm up", roomful.WarmUp},
	{"ramp up", roomful.Ramp}, {"ramp", roomful.Ramp}, {"primer", roomful.Ramp},
	{"strength work", roomful.Strength}, {"strength", roomful.Strength}, {"lift", roomful.Strength}, {"lifting", roomful.Strength},
	{"main piece", roomful.Main}, {"main", roomful.Main}, {"the workout", roomful.Main}, {"workout", roomful.Main}, {"conditioning", roomful.Main}, {"piece", roomful.Main},
	{"mobility", roomful.Mobility}, {"cool-down", roomful.Mobility}, {"cooldown", roomful.Mobility}, {"cool down", roomful.Mobility},
}

// head = kind [ letter ] [ ":" | "-" ] { clause } [ line ] .
func (p *parser) head(l *line) bool {
	c := at(l)
	c.take("then")
	for _, k := range kinds {
		from := c.i
		if !c.take(k.word) {
			continue
		}
		letter := c.pieceLetter()
		if !p.headEnds(&c, letter != "") {
			c.i = from
			continue
		}
		p.begin(l, k.kind, letter)
		p.part.explicit = true
		r := p.readerOf(c, true)
		r.scored = scored(k.kind)
		r.run()
		p.absorb(r)
		return true
	}
	return false
}

// headEnds reports whether what follows a kind shows that it is a head: a mark,
// the end, a figure, or a word of a format.
func (p *parser) headEnds(c *cursor, lettered bool) bool {
	if c.mark(":") || lettered || c.done() {
		return true
	}
	t := c.peek(0)
	if t.kind == mark || figureKind(t) || t.kind == junk {
		c.mark("-")
		return true
	}
	probe := p.probe(*c, true)
	probe.run()
	return probe.f.structured() || len(probe.elements) > 0 && probe.elements[0].move != nil && probe.elements[0].at.col == t.col
}

// begin starts a part.
func (p *parser) begin(l *line, kind roomful.PartKind, letter string) {
	label := l.letter
	if label == "" {
		label, p.nextLabel = p.nextLabel, ""
	}
	p.part = &openPart{part: &part{kind: kind, letter: letter, label: label, head: l.whole(), line: l.no}, nested: -1}
	p.part.facts.then, p.then = p.then, false
	p.parts = append(p.parts, p.part.part)
	p.ladderPart = false
}

// list returns the elements that lines are added to.
func (pt *openPart) list() *[]drafted {
	switch pt.block {
	case inOnce:
		return &pt.once
	case inLast:
		return &pt.last
	}
	return &pt.round
}

// partLine reads a line within a part.
func (p *parser) partLine(l *line) {
	pt := p.part
	p.leaveBlock(l)
	if p.blockKey(l) {
		return
	}
	switch pt.block {
	case inStandards:
		p.standard(l, at(l))
	case inInstead:
		p.insteadLine(l, at(l))
	case inNote:
		pt.notes = append(pt.notes, l.text(0))
	default:
		p.workLine(l)
	}
}
