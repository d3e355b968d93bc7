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
