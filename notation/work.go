package notation

import (
	"slices"

	"roomful"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/phrase"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// workLine reads a line of work: a new piece that needs no head, a slot, or
// elements and clauses.
func (p *parser) workLine(l *scan.Line) {
	pt := p.part
	if p.looseHead(l) {
		return
	}
	c := scan.Over(l)
	if n, ok := p.slotKey(&c); ok {
		pt.slot, pt.slotIndent, pt.slotOpen, pt.Slotted = n, l.Indent, c.Done(), true
		if l.Tokens[0].Kind == scan.Word && l.Tokens[0].Text[0] != 's' && pt.OddEven.IsZero() {
			pt.OddEven = l.Span(0, c.I)
		}
		if !c.Done() {
			p.elements(l, c)
		}
		return
	}
	if pt.slot != 0 && !pt.slotOpen && l.Indent <= pt.slotIndent {
		pt.slot = 0
	}
	if joined := c; joined.TakeAny(joiners...) && joined.Done() {
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

// splitAtSlots reads "EMOM 12: odd: 5 deadlifts, even: 10 box jumps" as if each
// slot stood on a line of its own.
func (p *parser) splitAtSlots(l *scan.Line) bool {
	var cuts []int
	for i, w := range l.Words {
		if (w == "odd" || w == "even") && i+1 < len(l.Words) && (l.Words[i+1] == ":" || l.Words[i+1] == "=") {
			cuts = append(cuts, i)
		}
	}
	if len(cuts) != 2 || p.part != nil && p.part.block != inRound {
		return false
	}
	if cuts[0] > 0 {
		p.line(l.Part(0, cuts[0]))
	}
	p.line(l.Part(cuts[0], cuts[1]))
	p.line(l.Part(cuts[1], len(l.Words)))
	return true
}

// byTheClock says that "10-20 min:" before a piece is not read: it would say when
// the piece begins.
func (p *parser) byTheClock(l *scan.Line) bool {
	c := scan.Over(l)
	low, dash, high := c.Peek(0), c.Peek(1), c.Peek(2)
	if !scan.FigureKind(low) || dash.Text != "-" || !scan.FigureKind(high) || p.part != nil && p.part.block > inLast {
		return false
	}
	c.I = 3
	minutes := c.TakeAny("min", "mins", "minutes", "'")
	if !minutes && low.Kind != scan.Clock || !c.Mark(":") && !c.Done() {
		return false
	}
	p.Fault(l.Span(0, c.I), "a piece by the clock is not read", "write each as a piece with its own window: main a: and main b:").Detail = "kept as a note"
	p.begin(l, roomful.Main, "")
	p.part.Notes = append(p.part.Notes, l.Slice(0, c.I))
	if !c.Done() {
		p.partLine(l.Part(c.I, len(l.Tokens)))
	}
	return true
}

// splitAtThen reads "400 m run, then 3 rounds of 10 pull-ups, then 400 m run" as
// if each stretch stood on a line of its own.
func (p *parser) splitAtThen(l *scan.Line) bool {
	if p.part != nil && p.part.block != inRound {
		return false
	}
	var cuts []int
	nested := false
	last := len(l.Words) // what follows a semicolon is a note
	if i := slices.Index(l.Words, ";"); i >= 0 {
		last = i
	}
	for i := 1; i < last; i++ {
		if l.Words[i] != "then" {
			continue
		}
		cuts = append(cuts, i)
		c := scan.Cursor{Line: l, I: i + 1, Last: last}
		r := p.Probe(c, true)
		r.Run()
		nested = nested || (r.F.Rounds.Set() || !r.F.LadderAt.IsZero() || r.F.TimedFormat()) && len(r.Elements) > 0
	}
	if !nested {
		return false
	}
	for i, from := range append([]int{0}, cuts...) {
		stop := len(l.Tokens)
		if i < len(cuts) {
			stop = cuts[i]
		}
		p.line(l.Part(from, stop))
	}
	return true
}

// partLabel = "part" letter [ ":" ] .
// The letter is kept for the piece that follows.
func (p *parser) partLabel(l *scan.Line) bool {
	c := scan.Over(l)
	if !c.Take("part") {
		return false
	}
	letter := c.Peek(0)
	c.I++
	c.Mark(":")
	if !c.Done() || letter.Kind != scan.Word || len(letter.Text) != 1 || letter.Text[0] > 'h' {
		return false
	}
	p.nextLabel = letter.Text
	return true
}

// joiners lead from one piece to the next without a pause.
var joiners = []string{"then straight into", "straight into", "directly into", "then into", "into", "then", "followed by"}

// slotKey = ( "odd" | "even" | [ "min" | "minute" | "station" ] n ) ":" .
func (p *parser) slotKey(c *scan.Cursor) (n int, ok bool) {
	from := c.I
	if c.TakeAny("odd minutes", "odd minute", "odd min", "odds", "odd") {
		n = 1
	} else if c.TakeAny("even minutes", "even minute", "even min", "evens", "even") {
		n = 2
	}
	if n == 0 {
		named := c.TakeAny("min", "minute", "mins", "station", "slot", "interval")
		t := c.Peek(0)
		if t.Kind != scan.Number || t.Value < 1 || t.Value != float64(int(t.Value)) || named && t.Value > 60 {
			c.I = from
			return 0, false
		}
		n = int(t.Value)
		c.I++
		if !named && n == p.part.slot+1 && p.part.Facts.Interval.Set() && c.Is("-") && !c.Peek(0).Tight && !c.Peek(1).Tight {
			c.I++ // 1 - 12 cal row
			return n, true
		}
		if !c.Mark(":") && !(named && (c.Mark("-") || c.Mark(")"))) {
			c.I = from
			return 0, false
		}
		return n, true
	}
	if c.Mark(":") || c.Mark("-") || c.Mark("=") || c.Done() {
		return n, true
	}
	c.I = from
	return 0, false
}

// aside keeps a line of prose, or one with a label of its own ("Rx+: 70/50 kg"),
// as a note.
func (p *parser) aside(l *scan.Line) bool {
	if !p.labelled(l) && !prose(l) && !p.remarked(l) {
		return false
	}
	pt := p.part
	pt.Notes = append(pt.Notes, l.Text(0))
	p.Hint(l.Whole(), diag.Quote(l.Text(0))+" is kept as a note", "write note: before it to keep this quiet")
	return true
}

// remarked reports whether a short line is a remark rather than a misspelt
// movement: it has no figure, several words, and is like no name.
func (p *parser) remarked(l *scan.Line) bool {
	if !vocab.Scored(p.part.Kind) || len(l.Tokens) < 2 {
		return false
	}
	words := 0
	for _, t := range l.Tokens {
		switch {
		case scan.FigureKind(t), t.Text == ";", t.Text == "@", t.Text == ",", t.Text == "+":
			return false
		case t.Kind == scan.Word:
			words++
		}
	}
	closed := l.Tokens[len(l.Tokens)-1]
	if words < 3 && !(words == 2 && (closed.Text == "!" || closed.Text == ".")) {
		return false
	}
	r := p.Probe(scan.Over(l), false)
	r.Run()
	if len(r.Elements) != 1 || r.Elements[0].Move != nil || r.Elements[0].Amount.Unit != roomful.Rep || r.F.Structured() {
		return false
	}
	d := &r.Elements[0]
	return p.IsRemark(p.part.Kind, d) || words == 2 && d.Note == "" && len(p.Near(d.Words)) == 0
}

// labelled reports whether a line begins with a word that names neither a
// movement nor anything else, and a colon.
func (p *parser) labelled(l *scan.Line) bool {
	for i, t := range l.Tokens {
		switch {
		case t.Text == ":" && i > 0:
			_, n := p.Match(scan.Over(l))
			r := p.Probe(scan.Over(l), false)
			return n < i && r.Division(l.Words[0], true) == 0 && !r.Clause()
		case t.Kind != scan.Word && t.Text != "+" || i > 3:
			return i == 1 && l.Words[0] == "rx"
		}
	}
	return len(l.Tokens) <= 2 && l.Words[0] == "rx"
}

// prose reports whether a line is a sentence rather than an element: it begins
// with no figure, and is long or ends like a sentence.
func prose(l *scan.Line) bool {
	first, last := l.Tokens[0], l.Tokens[len(l.Tokens)-1]
	if scan.FigureKind(first) || len(l.Tokens) < 4 {
		return false
	}
	words := 0
	for _, t := range l.Tokens {
		if t.Kind == scan.Number || t.Kind == scan.Clock || t.Text == ";" || t.Text == "@" {
			return false
		}
		if t.Kind == scan.Word {
			words++
		}
	}
	return words > 8 || words > 3 && (last.Text == "." || last.Text == "!" || last.Text == "?")
}

// placeSuffix sorts out "3 rounds of" among the lines: those before are the
// once, those after it the round, and what comes back to the left is the last.
func (p *parser) placeSuffix(l *scan.Line, r *phrase.Reading) {
	pt := p.part
	if pt.Kind == roomful.Strength || pt.block != inRound {
		return
	}
	inner := r.F.Rounds.Set() || !r.F.LadderAt.IsZero()
	outer := pt.Facts.Rounds.Set() || !pt.Facts.LadderAt.IsZero() || pt.Facts.Interval.Set()
	switch {
	case inner && !outer && len(pt.Round) > 0 && len(pt.Once) == 0:
		pt.Once, pt.Round = pt.Round, nil
		pt.nested = l.Indent
		p.Hint(l.Whole(), "the lines above are read as once, those below as the round", "write once: and round: to say so")
	case pt.nested >= 0 && len(pt.Round) > 0 && (l.Indent <= pt.nested && pt.Round[0].Indent > pt.nested || l.Words[0] == "then"):
		pt.block, pt.blockIndent, pt.filled, pt.deeper = inLast, l.Indent-1, false, true
		p.Hint(l.Whole(), "read as last, after the rounds", "write last: to say so")
	}
	for i := range r.Elements {
		r.Elements[i].Indent = l.Indent
	}
}
