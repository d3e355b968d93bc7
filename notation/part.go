package notation

import (
	"roomful"
	"roomful/notation/internal/phrase"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/settle"
	"roomful/notation/internal/vocab"
)

// openPart is a part with what tells where its next lines belong.
type openPart struct {
	*settle.Part
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
	{"warm-up", roomful.WarmUp}, {"warmup", roomful.WarmUp}, {"general warm-up", roomful.WarmUp}, {"wu", roomful.WarmUp}, {"w/u", roomful.WarmUp}, {"warm up", roomful.WarmUp},
	{"ramp up", roomful.Ramp}, {"ramp", roomful.Ramp}, {"primer", roomful.Ramp},
	{"strength work", roomful.Strength}, {"strength", roomful.Strength}, {"lift", roomful.Strength}, {"lifting", roomful.Strength},
	{"main piece", roomful.Main}, {"main", roomful.Main}, {"the workout", roomful.Main}, {"workout", roomful.Main}, {"conditioning", roomful.Main}, {"piece", roomful.Main},
	{"mobility", roomful.Mobility}, {"cool-down", roomful.Mobility}, {"cooldown", roomful.Mobility}, {"cool down", roomful.Mobility},
}

// head = kind [ letter ] [ ":" | "-" ] { clause } [ line ] .
func (p *parser) head(l *scan.Line) bool {
	c := scan.Over(l)
	c.Take("then")
	for _, k := range kinds {
		from := c.I
		if !c.Take(k.word) {
			continue
		}
		letter := c.PieceLetter()
		if !p.headEnds(&c, letter != "") {
			c.I = from
			continue
		}
		p.begin(l, k.kind, letter)
		p.part.Explicit = true
		r := p.ReaderOf(c, true)
		r.Scored = vocab.Scored(k.kind)
		r.Run()
		p.absorb(r)
		return true
	}
	return false
}

// headEnds reports whether what follows a kind shows that it is a head: a mark,
// the end, a figure, or a word of a format.
func (p *parser) headEnds(c *scan.Cursor, lettered bool) bool {
	if c.Mark(":") || lettered || c.Done() {
		return true
	}
	t := c.Peek(0)
	if t.Kind == scan.Mark || scan.FigureKind(t) || t.Kind == scan.Junk {
		c.Mark("-")
		return true
	}
	probe := p.Probe(*c, true)
	probe.Run()
	return probe.F.Structured() || len(probe.Elements) > 0 && probe.Elements[0].Move != nil && probe.Elements[0].At.Col == t.Col
}

// begin starts a part.
func (p *parser) begin(l *scan.Line, kind roomful.PartKind, letter string) {
	label := l.Letter
	if label == "" {
		label, p.nextLabel = p.nextLabel, ""
	}
	p.part = &openPart{Part: &settle.Part{Kind: kind, Letter: letter, Label: label, Head: l.Whole(), Line: l.No}, nested: -1}
	p.part.Facts, p.early = p.early, phrase.Facts{}
	p.part.Facts.Then, p.then = p.then, false
	p.Parts = append(p.Parts, p.part.Part)
	p.LadderPart = false
}

// list returns the elements that lines are added to.
func (pt *openPart) list() *[]phrase.Element {
	switch pt.block {
	case inOnce:
		return &pt.Once
	case inLast:
		return &pt.Last
	}
	return &pt.Round
}

// partLine reads a line within a part.
func (p *parser) partLine(l *scan.Line) {
	pt := p.part
	p.leaveBlock(l)
	if p.blockKey(l) {
		return
	}
	switch pt.block {
	case inStandards:
		p.standard(l, scan.Over(l))
	case inInstead:
		p.insteadLine(l, scan.Over(l))
	case inNote:
		pt.Notes = append(pt.Notes, l.Text(0))
	default:
		p.workLine(l)
	}
}
