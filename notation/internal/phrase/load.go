package phrase

import (
	"roomful"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/scan"
)

// loadItem = [ "@" ] ( n "%" | fraction "body weight" | "fresh" n "+" | n "+" "fresh" | "RPE" n ) .
func (r *Reading) loadItem() bool {
	at := r.C.Mark("@")
	r.C.TakeAny("at", "with")
	start := r.C.I
	for _, production := range [...]func(*Reading) bool{
		(*Reading).percentLoad, (*Reading).massLoad, (*Reading).freshLoad, (*Reading).rpeLoad,
	} {
		if production(r) {
			return true
		}
		r.C.I = start
	}
	return at && r.tempoItem()
}

// massLoad reads a share of body mass.
func (r *Reading) massLoad() bool { return r.bodyMass(true) }

// setLoad gives the element its load, or the head when no element is open.
func (r *Reading) setLoad(l roomful.Load, at scan.Span) {
	if r.cur == nil && r.head && len(r.Elements) > 0 {
		last := &r.Elements[len(r.Elements)-1]
		if last.Load == nil {
			last.Load, last.LoadAt = l, at
			return
		}
	}
	if r.cur == nil && r.head {
		if r.F.Load == nil {
			r.F.Load = l
		}
		return
	}
	r.closeRun(r.start)
	d := r.element()
	if d.Load != nil {
		r.Fault(at, "a second load for one movement", "give one load, or write two lines")
		return
	}
	d.Load, d.LoadAt = l, at
}

// percentLoad reads "75 %", "70-75 % of 1RM".
func (r *Reading) percentLoad() bool {
	from := r.C.I
	t := r.C.Peek(0)
	if t.Kind != scan.Number {
		return false
	}
	r.C.I++
	paired := r.C.Is("/") && r.C.Peek(1).Kind == scan.Number
	if paired || r.C.Is("-") && r.C.Peek(1).Kind == scan.Number {
		r.C.I += 2
	}
	ranged := r.C.I > from+1
	if !r.C.Mark("%") && !r.C.TakeAny("percent", "pc") {
		return false
	}
	stop := r.C.I
	r.C.TakeAny("of your", "of")
	if _, ok := r.Integer(); ok && r.C.Take("rm") || r.C.TakeAny("max", "1rm", "today's max", "today's", "today", "that", "the day") {
		stop = r.C.I
	}
	r.C.I = stop
	at := r.C.Span(from, stop)
	if paired {
		r.twoShares(at, r.C.Slice(from, stop))
		return true
	}
	r.setLoad(roomful.Percent(t.Value), at)
	if ranged {
		r.Hint(at, diag.Quote(r.C.Slice(from, stop))+" is read as "+roomful.Figure(t.Value)+" %", "say one share to have bars loaded")
		r.noteHere(r.C.Slice(from, stop))
	}
	if t.Value > 120 || t.Value <= 0 {
		r.Fault(at, roomful.Figure(t.Value)+" % of a maximum cannot be right", "write a share from 1 to 120 %")
	}
	return true
}

// twoShares speaks of a share of a maximum for each division, and keeps it as a
// note: a share is of a person's own maximum already.
func (r *Reading) twoShares(at scan.Span, text string) {
	r.Fault(at, diag.Quote(text)+" has two shares: a share is the same for both divisions", "write one, such as @ 70 %: it is of each person's own maximum").Detail = "kept as a note"
	r.closeRun(r.start)
	if r.cur != nil {
		r.cur.NoLoad = true
	}
	r.noteHere(text)
}

// noteHere keeps a note with the element, or with the head.
func (r *Reading) noteHere(text string) {
	if r.cur != nil {
		r.cur.remarks = append(r.cur.remarks, remark{r.start, r.C.I, text})
		return
	}
	r.F.Notes = append(r.F.Notes, text)
}

// bodyMass reads "body weight", "3/4 body weight", "1.5/1 x body mass". With
// set false it only looks.
func (r *Reading) bodyMass(set bool) bool {
	from := r.C.I
	undo := func() bool { r.C.I = from; return false }
	by := []float64{1}
	if r.C.Peek(0).Kind == scan.Number {
		by[0] = r.C.Peek(0).Value
		r.C.I++
		if r.C.Is("/") && r.C.Peek(1).Kind == scan.Number {
			by = append(by, r.C.Peek(1).Value)
			r.C.I += 2
		}
		r.C.Take("x")
	}
	if !r.C.TakeAny("body weight", "bodyweight", "body mass", "bodymass", "bw") {
		return undo()
	}
	if _, n := r.Match(scan.Cursor{Line: r.C.Line, I: r.C.I - 1, Last: r.C.Last}); n > 1 {
		return undo() // bodyweight squat
	}
	if !set {
		r.C.I = from
		return true
	}
	if len(by) == 2 && by[0] < by[1] && by[1] == float64(int(by[1])) && by[1] > 1 {
		by = []float64{by[0] / by[1]}
	}
	at := r.C.Span(from, r.C.I)
	r.setLoad(roomful.BodyFraction(by), at)
	for _, v := range by {
		if v <= 0 || v > 4 {
			r.Fault(at, roomful.Figure(v)+" times body weight cannot be right", "write a share such as 0.75 x body weight")
		}
	}
	return true
}

// freshLoad reads "fresh 12+", "12+ fresh" and "a load you could do 12+ times
// unbroken when fresh".
func (r *Reading) freshLoad() bool {
	from := r.C.I
	said := r.C.TakeAny("fresh", "a load you could do", "a load you can do", "a weight you could do", "a weight you can do", "load you could do", "weight you could do")
	n, ok := r.Integer()
	if !ok || !r.C.Mark("+") && !said {
		return false
	}
	if r.C.Tokens[from].Text != "fresh" {
		r.C.TakeAny("times", "reps")
		r.C.TakeAny("unbroken", "without putting it down")
	}
	r.C.Take("when")
	if !r.C.Take("fresh") && !said {
		return false
	}
	r.setLoad(roomful.Fresh(n), r.C.Span(from, r.C.I))
	return true
}

// rpeLoad reads "RPE 8" and "8 RPE".
func (r *Reading) rpeLoad() bool {
	from := r.C.I
	named := r.C.Take("rpe")
	t := r.C.Peek(0)
	if t.Kind != scan.Number {
		return false
	}
	r.C.I++
	ranged := r.C.Is("-") && r.C.Peek(1).Kind == scan.Number
	if ranged {
		r.C.I += 2
	}
	if !named && !r.C.Take("rpe") {
		return false
	}
	place := r.C.Span(from, r.C.I)
	r.setLoad(roomful.RPE(t.Value), place)
	if ranged {
		r.Hint(place, diag.Quote(r.C.Slice(from, r.C.I))+" is read as RPE "+roomful.Figure(t.Value), "the range is kept as a note")
		r.noteHere(r.C.Slice(from, r.C.I))
	}
	if t.Value < 1 || t.Value > 10 {
		r.Fault(place, "RPE "+roomful.Figure(t.Value)+" does not exist", "RPE goes from 1 to 10")
	}
	return true
}

// tempoItem = "tempo" tempo | tempo .
// A tempo is 31X1, 3010, 3-1-X-1 or 3.1.X.1: lowering, bottom, lifting, top.
func (r *Reading) tempoItem() bool {
	from := r.C.I
	named := r.C.Take("tempo") || from > 0 && r.C.Tokens[from-1].Text == "@"
	text := ""
	for !r.C.Done() && len(text) < 5 {
		t := r.C.Peek(0)
		if t.Kind == scan.Mark && (t.Text == "-" || t.Text == ".") && len(text) > 0 {
			r.C.I++
			continue
		}
		raw := r.C.Raw[t.From:t.To]
		if t.Kind != scan.Number && t.Text != "x" || len(text) > 0 && !t.Tight && !named {
			break
		}
		for i := range len(raw) {
			if raw[i] != '.' {
				text += raw[i : i+1]
			}
		}
		r.C.I++
	}
	tempo, ok := tempoOf(text)
	if !ok || !named && (text[2] != 'X' || r.F.Reps.Set() == r.F.Times.Set() && !r.F.Reps.Set() && !r.open()) {
		return false
	}
	r.closeRun(r.start)
	if r.open() || !r.head {
		r.element().Tempo = &tempo
	} else {
		r.F.Tempo = &tempo
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
		case scan.IsDigit(b):
			v[i] = int(b - '0')
		case b != 'x' && b != 'X' || i != 2:
			return t, false
		}
	}
	return roomful.Tempo{Lower: v[0], Bottom: v[1], Lift: v[2], Top: v[3]}, true
}
