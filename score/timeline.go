package score

import (
	"math"
	"slices"

	"roomful"
)

// timeline is how the load of one line went over a piece.
type timeline struct {
	r     *reader
	out   *roomful.Reading
	piece int
	of    roomful.MovementID
	lines []roomful.Element

	spans, base []lifted // with and without a stretch of the piece
	now         float64  // the load that is held, in kg; 0 for the sheet's
	differs     bool     // the load may be another than the sheet's
	changes     []owned
}

// fill lays the loads out from the start of the piece to its end.
func (t *timeline) fill() {
	s := &t.r.pieces[t.piece]
	type stretch struct{ from, to, kg float64 }
	var held []stretch
	for _, l := range t.spans {
		one := stretch{kg: l.kg, to: math.Inf(1)}
		one.from = t.r.begins(t.out, s, saidChange{Change: roomful.Change{LoadKg: l.kg}, span: l.span, then: l.then})
		if until, known := t.r.clock(l.span.until, s, t.out); known && l.span.until != (point{}) {
			one.to = until
		}
		held = append(held, one)
	}
	slices.SortStableFunc(held, func(a, b stretch) int { return int(a.from - b.from) })
	at, slack := 0.0, 0.0
	if l := t.r.lasted(s, t.out); l.rounds > 0 {
		slack = l.seconds / l.rounds / 2 // the first 3 and the last 3 of 6+3 leave nothing between
	}
	for _, one := range held {
		if at == 0 && one.from > 0 || one.from > at+slack {
			t.rest(at)
		}
		t.set(one.from, one.kg)
		at = one.to
	}
	if l := t.r.lasted(s, t.out); !math.IsInf(at, 1) && (l.seconds == 0 || at < l.seconds-slack) {
		t.rest(at)
	}
	for _, l := range t.base[min(1, len(t.base)):] { // "24 kg then 16": nobody says when
		then := saidChange{Change: roomful.Change{LoadKg: l.kg}, then: true}
		t.set(t.r.begins(t.out, s, then), l.kg)
	}
}

// rest holds from a time on what no stretch was said for, else the sheet's.
func (t *timeline) rest(at float64) {
	switch {
	case len(t.base) > 0:
		t.set(at, t.base[0].kg)
	case at == 0:
	case len(t.changes) == 0 && t.now > 0: // the sheet's load for a part of it, and then?
		t.differs = true
		ask(t.out, "what was it after the first part with "+roomful.Figure(t.now)+" kg?", "the same", "another load")
	default:
		t.change(roomful.Change{Of: t.of, To: t.of, AtSeconds: at})
		t.now = 0
	}
}

// set holds a load from a time on.
func (t *timeline) set(at, kg float64) {
	if kg == t.now {
		return
	}
	_, differs := t.r.line(t.lines, kg)
	sheets := !differs && (t.r.q.Division != roomful.AnyDivision || t.r.heaviest(t.lines, kg)) // "80 from round 3" of 80
	again := t.now > 0 || len(t.changes) > 0 || !sheets
	t.now = kg
	if at > 0 && again || differs {
		t.change(roomful.Change{Of: t.of, LoadKg: kg, AtSeconds: at})
		return
	}
	t.differs = !sheets // the sheet's for some, less for others
}

// change adds a change of the line.
func (t *timeline) change(c roomful.Change) {
	t.changes = append(t.changes, owned{saidChange{Change: c}, t.piece})
}
