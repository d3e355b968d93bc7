// Package piece is the lines of a piece with the ways each may be done, and what
// it costs to depart from what is written.
package piece

import (
	"slices"
	"strings"

	"roomful"
	"roomful/version/internal/say"
)

// Place says where in a piece a line stands.
type Place uint8

// The places.
const (
	Once Place = iota
	Round
	Last
)

// Line is one element of the piece with the ways it may be done.
type Line struct {
	At       Place
	Element  roomful.Element
	Movement *roomful.Movement // nil when the lexicon does not know it
	Step     float64           // the largest count a ladder asks of it, 0 without
	Instead  []Form            // what the sheet offers
	Forms    []Form            // what an option may ask: as written first
}

// Form is one way to do a line.
type Form struct {
	Element  roomful.Element
	Movement *roomful.Movement
	Ratio    float64 // of amounts to the line's, 0 for the same time
	// Neighbour says in words what changes when the pattern is not kept.
	Neighbour string
	Offered   bool // by the sheet
}

// Lines lays out the elements of a piece: once, round, last.
func Lines(p roomful.Part, lex roomful.Lexicon) []Line {
	var out []Line
	step := ladderStep(p.Format)
	add := func(at Place, es []roomful.Element) {
		for _, e := range es {
			l := Line{At: at, Element: e, Movement: lex.Movement(e.Movement)}
			if at == Round && !e.Amount.Stated() {
				l.Step = step
			}
			l.Forms = []Form{{Element: e, Movement: l.Movement, Ratio: 1}}
			l.Instead = offered(p, e, lex)
			out = append(out, l)
		}
	}
	add(Once, p.Once)
	add(Round, p.Round)
	add(Last, p.Last)
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
func offered(p roomful.Part, e roomful.Element, lex roomful.Lexicon) []Form {
	var out []Form
	for _, in := range p.Instead {
		if in.Movement != e.Movement {
			continue
		}
		for _, o := range in.Options {
			if m := lex.Movement(o.Movement); m != nil {
				o.Slot = e.Slot
				out = append(out, Form{Element: o, Movement: m, Offered: true, Neighbour: say.Neighbour(lex.Movement(e.Movement), m)})
			}
		}
	}
	return out
}

// Swapped returns the line's element with another movement, as a form; words say
// what changes, found when empty.
func (l *Line) Swapped(m *roomful.Movement, ratio float64, words string) Form {
	e := l.Element
	e.Movement, e.Words = m.ID, m.Name
	e.Amount, e.Load = roomful.Amount{}, nil
	if !m.Travel.OverHeight && m.Travel.UsualHeight == 0 {
		e.Heights = nil
	}
	if words == "" {
		words = say.Neighbour(l.Movement, m)
	}
	return Form{Element: e, Movement: m, Ratio: ratio, Neighbour: words}
}

// Easier returns an easier form of m: so many for one as the catalogue says where
// it lists the form among the swaps, else one for one.
func (l *Line) Easier(m, to *roomful.Movement) Form {
	for _, s := range m.Swaps {
		if s.To == to.ID && s.Ratio > 0 {
			return l.Swapped(to, s.Ratio, "")
		}
	}
	return l.Swapped(to, 1, "")
}

// Add offers a form to the options, once.
func (l *Line) Add(f Form) {
	if f.Movement == nil || slices.ContainsFunc(l.Forms, func(g Form) bool { return g.Movement == f.Movement }) {
		return
	}
	l.Forms = append(l.Forms, f)
}

// Implement is what the line as written is held with.
func (l *Line) Implement() roomful.Implement {
	if l.Movement == nil {
		return roomful.NoImplement
	}
	return l.Movement.Implement
}

// Cuttable reports whether the line states an amount that can be cut.
func (l *Line) Cuttable() bool {
	return l.Element.Movement != roomful.Rest && l.Element.Amount.Stated()
}

// isProtected reports whether the effort protects a movement by name.
func isProtected(protect string, m *roomful.Movement) bool {
	if protect == "" || m == nil {
		return false
	}
	w := strings.ToLower(protect)
	return w == string(m.ID) || w == strings.ToLower(m.Name) || w == strings.ToLower(m.Plural)
}
