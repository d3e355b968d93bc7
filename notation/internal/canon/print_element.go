package canon

import (
	"strings"

	"roomful"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// inRound writes an element of a round. What the head says already, the
// repetitions of a set, is left out.
func (p *printer) inRound(part roomful.Part, e roomful.Element) string {
	f, sets := part.Format.(roomful.Sets)
	if !sets {
		return p.write(e, part.Scored)
	}
	reps, same := sameReps(part)
	if same && (f.Build || len(part.Round) == 1 && len(f.Reps) == 0) {
		e.Amount = roomful.Amount{}
		return p.write(e, reps != 1)
	}
	return p.write(e, true)
}

// aside writes an element that is done outside the round.
func (p *printer) aside(part roomful.Part, e roomful.Element) string {
	return p.write(e, part.Scored)
}

// option writes an element of an instead list.
func (p *printer) option(e roomful.Element) string { return p.write(e, false) }

// write puts an element on one line. Without an amount, many says whether the
// name stands in the plural.
func (p *printer) write(e roomful.Element, many bool) string {
	m := p.lex.Movement(e.Movement)
	if m == nil && e.Movement == roomful.Rest {
		m = &vocab.RestMovement
	}
	before, inline, after := p.splitNote(e, m)
	var words []string
	add := func(s string) {
		if s != "" {
			words = append(words, s)
		}
	}
	amount := AmountText(e.Amount)
	trails := e.Amount.Stated() && m != nil && (m.Modality == roomful.Hold || m.Modality == roomful.Easy || m.Modality == roomful.Pause) && e.Amount.Unit.Base() == roomful.Second
	if !trails {
		add(amount)
	}
	add(before)
	add(nameText(e, m, many))
	if trails {
		add(amount)
	}
	add(LoadText(e))
	add(HeightText(e.Heights))
	if t := e.Tempo; t != nil {
		add("tempo " + tempoText(*t))
	}
	add(inline)
	text := strings.Join(words, " ")
	if after != "" {
		text += "; " + after
	}
	return text
}

// nameText returns the name in the number that the amount asks for.
func nameText(e roomful.Element, m *roomful.Movement, many bool) string {
	switch {
	case m == nil && e.Words == "":
		return string(e.Movement)
	case m == nil:
		return e.Words
	case e.Amount.Unit != roomful.Rep:
		return m.Name
	case e.Amount.Stated() && (len(e.Amount.By) > 1 || e.Amount.By[0] != 1):
		return m.Plural
	case !e.Amount.Stated() && many && vocab.Counts(m, roomful.Rep) && m.Modality != roomful.Machine:
		return m.Plural
	}
	return m.Name
}

// AmountText writes an amount; without figures, its unit alone.
func AmountText(a roomful.Amount) string {
	if !a.Stated() {
		if a.Unit == roomful.Rep {
			return ""
		}
		return a.Unit.String()
	}
	text := pair(a.By)
	if a.Unit != roomful.Rep {
		text += " " + a.Unit.String()
	}
	return text
}

// pair writes one figure, or one for each division.
func pair(by []float64) string {
	text := roomful.Figure(by[0])
	if len(by) > 1 {
		text += "/" + roomful.Figure(by[1])
	}
	return text
}

// LoadText writes a load.
func LoadText(e roomful.Element) string {
	switch l := e.Load.(type) {
	case roomful.Masses:
		by := make([]float64, len(l))
		for i, m := range l {
			by[i] = m.Value
		}
		text := pair(by) + " " + l[0].Unit.String()
		if e.Implements > 0 {
			text = roomful.Figure(float64(e.Implements)) + " x " + text
		}
		return text
	case roomful.Percent:
		return "@ " + roomful.Figure(float64(l)) + " %"
	case roomful.BodyFraction:
		if len(l) == 1 && l[0] == 1 {
			return "@ body weight"
		}
		return "@ " + pair(l) + " x body weight"
	case roomful.Fresh:
		return "fresh " + roomful.Figure(float64(l)) + "+"
	case roomful.RPE:
		return "RPE " + roomful.Figure(float64(l))
	}
	return ""
}

// HeightText writes the height of a box or a target.
func HeightText(heights []roomful.Length) string {
	if len(heights) == 0 {
		return ""
	}
	by := make([]float64, len(heights))
	for i, h := range heights {
		by[i] = h.Value
	}
	return pair(by) + " " + heights[0].Unit.String()
}

// tempoText writes a tempo as four signs.
func tempoText(t roomful.Tempo) string {
	lift := roomful.Figure(float64(t.Lift))
	if t.Lift == 0 {
		lift = "X"
	}
	return roomful.Figure(float64(t.Lower)) + roomful.Figure(float64(t.Bottom)) + lift + roomful.Figure(float64(t.Top))
}

// splitNote divides a note into adjectives that stand before the name, a phrase
// that stands after it, and the rest, which follows a semicolon.
func (p *printer) splitNote(e roomful.Element, m *roomful.Movement) (before, inline, after string) {
	parts := trimNotes(e.Note)
	if len(parts) > 0 && m != nil && p.leads(parts[0], m) {
		before, parts = parts[0], parts[1:]
	}
	if len(parts) > 0 && isPhrase(parts[0]) {
		inline, parts = parts[0], parts[1:]
	}
	return before, inline, strings.Join(parts, ", ")
}

// leads reports whether a note is adjectives that can stand before the name
// without making another name of it.
func (p *printer) leads(note string, m *roomful.Movement) bool {
	words := strings.Fields(scan.Plain(note))
	for _, w := range words {
		if !vocab.Adjectives[w] {
			return false
		}
	}
	for _, name := range []string{m.Name, m.Plural} {
		full := append(append([]string{}, words...), strings.Fields(name)...)
		if got, n := p.lex.Match(full); got != nil && (got != m || n != len(full)) {
			return false
		}
	}
	return len(words) > 0
}

// isPhrase reports whether a note is a phrase that may stand after a movement.
func isPhrase(note string) bool {
	note = scan.Plain(note)
	for _, p := range vocab.Phrases {
		if note == p {
			return true
		}
	}
	return false
}
