package version

import (
	"slices"

	"roomful"
	"roomful/version/internal/piece"
)

// Did resolves what somebody did in the place of an element when all they said is
// which movement it was: the amount that the sheet's own alternatives, the gym or
// the catalogue give for it, else what takes them as long, with a load they could
// use. Their limits do not count, since it is done. It is false when the lexicon
// does not know one of the two.
func Did(q InsteadQuestion, instead []roomful.Instead, to roomful.MovementID) (roomful.Task, bool) {
	from, m := q.Lexicon.Movement(q.Of.Movement), q.Lexicon.Movement(to)
	if from == nil || m == nil {
		return roomful.Task{}, false
	}
	q.Person.Athlete.Limits = nil
	f, err := q.fitter("")
	if err != nil {
		return roomful.Task{}, false
	}
	form := f.formOf(from, m, instead)
	fit := &fitted{form: form}
	fit.task, fit.basis = f.converted(form, f.p.written[0])
	fit.task.HeightCm = f.p.stock.Height(m, fit.task.HeightCm)
	f.lift(fit) // that it would be too much for them is no matter now
	return fit.task, true
}

// formOf is the line done as another movement: as the sheet offers it, else as the
// catalogue lists it, else one for one or for the same time.
func (f *fitter) formOf(from, m *roomful.Movement, instead []roomful.Instead) piece.Form {
	for _, in := range instead {
		i := slices.IndexFunc(in.Options, func(e roomful.Element) bool { return e.Movement == m.ID })
		if in.Movement == from.ID && i >= 0 {
			return piece.Form{Element: in.Options[i], Movement: m, Offered: true}
		}
	}
	if slices.Contains(from.Easier, m.ID) {
		return f.line.Easier(from, m)
	}
	for _, s := range from.Swaps {
		if s.To == m.ID {
			return f.line.Swapped(m, s.Ratio, s.Neighbour)
		}
	}
	return f.line.Swapped(m, 0, "")
}
