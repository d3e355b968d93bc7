package phrase

import (
	"strings"

	"roomful"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// checkUnit says when a movement is not counted in the unit of its amount. Any
// movement may be done for a time.
func (r *Reading) checkUnit(d *Element, q *Figures) {
	base := d.Amount.Unit.Base()
	if d.Move == nil || base == roomful.Second || vocab.Counts(d.Move, base) {
		return
	}
	r.Fault(q.at, d.Move.Plural+" are not counted in "+vocab.UnitPlural(d.Amount.Unit), "count them in "+vocab.UnitList(d.Move)).Detail = "kept as typed"
}

// unknownUnit says when a word that is no unit follows a figure that needs one:
// "12 furlongs row", "9 squats 60 stone".
func (r *Reading) unknownUnit(d *Element, q *Figures) bool {
	i := 0
	for i < len(r.C.Tokens) && r.C.Tokens[i].Stop <= q.at.Stop {
		i++
	}
	if d.Move == nil || i >= r.C.Last || q.first && vocab.Counts(d.Move, roomful.Rep) {
		return false
	}
	t := r.C.Tokens[i]
	if t.Kind != scan.Word || vocab.Little[t.Text] || vocab.Adjectives[t.Text] || t.Col >= d.NameAt.Col && q.first {
		return false
	}
	if !q.first && !(vocab.Loaded(d.Move) && d.Load == nil && d.Amount.Stated()) {
		return false
	}
	hint := "known units are reps, m, km, mi, cal, s, min, kg, lb, cm, in and ft"
	if near := vocab.NearUnit(t.Text); near != "" {
		hint = "did you mean " + near + "?"
	}
	r.Fault(t.Place(r.C.No), diag.Quote(t.Text)+" is no unit I know", hint).Detail = "the figure is kept as a note"
	d.NoLoad, d.NoAmount = true, true
	d.remarks = append(d.remarks, r.remarkOf(q))
	return true
}

// checkUnknownUnit says when an unknown name is a unit before a movement, "12
// furlongs row".
func (r *Reading) checkUnknownUnit(d *Element) {
	if d.Move != nil || !d.Amount.Stated() || d.Amount.Unit != roomful.Rep || d.Words == "" {
		return
	}
	unit, name, ok := strings.Cut(d.Words, " ")
	name = strings.TrimPrefix(strings.TrimSpace(name), "of ")
	if !ok || name == "" {
		return
	}
	words := strings.Fields(scan.Plain(name))
	m, n := r.Lex.Match(words)
	if m == nil || n != len(words) || vocab.Counts(m, roomful.Rep) || m.ID == roomful.Rest {
		return
	}
	hint := m.Name + " is counted in " + vocab.UnitList(m)
	if near := vocab.NearUnit(scan.Plain(unit)); near != "" {
		hint = "did you mean " + near + "?"
	}
	at := d.NameAt
	at.Stop = at.Col + int32(len([]rune(unit)))
	r.Fault(at, diag.Quote(unit)+" is no unit I know", hint)
	d.Move, d.Movement, d.Words = m, m.ID, name
	d.remarks = append(d.remarks, remark{text: roomful.Figure(d.Amount.By[0]) + " " + unit})
	d.Amount, d.NoAmount = roomful.Amount{}, true
}
