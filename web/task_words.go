package web

import (
	"math"
	"strconv"
	"strings"

	"roomful"
)

// wording writes what is done, for a page of one person.
type wording struct {
	lexicon roomful.Lexicon
	unit    roomful.MassUnit // that they think in
}

// amount writes how much: "8", "600 m", "21-15-9", and "max" for as much as there is time for.
func (w wording) amount(t roomful.Task, f roomful.Format) string {
	switch {
	case t.Amount > 0 && t.Unit == roomful.Rep:
		return roomful.Figure(t.Amount)
	case t.Amount > 0:
		return roomful.Figure(t.Amount) + " " + t.Unit.String()
	}
	if steps := ladderOf(f); len(steps.Steps) > 0 {
		return ladderWords(steps)
	}
	return "max"
}

// ladderOf is the ladder of a format, which says the amounts.
func ladderOf(f roomful.Format) roomful.Ladder {
	switch f := f.(type) {
	case roomful.RoundsInTime:
		return f.Ladder
	case roomful.ForTime:
		return f.Ladder
	}
	return roomful.Ladder{}
}

// ladderWords writes a ladder as on a board.
func ladderWords(l roomful.Ladder) string {
	var steps []string
	for _, n := range l.Steps {
		steps = append(steps, strconv.Itoa(n))
	}
	if l.Open {
		steps = append(steps, "…")
	}
	return strings.Join(steps, "-")
}

// name is what is done, in the plural unless there is one of it.
func (w wording) name(t roomful.Task) string {
	m := w.lexicon.Movement(t.Movement)
	switch {
	case m == nil:
		return string(t.Movement)
	case t.Unit != roomful.Rep || t.Amount == 1:
		return m.Name
	}
	return m.Plural
}

// called is the name of a movement.
func (w wording) called(id roomful.MovementID) string {
	if m := w.lexicon.Movement(id); m != nil {
		return m.Name
	}
	return string(id)
}

// several is a movement as one names what is done of it.
func (w wording) several(id roomful.MovementID) string {
	if m := w.lexicon.Movement(id); m != nil {
		return m.Several()
	}
	return string(id)
}

// load writes what a line is done with: in the unit that they think in, and beside it in
// the unit of the implement when that is another. Without a load it is the height.
func (w wording) load(t roomful.Task) (own, other string) {
	height, cm := w.height(t)
	switch {
	case t.Load.Value > 0:
		own, other = w.mass(t.Load)
		if t.Implements > 1 {
			own = strconv.Itoa(t.Implements) + " × " + own
		}
		if height != "" {
			other = strings.TrimPrefix(other+", ", ", ") + height
		}
		return own, other
	case t.Percent > 0:
		return roomful.Figure(t.Percent) + " %", "of your best"
	case t.RPE > 0:
		return "RPE " + roomful.Figure(t.RPE), ""
	case t.Fresh > 0:
		return "", "a load for " + strconv.Itoa(t.Fresh) + " fresh"
	}
	return height, cm
}

// mass writes a mass in the unit that they think in, and as it stands on the implement
// when that is in another.
func (w wording) mass(m roomful.Mass) (own, other string) {
	if m.Unit == w.unit {
		return m.String(), ""
	}
	return roomful.Figure(math.Round(m.In(w.unit).Value)) + " " + w.unit.String(), m.String()
}

// height writes how high a box or a target is; who thinks in pounds thinks in inches.
func (w wording) height(t roomful.Task) (own, other string) {
	if t.HeightCm <= 0 {
		return "", ""
	}
	m := w.lexicon.Movement(t.Movement)
	if m != nil && m.Implement == roomful.Ball {
		return "to " + roomful.Figure(math.Round(t.HeightCm)/100) + " m", ""
	}
	cm := roomful.Figure(math.Round(t.HeightCm)) + " cm"
	if w.unit == roomful.Pound {
		return roomful.Figure(math.Round(t.HeightCm/2.54)) + " in", cm
	}
	return cm, ""
}

// line writes a whole task in a row: "8 deadlifts 55 kg".
func (w wording) line(t roomful.Task, f roomful.Format) string {
	words := w.amount(t, f)
	if t.Amount == 0 && len(ladderOf(f).Steps) == 0 {
		words = ""
	}
	words = strings.TrimSpace(words + " " + w.name(t))
	own, other := w.load(t)
	if own != "" {
		words += " " + own
	}
	if other != "" {
		words += " (" + other + ")"
	}
	return words
}

// bar writes what goes on a bar: "20 kg bar, on each side 10 and 5".
func barWords(s roomful.SideLoad) string {
	if len(s.PerSide) == 0 {
		return "The bare " + s.Bar.String() + " bar."
	}
	var plates []string
	for _, m := range s.PerSide {
		if one := roomful.Figure(m.Value); m.Unit == s.Bar.Unit {
			plates = append(plates, one)
		} else {
			plates = append(plates, m.String())
		}
	}
	return s.Bar.String() + " bar, on each side " + enumerated(plates) + "."
}

// enumerated lists words: "a, b and c".
func enumerated(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " and " + words[len(words)-1]
}
