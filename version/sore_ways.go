package version

import (
	"slices"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/piece"
	"roomful/version/internal/rung"
	"roomful/version/internal/say"
)

// ways are the three ways to go on with a line that hurts, in order.
func (r *reliever) ways(li int) []*fitted {
	same, eased := r.gentler(li)
	others := r.elsewhere(li, same.form.Movement)
	out := []*fitted{others[0], others[max(r.far(li, others), 1)]}
	if eased {
		return append([]*fitted{same}, out...)
	}
	return append(out, same)
}

// keeps reports whether a form keeps the pattern of a line.
func (r *reliever) keeps(li int, f *fitted) bool {
	return say.Keeps(r.lines[li].Movement, f.form.Movement)
}

// far is the first of other movements, the nearest left out, that is of another
// pattern or a machine; -1 when none is.
func (r *reliever) far(li int, others []*fitted) int {
	for i, f := range others {
		if i > 0 && (!r.keeps(li, f) || f.form.Movement.Modality == roomful.Machine) {
			return i
		}
	}
	return -1
}

// fitter fits one line of the person's.
func (r *reliever) fitter(li int) *fitter {
	return &fitter{class: r.class, p: r.p, li: li, line: &r.lines[li], pick: rung.Plain}
}

// because is the complaint as the reason for a change.
func (r *reliever) because() reasons {
	return reasons{form: byLimit, limit: &r.limit, private: []string{care.Told(r.limit)}}
}

// gentler is at most two thirds of a line, in a shorter range where there is one;
// eased reports whether something but the count is less.
func (r *reliever) gentler(li int) (same *fitted, eased bool) {
	f, w := r.fitter(li), r.p.written[li]
	form, short := f.shorterRange(r.limit)
	if !short {
		form = f.line.Forms[0]
	}
	fit := f.cut(form, r.because())
	t := &fit.task
	if !form.Movement.TakesLoad() { // a build with nothing to build with is cut like the rest
		t.Amount = min(t.Amount, say.Trim(w.Amount*care.TwoThirds, t.Unit))
	}
	if sheet := r.written[li]; sheet.Movement == w.Movement { // whoever does more than is written
		if sheet.Amount > 0 && sheet.Unit == w.Unit {
			t.Amount = min(t.Amount, say.Trim(sheet.Amount*care.TwoThirds, w.Unit))
		}
		if most := sheet.Load.Kg() * care.TwoThirds; most > 0 && t.Load.Kg() > most {
			t.Load = f.atMost(fit.tool(), most)
		}
	}
	return fit, short || t.LoadKg() < w.LoadKg()-tiny || t.HeightCm < w.HeightCm-tiny
}

// shorterRange is an easier form of a pull from the floor with the same thing in
// the hands and less of a way to go, from blocks or from the hang, that loads
// nothing the movement does not and that no other limit rules out.
func (f *fitter) shorterRange(complaint roomful.Limit) (g piece.Form, ok bool) {
	m := f.line.Movement
	if say.Leads(m) != roomful.Hinge || !m.TakesLoad() {
		return piece.Form{}, false
	}
	shorter := func(e *roomful.Movement) bool {
		return e.Implement == m.Implement && say.Leads(e) == roomful.Hinge &&
			e.Travel.LoadTravelM < m.Travel.LoadTravelM && e.Travel.BodyTravelM <= m.Travel.BodyTravelM &&
			!slices.ContainsFunc(e.Stress, func(s roomful.Stress) bool { return !m.Loads(s) })
	}
	for _, id := range m.Easier {
		e := f.Lexicon.Movement(id)
		if e == nil || !shorter(e) || !f.able(e) {
			continue
		}
		if l := f.p.care.HeldBy(e); l == nil || l.What == complaint.What {
			return f.line.Easier(m, e), true
		}
	}
	return piece.Form{}, false
}

// byTime are what a coach sends people to when nothing else will do, for the same
// time, in order (common practice, no source).
var byTime = []roomful.MovementID{"bike", "fan-bike", "row", "ski", "walk", "march", "bird-dog"}

// leastRide is the time in seconds under which nobody is sent to a machine: what
// needs no getting on comes first (judgement).
const leastRide = 15

// elsewhere lists two or more other movements for a line that hurts: those of the
// sheet and of the catalogue for the area, in their order but with one that keeps
// the pattern first, or the nearest thing to them; then a machine for the same time, one that the person does
// not have in the piece already before one that they do; and rest at the last.
func (r *reliever) elsewhere(li int, same *roomful.Movement) []*fitted {
	f := r.fitter(li)
	var out []*fitted
	seen := map[*roomful.Movement]bool{f.line.Movement: true, same: true}
	take := func(g piece.Form) {
		if g.Movement == nil || seen[g.Movement] || r.gone[g.Movement.ID] || f.eases(g.Movement, f.line.Movement) {
			return
		}
		seen[g.Movement] = true
		if fit, why := f.try(g); why.form == byNothing {
			out = append(out, fit.instead(r.because()))
		}
	}
	for _, g := range f.listed(f.line.Movement, r.because()) {
		take(g)
	}
	if len(out) == 0 {
		f.find(f.line.Forms[0], r.because(), func(g piece.Form) bool {
			take(g)
			return len(out) > 0
		})
	}
	if i := slices.IndexFunc(out, func(f *fitted) bool { return r.keeps(li, f) }); i > 0 {
		near := out[i]
		out = slices.Insert(slices.Delete(out, i, i+1), 0, near)
	}
	for _, id := range r.timed(f) {
		if m := r.Lexicon.Movement(id); m != nil && r.far(li, out) < 0 {
			take(r.forTime(f, m))
		}
	}
	for len(out) < remedies-1 {
		rest := roomful.Task{Movement: roomful.Rest, Amount: r.timeOf(f), Unit: roomful.Second, Slot: f.line.Element.Slot}
		fit := &fitted{task: rest, form: piece.Form{Movement: r.Lexicon.Movement(roomful.Rest)}}
		out = append(out, fit.instead(r.because()))
	}
	return out
}

// eases reports whether the way down from m to easier forms leads to another: who
// hurts is not sent back up it.
func (f *fitter) eases(m, to *roomful.Movement) bool {
	for _, id := range m.Easier {
		if e := f.Lexicon.Movement(id); e == to || e != nil && f.eases(e, to) {
			return true
		}
	}
	return false
}

// timed lists what may be done for the time of a line, best first.
func (r *reliever) timed(f *fitter) []roomful.MovementID {
	short := r.timeOf(f) < leastRide
	late := func(id roomful.MovementID) bool {
		m := r.Lexicon.Movement(id)
		return short && m != nil && m.Modality == roomful.Machine ||
			slices.ContainsFunc(r.p.written, func(t roomful.Task) bool { return t.Movement == id })
	}
	var first, last []roomful.MovementID
	for _, id := range byTime {
		if late(id) {
			last = append(last, id)
		} else {
			first = append(first, id)
		}
	}
	return append(first, last...)
}

// timeOf is the time of the fitter's line in whole seconds.
func (r *reliever) timeOf(f *fitter) float64 {
	return say.Tidy(r.seconds(r.p, r.p.written[f.li]), roomful.Second)
}

// forTime is the line as the same time of another movement.
func (r *reliever) forTime(f *fitter, m *roomful.Movement) piece.Form {
	g := f.line.Swapped(m, 0, "")
	if slices.Contains(m.Units, roomful.Second) {
		g.Element.Amount = roomful.Amount{By: []float64{r.timeOf(f)}, Unit: roomful.Second}
	}
	return g
}
