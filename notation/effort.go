package notation

import (
	"math"
	"strings"
	"unicode"

	"roomful"
	"roomful/notation/internal/canon"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/phrase"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// effort = "effort:" clause { "," clause } { indented effort-line } .
func (p *parser) effort(l *scan.Line, c scan.Cursor) {
	p.effortClauses(l, c)
	for p.at < len(p.Lines) {
		next := &p.Lines[p.at]
		if next.Blank() || next.Indent <= l.Indent {
			return
		}
		p.at++
		c := scan.Over(next)
		if c.TakeAny("protect", "protects") {
			c.Mark(":")
			p.protect(next, c)
			continue
		}
		if !p.freshRule(next, scan.Over(next)) {
			p.effortClauses(next, scan.Over(next))
		}
	}
}

// effortClauses reads clauses with commas between.
func (p *parser) effortClauses(l *scan.Line, c scan.Cursor) {
	for !c.Done() {
		c.SkipJunk()
		stop := c.I
		for stop < c.Last && l.Tokens[stop].Text != "," && l.Tokens[stop].Text != ";" {
			stop++
		}
		if stop > c.I {
			p.effortClause(l, scan.Cursor{Line: l, I: c.I, Last: stop})
		}
		c.I = min(stop+1, c.Last)
	}
}

// effortClause = window | fresh rule | "protect" what | feel .
func (p *parser) effortClause(l *scan.Line, c scan.Cursor) {
	for c.Last > c.I+1 && c.Tokens[c.Last-1].Text != "+" && scan.Idle(c.Tokens[c.Last-1]) {
		c.Last--
	}
	from := c.I
	if c.TakeAny("protect the", "protect") {
		c.Mark(":")
		p.protect(l, c)
		return
	}
	c.I = from
	if p.freshRule(l, c) || p.effortWindow(l, c) {
		return
	}
	p.addFeel(strings.TrimRight(l.Slice(c.I, c.Last), " .!"))
}

// addFeel adds to the coach's own words.
func (p *parser) addFeel(text string) {
	e := &p.Session.Effort
	if e.Feel != "" && text != "" {
		e.Feel += ", "
	}
	e.Feel += text
}

// effortWindow = figure [ "-" figure ] unit | "under" figure unit .
func (p *parser) effortWindow(l *scan.Line, c scan.Cursor) bool {
	from := c.I
	r := p.ReaderOf(c, false)
	under := r.C.TakeAny("under", "sub", "less than", "at most", "up to")
	about := r.C.TakeAny("about", "around", "roughly", "aim for", "finish in", "in")
	var low, high phrase.Figures
	if !r.Figure(&low) {
		return false
	}
	open := r.C.Mark("+")
	if r.C.Mark("-") || r.C.TakeAny("to", "and") {
		if !r.Figure(&high) {
			return false
		}
		open = r.C.Mark("+") || open
	} else {
		high = low
	}
	unit, times, ok := effortUnit(r, high)
	if under && !ok && high.Unit.Class == vocab.Bare && r.C.Done() {
		unit, times, ok = "minutes", 1, true
		p.Hint(l.Span(from, r.C.I), "read as minutes", "write the unit, such as under 12 min")
	}
	r.C.TakeAny("each", "total", "in all")
	if !ok || !r.C.Done() {
		return false
	}
	at := l.Span(from, r.C.I)
	e := &p.Session.Effort
	switch {
	case e.Stated():
		p.Clash("effort window", at)
		p.addFeel(l.Slice(from, r.C.I))
		return true
	case open:
		p.Warn(at, diag.Quote(l.Slice(from, r.C.I))+" has no upper end: kept as words", "write a window such as 5-7 rounds")
		p.addFeel(l.Slice(from, r.C.I))
		return true
	}
	e.Low, e.High, e.Unit = min(low.By[0]*times, scan.Largest), min(high.By[0]*times, scan.Largest), unit
	if low.Unit.Class != vocab.Bare && high.Unit.Class != vocab.Bare && low.Unit != high.Unit && low.N > 0 {
		e.Low = e.Low / times * scale(low, unit)
	}
	if times == roomful.KgPerLb {
		e.Low, e.High = math.Round(e.Low*10)/10, math.Round(e.High*10)/10
		p.Hint(at, "pounds are kept as "+canon.Window(*e), "write the window in kg to say so")
	}
	if under {
		e.Low = 0
	}
	p.checkWindow(at, about)
	return true
}

// checkWindow says when a window cannot be aimed at.
func (p *parser) checkWindow(at scan.Span, about bool) {
	e := &p.Session.Effort
	switch {
	case e.Low > e.High:
		p.Fault(at, "the window ends before it begins", "write the lower figure first")
	case e.Unit == "rounds" && e.High > 500, e.Unit == "minutes" && e.High > 300:
		p.Fault(at, "a window of "+canon.Window(*e)+" cannot be right", "write a window such as 5-7 rounds, or 8-11 min")
	case e.High <= 0:
		p.Fault(at, "a window of nothing", "write a window such as 5-7 rounds")
	case e.Low == e.High && (about || e.Unit == "minutes"):
		p.Warn(at, "a window of one figure", "write a window such as 8-11 min, so that people can be aimed at it")
	}
}

// scale returns how many of an effort unit one of a figure's unit is.
func scale(q phrase.Figures, unit string) float64 {
	if unit == "minutes" {
		return q.Unit.Unit.Size() / 60
	}
	return q.Unit.Unit.Size()
}

// effortUnit reads what a window counts and how many of it a figure is.
func effortUnit(r *phrase.Reading, q phrase.Figures) (unit string, times float64, ok bool) {
	switch {
	case q.Clock:
		return "minutes", 1.0 / 60, true
	case q.Unit.Class == vocab.Massed && q.Unit.Mass == roomful.Pound:
		return "kg", roomful.KgPerLb, true // said by the caller
	case q.Unit.Class == vocab.Massed:
		return "kg", 1, true
	case q.Unit.Class == vocab.Bare && r.C.TakeAny("rounds", "round", "rds"):
		return "rounds", 1, true
	case q.Unit.Class != vocab.Counted:
		return "", 0, false
	}
	switch q.Unit.Unit.Base() {
	case roomful.Rep:
		return "reps", 1, true
	case roomful.Calorie:
		return "cal", 1, true
	case roomful.Metre:
		return "m", q.Unit.Unit.Size(), true
	}
	if q.Unit.Unit == roomful.Minute {
		return "minutes", 1, true
	}
	return "s", 1, true
}

// freshRule = movement [ ":" ] "fresh" n "+" | "fresh" n "+" movement .
func (p *parser) freshRule(l *scan.Line, c scan.Cursor) bool {
	from := c.I
	r := p.ReaderOf(c, false)
	stop := from
	for stop < c.Last && l.Tokens[stop].Text != "fresh" {
		stop++
	}
	if stop == c.Last {
		return false
	}
	r.C.I = stop + 1
	n, ok := r.Integer()
	if !ok {
		if r.C.I = stop - 2; r.C.I < from { // 12+ fresh
			return false
		}
		if n, ok = r.Integer(); !ok || !r.C.Mark("+") {
			return false
		}
		stop = r.C.I - 2
		r.C.I++
	}
	r.C.Mark("+")
	r.C.TakeAny("of", "for", "unbroken")
	name := l.Slice(from, stop)
	if stop == from {
		name = l.Slice(r.C.I, r.C.Last)
	}
	if stop == from {
		stop = c.Last
	}
	if strings.ContainsAny(name, ",;") {
		return false
	}
	return p.addFresh(name, l.Span(from, stop), n)
}

// addFresh keeps a fresh rule by its movement.
func (p *parser) addFresh(name string, at scan.Span, n int) bool {
	name = strings.TrimFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	if name == "" {
		p.Warn(at, "a fresh rule without a movement: kept as words", "write front squat: fresh 12+")
		return false
	}
	words := strings.Fields(scan.Plain(name))
	m, k := p.Lex.Match(words)
	if m == nil || k != len(words) {
		p.Unknown(roomful.Warning, at, name)
		p.addFeel(name + " fresh " + roomful.Figure(float64(n)) + "+")
		return true
	}
	if n < 1 || n > 200 {
		p.Fault(at, "fresh "+roomful.Figure(float64(n))+" cannot be right", "write how often it could be done unbroken, such as fresh 12+")
	}
	if p.Session.Effort.FreshFor(m.ID) > 0 {
		p.Clash("fresh rule for "+m.Name, at)
		return true
	}
	p.Session.Effort.Fresh = append(p.Session.Effort.Fresh, roomful.FreshRule{Movement: m.ID, Reps: n})
	p.FreshAt = append(p.FreshAt, at)
	return true
}

// protect keeps what must not be traded away: pace, load, skill or a movement.
func (p *parser) protect(l *scan.Line, c scan.Cursor) {
	from := c.I
	c.SkipJunk()
	c.Take("the")
	e := &p.Session.Effort
	text := strings.Trim(l.Slice(c.I, c.Last), " .!\"'")
	at := l.Span(min(c.I, len(l.Tokens)-1), c.Last)
	switch {
	case text == "":
		p.Warn(l.Span(max(from-1, 0), from), "nothing is protected", "write protect: pace, load, skill or a movement")
		return
	case e.Protect != "":
		p.Clash("thing to protect", at)
		p.addFeel("also protect " + text)
		return
	}
	e.Protect = text
	switch scan.Plain(text) {
	case "pace", "load", "skill":
		e.Protect = scan.Plain(text)
		return
	}
	words := strings.Fields(scan.Plain(text))
	if m, n := p.Lex.Match(words); m != nil && n == len(words) {
		e.Protect = string(m.ID)
		return
	}
	p.Warn(at, diag.Quote(text)+" cannot be protected", "write pace, load, skill or a movement")
}
