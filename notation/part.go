package notation

import (
	"strings"

	"roomful"
)

// part is a part while it is read.
type part struct {
	kind     roomful.PartKind
	letter   string
	label    string // the letter of a list before it, as in "B) AMRAP 12"
	facts    facts
	head     span
	line     int
	explicit bool // a head was written
	counts   roomful.Unit

	once, round, last []drafted
	standards         []roomful.Standard
	instead           []roomful.Instead
	standardAt        []span
	insteadAt         []span
	notes             []string

	block       block // what the next lines belong to
	blockIndent int
	filled      bool // the line of the block's key had content
	deeper      bool // lines further right have followed it
	nested      int  // indent of "3 rounds of" within the piece, -1 when none

	slot, slotIndent int
	slotOpen         bool // the slot's own line was empty
	slotted          bool // a slot was written
	oddEven          span // the first slot called odd or even
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

// pieceLetter takes the letter of a piece.
func (c *cursor) pieceLetter() string {
	t := c.peek(0)
	if t.kind == word && len(t.text) == 1 && t.text[0] >= 'a' && t.text[0] <= 'h' && (c.peek(1).text == ":" || c.peek(1).kind == end) {
		c.i++
		return t.text
	}
	return ""
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

// scored reports whether parts of a kind have a score.
func scored(k roomful.PartKind) bool { return k == roomful.Strength || k == roomful.Main }

// begin starts a part.
func (p *parser) begin(l *line, kind roomful.PartKind, letter string) {
	label := l.letter
	if label == "" {
		label, p.nextLabel = p.nextLabel, ""
	}
	p.part = &part{kind: kind, letter: letter, label: label, head: l.whole(), line: l.no, nested: -1}
	p.part.facts.then, p.then = p.then, false
	p.parts = append(p.parts, p.part)
	p.ladderPart = false
}

// absorb adds what a line says to the part: clauses to its facts, elements to
// the block that lines belong to now.
func (p *parser) absorb(r *reading) {
	pt := p.part
	pt.facts.merge(r.f, p.clash)
	p.ladderPart = p.ladderPart || !r.f.ladderAt.isZero()
	if r.counts != roomful.Rep {
		pt.counts = r.counts
	}
	for _, in := range r.instead {
		pt.instead = append(pt.instead, in)
		pt.insteadAt = append(pt.insteadAt, r.c.whole())
	}
	list := pt.list()
	for _, d := range r.elements {
		d.label = r.c.label
		if r.c.letter != "" && d.label == 0 {
			d.label = int(r.c.letter[0]-'a') + 1
		}
		d.Slot = pt.slot
		switch {
		case d.move != nil || d.Words != "" && plainName(d.Words):
		case d.Words == "" && len(*list) > 0 && (*list)[len(*list)-1].move != nil && (d.Amount.Stated() || d.Load != nil):
			p.inherit(&d, list)
		default:
			p.noMovement(&d)
			continue
		}
		*list = append(*list, d)
	}
}

// noMovement keeps an element that says how much but not of what.
func (p *parser) noMovement(d *drafted) {
	var words []string
	for _, text := range [...]string{amountText(d.Amount), d.Words, loadText(d.Element), heightText(d.Heights), d.Note} {
		if text != "" {
			words = append(words, text)
		}
	}
	if d.Amount.Stated() || d.Load != nil || d.Words != "" {
		p.say(p.severity(), d.at, "no movement is named", "kept as a note", "write what is done, such as 10 burpees")
	}
	p.part.notes = append(p.part.notes, strings.Join(words, " "))
}

// plainName reports whether unknown words can stand as the name of an element:
// they do not begin like a head, a format or a unit.
func plainName(s string) bool {
	first, _, _ := strings.Cut(plain(s), " ")
	_, unit := unitWords[first]
	return !reserved[first] && !formatHints[first] && !little[first] && !leadIns[first] && !unit
}

// inherit gives "3 @ 80 %" the movement of the line before. A movement named at
// the head alone gives way to the lines that say how much.
func (p *parser) inherit(d *drafted, list *[]drafted) {
	last := (*list)[len(*list)-1]
	if d.Amount.Stated() && d.Amount.Unit == roomful.Rep && !counts(last.move, roomful.Rep) {
		if d.Amount.Unit = last.Amount.Unit; d.Amount.Unit == roomful.Rep {
			d.Amount.Unit = last.move.Units[0]
		}
		p.warn(d.at, "no unit: read as "+d.Amount.Unit.String(), "add the unit")
	}
	d.move, d.Movement, d.Words, d.nameAt = last.move, last.Movement, last.Words, last.nameAt
	if !last.Amount.Stated() && last.Load == nil && last.Note == "" && (last.fromHead || last.Line != d.Line) {
		*list = (*list)[:len(*list)-1]
	}
}

// list returns the elements that lines are added to.
func (pt *part) list() *[]drafted {
	switch pt.block {
	case inOnce:
		return &pt.once
	case inLast:
		return &pt.last
	}
	return &pt.round
}

// empty reports whether no line of the part was read yet.
func (pt *part) empty() bool { return len(pt.once)+len(pt.round)+len(pt.last) == 0 }

// pause closes an unindented block at an empty line.
func (p *parser) pause() {
	if pt := p.part; pt != nil && pt.block != inRound && !pt.deeper && (pt.filled || len(*pt.list()) > 0 || pt.block >= inStandards) {
		pt.block = inRound
	}
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

// leaveBlock closes a block when a line stands no further right than its key.
func (p *parser) leaveBlock(l *line) {
	pt := p.part
	if pt.block == inRound {
		return
	}
	switch {
	case l.indent > pt.blockIndent:
		pt.deeper = true
	case pt.deeper, pt.filled:
		pt.block = inRound
	}
}

// blockKeys are the words that begin a block. Those of the first list may stand
// without a colon.
var blockKeys = []struct {
	word  string
	block block
	plain bool
}{
	{"once", inOnce, false}, {"buy-in", inOnce, true}, {"buy in", inOnce, true}, {"start with", inOnce, true},
	{"round", inRound, false}, {"rounds", inRound, false}, {"each round", inRound, false},
	{"last", inLast, false}, {"cash-out", inLast, true}, {"cash out", inLast, true}, {"finish with", inLast, true}, {"finally", inLast, true},
	{"standards", inStandards, false}, {"standard", inStandards, false},
	{"instead", inInstead, false}, {"swaps", inInstead, false},
	{"note", inNote, false}, {"notes", inNote, false},
}

// blockKey = ( "once" | "round" | "last" | "standards" | "instead" | "note" ) ":" [ content ] .
func (p *parser) blockKey(l *line) bool {
	pt := p.part
	for _, k := range blockKeys {
		c := at(l)
		if !c.take(k.word) || !c.mark(":") && !k.plain && !(c.done() && k.block != inNote) {
			continue
		}
		if k.block != inNote {
			c.skipJunk()
		}
		pt.block, pt.blockIndent, pt.filled, pt.deeper = k.block, l.indent, !c.done(), false
		pt.slot, pt.slotOpen, pt.nested = 0, false, -1
		if !c.done() {
			p.blockContent(l, c)
		}
		return true
	}
	return false
}

// blockContent reads what stands on the line of a block's key.
func (p *parser) blockContent(l *line, c cursor) {
	switch pt := p.part; pt.block {
	case inStandards:
		p.standard(l, c)
	case inInstead:
		p.insteadLine(l, c)
	case inNote:
		pt.notes = append(pt.notes, l.text(c.i))
	default:
		p.elements(l, c)
	}
}

// elements reads elements, and clauses between them, into the current block.
func (p *parser) elements(l *line, c cursor) {
	r := p.readerOf(c, false)
	r.scored = scored(p.part.kind)
	r.repsKnown = p.part.facts.reps.set()
	r.run()
	p.multiply(r)
	p.placeSuffix(l, r)
	p.absorb(r)
}

// multiply reads "4 x 25 m" within a piece that has a format of its own as the
// whole amount.
func (p *parser) multiply(r *reading) {
	pt, f := p.part, &r.f
	if !f.times.set() || f.work.set() || len(r.elements) != 1 || f.times.n < 1 || f.times.n > 200 || scored(pt.kind) && !pt.facts.timedFormat() && !pt.facts.rounds.set() {
		return
	}
	d := &r.elements[0]
	if f.reps.set() && !d.Amount.Stated() {
		d.Amount = roomful.Amount{By: []float64{float64(f.reps.n)}}
	}
	if !d.Amount.Stated() {
		return
	}
	for i := range d.Amount.By {
		d.Amount.By[i] *= float64(f.times.n)
	}
	p.hint(f.times.at, "read as "+amountText(d.Amount)+" in all", "write the whole amount")
	f.times, f.reps = count{}, count{}
}

// standard = movement ":" text .
func (p *parser) standard(l *line, c cursor) {
	pt := p.part
	m, n := p.match(c)
	if m == nil {
		stop := c.i
		for stop < c.last && l.tokens[stop].text != ":" {
			stop++
		}
		p.unknown(roomful.Warning, l.span(c.i, stop), l.slice(c.i, stop))
		pt.notes = append(pt.notes, l.text(c.i))
		return
	}
	at := l.span(c.i, c.i+n)
	c.i += n
	c.mark(":")
	c.mark("-")
	c.mark(",")
	pt.standards = append(pt.standards, roomful.Standard{Movement: m.ID, Text: l.text(c.i)})
	pt.standardAt = append(pt.standardAt, at)
}

// insteadLine = movement ":" element { ";" element } .
func (p *parser) insteadLine(l *line, c cursor) {
	pt := p.part
	from := c.i
	m, n := p.match(c)
	c.i += n
	c.mark("s")
	if m == nil || !c.mark(":") && !c.mark("-") && !c.mark(">") && !c.mark("=") {
		stop := from
		for stop < c.last && l.tokens[stop].text != ":" {
			stop++
		}
		if m != nil {
			p.warn(l.span(from, stop), "nothing follows "+m.Name, "write "+m.Name+": and what may be done instead")
		} else {
			p.unknown(roomful.Fault, l.span(from, stop), l.slice(from, stop))
		}
		pt.notes = append(pt.notes, "instead "+l.text(from))
		return
	}
	c.mark(">")
	entry := roomful.Instead{Movement: m.ID}
	for !c.done() {
		stop := c.i
		for stop < c.last && l.tokens[stop].text != ";" && l.tokens[stop].text != "," && l.words[stop] != "or" {
			stop++
		}
		if stop > c.i {
			entry.Options = append(entry.Options, p.option(l, cursor{line: l, i: c.i, last: stop})...)
		}
		c.i = min(stop+1, c.last)
	}
	pt.instead = append(pt.instead, entry)
	pt.insteadAt = append(pt.insteadAt, l.span(from, from+n))
}

// option reads one movement that may be done instead. What stands in brackets is
// its note.
func (p *parser) option(l *line, c cursor) []roomful.Element {
	note := ""
	for i := c.i; i < c.last; i++ {
		if l.tokens[i].text == "(" {
			note = strings.Trim(l.slice(i+1, c.last), " ()[]{}")
			c.last = i
			break
		}
	}
	r := p.readerOf(c, false)
	r.run()
	var out []roomful.Element
	for _, d := range r.elements {
		if d.Movement == "" {
			p.unknown(p.severity(), d.nameAt, d.Words)
		}
		out = append(out, d.Element)
	}
	if len(out) > 0 && note != "" {
		last := &out[len(out)-1]
		if last.Note != "" {
			note = last.Note + ", " + note
		}
		last.Note = note
	}
	return out
}

// severity is that of an unknown movement in the current part.
func (p *parser) severity() roomful.Severity {
	if scored(p.part.kind) {
		return roomful.Fault
	}
	return roomful.Hint
}
