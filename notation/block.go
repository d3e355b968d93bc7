package notation

import (
	"strings"

	"roomful"
)

// pause closes an unindented block at an empty line.
func (p *parser) pause() {
	if pt := p.part; pt != nil && pt.block != inRound && !pt.deeper && (pt.filled || len(*pt.list()) > 0 || pt.block >= inStandards) {
		pt.block = inRound
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
		stop := optionEnd(l, c)
		if stop > c.i {
			entry.Options = append(entry.Options, p.option(l, cursor{line: l, i: c.i, last: stop})...)
		}
		c.i = min(stop+1, c.last)
	}
	pt.instead = append(pt.instead, entry)
	pt.insteadAt = append(pt.insteadAt, l.span(from, from+n))
}

// optionEnd returns where an option ends: at a semicolon, or at a comma or "or"
// that stands in no brackets.
func optionEnd(l *line, c cursor) int {
	open := false
	for i := c.i; i < c.last; i++ {
		switch l.tokens[i].text {
		case "(":
			open = true
		case ")":
			open = false
		case ";":
			return i
		case ",", "or":
			if !open {
				return i
			}
		}
	}
	return c.last
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
			p.unknown(severity(p.part.kind), d.nameAt, d.Words)
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
