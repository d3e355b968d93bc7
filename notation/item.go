package notation

import (
	"roomful"
)

// loadItem = [ "@" ] ( n "%" | fraction "body weight" | "fresh" n "+" | n "+" "fresh" | "RPE" n ) .
func (r *reading) loadItem() bool {
	at := r.c.mark("@")
	r.c.takeAny("at", "with")
	start := r.c.i
	for _, production := range [...]func(*reading) bool{
		(*reading).percentLoad, (*reading).massLoad, (*reading).freshLoad, (*reading).rpeLoad,
	} {
		if production(r) {
			return true
		}
		r.c.i = start
	}
	return at && r.tempoItem()
}

// massLoad reads a share of body mass.
func (r *reading) massLoad() bool { return r.bodyMass(true) }

// setLoad gives the element its load, or the head when no element is open.
func (r *reading) setLoad(l roomful.Load, at span) {
	if r.cur == nil && r.head && len(r.elements) > 0 {
		last := &r.elements[len(r.elements)-1]
		if last.Load == nil {
			last.Load, last.loadAt = l, at
			return
		}
	}
	if r.cur == nil && r.head {
		if r.f.load == nil {
			r.f.load = l
		}
		return
	}
	r.closeRun(r.start)
	d := r.element()
	if d.Load != nil {
		r.fault(at, "a second load for one movement", "give one load, or write two lines")
		return
	}
	d.Load, d.loadAt = l, at
}

// percentLoad reads "75 %", "70-75 % of 1RM".
func (r *reading) percentLoad() bool {
	from := r.c.i
	t := r.c.peek(0)
	if t.kind != number {
		return false
	}
	r.c.i++
	if r.c.is("-") && r.c.peek(1).kind == number {
		r.c.i += 2
	}
	ranged := r.c.i > from+1
	if !r.c.mark("%") && !r.c.takeAny("percent", "pc") {
		return false
	}
	stop := r.c.i
	r.c.takeAny("of your", "of")
	if _, ok := r.integer(); ok && r.c.take("rm") || r.c.takeAny("max", "1rm") {
		stop = r.c.i
	}
	r.c.i = stop
	at := r.c.span(from, stop)
	r.setLoad(roomful.Percent(t.value), at)
	if ranged {
		r.hint(at, quote(r.c.slice(from, stop))+" is read as "+roomful.Figure(t.value)+" %", "say one share to have bars loaded")
		r.noteHere(r.c.slice(from, stop))
	}
	if t.value > 120 || t.value <= 0 {
		r.fault(at, roomful.Figure(t.value)+" % of a maximum cannot be right", "write a share from 1 to 120 %")
	}
	return true
}

// noteHere keeps a note with the element, or with the head.
func (r *reading) noteHere(text string) {
	if r.cur != nil {
		r.cur.remarks = append(r.cur.remarks, remark{r.start, r.c.i, text})
		return
	}
	r.f.notes = append(r.f.notes, text)
}

// bodyMass reads "body weight", "3/4 body weight", "1.5/1 x body mass". With
// set false it only looks.
func (r *reading) bodyMass(set bool) bool {
	from := r.c.i
	undo := func() bool { r.c.i = from; return false }
	by := []float64{1}
	if r.c.peek(0).kind == number {
		by[0] = r.c.peek(0).value
		r.c.i++
		if r.c.is("/") && r.c.peek(1).kind == number {
			by = append(by, r.c.peek(1).value)
			r.c.i += 2
		}
		r.c.take("x")
	}
	if !r.c.takeAny("body weight", "bodyweight", "body mass", "bodymass", "bw") {
		return undo()
	}
	if _, n := r.match(cursor{line: r.c.line, i: r.c.i - 1, last: r.c.last}); n > 1 {
		return undo() // bodyweight squat
	}
	if !set {
		r.c.i = from
		return true
	}
	if len(by) == 2 && by[0] < by[1] && by[1] == float64(int(by[1])) && by[1] > 1 {
		by = []float64{by[0] / by[1]}
	}
	at := r.c.span(from, r.c.i)
	r.setLoad(roomful.BodyFraction(by), at)
	for _, v := range by {
		if v <= 0 || v > 4 {
			r.fault(at, roomful.Figure(v)+" times body weight cannot be right", "write a share such as 0.75 x body weight")
		}
	}
	return true
}

// freshLoad reads "fresh 12+", "12+ fresh" and "a load you could do 12+ times
// unbroken when fresh".
func (r *reading) freshLoad() bool {
	from := r.c.i
	said := r.c.takeAny("fresh", "a load you could do", "a load you can do", "a weight you could do", "a weight you can do", "load you could do", "weight you could do")
	n, ok := r.integer()
	if !ok || !r.c.mark("+") && !said {
		return false
	}
	r.c.takeAny("times", "reps")
	r.c.takeAny("unbroken", "without putting it down")
	r.c.take("when")
	if !r.c.take("fresh") && !said {
		return false
	}
	r.c.take("unbroken")
	r.setLoad(roomful.Fresh(n), r.c.span(from, r.c.i))
	return true
}

// rpeLoad reads "RPE 8" and "8 RPE".
func (r *reading) rpeLoad() bool {
	from := r.c.i
	named := r.c.take("rpe")
	t := r.c.peek(0)
	if t.kind != number {
		return false
	}
	r.c.i++
	ranged := r.c.is("-") && r.c.peek(1).kind == number
	if ranged {
		r.c.i += 2
	}
	if !named && !r.c.take("rpe") {
		return false
	}
	place := r.c.span(from, r.c.i)
	r.setLoad(roomful.RPE(t.value), place)
	if ranged {
		r.hint(place, quote(r.c.slice(from, r.c.i))+" is read as RPE "+roomful.Figure(t.value), "the range is kept as a note")
		r.noteHere(r.c.slice(from, r.c.i))
	}
	if t.value < 1 || t.value > 10 {
		r.fault(place, "RPE "+roomful.Figure(t.value)+" does not exist", "RPE goes from 1 to 10")
	}
	return true
}

// tempoItem = "tempo" tempo | tempo .
// A tempo is 31X1, 3010, 3-1-X-1 or 3.1.X.1: lowering, bottom, lifting, top.
func (r *reading) tempoItem() bool {
	from := r.c.i
	named := r.c.take("tempo") || from > 0 && r.c.tokens[from-1].text == "@"
	text := ""
	for !r.c.done() && len(text) < 5 {
		t := r.c.peek(0)
		if t.kind == mark && (t.text == "-" || t.text == ".") && len(text) > 0 {
			r.c.i++
			continue
		}
		raw := r.c.raw[t.from:t.to]
		if t.kind != number && t.text != "x" || len(text) > 0 && !t.tight && !named {
			break
		}
		for i := range len(raw) {
			if raw[i] != '.' {
				text += raw[i : i+1]
			}
		}
		r.c.i++
	}
	tempo, ok := tempoOf(text)
	if !ok || !named && (text[2] != 'X' || r.f.reps.set() == r.f.times.set() && !r.f.reps.set() && !r.open()) {
		return false
	}
	r.closeRun(r.start)
	if r.open() || !r.head {
		r.element().Tempo = &tempo
	} else {
		r.f.tempo = &tempo
	}
	return true
}

// tempoOf reads four signs: figures, or an X for the lift.
func tempoOf(text string) (t roomful.Tempo, ok bool) {
	if len(text) != 4 {
		return t, false
	}
	var v [4]int
	for i := range 4 {
		switch b := text[i]; {
		case isDigit(b):
			v[i] = int(b - '0')
		case b != 'x' && b != 'X' || i != 2:
			return t, false
		}
	}
	return roomful.Tempo{Lower: v[0], Bottom: v[1], Lift: v[2], Top: v[3]}, true
}

// figuresItem reads figures, with what they multiply before them, and keeps
// them until the whole element is read.
func (r *reading) figuresItem() bool {
	from := r.c.i
	by := 0
	if n, ok := r.integer(); ok && r.c.take("x") && (r.massFollows() || r.pairOfLoads(n)) {
		by = n
	} else {
		r.c.i = from
	}
	if !r.c.mark("@") && !r.c.take("at") && !r.head {
		r.c.take("x") // burpees x 12
	}
	if r.numeral() {
		return true
	}
	low := r.c.i
	if figureKind(r.c.peek(0)) && r.c.is2("-") {
		if r.c.i += 2; r.countedRange(low) {
			return true
		}
		r.c.i = low
	}
	q, ok := r.figures()
	if !ok {
		return r.negative()
	}
	if !r.head && r.movementAfterX() {
		r.c.i++ // 30x push-ups
	}
	q.implements, q.at = by, r.c.span(from, r.c.i)
	r.keep(q)
	return true
}

// numeral reads "ten" before a movement.
func (r *reading) numeral() bool {
	from := r.c.i
	n, ok := numerals[r.c.peek(0).text]
	if !ok || r.open() || r.left >= 0 {
		return false
	}
	r.c.i++
	if !r.movementFollows() {
		r.c.i = from
		return false
	}
	r.keep(figures{by: [2]float64{float64(n)}, n: 1, at: r.c.span(from, r.c.i)})
	return true
}

// movementAfterX reports whether an "x" and a movement stand here.
func (r *reading) movementAfterX() bool {
	if !r.c.is("x") {
		return false
	}
	r.c.i++
	defer func() { r.c.i-- }()
	return r.movementFollows()
}

// is2 reports whether the token after the next is this mark and a figure
// follows it.
func (c *cursor) is2(text string) bool {
	return c.peek(1).text == text && figureKind(c.peek(2)) && c.peek(3).text != text
}

// countedRange reads the upper end of "8-10" and keeps the lower one.
func (r *reading) countedRange(low int) bool {
	q, ok := r.figures()
	if !ok || q.n != 1 {
		return false
	}
	q.by[0], q.at = r.c.tokens[low].value, r.c.span(low, r.c.i)
	text := r.c.slice(low, r.c.i)
	r.keep(q)
	r.hint(q.at, quote(text)+" is read as "+roomful.Figure(q.by[0]), "the range is kept as a note")
	r.noteHere(text)
	return true
}

// negative speaks of a figure below nought.
func (r *reading) negative() bool {
	from := r.c.i
	if !r.c.mark("-") || r.c.peek(0).kind != number || !r.c.peek(0).tight || from > 0 && r.c.tokens[from].tight {
		return false
	}
	r.closeRun(r.start)
	q, _ := r.figures()
	if r.cur != nil {
		r.cur.noLoad = true
	}
	r.fault(r.c.span(from, r.c.i), "a figure below nought", "write "+roomful.Figure(q.by[0]))
	r.noteHere(r.c.slice(from, r.c.i))
	return true
}

// keep adds figures to the element; with a division's name before them, or
// after, they are joined with those of the other.
func (r *reading) keep(q figures) {
	r.closeRun(r.start)
	if q.division == 0 {
		q.division = r.divisionAfter()
	}
	r.decimalComma(r.start)
	d := r.element()
	if q.third {
		r.thirdFigure(q.at, r.textOf(&q))
	}
	q.first = d.move == nil && d.Words == ""
	if k := len(d.figures) - 1; q.division == 2 && k >= 0 && d.figures[k].division == 1 {
		other := &d.figures[k]
		other.by[1], other.n = q.by[0], 2
		if other.unit.class == bare {
			other.unit = q.unit
		}
		other.at.stop = q.at.stop
		return
	}
	if q.division == 2 {
		r.warn(q.at, "only the second division has a figure: read for both", "give both, such as 60/42.5 kg")
	}
	d.figures = append(d.figures, q)
}

// divisionItem reads the name of a division and the figures after it.
func (r *reading) divisionItem() bool {
	from := r.c.i
	n := r.division(r.c.peek(0).text, true)
	if n == 0 {
		return false
	}
	r.c.i++
	r.c.mark(":")
	r.c.mark("-")
	r.c.mark("@")
	r.c.mark("=")
	q, ok := r.figures()
	if !ok {
		return false
	}
	q.division, q.at = n, r.c.span(from, r.c.i)
	r.keep(q)
	return true
}

// divisionAfter reads the name of a division after its figures.
func (r *reading) divisionAfter() int {
	from := r.c.i
	open := r.c.mark("(")
	if n := r.division(r.c.peek(0).text, false); n > 0 && !(r.c.peek(1).kind == number || r.c.peek(1).text == ":") {
		r.c.i++
		return n
	}
	if open {
		r.c.i = from
	}
	return 0
}

// division returns 1 or 2 for the name of a division, 0 for any other word.
func (r *reading) division(text string, before bool) int {
	for i, name := range r.session.Divisions {
		if text == plain(name) {
			return i + 1
		}
	}
	n := 0
	switch text {
	case "men", "man", "male", "males", "mens", "men's":
		n = 1
	case "women", "woman", "female", "females", "ladies", "womens", "women's":
		n = 2
	case "a", "m":
		if next := r.c.peek(1); before && (next.kind == number && text == "a" || next.text == ":") {
			return 1
		}
	case "b", "w", "f":
		if next := r.c.peek(1); before && (next.kind == number && text == "b" || next.text == ":") {
			return 2
		}
	}
	if n > 0 && !r.saidDivisions {
		r.saidDivisions = true
		r.hint(r.c.span(r.c.i, r.c.i+1), "men and women are read as the first and the second division", "a division is a choice of figures, and anybody's: name them with divisions: north, south")
	}
	return n
}
