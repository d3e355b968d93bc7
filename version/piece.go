package version

import (
	"slices"
	"strings"

	"roomful"
	"roomful/version/internal/say"
)

// place says where in a piece a line stands.
type place uint8

const (
	once place = iota
	round
	last
)

// line is one element of the piece with the ways it may be done.
type line struct {
	at       place
	element  roomful.Element
	movement *roomful.Movement // nil when the lexicon does not know it
	step     float64           // the largest count a ladder asks of it, 0 without
	instead  []form            // what the sheet offers
	forms    []form            // what an option may ask: as written first
}

// form is one way to do a line.
type form struct {
	element  roomful.Element
	movement *roomful.Movement
	ratio    float64 // of amounts to the line's, 0 for the same time
	// neighbour says in words what changes when the pattern is not kept.
	neighbour string
	offered   bool // by the sheet
}

// lines lays out the elements of a piece.
func lines(p roomful.Part, lex roomful.Lexicon) []line {
	var out []line
	step := ladderStep(p.Format)
	add := func(at place, es []roomful.Element) {
		for _, e := range es {
			l := line{at: at, element: e, movement: lex.Movement(e.Movement)}
			if at == round && !e.Amount.Stated() {
				l.step = step
			}
			l.forms = []form{{element: e, movement: l.movement, ratio: 1}}
			l.instead = offered(p, e, lex)
			out = append(out, l)
		}
	}
	add(once, p.Once)
	add(round, p.Round)
	add(last, p.Last)
	return out
}

// openSteps is how many steps of an open ladder are reckoned with when asking
// what a person must be able to do in one go.
const openSteps = 4

// ladderStep returns the largest count a ladder asks in one go.
func ladderStep(f roomful.Format) float64 {
	var l roomful.Ladder
	switch f := f.(type) {
	case roomful.RoundsInTime:
		l = f.Ladder
	case roomful.ForTime:
		l = f.Ladder
	case roomful.Sets:
		l = roomful.Ladder{Steps: f.Reps}
	}
	var most int
	for i := range max(len(l.Steps), openSteps) {
		n, _ := l.Step(i)
		most = max(most, n)
	}
	return float64(most)
}

// offered returns what the sheet offers in place of an element.
func offered(p roomful.Part, e roomful.Element, lex roomful.Lexicon) []form {
	var out []form
	for _, in := range p.Instead {
		if in.Movement != e.Movement {
			continue
		}
		for _, o := range in.Options {
			if m := lex.Movement(o.Movement); m != nil {
				o.Slot = e.Slot
				out = append(out, form{element: o, movement: m, offered: true, neighbour: say.Neighbour(lex.Movement(e.Movement), m)})
			}
		}
	}
	return out
}

// swapped returns the line's element with another movement, as a form.
func (l *line) swapped(m *roomful.Movement, ratio float64, words string) form {
	e := l.element
	e.Movement, e.Words = m.ID, m.Name
	e.Amount, e.Load = roomful.Amount{}, nil
	if !m.Travel.OverHeight && m.Travel.UsualHeight == 0 {
		e.Heights = nil
	}
	if words == "" {
		words = say.Neighbour(l.movement, m)
	}
	return form{element: e, movement: m, ratio: ratio, neighbour: words}
}

// easierRatio is how many of an easier form stand for one: the catalogue's own
// ratio where it lists the form among the swaps, else one for one.
func easierRatio(m *roomful.Movement, to roomful.MovementID) float64 {
	for _, s := range m.Swaps {
		if s.To == to && s.Ratio > 0 {
			return s.Ratio
		}
	}
	return 1
}

// addForm offers a form to the options, once.
func (l *line) addForm(f form) {
	if f.movement == nil || slices.ContainsFunc(l.forms, func(g form) bool { return g.movement == f.movement }) {
		return
	}
	l.forms = append(l.forms, f)
}

// isProtected reports whether the effort protects a movement by name.
func isProtected(protect string, m *roomful.Movement) bool {
	if protect == "" || m == nil {
		return false
	}
	w := strings.ToLower(protect)
	return w == string(m.ID) || w == strings.ToLower(m.Name) || w == strings.ToLower(m.Plural)
}
