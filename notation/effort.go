package notation

import (
	"math"
	"strings"
	"unicode"

	"roomful"
)

// effort = "effort:" clause { "," clause } { indented effort-line } .
func (p *parser) effort(l *line, c cursor) {
	p.effortClauses(l, c)
	for p.at < len(p.lines) {
		next := &p.lines[p.at]
		if next.blank() || next.indent <= l.indent {
			return
		}
		p.at++
		c := at(next)
		if c.takeAny("protect", "protects") {
			c.mark(":")
			p.protect(next, c)
			continue
		}
		if !p.freshRule(next, at(next)) {
			p.effortClauses(next, at(next))
		}
	}
}

// effortClauses reads clauses with commas between.
func (p *parser) effortClauses(l *line, c cursor) {
	for !c.done() {
		c.skipJunk()
		stop := c.i
		for stop < c.last && l.tokens[stop].text != "," && l.tokens[stop].text != ";" {
			stop++
		}
		if stop > c.i {
			p.effortClause(l, cursor{line: l, i: c.i, last: stop})
		}
		c.i = min(stop+1, c.last)
	}
}

// effortClause = window | fresh rule | "protect" what | feel .
func (p *parser) effortClause(l *line, c cursor) {
	for c.last > c.i+1 && c.tokens[c.last-1].text != "+" && idle(c.tokens[c.last-1]) {
		c.last--
	}
	from := c.i
	if c.takeAny("protect the", "protect") {
		c.mark(":")
		p.protect(l, c)
		return
	}
	c.i = from
	if p.freshRule(l, c) || p.effortWindow(l, c) {
		return
	}
	p.addFeel(strings.TrimRight(l.slice(c.i, c.last), " .!"))
}

// addFeel adds to the coach's own words.
func (p *parser) addFeel(text string) {
	e := &p.session.Effort
	if e.Feel != "" && text != "" {
		e.Feel += ", "
	}
	e.Feel += text
}

// effortWindow = figure [ "-" figure ] unit | "under" figure unit .
func (p *parser) effortWindow(l *line, c cursor) bool {
	from := c.i
	r := p.readerOf(c, false)
	under := r.c.takeAny("under", "sub", "less than", "at most", "up to")
	about := r.c.takeAny("about", "around", "roughly", "aim for", "finish in", "in")
	var low, high figures
	if !r.figure(&low) {
		return false
	}
	open := r.c.mark("+")
	if r.c.mark("-") || r.c.takeAny("to", "and") {
		if !r.figure(&high) {
			return false
		}
		open = r.c.mark("+") || open
	} else {
		high = low
	}
	unit, times, ok := effortUnit(r, high)
	if under && !ok && high.unit.class == bare && r.c.done() {
		unit, times, ok = "minutes", 1, true
		p.hint(l.span(from, r.c.i), "read as minutes", "write the unit, such as under 12 min")
	}
	r.c.takeAny("each", "total", "in all")
	if !ok || !r.c.done() {
		return false
	}
	at := l.span(from, r.c.i)
	e := &p.session.Effort
	switch {
	case e.Stated():
		p.clash("effort window", at)
		p.addFeel(l.slice(from, r.c.i))
		return true
	case open:
		p.warn(at, quote(l.slice(from, r.c.i))+" has no upper end: kept as words", "write a window such as 5-7 rounds")
		p.addFeel(l.slice(from, r.c.i))
		return true
	}
	e.Low, e.High, e.Unit = min(low.by[0]*times, largest), min(high.by[0]*times, largest), unit
	if low.unit.class != bare && high.unit.class != bare && low.unit != high.unit && low.n > 0 {
		e.Low = e.Low / times * scale(low, unit)
	}
	if times == roomful.KgPerLb {
		e.Low, e.High = math.Round(e.Low*10)/10, math.Round(e.High*10)/10
		p.hint(at, "pounds are kept as "+window(*e), "write the window in kg to say so")
	}
	if under {
		e.Low = 0
	}
	p.checkWindow(at, about)
	return true
}

// checkWindow says when a window cannot be aimed at.
func (p *parser) checkWindow(at span, about bool) {
	e := &p.session.Effort
	switch {
	case e.Low > e.High:
		p.fault(at, "the window ends before it begins", "write the lower figure first")
	case e.High <= 0:
		p.fault(at, "a window of nothing", "write a window such as 5-7 rounds")
	case e.Low == e.High && (about || e.Unit == "minutes"):
		p.warn(at, "a window of one figure", "write a window such as 8-11 min, so that people can be aimed at it")
	}
}

// scale returns how many of an effort unit one of a figure's unit is.
func scale(q figures, unit string) float64 {
	if unit == "minutes" {
		return q.unit.unit.Size() / 60
	}
	return q.unit.unit.Size()
}

// effortUnit reads what a window counts and how many of it a figure is.
func effortUnit(r *reading, q figures) (unit string, times float64, ok bool) {
	switch {
	case q.clock:
		return "minutes", 1.0 / 60, true
	case q.unit.class == massed && q.unit.mass == roomful.Pound:
		return "kg", roomful.KgPerLb, true // said by the caller
	case q.unit.class == massed:
		return "kg", 1, true
	case q.unit.class == bare && r.c.takeAny("rounds", "round", "rds"):
		return "rounds", 1, true
	case q.unit.class != counted:
		return "", 0, false
	}
	switch q.unit.unit.Base() {
	case roomful.Rep:
		return "reps", 1, true
	case roomful.Calorie:
		return "cal", 1, true
	case roomful.Metre:
		return "m", q.unit.unit.Size(), true
	}
	if q.unit.unit == roomful.Minute {
		return "minutes", 1, true
	}
	return "s", 1, true
}

// freshRule = movement [ ":" ] "fresh" n "+" | "fresh" n "+" movement .
func (p *parser) freshRule(l *line, c cursor) bool {
	from := c.i
	r := p.readerOf(c, false)
	stop := from
	for stop < c.last && l.tokens[stop].text != "fresh" {
		stop++
	}
	if stop == c.last {
		return false
	}
	r.c.i = stop + 1
	n, ok := r.integer()
	if !ok {
		if r.c.i = stop - 2; r.c.i < from { // 12+ fresh
			return false
		}
		if n, ok = r.integer(); !ok || !r.c.mark("+") {
			return false
		}
		stop = r.c.i - 2
		r.c.i++
	}
	r.c.mark("+")
	r.c.takeAny("of", "for", "unbroken")
	name := l.slice(from, stop)
	if stop == from {
		name = l.slice(r.c.i, r.c.last)
	}
	if stop == from {
		stop = c.last
	}
	if strings.ContainsAny(name, ",;") {
		return false
	}
	return p.addFresh(name, l.span(from, stop), n)
}

// addFresh keeps a fresh rule by its movement.
func (p *parser) addFresh(name string, at span, n int) bool {
	name = strings.TrimFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	if name == "" {
		p.warn(at, "a fresh rule without a movement: kept as words", "write front squat: fresh 12+")
		return false
	}
	words := strings.Fields(plain(name))
	m, k := p.lex.Match(words)
	if m == nil || k != len(words) {
		p.unknown(roomful.Warning, at, name)
		p.addFeel(name + " fresh " + roomful.Figure(float64(n)) + "+")
		return true
	}
	if n < 1 || n > 200 {
		p.fault(at, "fresh "+roomful.Figure(float64(n))+" cannot be right", "write how often it could be done unbroken, such as fresh 12+")
	}
	if p.session.Effort.FreshFor(m.ID) > 0 {
		p.clash("fresh rule for "+m.Name, at)
		return true
	}
	p.session.Effort.Fresh = append(p.session.Effort.Fresh, roomful.FreshRule{Movement: m.ID, Reps: n})
	p.freshAt = append(p.freshAt, at)
	return true
}

// protect keeps what must not be traded away: pace, load, skill or a movement.
func (p *parser) protect(l *line, c cursor) {
	from := c.i
	c.take("the")
	e := &p.session.Effort
	text := strings.TrimRight(l.slice(c.i, c.last), " .!")
	at := l.span(min(c.i, len(l.tokens)-1), c.last)
	switch {
	case text == "":
		p.warn(l.span(max(from-1, 0), from), "nothing is protected", "write protect: pace, load, skill or a movement")
		return
	case e.Protect != "":
		p.clash("thing to protect", at)
		p.addFeel("also protect " + text)
		return
	}
	e.Protect = text
	switch plain(text) {
	case "pace", "load", "skill":
		e.Protect = plain(text)
		return
	}
	words := strings.Fields(plain(text))
	if m, n := p.lex.Match(words); m != nil && n == len(words) {
		e.Protect = string(m.ID)
		return
	}
	p.warn(at, quote(text)+" cannot be protected", "write pace, load, skill or a movement")
}
