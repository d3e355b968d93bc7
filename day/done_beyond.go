package day

import (
	"fmt"
	"math"

	"roomful"
)

// inOneGo is how many repetitions somebody must be able to do fresh for a line to be
// taken as done as written (common practice, no source).
const inOneGo = 3

// beyond finds lines that nothing was said about and that are beyond the person as
// written: whoever cannot do three in a row did not do the sheet's sixty. They did
// what the sheet offers instead, or the nearest easier form.
func (r *redo) beyond() {
	if said := r.question.Reading.AsWritten; said != nil && *said {
		return
	}
	written := r.part.All()
	for i, t := range r.out.Work.All() {
		m := r.day.Lexicon.Movement(t.Movement)
		if i >= len(written) || m == nil || t.Movement != written[i].Movement || m.TakesLoad() || m.Bound == nil || r.able(t) {
			continue
		}
		for _, to := range r.easier(m) {
			did := r.instead(t, i, to)
			if easy := r.day.Lexicon.Movement(to); easy == nil || !r.able(did) {
				continue
			}
			r.out.Work = r.out.Work.With(i, did)
			for k := range r.out.Segments {
				if all := r.out.Segments[k].Work.All(); i < len(all) && all[i].Movement == t.Movement {
					r.out.Segments[k].Work = r.out.Segments[k].Work.With(i, did)
				}
			}
			r.out.Easier = true
			r.out.Assumed = append(r.out.Assumed, fmt.Sprintf("%s instead of %s, as is usual for them", r.day.Lexicon.Movement(to).Plural, m.Plural))
			break
		}
	}
}

// able reports whether a person can do a task often enough in one go to do it at all.
func (r *redo) able(t roomful.Task) bool {
	if t.Unit != roomful.Rep {
		return true
	}
	need := float64(inOneGo)
	if t.Amount > 0 {
		need = min(need, t.Amount)
	}
	n := r.day.Forecaster.Unbroken(r.abilities, t)
	return math.IsInf(n, 1) || n >= need
}

// easier lists what may have been done for a movement: what the sheet offers, then
// the catalogue's easier forms.
func (r *redo) easier(m *roomful.Movement) []roomful.MovementID {
	var out []roomful.MovementID
	for _, in := range r.part.Instead {
		if in.Movement == m.ID {
			for _, e := range in.Options {
				out = append(out, e.Movement)
			}
		}
	}
	return append(out, m.Easier...)
}
