package notation

import (
	"slices"
	"strings"

	"roomful"
	"roomful/notation/internal/phrase"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// looksLikeHead reports whether a line may hold a format, so that it is worth
// reading as a head.
func looksLikeHead(l *scan.Line) bool {
	dashes := 0
	for _, t := range l.Tokens {
		switch {
		case t.Kind == scan.Word && (vocab.FormatHints[t.Text] || vocab.EveryWord(t.Text)):
			return true
		case t.Text == "-" || t.Kind == scan.Dots || t.Text == ",":
			dashes++
		}
	}
	return dashes > 1
}

// looseHead reads a line that is a format by itself. It begins a piece, or
// completes the head of the one that has no lines yet.
func (p *parser) looseHead(l *scan.Line) bool {
	if !looksLikeHead(l) {
		return false
	}
	c := scan.Over(l)
	then := c.TakeAny(joiners...)
	label := p.label(&c)
	r := p.Probe(c, true)
	r.Scored = true
	r.Run()
	pt := p.part
	alone := pt == nil && r.F.Rounds.Set() && len(r.Elements) == 0 && onlyRests(r.F.Notes)
	if !r.F.BeginsPiece() && !alone || !leads(r) {
		return false
	}
	switch {
	case p.withinPiece(l, r):
		return false
	case p.sameLadder(l, r):
		return true
	case pt == nil || !p.completes(r):
		heading := p.heading(l)
		p.restBefore()
		p.then = p.then || then
		p.begin(l, kindOf(r), "")
		p.underHeading(heading, len(r.Elements) == 0)
	case pt.Line != l.No && pt.Explicit:
		pt.Head = l.Whole()
	}
	if label != "" {
		p.part.Notes = append(p.part.Notes, label)
	}
	r = p.ReaderOf(c, true)
	r.Scored = vocab.Scored(p.part.Kind)
	r.Run()
	p.placeSuffix(l, r)
	p.absorb(r)
	return true
}

// onlyRests reports whether notes are about rest, or say that no score is kept,
// and nothing else.
func onlyRests(notes []string) bool {
	for _, n := range notes {
		if n = scan.Plain(n); !strings.HasPrefix(n, "rest") && !strings.HasPrefix(n, "for ") {
			return false
		}
	}
	return true
}

// withinPiece reports whether "2 x 10" or "1 min max burpees" is a line of the
// piece being read rather than one of its own: the piece has a clock, or is a
// warm-up, and no empty line stands between.
func (p *parser) withinPiece(l *scan.Line, r *phrase.Reading) bool {
	pt, f := p.part, &r.F
	if pt == nil || l.Letter != "" || l.No > 1 && p.Lines[l.No-2].Blank() {
		return false
	}
	if !f.AsMany.IsZero() && !f.Window.Set() && f.Total.Set() && len(r.Elements) > 0 {
		return pt.Facts.Structured()
	}
	if f.TimedFormat() || !f.Scheme() || !f.Build.IsZero() {
		return false
	}
	return pt.Facts.TimedFormat() || !vocab.Scored(pt.Kind)
}

// sameLadder reads "30-20-10 wall balls" right below "30-20-10 cal row" as a line
// of one piece.
func (p *parser) sameLadder(l *scan.Line, r *phrase.Reading) bool {
	pt, f := p.part, &r.F
	if pt == nil || pt.Kind != roomful.Main || pt.Facts.LadderAt.IsZero() || f.LadderAt.IsZero() || f.TimedFormat() || f.Scheme() || l.Letter != "" || p.Lines[l.No-2].Blank() || len(r.Elements) == 0 {
		return false
	}
	again := p.ReaderOf(r.C, true)
	again.C.I, again.Scored = 0, true
	again.Run()
	if slices.Equal(again.F.Ladder.Steps, pt.Facts.Ladder.Steps) && again.F.Ladder.Open == pt.Facts.Ladder.Open {
		again.F.LadderAt = scan.Span{}
	}
	p.absorb(again)
	return true
}

// heading takes back the line before a piece when it is no more than a name: it
// was read as the title, or as the last line of the piece before.
func (p *parser) heading(l *scan.Line) *phrase.Element {
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
	if !bare || !p.directlyAbove(d.Line, l.No) || d.Move != nil && !p.Lines[d.Line-2].Blank() || d.Move == nil && p.Lines[l.No-2].Blank() && n == 0 {
		return nil
	}
	*list = (*list)[:n]
	return &d
}

// directlyAbove reports whether nothing but empty lines and rules stand between
// two lines, and the first is not the top of the sheet.
func (p *parser) directlyAbove(first, second int) bool {
	for no := first + 1; no < second; no++ {
		if !p.Lines[no-1].Blank() {
			return false
		}
	}
	return first > 1
}

// titleAsName returns the title as an element when it names a movement and
// nothing else.
func (p *parser) titleAsName() *phrase.Element {
	words := strings.Fields(scan.Plain(p.Session.Title))
	m, n := p.Lex.Match(words)
	if m == nil || n != len(words) {
		return nil
	}
	d := &phrase.Element{Move: m, FromHead: true}
	d.Movement, d.Words = m.ID, p.Session.Title
	return d
}

// underHeading uses the line before a piece: its movement, when the piece has
// none and is sets, or a note.
func (p *parser) underHeading(d *phrase.Element, empty bool) {
	if d == nil {
		return
	}
	pt := p.part
	switch {
	case d.Line == 0: // the title, which stays
		if empty && pt.Kind == roomful.Strength {
			d.Line, d.At, d.NameAt = pt.Line, pt.Head, pt.Head
			pt.Round = append(pt.Round, *d)
		}
	case d.Move != nil && empty && pt.Kind == roomful.Strength:
		pt.Round = append(pt.Round, *d)
	default:
		pt.Notes = append(pt.Notes, d.Words)
	}
}

// label takes a word that stands before a colon and a format.
func (p *parser) label(c *scan.Cursor) string {
	for n := 1; n <= 3; n++ {
		if c.Peek(n-1).Kind != scan.Word {
			return ""
		}
		if c.Peek(n).Text == ":" {
			from := c.I
			if _, k := p.Match(*c); k > 0 {
				return ""
			}
			probe := p.Probe(*c, true)
			if probe.Clause() {
				return ""
			}
			c.I += n + 1
			return c.Slice(from, from+n)
		}
	}
	return ""
}

// leads reports whether the format of the line comes before its elements, or
// names the one movement it is for.
func leads(r *phrase.Reading) bool {
	if len(r.Elements) == 0 {
		return true
	}
	first := r.Elements[0]
	if f := &r.F; f.FirstCol() == r.C.Tokens[0].Col && (f.Window.Set() || f.Cap.Set() || f.Interval.Set() && (f.Total.Set() || f.Times.Set())) {
		return true
	}
	if r.F.TimedFormat() && !slices.ContainsFunc(r.Elements, func(d phrase.Element) bool { return d.Move == nil || !d.Amount.Stated() }) {
		return true // 20 cal row, 10 burpees, x 3 rounds for time
	}
	if first.Move == nil { // for time: 500 m swim
		return r.F.TimedFormat() && first.At.Col > r.F.FirstCol() && (first.Amount.Stated() || colonBefore(r.C.Line, first.At))
	}
	return first.At.Col > r.F.FirstCol() || r.F.Scheme() || len(r.Elements) == 1
}

// colonBefore reports whether a colon stands right before a place of a line.
func colonBefore(l *scan.Line, at scan.Span) bool {
	for i, t := range l.Tokens {
		if t.Col >= at.Col {
			return i > 0 && l.Tokens[i-1].Text == ":"
		}
	}
	return false
}

// completes reports whether facts belong to the part that is being read: it has
// no lines yet, and no format that they would contradict.
func (p *parser) completes(r *phrase.Reading) bool {
	pt, f := p.part, &r.F
	g := &pt.Facts
	if !pt.Empty() {
		if f.TimedFormat() && !g.TimedFormat() && !f.Scheme() && pt.Kind == roomful.Main && len(r.Elements) == 0 && p.ends() {
			return true // the clock comes after the work
		}
		return pt.Kind == roomful.Strength && (f.SameScheme(g) || f.OnlyClock() && g.Scheme() && !g.Interval.Set()) || !f.LadderAt.IsZero() && !f.TimedFormat() && !f.Scheme() && p.takesLadder(pt)
	}
	if !vocab.Scored(pt.Kind) {
		return !g.Structured()
	}
	return !(g.Begins() && f.TimedFormat()) || g.Compatible(f)
}

// ends reports whether no work follows the line being read.
func (p *parser) ends() bool { return p.at >= len(p.Lines) || p.Lines[p.at].Blank() }

// takesLadder reports whether a ladder among the lines of a part is its rounds.
func (p *parser) takesLadder(pt *openPart) bool {
	return pt.Kind == roomful.Main && pt.Facts.LadderAt.IsZero() && !pt.Facts.Rounds.Set() && !pt.Facts.ForTime.IsZero()
}

// kindOf tells strength from main: sets of a movement are strength.
func kindOf(r *phrase.Reading) roomful.PartKind {
	f := &r.F
	if f.TimedFormat() && !f.Scheme() || f.Intervals.Set() {
		return roomful.Main
	}
	if f.Scheme() && f.ForTime.IsZero() && f.AsMany.IsZero() {
		return roomful.Strength
	}
	if !f.LadderAt.IsZero() && len(r.Elements) == 1 && !phrase.Monotone(f.Ladder.Steps) {
		return roomful.Strength
	}
	if f.Sets.Set() && f.ForTime.IsZero() || fewOfALift(r) {
		return roomful.Strength
	}
	return roomful.Main
}

// fewOfALift reports whether "front squat 5-4-3-2-1" is sets: a lift is named
// first, and no set is long.
func fewOfALift(r *phrase.Reading) bool {
	const longestSet = 8
	f := &r.F
	if f.LadderAt.IsZero() || f.TimedFormat() || f.Ladder.Open || len(r.Elements) != 1 || slices.Max(f.Ladder.Steps) > longestSet {
		return false
	}
	d := &r.Elements[0]
	return d.Move != nil && d.Move.Implement == roomful.Barbell && d.At.Col < f.LadderAt.Col
}

// restBefore takes the rest that stands last in a window and before another
// piece out of the round: it is a pause between the two.
func (p *parser) restBefore() {
	pt := p.part
	if pt == nil || pt.Kind != roomful.Main || len(pt.Round) < 2 {
		return
	}
	d := pt.Round[len(pt.Round)-1]
	if d.Movement != roomful.Rest || !d.Amount.Stated() || d.Line < p.at-3 {
		return
	}
	pt.Round = pt.Round[:len(pt.Round)-1]
	pt.Notes = append(pt.Notes, "then "+d.Words+" "+roomful.Figure(d.Amount.By[0])+" "+d.Amount.Unit.String())
	p.Warn(d.At, "the rest between two pieces is kept as a note", "the clock of main b goes on from main a: leave time for it in the hour")
}

// looseElement reads a line of work before any head: it begins a main piece.
func (p *parser) looseElement(l *scan.Line) bool {
	r := p.Probe(scan.Over(l), false)
	r.Run()
	if named := p.titleAsName(); named != nil && len(r.Elements) == 1 && r.Elements[0].Words == "" && r.Elements[0].Load != nil {
		p.begin(l, roomful.Strength, "")
		p.underHeading(named, true)
		p.workLine(l)
		return true
	}
	if len(r.Elements) == 0 || prose(l) {
		return false
	}
	first := &r.Elements[0]
	if first.Move == nil && !(scan.FigureKind(l.Tokens[0]) && first.Amount.Stated() && first.Amount.Unit != roomful.Rep && p.CanName(first.Words)) { // 500 m swim
		return false
	}
	if !first.Amount.Stated() && first.Note != "" && len(strings.Fields(first.Note)) > 2 {
		return false
	}
	p.begin(l, roomful.Main, "")
	p.workLine(l)
	return true
}
