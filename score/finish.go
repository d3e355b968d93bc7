package score

import (
	"fmt"
	"math"

	"roomful"
)

// finish adds to the asked reading what belongs to the whole text: stated
// loads, changes, whether it was as written, private words and the note.
func (r *reader) finish(out *roomful.Reading, pieces []piece, got []int) {
	var part roomful.Part
	for i, s := range pieces {
		if s.asked {
			part = s.part
		}
		if got[i] >= 0 {
			r.take(&r.p.facts[got[i]])
		}
	}
	out.Changes = r.said.changes
	loadsMatch := r.stated(out, part, pieces, got)
	out.Partner, out.Share, out.SameAs = r.said.partner, r.said.share, r.said.sameAs
	out.Approximate = out.Approximate || r.said.approx
	switch {
	case len(out.Changes) > 0 || r.said.undone:
		out.AsWritten = new(bool)
	case r.said.asWritten || loadsMatch:
		yes := true
		out.AsWritten = &yes
	}
	r.release(out)
	out.Private, out.Note = r.p.split(r.said.clauses)
}

// release gives figures that no reading took back to the note, and asks about
// the first of them when the piece itself has no score yet.
func (r *reader) release(out *roomful.Reading) {
	for i := range r.p.facts {
		f := &r.p.facts[i]
		if r.taken[f.from] {
			continue
		}
		for k := f.from; k < f.to; k++ {
			r.p.used[k] = false
		}
		_, private := r.said.clauses[r.p.toks[f.from].clause]
		if f.kind == plainFact && !private && out.Question == nil && scoreless(*out) {
			out.Question = &roomful.Question{Ask: fmt.Sprintf("is %s the score?", roomful.Figure(f.a)), Answers: [2]string{"yes", "no, something else"}}
		}
	}
	if out.Question == nil && scoreless(*out) && out.SameAs == "" && len(r.p.facts) > 0 && len(out.LoadsKg) == 0 {
		out.Question = &roomful.Question{Ask: "what was the score?", Answers: [2]string{"a score", "none was kept"}}
	}
}

// scoreless reports whether a reading has no score.
func scoreless(r roomful.Reading) bool {
	return r.Rounds == nil && r.Reps == nil && r.Seconds == nil && r.Metres == nil && len(r.LoadsKg) == 0 && !r.Capped
}

// stated takes loads and heights that are no score as what was lifted in the
// piece. It reports whether some were stated and all are the sheet's own.
func (r *reader) stated(out *roomful.Reading, part roomful.Part, pieces []piece, got []int) bool {
	if out.Kind == roomful.LoadScore {
		return false
	}
	said, same := false, true
	for i := range r.p.facts {
		f := &r.p.facts[i]
		if r.taken[f.from] {
			continue
		}
		switch {
		case f.kind == loadFact || f.kind == plainFact && f.a >= 20 && loaded(part) && !before(f, pieces, got, r.p.facts):
			kg := inKg(f.a, f, r.unit(part))
			out.LoadsKg = append(out.LoadsKg, kg)
			r.take(f)
			said = true
			if e, ok := r.line(part, f, kg); ok {
				same = false
				out.Changes = append(out.Changes, roomful.Change{Of: e, LoadKg: kg})
			}
		case f.kind == unitFact && (f.unit == roomful.Centimetre || f.unit == roomful.Inch):
			c := roomful.Change{HeightCm: f.a * f.unit.Size() * 100}
			for _, e := range elements(part) {
				if len(e.Heights) > 0 {
					c.Of = e.Movement
				}
			}
			out.Changes = append(out.Changes, c)
			r.take(f)
		}
	}
	return said && same
}

// before reports whether a fact stands before the score of the piece asked
// about in a text that has further pieces: then it speaks of an earlier one.
func before(f *fact, pieces []piece, got []int, facts []fact) bool {
	for i, s := range pieces {
		if s.asked && i > 0 && got[i] >= 0 && f.from < facts[got[i]].from {
			return true
		}
	}
	return false
}

// loaded reports whether a part says a load anywhere.
func loaded(p roomful.Part) bool {
	for _, e := range elements(p) {
		if e.Load != nil {
			return true
		}
	}
	return false
}

// line finds the line that a load belongs to, by the nearest prescription; ok
// is true when the load is another than the sheet's.
func (r *reader) line(part roomful.Part, f *fact, kg float64) (roomful.MovementID, bool) {
	var of roomful.MovementID
	best := math.Inf(1)
	for _, e := range elements(part) {
		ms, ok := e.Load.(roomful.Masses)
		if !ok || len(ms) == 0 {
			continue
		}
		if r.q.Division != roomful.AnyDivision {
			ms = roomful.Masses{ms.For(r.q.Division)}
		}
		for _, m := range ms {
			if d := math.Abs(math.Log(kg / m.Kg())); d < best {
				of, best = e.Movement, d
			}
		}
	}
	// a known pair, 95 lb and 43 kg, is one load: 2 % covers the plates' rounding
	return of, of != "" && best > 0.02
}
