package notation

import (
	"strings"

	"roomful"
)

// looksLikeHead reports whether a line may hold a format, so that it is worth
// reading as a head.
func looksLikeHead(l *line) bool {
	dashes := 0
	for _, t := range l.tokens {
		switch {
		case t.kind == word && (formatHints[t.text] || t.text[0] == 'e' && len(t.text) > 1 && isDigit(t.text[1])):
			return true
		case t.text == "-" || t.kind == dots || t.text == ",":
			dashes++
		}
	}
	return dashes > 1
}

// looseHead reads a line that is a format by itself. It begins a piece, or
// completes the head of the one that has no lines yet.
func (p *parser) looseHead(l *line) bool {
	if !looksLikeHead(l) {
		return false
	}
	c := at(l)
	then := c.takeAny(joiners...)
	label := p.label(&c)
	r := p.probe(c, true)
	r.scored = true
	r.run()
	pt := p.part
	alone := pt == nil && r.f.rounds.set() && len(r.elements)+len(r.f.notes) == 0
	if !r.f.beginsPiece() && !alone || !leads(r) {
		return false
	}
	switch {
	case p.withinPiece(l, &r.f):
		return false
	case pt == nil || !p.completes(&r.f):
		heading := p.heading(l)
		p.restBefore()
		p.then = p.then || then
		p.begin(l, kindOf(r), "")
		p.underHeading(heading, len(r.elements) == 0)
	case pt.line != l.no && pt.explicit:
		pt.head = l.whole()
	}
	if label != "" {
		p.part.notes = append(p.part.notes, label)
	}
	r = p.readerOf(c, true)
	r.scored = scored(p.part.kind)
	r.run()
	p.placeSuffix(l, r)
	p.absorb(r)
	return true
}

// withinPiece reports whether "2 x 10" is a line of the piece being read rather
// than sets of its own: the piece has a clock, or is a warm-up, and no empty line
// stands between.
func (p *parser) withinPiece(l *line, f *facts) bool {
	pt := p.part
	if pt == nil || f.timedFormat() || !f.scheme() || !f.build.isZero() || l.letter != "" || l.no > 1 && p.lines[l.no-2].blank() {
		return false
	}
	return pt.facts.timedFormat() || !scored(pt.kind)
}

// heading takes back the line before a piece when it is no more than a name: it
// was read as the title, or as the last line of the piece before.
func (p *parser) heading(l *line) *drafted {
	if p.part == nil {
		return p.titleAsName()
	}
	list := p.part.list()
	n := len(*list) - 1
	if n < 0 {
		return nil
	}
	d := (*list)[n]
	bare := !d.Amount.Stated() && d.Load == nil && d.Note == "" && d.Movement != roomful.Rest
	if !bare || !p.directlyAbove(d.Line, l.no) || d.move != nil && !p.lines[d.Line-2].blank() || d.move == nil && p.lines[l.no-2].blank() && n == 0 {
		return nil
	}
	*list = (*list)[:n]
	return &d
}

// directlyAbove reports whether nothing but empty lines and rules stand between
// two lines, and the first is not the top of the sheet.
func (p *parser) directlyAbove(first, second int) bool {
	for no := first + 1; no < second; no++ {
		if !p.lines[no-1].blank() {
			return false
		}
	}
	return first > 1
}

// titleAsName returns the title as an element when it names a movement and
// nothing else.
func (p *parser) titleAsName() *drafted {
	words := strings.Fields(plain(p.session.Title))
	m, n := p.lex.Match(words)
	if m == nil || n != len(words) {
		return nil
	}
	d := &drafted{move: m, fromHead: true}
	d.Movement, d.Words = m.ID, p.session.Title
	return d
}

// underHeading uses the line before a piece: its movement, when the piece has
// none and is sets, or a note.
func (p *parser) underHeading(d *drafted, empty bool) {
	if d == nil {
		return
	}
	pt := p.part
	switch {
	case d.Line == 0: // the title, which stays
		if empty && pt.kind == roomful.Strength {
			d.Line = pt.line
			pt.round = append(pt.round, *d)
		}
	case d.move != nil && empty && pt.kind == roomful.Strength:
		pt.round = append(pt.round, *d)
	default:
		pt.notes = append(pt.notes, d.Words)
	}
}

// label takes a word that stands before a colon and a format.
func (p *parser) label(c *cursor) string {
	for n := 1; n <= 3; n++ {
		if c.peek(n-1).kind != word {
			return ""
		}
		if c.peek(n).text == ":" {
			from := c.i
			if _, k := p.match(*c); k > 0 {
				return ""
			}
			probe := p.probe(*c, true)
			if probe.clause() {
				return ""
			}
			c.i += n + 1
			return c.slice(from, from+n)
		}
	}
	return ""
}

// leads reports whether the format of the line comes before its elements, or
// names the one movement it is for.
func leads(r *reading) bool {
	if len(r.elements) == 0 {
		return true
	}
	first := r.elements[0]
	if first.move == nil {
		return false
	}
	return first.at.col > r.f.firstCol() || r.f.scheme() || len(r.elements) == 1
}

// completes reports whether facts belong to the part that is being read: it has
// no lines yet, and no format that they would contradict.
func (p *parser) completes(f *facts) bool {
	pt := p.part
	g := &pt.facts
	if !pt.empty() {
		if f.timedFormat() && !g.timedFormat() && !f.scheme() && pt.kind == roomful.Main && p.ends() {
			return true // the clock comes after the work
		}
		return pt.kind == roomful.Strength && f.sameScheme(g) || !f.ladderAt.isZero() && !f.timedFormat() && !f.scheme() && p.takesLadder(pt)
	}
	if !scored(pt.kind) {
		return !g.structured()
	}
	return !(g.begins() && f.timedFormat()) || g.compatible(f)
}

// ends reports whether no work follows the line being read.
func (p *parser) ends() bool { return p.at >= len(p.lines) || p.lines[p.at].blank() }

// takesLadder reports whether a ladder among the lines of a part is its rounds.
func (p *parser) takesLadder(pt *openPart) bool {
	return pt.kind == roomful.Main && pt.facts.ladderAt.isZero() && !pt.facts.rounds.set() && !pt.facts.forTime.isZero()
}

// kindOf tells strength from main: sets of a movement are strength.
func kindOf(r *reading) roomful.PartKind {
	f := &r.f
	if f.timedFormat() && !f.scheme() || f.intervals.set() {
		return roomful.Main
	}
	if f.scheme() && f.forTime.isZero() && f.asMany.isZero() {
		return roomful.Strength
	}
	if !f.ladderAt.isZero() && len(r.elements) == 1 && !monotone(f.ladder.Steps) {
		return roomful.Strength
	}
	if f.sets.set() && f.forTime.isZero() {
		return roomful.Strength
	}
	return roomful.Main
}

// restBefore takes the rest that stands last in a window and before another
// piece out of the round: it is a pause between the two.
func (p *parser) restBefore() {
	pt := p.part
	if pt == nil || pt.kind != roomful.Main || len(pt.round) < 2 {
		return
	}
	d := pt.round[len(pt.round)-1]
	if d.Movement != roomful.Rest || !d.Amount.Stated() || d.at.line < p.at-3 {
		return
	}
	pt.round = pt.round[:len(pt.round)-1]
	pt.notes = append(pt.notes, "then "+d.Words+" "+roomful.Figure(d.Amount.By[0])+" "+d.Amount.Unit.String())
	p.warn(d.at, "the rest between two pieces is kept as a note", "the clock of main b goes on from main a: leave time for it in the hour")
}

// looseElement reads a line of work before any head: it begins a main piece.
func (p *parser) looseElement(l *line) bool {
	r := p.probe(at(l), false)
	r.run()
	if named := p.titleAsName(); named != nil && len(r.elements) == 1 && r.elements[0].Words == "" && r.elements[0].Load != nil {
		p.begin(l, roomful.Strength, "")
		p.underHeading(named, true)
		p.workLine(l)
		return true
	}
	if len(r.elements) == 0 || r.elements[0].move == nil || prose(l) {
		return false
	}
	if first := r.elements[0]; !first.Amount.Stated() && first.Note != "" && len(strings.Fields(first.Note)) > 2 {
		return false
	}
	p.begin(l, roomful.Main, "")
	p.workLine(l)
	return true
}
