package notation

import (
	"slices"
	"strings"

	"roomful"
)

// assign puts the figures of an element to use, now that its movement is known:
// an amount, a load or a height. What fits nowhere is kept as a note, and said.
func (r *reading) assign(d *drafted) {
	for i := range d.figures {
		q := &d.figures[i]
		switch {
		case q.unit.class == massed:
			r.assignMass(d, q)
		case q.unit.class == percent:
			r.spare(d, q)
		case q.unit.class == bare:
			r.assignBare(d, q)
		default:
			r.assignCounted(d, q)
		}
	}
	r.checkUnknownUnit(d)
	d.Note = r.noteOf(d.remarks)
	d.figures, d.remarks = nil, nil
}

// noteOf joins what is kept of a line in the order it stands there; stretches
// that touch become one.
func (r *reading) noteOf(list []remark) string {
	slices.SortStableFunc(list, func(a, b remark) int { return a.from - b.from })
	var b strings.Builder
	for i := 0; i < len(list); i++ {
		m := list[i]
		for i+1 < len(list) && m.text == "" && list[i+1].text == "" && list[i+1].from == m.to && !r.phraseAt(m.from) && !r.adjective(m) {
			m.to = list[i+1].to
			i++
		}
		if m.text == "" {
			m.text = r.c.slice(m.from, m.to)
		}
		if b.Len() > 0 {
			b.WriteString(", ")
		}
		b.WriteString(m.text)
	}
	return b.String()
}

// adjective reports whether a remark is an adjective, which stays by itself.
func (r *reading) adjective(m remark) bool { return r.onlyAdjectives(m.from, m.to) }

// phraseAt reports whether a phrase stands at token i.
func (r *reading) phraseAt(i int) bool {
	before := r.c.i
	defer func() { r.c.i = before }()
	r.c.i = i
	return r.phrase() > 0
}

// amounted reports whether a figure can be the amount already.
func (d *drafted) amounted() bool {
	for _, q := range d.figures {
		if q.unit.class == bare || q.unit.class == counted {
			return true
		}
	}
	return d.Amount.Stated()
}

// values returns the figures as a slice.
func (q *figures) values() []float64 {
	if q.n == 2 && q.by[0] == q.by[1] {
		return []float64{q.by[0]}
	}
	return append([]float64(nil), q.by[:q.n]...)
}

// assignMass makes figures with a unit of mass the load.
func (r *reading) assignMass(d *drafted, q *figures) {
	if d.Load != nil {
		r.fault(q.at, "a second load for one movement", "give one load, or write two lines")
		d.remarks = append(d.remarks, r.remarkOf(q))
		return
	}
	var m roomful.Masses
	for _, v := range q.values() {
		m = append(m, roomful.Mass{Value: v, Unit: q.unit.mass})
	}
	d.Load, d.Implements, d.loadAt = m, q.implements, q.at
	r.lastMass = &q.unit.mass
}

// remarkOf returns figures as typed.
func (r *reading) remarkOf(q *figures) remark {
	i, j := 0, len(r.c.tokens)
	for i < j && r.c.tokens[i].col < q.at.col {
		i++
	}
	for j > i && r.c.tokens[j-1].stop > q.at.stop {
		j--
	}
	return remark{from: i, to: j}
}

// textOf returns figures as typed.
func (r *reading) textOf(q *figures) string {
	m := r.remarkOf(q)
	return r.c.slice(m.from, m.to)
}

// spare keeps figures that nothing can be done with.
func (r *reading) spare(d *drafted, q *figures) {
	m := r.remarkOf(q)
	if !r.phraseAt(m.to) {
		r.hint(q.at, quote(r.textOf(q))+" is kept as a note", "put a note after ; to keep this quiet")
	}
	d.remarks = append(d.remarks, m)
}

// assignCounted makes figures with a unit the amount, or the height.
func (r *reading) assignCounted(d *drafted, q *figures) {
	unit := q.unit.unit
	high := takesHeight(d.move)
	if unit == roomful.Inch && q.unit.times == 0 && !high && len(d.Heights) == 0 {
		unit = roomful.Second // 30"
	}
	length := unit.Base() == roomful.Metre
	short := unit == roomful.Inch || unit == roomful.Centimetre
	switch {
	case d.Amount.Stated() && length && (high || short) && len(d.Heights) == 0, (short || (unit == roomful.Metre || unit == roomful.Foot) && high && !counts(d.move, roomful.Metre)) && len(d.Heights) == 0:
		for _, v := range q.values() {
			d.Heights = append(d.Heights, roomful.Length{Value: v, Unit: unit})
		}
		if d.move != nil && !high {
			r.warn(q.at, d.move.Name+" has no height to set", "delete "+quote(r.textOf(q))+", or put it after ;")
		}
	case unit == roomful.Minute && high && q.n == 2 && d.Amount.Stated():
		for _, v := range q.values() { // 10/9'
			d.Heights = append(d.Heights, roomful.Length{Value: v, Unit: roomful.Foot})
		}
	case d.Amount.Stated(), short:
		r.spare(d, q)
	default:
		d.Amount, d.amountAt = roomful.Amount{By: q.values(), Unit: unit}, q.at
		r.checkUnit(d, q)
	}
}

// assignBare puts figures without a unit to use: the amount comes first, then a
// load or a height, by what the movement takes.
func (r *reading) assignBare(d *drafted, q *figures) {
	taken := d.Amount.Stated() || r.laterAmount(d, q)
	switch m := d.move; {
	case q.implements > 0 && d.Load == nil:
		r.loadWithoutUnit(d, q)
	case r.unknownUnit(d, q):
	case !taken && (m == nil || counts(m, roomful.Rep)) && !((r.f.reps.set() || r.repsKnown) && loaded(m)):
		if d.Amount.Unit.Base() != roomful.Rep { // "cal row 12"
			d.Amount.By = q.values()
			r.checkUnit(d, q)
			return
		}
		d.Amount, d.amountAt = roomful.Amount{By: q.values()}, q.at
	case !taken:
		r.amountWithoutUnit(d, q)
	case loaded(m) && d.Load == nil:
		r.loadWithoutUnit(d, q)
	case takesHeight(m) && len(d.Heights) == 0:
		r.heightWithoutUnit(d, q)
	default:
		r.spare(d, q)
	}
}

// laterAmount reports whether figures after q say the amount with a unit, or
// stood before the name while q does not.
func (r *reading) laterAmount(d *drafted, q *figures) bool {
	if q.first {
		return false
	}
	for i := range d.figures {
		if p := &d.figures[i]; p != q && p.unit.class == counted && p.unit.unit == roomful.Rep {
			return true
		}
	}
	return q.n == 2 && (r.f.reps.set() || r.repsKnown || !r.f.ladderAt.isZero() || r.ladderPart) && (loaded(d.move) || takesHeight(d.move))
}

// amountWithoutUnit reads "15/12 row" and "400 run".
func (r *reading) amountWithoutUnit(d *drafted, q *figures) {
	unit, name := d.Amount.Unit, ""
	switch {
	case unit.Base() != roomful.Rep:
		d.Amount.By = q.values()
		r.checkUnit(d, q)
		return
	case q.by[0] >= 100 && counts(d.move, roomful.Metre):
		unit, name = roomful.Metre, "metres"
	case counts(d.move, roomful.Calorie) && q.by[0] < 100:
		unit, name = roomful.Calorie, "calories"
	default:
		r.fault(q.at, "what "+quote(r.textOf(q))+" counts is not said", d.move.Name+" is counted in "+unitList(d.move)+": add the unit")
		d.remarks = append(d.remarks, r.remarkOf(q))
		return
	}
	r.warn(q.at, quote(r.textOf(q))+" has no unit: read as "+name, "add the unit")
	d.Amount = roomful.Amount{By: q.values(), Unit: unit}
}

// loadWithoutUnit reads "95/65" after a loaded movement, in the unit of the
// sheet's other loads.
func (r *reading) loadWithoutUnit(d *drafted, q *figures) {
	unit := roomful.Kilogram
	if r.lastMass != nil {
		unit = *r.lastMass
	}
	q.unit = measureUnit{massed, 0, unit, 1}
	r.assignMass(d, q)
	r.warn(q.at, quote(r.textOf(q))+" has no unit: read as "+unit.String(), "add kg or lb")
}

// heightWithoutUnit reads "box jump 24/20": inches up to 40, centimetres above.
func (r *reading) heightWithoutUnit(d *drafted, q *figures) {
	unit := roomful.Inch
	if q.by[0] >= 40 {
		unit = roomful.Centimetre
	}
	for _, v := range q.values() {
		d.Heights = append(d.Heights, roomful.Length{Value: v, Unit: unit})
	}
	r.warn(q.at, quote(r.textOf(q))+" has no unit: read as "+unit.String(), "add in or cm")
}
