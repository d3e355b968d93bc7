package version

import (
	"math"
	"slices"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/rack"
	"roomful/version/internal/say"
)

// Rules of thumb for loads (common practice, no source).
const (
	unknownShare = 0.6  // of what is written when no maximum is known
	fromBar      = 0.67 // of a bar's load, in all, with dumbbells or bells
	// A movement of the body has to be possible in thirds of what is asked, but
	// at least fourInOneGo times and no more than mostInOneGo times fresh.
	fourInOneGo, mostInOneGo = 4, 5
)

// need returns how many repetitions (seconds for holds and carries) fresh a
// form must allow the person.
func (f *fitter) need(m *roomful.Movement, t roomful.Task) float64 {
	loaded := m.TakesLoad()
	n := f.rule(m)
	switch {
	case n > 0:
	case f.strength() && t.Unit == roomful.Rep:
		n = max(f.count(t), 1)
		if f.Home && loaded { // nobody is there to help with the last one
			n += inReserve
		}
	case t.Unit == roomful.Second:
		n = t.Amount / 3
	case t.Unit != roomful.Rep:
		n = 1
	case loaded && f.p.written[f.li].Load.Value == 0 && m != f.line.Movement:
		n = rack.Light // nothing was lifted, so next to nothing is
	case loaded:
		n = rack.Sensible(f.count(t), f.Effort.Feel)
	default:
		n = fourInOneGo
		if c := f.count(t); c > 0 {
			n = min(max(math.Ceil(c/3), fourInOneGo), mostInOneGo, c)
		}
	}
	if loaded && t.Unit == roomful.Rep {
		n = max(n, float64(f.p.care.LeastReps))
		if f.line.Movement != nil && m != f.line.Movement && f.p.care.HeldBy(f.line.Movement) != nil {
			n = max(n, rack.Moderate) // what stands in for something sore is not heavy
		}
	}
	return n
}

// rule returns the sheet's repetition test for a form, 0 when there is none. A
// loaded form keeps the test of the movement it replaces.
func (f *fitter) rule(m *roomful.Movement) float64 {
	if n := f.Effort.FreshFor(m.ID); n > 0 {
		return float64(n)
	}
	if m == f.line.Movement || m.TakesLoad() {
		if n, ok := f.line.Element.Load.(roomful.Fresh); ok {
			return float64(n)
		}
		return float64(f.Effort.FreshFor(f.line.Element.Movement))
	}
	return 0
}

// strength reports whether the piece is sets rather than work on a clock.
func (f *fitter) strength() bool {
	_, ok := f.Piece.Format.(roomful.Sets)
	return ok
}

// count is how many repetitions a task asks in one go.
func (f *fitter) count(t roomful.Task) float64 {
	if t.Amount > 0 {
		return t.Amount
	}
	return f.line.Step
}

// mostKg is the load per implement that a person can move need times.
func (f *fitter) mostKg(a *roomful.Abilities, t roomful.Task, need float64) float64 {
	return f.Forecaster.LoadFor(a, t, need) / float64(max(t.Implements, 1))
}

// lift bounds what is lifted, or checks that a form without a load can be done
// often enough in one go.
func (f *fitter) lift(fit *fitted) reasons {
	m := fit.form.Movement
	fit.need = f.need(m, fit.task)
	switch {
	case f.builds(fit) && (f.p.care.Any() || f.Home || f.blind(f.p)) && m.Bound != nil:
		return f.steady(fit)
	case !m.TakesLoad() && m.Bound == nil, f.builds(fit):
		return reasons{}
	case !m.TakesLoad():
		n := f.Forecaster.Unbroken(f.p.Abilities, fit.task)
		return f.enough(fit, n, fit.need)
	}
	asked := f.asked(fit)
	if m.Bound == nil {
		fit.task.Load = f.owned(rack.ToolOf(m, fit.task), asked)
		f.note(fit, asked, byOwned)
		return reasons{}
	}
	return f.bounded(fit, asked)
}

// builds reports whether the load of a fitted line is found on the day.
func (f *fitter) builds(fit *fitted) bool {
	s, ok := f.Piece.Format.(roomful.Sets)
	return ok && s.Build && fit.task.Load.Value == 0 && fit.form.Movement == f.line.Movement
}

// inReserve is how many repetitions a set under bounds leaves.
const inReserve = 2

// youngReserve is how many a set under 18 leaves: enough that a bad day leaves some
// too (common practice, no source).
const youngReserve = 4

// steady puts sets of six or more with a load that leaves repetitions in hand in
// the place of a build to a heaviest set (sets of 6 to 15 under 18, Faigenbaum
// et al. 2009; the same for others under bounds, and for those of whom no maximum
// is known, is common practice, no source).
func (f *fitter) steady(fit *fitted) reasons {
	t, m := &fit.task, fit.form.Movement
	if t.Amount > 0 && t.Amount < care.YoungReps {
		t.Amount = care.YoungReps
		fit.why.amount = byState
	}
	left := float64(inReserve)
	if f.p.care.Young {
		left = youngReserve
	}
	fit.need = max(float64(f.p.care.LeastReps), f.count(*t)+left)
	because := byState
	if !f.p.knowsMax(m) {
		because = byUnknown
		fit.why.private = append(fit.why.private, noMaximum+m.Name)
	}
	load, ok := f.p.stock.Below(rack.ToolOf(m, *t), f.mostKg(f.p.cautious(), *t, fit.need))
	if !ok {
		return f.tooHeavy(fit, roomful.Mass{}, because)
	}
	t.Load = load
	fit.measured, fit.fixed, fit.oneOff = true, true, true
	fit.why.load, fit.why.fresh = because, int(fit.need)
	return reasons{}
}

// asked returns the load per implement that a form is asked for, before any
// bound; zero when it is the person's own.
func (f *fitter) asked(fit *fitted) roomful.Mass {
	m, w, t := fit.form.Movement, f.p.written[f.li], &fit.task
	switch {
	case m == f.line.Movement || t.Load.Value > 0:
		return t.Load
	case w.Load.Value == 0:
		return roomful.Mass{}
	case m.Implement == f.line.Implement():
		return w.Load
	}
	share := 1.0
	if f.line.Implement() == roomful.Barbell {
		share = fromBar
	}
	kg := w.LoadKg() * share / float64(max(t.Implements, 1))
	return f.atMost(rack.ToolOf(m, *t), kg)
}

// owned returns the mass itself when the usual steps hold or it is there, and
// else the nearest there is.
func (f *fitter) owned(tool rack.Tool, asked roomful.Mass) roomful.Mass {
	if !f.p.stock.Given || asked.Value == 0 {
		return asked
	}
	if load, ok := f.p.stock.Nearest(tool, asked.Kg()); ok {
		return load
	}
	return asked
}

// bounded sets the heaviest load that a person's bounds allow, at most what is
// asked.
func (f *fitter) bounded(fit *fitted, asked roomful.Mass) reasons {
	m, t := fit.form.Movement, &fit.task
	tool := rack.ToolOf(m, *t)
	t.Load = f.owned(tool, asked)
	fit.measured = true
	cap, why := t.Load.Kg(), byOwned
	if asked.Value == 0 || f.Forecaster.Unbroken(f.p.Abilities, *t) < fit.need-tiny {
		cap, why = f.mostKg(f.p.Abilities, *t, fit.need), byFresh
		if fit.need == float64(f.p.care.LeastReps) && f.rule(m) < fit.need {
			why = byState
		}
	}
	if kg, unknown := f.unknown(fit, asked); unknown {
		cap, why = min(cap, kg), byUnknown
		fit.fixed = true
		fit.why.private = append(fit.why.private, noMaximum+m.Name)
	}
	if kg := asked.Kg() * f.p.care.Load; f.p.care.Load < 1 && asked.Value > 0 && kg < cap {
		cap, why = kg, byEase
		fit.why.private = append(fit.why.private, f.p.care.Because()+": a lighter load")
	}
	if kg := f.mostKg(f.p.Abilities, *t, sparedReps); f.spares(m) && kg < cap {
		cap, why = kg, byState
	}
	if why != byOwned {
		load, ok := f.p.stock.Below(tool, cap)
		if !ok {
			return f.tooHeavy(fit, asked, why)
		}
		t.Load = load
	}
	f.note(fit, asked, why)
	f.more(fit, asked, cap)
	return reasons{}
}

// sparedReps is how often what stands in for something that hurts can be moved fresh:
// a light load (common practice, no source).
const sparedReps = 21

// spares reports whether a movement stands in for one that hurts.
func (f *fitter) spares(m *roomful.Movement) bool {
	return m != f.line.Movement && f.line.Movement != nil &&
		slices.ContainsFunc(f.p.care.Acting, func(l roomful.Limit) bool { return care.Forbids(l, f.line.Movement) })
}

// noMaximum begins the private word on a load that rests on nothing told.
const noMaximum = "no maximum known that bounds the "

// unknown returns the load to start from for somebody whose maximum is not
// known. With a bar that is always so; with lighter things only when a weak
// person of this kind could not move the load with ease.
func (f *fitter) unknown(fit *fitted, asked roomful.Mass) (kg float64, unknown bool) {
	m := fit.form.Movement
	if f.p.knowsMax(m) {
		return 0, false
	}
	weak := f.p.cautious()
	if m.Implement != roomful.Barbell && asked.Value > 0 && f.Forecaster.Unbroken(weak, fit.task) >= 2*fit.need {
		return 0, false
	}
	kg = f.mostKg(weak, fit.task, fit.need)
	if asked.Value > 0 {
		kg = min(kg, asked.Kg()*unknownShare)
	}
	return kg, true
}

// tooHeavy takes the lightest load there is when none is light enough, if it
// can still be moved half as often as it should; else the form is too hard.
func (f *fitter) tooHeavy(fit *fitted, asked roomful.Mass, why cause) reasons {
	m := fit.form.Movement
	lightest, ok := f.p.stock.Lightest(rack.ToolOf(m, fit.task))
	if !ok {
		return reasons{form: byKit, lacks: string(m.Implement)}
	}
	fit.task.Load = lightest
	f.note(fit, asked, why)
	fit.measured = true
	half := fit.need / 2
	if f.p.care.Young {
		half = max(half, care.YoungReps)
	}
	n := f.Forecaster.Unbroken(f.p.Abilities, fit.task)
	return f.enough(fit, n, half)
}

// enough keeps a form that allows too few repetitions as a last resort.
func (f *fitter) enough(fit *fitted, n, need float64) reasons {
	if n >= need-tiny {
		return reasons{}
	}
	if f.weak == nil && !f.p.care.Young {
		f.weak = fit
	}
	return reasons{form: byStrength}
}

// note records that a load is not what is asked, and why.
func (f *fitter) note(fit *fitted, asked roomful.Mass, why cause) {
	t := &fit.task
	if asked.Value == 0 || math.Abs(t.Load.Kg()-asked.Kg()) < tiny {
		if asked.Value == 0 && t.Load.Value > 0 {
			fit.why.load, fit.why.fresh = why, int(fit.need)
		}
		return
	}
	t.RPE, t.Fresh, t.Percent = 0, 0, 0
	fit.why.load, fit.why.fresh = why, int(math.Ceil(fit.need))
	fit.lowered = why != byOwned && t.Load.Kg() < asked.Kg()
	if fit.lowered && f.p.stock.Home() {
		fit.lowered = false
	}
}

// more asks for more repetitions at home when the load that should be there is
// not: by 1.3, or by 1.5 when under 0.6 of it is left (common practice, no
// source).
func (f *fitter) more(fit *fitted, asked roomful.Mass, capKg float64) {
	t := &fit.task
	if !f.p.stock.Home() || asked.Value == 0 || t.Amount == 0 || t.Unit != roomful.Rep || fit.fixed || f.p.care.Volume < 1 {
		return
	}
	want := min(asked.Kg(), capKg)
	if fit.why.load == byOwned {
		want = asked.Kg()
	}
	left := t.Load.Kg() / want
	times := 1.0
	switch {
	case left < 0.6:
		times = 1.5
	case left < 0.85:
		times = 1.3
	}
	if times > 1 {
		t.Amount = say.Tidy(t.Amount*times, t.Unit)
		fit.why.amount, fit.oneOff = byLoadLost, true
	}
}
