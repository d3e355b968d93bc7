package version

import (
	"roomful"
	"roomful/version/internal/piece"
	"roomful/version/internal/say"
)

// change says what takes the place of what.
func (r *reliever) change(li int, t roomful.Task) string {
	w := r.p.written[li]
	was := r.named(w)
	if w.Movement == t.Movement {
		was = say.Amount(w.Amount, w.Unit)
		if w.Load.Value > 0 {
			was += " at " + w.Load.String()
		}
	}
	return r.named(t) + " instead of " + was
}

// named writes a task as it is said: "5 block deadlifts at 52.5 kg".
func (r *reliever) named(t roomful.Task) string {
	m := r.Lexicon.Movement(t.Movement)
	words := say.Amount(t.Amount, t.Unit) + " " + say.Many(m, t)
	if t.Unit == roomful.Rep && t.Amount == 1 {
		words = "1 " + m.Name
	}
	if t.Load.Value > 0 {
		words += " at "
		if t.Implements > 1 {
			words += roomful.Figure(float64(t.Implements)) + " x "
		}
		words += say.Load(t.Load, r.p.Athlete.Unit)
	}
	return words
}

// words are what the coach says to the person for one way to go on.
func (r *reliever) words(li int, fit *fitted) string {
	m, t := fit.form.Movement, fit.task
	name := "the " + say.Many(r.lines[li].Movement, r.p.written[li])
	does := r.named(t)
	if m.Modality == roomful.Machine {
		does = say.Amount(t.Amount, t.Unit) + " on the " + say.Machine(m)
	}
	if f, ok := r.Piece.Format.(roomful.ForTime); r.lines[li].At == piece.Round && !(ok && f.Rounds <= 1) {
		does += " each time"
	}
	switch {
	case fit.why.amount == byLimit:
		does = "Ease off: " + does + ", " + manner(m) + "."
	case say.Leads(m) == roomful.Cyclic:
		does = does + " in place of " + name + ", at a pace you can talk at."
	default:
		does += " in place of " + name + "."
	}
	return does + " Stop if it is no easier."
}

// manner is how less of the same is done: what is lifted slowly, what lands softly,
// the rest without hurry.
func manner(m *roomful.Movement) string {
	switch {
	case m.TakesLoad():
		return "slow and smooth"
	case m.Loads(roomful.StressImpact):
		return "soft and unhurried"
	}
	return "unhurried"
}
