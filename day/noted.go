package day

import (
	"slices"

	"roomful"
)

// changes are what a version that was set makes of a piece, as its person would have typed
// them: with them a score that says no more is of what was set. Where the sheet leaves a
// load to each, theirs is no change and comes apart.
func (b ByHand) changes(piece roomful.Part, division roomful.Division) (out []roomful.Change, loadsKg []float64) {
	stated := Stated(piece, division)
	now := b.onto(stated, stated)
	if !now.fits {
		return nil, nil
	}
	was := stated.All()
	for i, t := range now.work.All() {
		c, own := changeTo(was[i], t)
		if own {
			loadsKg = append(loadsKg, t.Load.Kg())
		} else if c != (roomful.Change{}) {
			c.Of = was[i].Movement
			out = append(out, c)
		}
	}
	before := now.work.All()
	for _, s := range b.Segments {
		tasks := s.Work.All()
		if s.From <= 0 || len(tasks) != len(was) {
			continue
		}
		for i, t := range tasks {
			if sameTask(before[i], t) {
				continue
			}
			c, _ := changeTo(before[i], t)
			if c.To == "" && sameTask(was[i], t) {
				c.To = was[i].Movement // as written from then on
			}
			c.Of, c.AtSeconds = was[i].Movement, s.From.Seconds()
			out = append(out, c)
		}
		before = tasks
	}
	return out, loadsKg
}

// changeTo is what is otherwise in a line; own says that it is no more than a load that
// the sheet leaves to each.
func changeTo(was, t roomful.Task) (c roomful.Change, own bool) {
	if sameTask(was, t) {
		return c, false
	}
	if t.Movement != was.Movement {
		c.To = t.Movement
	}
	if t.Amount > 0 && (t.Amount != was.Amount || t.Unit != was.Unit) {
		c.Amount, c.Unit = t.Amount, t.Unit
	}
	if t.HeightCm > 0 && t.HeightCm != was.HeightCm {
		c.HeightCm = t.HeightCm
	}
	if t.Load.Value > 0 && t.Load != was.Load {
		if c == (roomful.Change{}) && was.Load.Value == 0 {
			return c, true
		}
		c.LoadKg = t.Load.Kg()
	}
	return c, false
}

// noting adds what was set by hand to a reading, as far as the text says nothing of it; not
// to one that says as written. It reports whether anything was added.
func noting(r roomful.Reading, set ByHand, piece roomful.Part, division roomful.Division) (roomful.Reading, bool) {
	if r.AsWritten != nil && *r.AsWritten || r.SameAs != "" {
		return r, false
	}
	changes, loads := set.changes(piece, division)
	said, added := r.Changes, false
	r.Changes = slices.Clone(said)
	for _, c := range changes {
		if slices.ContainsFunc(said, func(o roomful.Change) bool { return o.Of == c.Of || o.Of == "" && o.LoadKg > 0 && c.LoadKg > 0 }) {
			continue
		}
		if len(r.LoadsKg) > 0 { // they say themselves what they lifted
			c.LoadKg = 0
		}
		if only := (roomful.Change{Of: c.Of}); c == only {
			continue
		}
		r.Changes, added = append(r.Changes, c), true
	}
	if len(r.LoadsKg) == 0 && r.Kind != roomful.LoadScore && len(loads) > 0 {
		r.LoadsKg, added = loads, true
	}
	return r, added
}

// setFor is what was set for somebody of a piece of a sheet; false when nothing was.
func setFor(all []ByHand, who string, s roomful.Session, piece roomful.Part) (found ByHand, ok bool) {
	for _, b := range all {
		if p, known := s.Asked(b.Piece); known && b.Athlete == who && p.Name() == piece.Name() {
			found, ok = b, true
		}
	}
	return found, ok
}
