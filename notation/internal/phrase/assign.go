package phrase

import (
	"slices"
	"strings"

	"roomful"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/vocab"
)

// assign puts the figures of an element to use, now that its movement is known:
// an amount, a load or a height. What fits nowhere is kept as a note, and said.
func (r *Reading) assign(d *Element) {
	for i := range d.figures {
		q := &d.figures[i]
		switch {
		case q.Unit.Class == vocab.Massed:
			r.assignMass(d, q)
		case q.Unit.Class == vocab.Percent:
			r.spare(d, q)
		case q.Unit.Class == vocab.Bare:
			r.assignBare(d, q)
		default:
			r.assignCounted(d, q)
		}
	}
	r.checkUnknownUnit(d)
	r.modified(d)
	d.Note = r.noteOf(d.remarks)
	d.figures, d.remarks = nil, nil
}

// modified reads "pull-ups (strict)" as the movement of that name.
func (r *Reading) modified(d *Element) {
	if d.Move == nil {
		return
	}
	for i, m := range d.remarks {
		if m.text != "" || m.to-m.from > 3 {
			continue
		}
		if _, n := r.Lex.Match(r.C.Words[m.from:m.to]); n == m.to-m.from {
			continue // two movements, "burpees & pull-ups"
		}
		if other := r.together(d.Move, r.C.Words[m.from:m.to]); other != nil {
			r.Context.Hint(d.NameAt, "read as "+other.Name, "write "+other.Plural+" to say so")
			d.Move, d.Movement = other, other.ID
			d.remarks = slices.Delete(d.remarks, i, i+1)
			return
		}
	}
}

// noteOf joins what is kept of a line in the order it stands there; stretches
// that touch become one.
func (r *Reading) noteOf(list []remark) string {
	slices.SortStableFunc(list, func(a, b remark) int { return a.from - b.from })
	var b strings.Builder
	for i := 0; i < len(list); i++ {
		m := list[i]
		for i+1 < len(list) && m.text == "" && list[i+1].text == "" && list[i+1].from == m.to && !r.phraseAt(m.from) && !r.adjective(m) {
			m.to = list[i+1].to
			i++
		}
		if m.text == "" {
			m.text = r.C.Slice(m.from, m.to)
		}
		if b.Len() > 0 {
			b.WriteString(", ")
		}
		b.WriteString(m.text)
	}
	return b.String()
}

// adjective reports whether a remark is an adjective, which stays by itself.
func (r *Reading) adjective(m remark) bool { return r.onlyAdjectives(m.from, m.to) }

// phraseAt reports whether a phrase stands at token i.
func (r *Reading) phraseAt(i int) bool {
	before := r.C.I
	defer func() { r.C.I = before }()
	r.C.I = i
	return r.phrase() > 0
}

// amounted reports whether a figure can be the amount already.
func (d *Element) amounted() bool {
	for _, q := range d.figures {
		if q.Unit.Class == vocab.Bare || q.Unit.Class == vocab.Counted {
			return true
		}
	}
	return d.Amount.Stated()
}

// values returns the figures as a slice.
func (q *Figures) values() []float64 {
	if q.N == 2 && q.By[0] == q.By[1] {
		return []float64{q.By[0]}
	}
	return append([]float64(nil), q.By[:q.N]...)
}

// assignMass makes figures with a unit of mass the load.
func (r *Reading) assignMass(d *Element, q *Figures) {
	if d.Load != nil {
		r.Fault(q.at, "a second load for one movement", "give one load, or write two lines").Detail = "the second is kept as a note"
		d.remarks = append(d.remarks, r.remarkOf(q))
		return
	}
	if q.implements > 2 || q.implements > 0 && d.Move != nil && d.Move.Implement == roomful.Barbell {
		r.timesLoad(d, q)
	}
	var m roomful.Masses
	for _, v := range q.values() {
		m = append(m, roomful.Mass{Value: v, Unit: q.Unit.Mass})
	}
	d.Load, d.Implements, d.LoadAt = m, q.implements, q.at
	r.mass.last, r.mass.written = q.Unit.Mass, true
}

// timesLoad reads "5 x 140 kg" of a bar as repetitions: there is one bar.
func (r *Reading) timesLoad(d *Element, q *Figures) {
	if !d.Amount.Stated() && vocab.Counts(d.Move, roomful.Rep) {
		d.Amount, d.AmountAt = roomful.Amount{By: []float64{float64(q.implements)}}, q.at
		r.Hint(q.at, diag.Quote(r.textOf(q))+" is read as "+roomful.Figure(float64(q.implements))+" repetitions with that load", "write them before the movement")
	} else {
		r.Warn(q.at, diag.Quote(r.textOf(q))+" has more than one implement: read as one", "write the load of one")
	}
	q.implements = 0
}

// remarkOf returns figures as typed.
func (r *Reading) remarkOf(q *Figures) remark {
	i, j := 0, len(r.C.Tokens)
	for i < j && r.C.Tokens[i].Col < q.at.Col {
		i++
	}
	for j > i && r.C.Tokens[j-1].Stop > q.at.Stop {
		j--
	}
	return remark{from: i, to: j}
}

// textOf returns figures as typed.
func (r *Reading) textOf(q *Figures) string {
	m := r.remarkOf(q)
	return r.C.Slice(m.from, m.to)
}

// spare keeps figures that nothing can be done with.
func (r *Reading) spare(d *Element, q *Figures) {
	m := r.remarkOf(q)
	if !r.phraseAt(m.to) {
		r.Hint(q.at, diag.Quote(r.textOf(q))+" is kept as a note", "put a note after ; to keep this quiet")
	}
	d.remarks = append(d.remarks, m)
}

// assignCounted makes figures with a unit the amount, or the height.
func (r *Reading) assignCounted(d *Element, q *Figures) {
	unit := q.Unit.Unit
	high := vocab.TakesHeight(d.Move)
	if unit == roomful.Inch && q.Unit.Times == 0 && !high && len(d.Heights) == 0 {
		unit = roomful.Second // 30"
	}
	short := unit == roomful.Inch || unit == roomful.Centimetre
	length := short || unit == roomful.Metre || unit == roomful.Foot
	aloft := short || length && high && (d.Amount.Stated() || !q.first && !vocab.Counts(d.Move, roomful.Metre))
	switch {
	case aloft && len(d.Heights) == 0:
		d.HeightAt = q.at
		for _, v := range q.values() {
			d.Heights = append(d.Heights, roomful.Length{Value: v, Unit: unit})
		}
		if d.Move != nil && !high {
			r.Warn(q.at, d.Move.Name+" has no height to set", "delete "+diag.Quote(r.textOf(q))+", or put it after ;")
		}
	case unit == roomful.Minute && high && q.N == 2 && d.Amount.Stated() && len(d.Heights) == 0:
		d.HeightAt = q.at
		for _, v := range q.values() { // 10/9'
			d.Heights = append(d.Heights, roomful.Length{Value: v, Unit: roomful.Foot})
		}
	case d.Amount.Stated(), short:
		r.spare(d, q)
	default:
		d.Amount, d.AmountAt = roomful.Amount{By: q.values(), Unit: unit}, q.at
		r.checkUnit(d, q)
	}
}

// assignBare puts figures without a unit to use: the amount comes first, then a
// load or a height, by what the movement takes.
func (r *Reading) assignBare(d *Element, q *Figures) {
	taken := d.Amount.Stated() || r.laterAmount(d, q)
	switch m := d.Move; {
	case (q.implements > 0 || q.lifted && vocab.Loaded(m)) && d.Load == nil:
		r.loadWithoutUnit(d, q)
	case r.unknownUnit(d, q):
	case !taken && (m == nil || vocab.Counts(m, roomful.Rep)) && !((r.F.Reps.Set() || r.RepsKnown) && vocab.Loaded(m) && !q.first):
		if d.Amount.Unit.Base() != roomful.Rep { // "cal row 12"
			d.Amount.By = q.values()
			r.checkUnit(d, q)
			return
		}
		d.Amount, d.AmountAt = roomful.Amount{By: q.values()}, q.at
	case !taken:
		r.amountWithoutUnit(d, q)
	case vocab.Loaded(m) && d.Load == nil:
		r.loadWithoutUnit(d, q)
	case vocab.TakesHeight(m) && len(d.Heights) == 0:
		r.heightWithoutUnit(d, q)
	default:
		r.spare(d, q)
	}
}

// laterAmount reports whether figures after q say the amount with a unit, or
// stood before the name while q does not.
func (r *Reading) laterAmount(d *Element, q *Figures) bool {
	if q.first {
		return false
	}
	for i := range d.figures {
		if p := &d.figures[i]; p != q && p.Unit.Class == vocab.Counted && p.Unit.Unit == roomful.Rep {
			return true
		}
	}
	if _, usual := vocab.UsualPair(d.Move, q.By[:q.N]); usual || vocab.TakesHeight(d.Move) && vocab.UsualHeights(q.By[:q.N]) {
		return true
	}
	return q.N == 2 && (r.F.Reps.Set() || r.RepsKnown || !r.F.LadderAt.IsZero() || r.LadderPart) && (vocab.Loaded(d.Move) || vocab.TakesHeight(d.Move))
}

// amountWithoutUnit reads "15/12 row" and "400 run".
func (r *Reading) amountWithoutUnit(d *Element, q *Figures) {
	unit, name := d.Amount.Unit, ""
	switch {
	case unit.Base() != roomful.Rep:
		d.Amount.By = q.values()
		r.checkUnit(d, q)
		return
	case q.By[0] >= 100 && vocab.Counts(d.Move, roomful.Metre):
		unit, name = roomful.Metre, "metres"
	case vocab.Counts(d.Move, roomful.Calorie) && q.By[0] < 100:
		unit, name = roomful.Calorie, "calories"
	default:
		r.Fault(q.at, "what "+diag.Quote(r.textOf(q))+" counts is not said", d.Move.Name+" is counted in "+vocab.UnitList(d.Move)+": add the unit")
		d.remarks, d.NoAmount = append(d.remarks, r.remarkOf(q)), true
		return
	}
	r.Warn(q.at, diag.Quote(r.textOf(q))+" has no unit: read as "+name, "add the unit")
	d.Amount = roomful.Amount{By: q.values(), Unit: unit}
}

// heightWithoutUnit reads "box jump 24/20": inches up to 40, centimetres above.
func (r *Reading) heightWithoutUnit(d *Element, q *Figures) {
	unit := roomful.Inch
	if q.By[0] >= 40 {
		unit = roomful.Centimetre
	}
	for _, v := range q.values() {
		d.Heights = append(d.Heights, roomful.Length{Value: v, Unit: unit})
	}
	d.HeightAt = q.at
	r.Warn(q.at, diag.Quote(r.textOf(q))+" has no unit: read as "+unit.String(), "add in or cm")
}
