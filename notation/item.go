package notation

import (
	"roomful"
)

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
	for i, name := range r.divisionNames {
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
