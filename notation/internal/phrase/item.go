package phrase

import (
	"roomful"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// figuresItem reads figures, with what they multiply before them, and keeps
// them until the whole element is read.
func (r *Reading) figuresItem() bool {
	from := r.C.I
	by, paired := r.implements()
	lifted := r.C.Mark("@") || r.C.Take("at")
	if !lifted && !r.head {
		r.C.Take("x") // burpees x 12
	}
	if r.numeral() {
		return true
	}
	low := r.C.I
	if r.loadSteps() {
		return true
	}
	if reps, ok := r.cluster(); ok {
		r.keep(Figures{By: [2]float64{float64(reps.N)}, N: 1, at: reps.At})
		return true
	}
	if scan.FigureKind(r.C.Peek(0)) && r.C.Is2("-") {
		if r.C.I += 2; r.countedRange(low) {
			return true
		}
		r.C.I = low
	}
	q, ok := r.figures()
	if !ok {
		return r.negative()
	}
	if !r.head && r.movementAfterX() {
		r.C.I++ // 30x push-ups
	}
	q.implements, q.lifted, q.at = by, lifted, r.C.Span(from, r.C.I)
	r.keep(q)
	if paired {
		r.C.TakeAny("dumbbells", "dbs", "kettlebells", "kbs", "bells")
	}
	return true
}

// loadSteps says that "@ 50-55-60 kg", a load for each set, is not read on one
// line.
func (r *Reading) loadSteps() bool {
	from := r.C.I
	if from == 0 || r.C.Tokens[from-1].Text != "@" && r.C.Tokens[from-1].Text != "at" {
		return false
	}
	n := 0
	for ; r.C.Peek(0).Kind == scan.Number; n++ {
		r.C.I++
		if !r.C.Is("-") && !r.C.Is(",") || r.C.Peek(1).Kind != scan.Number {
			n++
			break
		}
		r.C.I++
	}
	if n < 3 {
		r.C.I = from
		return false
	}
	r.unit(new(Figures), new(float64))
	r.C.Mark("%")
	text, at := r.C.Slice(from, r.C.I), r.C.Span(from, r.C.I)
	r.Fault(at, diag.Quote(text)+" is a load for each set", "write a line for each set, such as 5 @ 60 kg").Detail = "kept as a note"
	r.closeRun(r.start)
	if r.cur != nil {
		r.cur.NoLoad = true
	}
	r.noteHere(text)
	return true
}

// implements reads "2 x" and "a pair of" before a load.
func (r *Reading) implements() (n int, paired bool) {
	from := r.C.I
	if r.C.TakeAny("with a pair of", "a pair of", "pair of", "with two", "two") && r.massFollows() {
		return 2, true
	}
	r.C.I = from
	if n, ok := r.Integer(); ok && r.C.Take("x") && (r.massFollows() || r.pairOfLoads(n)) {
		return n, false
	}
	r.C.I = from
	return 0, false
}

// numeral reads "ten" before a movement.
func (r *Reading) numeral() bool {
	from := r.C.I
	n, ok := vocab.Numerals[r.C.Peek(0).Text]
	if !ok || r.open() || r.left >= 0 {
		return false
	}
	r.C.I++
	if !r.movementFollows() {
		r.C.I = from
		return false
	}
	r.keep(Figures{By: [2]float64{float64(n)}, N: 1, at: r.C.Span(from, r.C.I)})
	return true
}

// movementAfterX reports whether an "x" and a movement stand here.
func (r *Reading) movementAfterX() bool {
	if !r.C.Is("x") {
		return false
	}
	r.C.I++
	defer func() { r.C.I-- }()
	return r.movementFollows()
}

// countedRange reads the upper end of "8-10" and keeps the lower one.
func (r *Reading) countedRange(low int) bool {
	q, ok := r.figures()
	if !ok || q.N != 1 {
		return false
	}
	q.By[0], q.at = r.C.Tokens[low].Value, r.C.Span(low, r.C.I)
	text := r.C.Slice(low, r.C.I)
	r.keep(q)
	r.Hint(q.at, diag.Quote(text)+" is read as "+roomful.Figure(q.By[0]), "the range is kept as a note")
	r.noteHere(text)
	return true
}

// negativeFollows reports whether a minus stands right before a figure, and
// apart from what is before it.
func (r *Reading) negativeFollows() bool {
	return r.C.Is("-") && !r.C.Peek(0).Tight && r.C.Peek(1).Kind == scan.Number && r.C.Peek(1).Tight
}

// negative speaks of a figure below nought.
func (r *Reading) negative() bool {
	from := r.C.I
	if !r.C.Mark("-") || r.C.Peek(0).Kind != scan.Number || !r.C.Peek(0).Tight || from > 0 && r.C.Tokens[from].Tight {
		return false
	}
	r.closeRun(r.start)
	q, _ := r.figures()
	if r.cur != nil {
		r.cur.NoLoad = true
	}
	r.Fault(r.C.Span(from, r.C.I), "a figure below nought", "write "+roomful.Figure(q.By[0]))
	r.noteHere(r.C.Slice(from, r.C.I))
	return true
}

// keep adds figures to the element; with a division's name before them, or
// after, they are joined with those of the other.
func (r *Reading) keep(q Figures) {
	r.closeRun(r.start)
	if q.division == 0 {
		q.division = r.divisionAfter()
	}
	r.decimalComma(r.start)
	d := r.element()
	if q.third {
		r.thirdFigure(q.at, r.textOf(&q))
	}
	q.first = d.Move == nil && d.Words == ""
	if k := len(d.figures) - 1; q.division == 2 && k >= 0 && d.figures[k].division <= 1 && d.figures[k].N == 1 && (d.figures[k].division == 1 || q.Unit.Class == vocab.Bare || q.Unit == d.figures[k].Unit) {
		other := &d.figures[k]
		other.By[1], other.N = q.By[0], 2
		if other.Unit.Class == vocab.Bare {
			other.Unit = q.Unit
		}
		other.at.Stop = q.at.Stop
		return
	}
	if q.division == 2 {
		r.Warn(q.at, "only the second division has a figure: read for both", "give both, such as 60/42.5 kg")
	}
	d.figures = append(d.figures, q)
}

// divisionItem reads the name of a division and the figures after it.
func (r *Reading) divisionItem() bool {
	from := r.C.I
	n := r.Division(r.C.Peek(0).Text, true)
	if n == 0 {
		return false
	}
	r.C.I++
	r.C.Mark(":")
	r.C.Mark("-")
	r.C.Mark("@")
	r.C.Mark("=")
	q, ok := r.figures()
	if !ok {
		return false
	}
	q.division, q.at = n, r.C.Span(from, r.C.I)
	r.keep(q)
	return true
}

// divisionAfter reads the name of a division after its figures.
func (r *Reading) divisionAfter() int {
	from := r.C.I
	open := r.C.Mark("(")
	if n := r.Division(r.C.Peek(0).Text, false); n > 0 && !(r.C.Peek(1).Kind == scan.Number || r.C.Peek(1).Text == ":") {
		r.C.I++
		return n
	}
	if open {
		r.C.I = from
	}
	return 0
}

// Division returns 1 or 2 for the name of a division, 0 for any other word.
func (r *Reading) Division(text string, before bool) int {
	for i, name := range r.DivisionNames {
		if text == scan.Plain(name) {
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
		if next := r.C.Peek(1); before && (next.Kind == scan.Number && text == "a" || next.Text == ":") {
			return 1
		}
	case "b", "w", "f":
		if next := r.C.Peek(1); before && (next.Kind == scan.Number && text == "b" || next.Text == ":") {
			return 2
		}
	}
	if n > 0 && !r.saidDivisions {
		r.saidDivisions = true
		r.Hint(r.C.Span(r.C.I, r.C.I+1), "men and women are read as the first and the second division", "a division is a choice of figures, and anybody's: name them with divisions: north, south")
	}
	return n
}
