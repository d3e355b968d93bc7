package notation

import (
	"strings"

	"roomful"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/settle"
)

// pause closes an unindented block at an empty line.
func (p *parser) pause() {
	if pt := p.part; pt != nil && pt.block != inRound && !pt.deeper && (pt.filled || len(*pt.list()) > 0 || pt.block >= inStandards) {
		pt.block = inRound
	}
}

// leaveBlock closes a block when a line stands no further right than its key.
func (p *parser) leaveBlock(l *scan.Line) {
	pt := p.part
	if pt.block == inRound {
		return
	}
	switch {
	case l.Indent > pt.blockIndent:
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
func (p *parser) blockKey(l *scan.Line) bool {
	pt := p.part
	for _, k := range blockKeys {
		c := scan.Over(l)
		if !c.Take(k.word) || !c.Mark(":") && !k.plain && !(c.Done() && k.block != inNote) {
			continue
		}
		if k.block != inNote {
			c.SkipJunk()
		}
		pt.block, pt.blockIndent, pt.filled, pt.deeper = k.block, l.Indent, !c.Done(), false
		pt.slot, pt.slotOpen, pt.nested = 0, false, -1
		if !c.Done() {
			p.blockContent(l, c)
		}
		return true
	}
	return false
}

// blockContent reads what stands on the line of a block's key.
func (p *parser) blockContent(l *scan.Line, c scan.Cursor) {
	switch pt := p.part; pt.block {
	case inStandards:
		p.standard(l, c)
	case inInstead:
		p.insteadLine(l, c)
	case inNote:
		pt.Notes = append(pt.Notes, l.Text(c.I))
	default:
		p.elements(l, c)
	}
}

// standard = movement ":" text .
func (p *parser) standard(l *scan.Line, c scan.Cursor) {
	pt := p.part
	m, n := p.Match(c)
	if m == nil {
		stop := c.I
		for stop < c.Last && l.Tokens[stop].Text != ":" {
			stop++
		}
		p.Unknown(roomful.Warning, l.Span(c.I, stop), l.Slice(c.I, stop))
		pt.Notes = append(pt.Notes, l.Text(c.I))
		return
	}
	at := l.Span(c.I, c.I+n)
	c.I += n
	c.Mark(":")
	c.Mark("-")
	c.Mark(",")
	pt.Standards = append(pt.Standards, roomful.Standard{Movement: m.ID, Text: l.Text(c.I)})
	pt.StandardAt = append(pt.StandardAt, at)
}

// insteadLine = movement ":" element { ";" element } .
func (p *parser) insteadLine(l *scan.Line, c scan.Cursor) {
	pt := p.part
	from := c.I
	m, n := p.Match(c)
	c.I += n
	c.Mark("s")
	if m == nil || !c.Mark(":") && !c.Mark("-") && !c.Mark(">") && !c.Mark("=") {
		stop := from
		for stop < c.Last && l.Tokens[stop].Text != ":" {
			stop++
		}
		if m != nil {
			p.Warn(l.Span(from, stop), "nothing follows "+m.Name, "write "+m.Name+": and what may be done instead")
		} else {
			p.Unknown(roomful.Fault, l.Span(from, stop), l.Slice(from, stop))
		}
		pt.Notes = append(pt.Notes, "instead "+l.Text(from))
		return
	}
	c.Mark(">")
	entry := roomful.Instead{Movement: m.ID}
	for !c.Done() {
		stop := optionEnd(l, c)
		if stop > c.I {
			entry.Options = append(entry.Options, p.option(l, scan.Cursor{Line: l, I: c.I, Last: stop})...)
		}
		c.I = min(stop+1, c.Last)
	}
	pt.Instead = append(pt.Instead, entry)
	pt.InsteadAt = append(pt.InsteadAt, l.Span(from, from+n))
}

// optionEnd returns where an option ends: at a semicolon, or at a comma or "or"
// that stands in no brackets.
func optionEnd(l *scan.Line, c scan.Cursor) int {
	open := false
	for i := c.I; i < c.Last; i++ {
		switch l.Tokens[i].Text {
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
	return c.Last
}

// option reads one movement that may be done instead. What stands in brackets is
// its note.
func (p *parser) option(l *scan.Line, c scan.Cursor) []roomful.Element {
	note := ""
	for i := c.I; i < c.Last; i++ {
		if l.Tokens[i].Text == "(" {
			note = strings.Trim(l.Slice(i+1, c.Last), " ()[]{}")
			c.Last = i
			break
		}
	}
	r := p.ReaderOf(c, false)
	r.Run()
	var out []roomful.Element
	for _, d := range r.Elements {
		if d.Movement == "" {
			p.Unknown(settle.Severity(p.part.Kind), d.NameAt, d.Words)
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
