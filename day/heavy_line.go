package day

import (
	"slices"
	"strings"

	"roomful"
)

// pieceToLoad finds the piece asked about, and the line of it when nobody said: the
// piece as named, else the first, main before others, that has the movement, or
// anything with a load.
func (l *loading) pieceToLoad() (roomful.Part, error) {
	first, err := pieceOf(l.Session, l.Question.Piece)
	if err != nil {
		return first, err
	}
	if l.Movement == "" && l.Question.Piece == "" {
		l.Movement = l.ramped()
	}
	pieces := []roomful.Part{first}
	for _, p := range l.Session.Parts {
		if p.Scored && l.Question.Piece == "" && p.Name() != first.Name() {
			pieces = append(pieces, p)
		}
	}
	var there []string
	for _, p := range pieces {
		for _, m := range l.loadedLines(p) {
			if l.Movement == "" {
				l.Movement = m.ID
				return p, nil
			}
			if !slices.Contains(there, m.Name) {
				there = append(there, m.Name)
			}
		}
		if slices.ContainsFunc(p.All(), func(e roomful.Element) bool { return e.Movement == l.Movement && e.Movement != "" }) {
			return p, nil
		}
	}
	if l.Movement == "" {
		return first, nil
	}
	out := &roomful.Error{Summary: "no piece of this sheet has " + l.nameOf(l.Movement), Hint: "nothing in it has a load"}
	if len(there) > 0 {
		out.Hint = "what has a load is " + strings.Join(there, ", ")
	}
	return first, out
}

// ramped is the first movement with a load that the sheet has a ramp for and a piece
// with; empty when there is none.
func (l *loading) ramped() roomful.MovementID {
	for _, r := range l.Session.Parts {
		for _, e := range r.All() {
			m := l.Lexicon.Movement(e.Movement)
			if r.Kind != roomful.Ramp || m == nil || !m.TakesLoad() {
				continue
			}
			for _, p := range l.Session.Pieces() {
				if slices.ContainsFunc(p.All(), func(e roomful.Element) bool { return e.Movement == m.ID }) {
					return m.ID
				}
			}
		}
	}
	return ""
}

// loadedLines are the movements of a piece that take a load, the likeliest to be
// asked about first.
func (l *loading) loadedLines(p roomful.Part) []*roomful.Movement {
	var tested, bar, other []*roomful.Movement
	for _, e := range p.All() {
		m := l.Lexicon.Movement(e.Movement)
		_, test := e.Load.(roomful.Fresh)
		switch {
		case m == nil || !m.TakesLoad():
		case test || l.Session.Effort.FreshFor(m.ID) > 0:
			tested = append(tested, m)
		case m.Implement == roomful.Barbell:
			bar = append(bar, m)
		default:
			other = append(other, m)
		}
	}
	return slices.Concat(tested, bar, other)
}

// nameOf is a movement's name, or its id when nobody knows it.
func (d *Day) nameOf(id roomful.MovementID) string {
	if m := d.Lexicon.Movement(id); m != nil {
		return m.Name
	}
	return string(id)
}

// nothing answers where nothing in the piece has a load.
func (l *loading) nothing() roomful.OwnLoad {
	var names []string
	for _, e := range l.piece.All() {
		if m := l.Lexicon.Movement(e.Movement); m != nil && m.Modality != roomful.Pause && !slices.Contains(names, m.Plural) {
			names = append(names, m.Plural)
		}
	}
	return roomful.OwnLoad{Athlete: l.Who.ID, Name: l.Who.Name, None: "no load in this piece: " + strings.Join(names, ", ")}
}

// plural is a movement's name for many.
func (d *Day) plural(id roomful.MovementID) string {
	if m := d.Lexicon.Movement(id); m != nil {
		return m.Plural
	}
	return string(id)
}
