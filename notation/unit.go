package notation

import (
	"strings"

	"roomful"
)

// checkUnit says when a movement is not counted in the unit of its amount. Any
// movement may be done for a time.
func (r *reading) checkUnit(d *drafted, q *figures) {
	base := d.Amount.Unit.Base()
	if d.move == nil || base == roomful.Second || counts(d.move, base) {
		return
	}
	r.fault(q.at, d.move.Plural+" are not counted in "+unitPlural(d.Amount.Unit), "count them in "+unitList(d.move))
}

// unknownUnit says when a word that is no unit follows a figure that needs one:
// "12 furlongs row", "9 squats 60 stone".
func (r *reading) unknownUnit(d *drafted, q *figures) bool {
	i := 0
	for i < len(r.c.tokens) && r.c.tokens[i].stop <= q.at.stop {
		i++
	}
	if d.move == nil || i >= r.c.last || q.first && counts(d.move, roomful.Rep) {
		return false
	}
	t := r.c.tokens[i]
	if t.kind != word || little[t.text] || adjectives[t.text] || t.col >= d.nameAt.col && q.first {
		return false
	}
	if !q.first && !(loaded(d.move) && d.Load == nil && d.Amount.Stated()) {
		return false
	}
	hint := "known units are reps, m, km, mi, cal, s, min, kg, lb, cm, in and ft"
	if near := nearUnit(t.text); near != "" {
		hint = "did you mean " + near + "?"
	}
	r.fault(span{r.c.no, t.col, t.stop}, quote(t.text)+" is no unit I know", hint)
	d.noLoad = true
	d.remarks = append(d.remarks, r.remarkOf(q))
	return true
}

// checkUnknownUnit says when an unknown name is a unit before a movement, "12
// furlongs row".
func (r *reading) checkUnknownUnit(d *drafted) {
	if d.move != nil || !d.Amount.Stated() || d.Amount.Unit != roomful.Rep || d.Words == "" {
		return
	}
	unit, name, ok := strings.Cut(d.Words, " ")
	name = strings.TrimPrefix(strings.TrimSpace(name), "of ")
	if !ok || name == "" {
		return
	}
	words := strings.Fields(plain(name))
	m, n := r.lex.Match(words)
	if m == nil || n != len(words) || counts(m, roomful.Rep) || m.ID == roomful.Rest {
		return
	}
	hint := m.Name + " is counted in " + unitList(m)
	if near := nearUnit(plain(unit)); near != "" {
		hint = "did you mean " + near + "?"
	}
	at := d.nameAt
	at.stop = at.col + len([]rune(unit))
	r.fault(at, quote(unit)+" is no unit I know", hint)
	d.move, d.Movement, d.Words = m, m.ID, name
	d.remarks = append(d.remarks, remark{text: roomful.Figure(d.Amount.By[0]) + " " + unit})
	d.Amount = roomful.Amount{}
}
