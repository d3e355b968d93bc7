package version

import (
	"math"
	"slices"
	"time"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/say"
)

// Who trains at home trains alone, mostly without the load of the sheet. What is
// lifted leaves some in hand, nothing skilled is done upside down, and where a
// strength set has lost its load it keeps its time and effort with one leg at a
// time and slow lowering rather than by chasing the load (common practice, no
// source).

// noSpace is what upside-down skills lack at home.
const noSpace = "space"

// briefOuting is the time of a line in seconds under which nobody leaves the
// house to run for it (judgement).
const briefOuting = 90

// upsideDownAlone reports whether a movement is a skill upside down and nobody is
// there.
func (f *fitter) upsideDownAlone(m *roomful.Movement) bool {
	return f.Home && m.Skill.Needed && m.Loads(roomful.StressInversion)
}

// briefOuting reports whether a movement would send somebody out of the house for
// too little, or as a drill of a warm-up.
func (f *fitter) briefOuting(m *roomful.Movement) bool {
	if !f.Home || m.Modality != roomful.Running || f.line.Movement != nil && f.line.Movement.Modality == roomful.Running {
		return false
	}
	w := f.p.written[f.li]
	if w.Amount == 0 {
		return !f.Piece.Scored
	}
	return f.seconds(f.p, w) < briefOuting
}

// cautions are those of a plan's person, and at home what being alone asks for.
func (c *class) cautions(q *plan) []string {
	out := q.p.care.Cautions(q.dose.Whole() && q.p.amounts == 1, c.Gym.Cautions)
	if c.Home {
		out = append(out, care.Alone(c.Gym.Cautions))
	}
	return out
}

const (
	// keptLoad is the share of a load from which a strength set is still one.
	keptLoad = 0.6
	// slowShare is how much of a set's own clock slow repetitions may fill.
	slowShare = 0.5
)

// slowly is how a set is done that has lost its load: three seconds down.
var slowly = roomful.Tempo{Lower: 3, Lift: 1}

// alone changes a strength set at home that has lost its load: to one leg at a
// time where the pattern has such a form, and slowly. Anything else stays.
func (f *fitter) alone(fit *fitted) *fitted {
	m := fit.form.Movement
	if !f.Home || !f.strength() || fit.stuck || m == nil || fit.task.Unit != roomful.Rep || f.line.Movement == nil || !f.line.Movement.TakesLoad() {
		return fit
	}
	if f.keeps(fit) {
		return f.moreInHand(fit)
	}
	if one := f.oneLeg(m); one != nil {
		one.why.form, one.why.lacks, one.why.limit = fit.why.form, fit.why.lacks, fit.why.limit
		one.why.private = slices.Clone(fit.why.private)
		if one.why.form == byNothing {
			one.why.form, one.why.lacks = byKit, string(f.line.Movement.Implement)
		}
		fit, m = one, one.form.Movement
	}
	if fit.task.Tempo == nil {
		fit.task.Tempo = &slowly
	}
	fit.task.Amount = f.slowReps(fit, m)
	fit.oneOff, fit.why.amount = true, byLoadLost
	return fit
}

// mostInHand bounds the repetitions of a set with another implement (common
// practice, no source).
const mostInHand = 12

// moreInHand asks as many repetitions of a set with another implement as leave
// some in hand: the load is what there is, so the set grows with it.
func (f *fitter) moreInHand(fit *fitted) *fitted {
	m, t := fit.form.Movement, &fit.task
	if m == f.line.Movement || !m.TakesLoad() || m.Bound == nil || fit.fixed || f.p.care.Any() || t.Load.Value == 0 {
		return fit
	}
	can := math.Floor(f.Forecaster.Unbroken(f.p.Abilities, *t)) - inReserve
	if n := min(can, mostInHand); n > t.Amount {
		t.Amount = n
		fit.oneOff, fit.why.amount = true, byLoadLost
	}
	return fit
}

// keeps reports whether enough of the load that is written is there. A load in
// the hands counts as so much more on a bar.
func (f *fitter) keeps(fit *fitted) bool {
	have, want := fit.task.LoadKg(), f.wantedKg()
	if fit.form.Movement.Implement != f.line.Implement() && f.line.Implement() == roomful.Barbell {
		have /= fromBar
	}
	if f.builds(fit) || fit.fixed && fit.form.Movement == f.line.Movement {
		return true
	}
	return want > 0 && have >= keptLoad*want
}

// wantedKg is the load in all that the sheet asks of the person where everything
// is there, 0 when that is not known.
func (f *fitter) wantedKg() float64 {
	w := f.p.written[f.li]
	if w.LoadKg() > 0 {
		return w.LoadKg()
	}
	reps := max(f.count(w), 1) + inReserve
	if share, ok := f.line.Element.Load.(roomful.Percent); ok {
		return f.Forecaster.LoadFor(f.p.Abilities, w, 1) * float64(share) / 100
	}
	return f.Forecaster.LoadFor(f.p.Abilities, w, reps)
}

// mostOneLeg is how hard a form on one leg may be for anybody, as a share of an
// air squat: a split squat's (judgement).
const mostOneLeg = 1.2

// oneLeg finds the hardest form on one leg that tires the same muscles and that
// the person can do quietly where they are: one with a load before one without.
func (f *fitter) oneLeg(m *roomful.Movement) *fitted {
	lead := say.Leads(m)
	if lead != roomful.Squat && lead != roomful.Hinge {
		return nil
	}
	var best *fitted
	hardest := 0.0
	for _, one := range f.Lexicon.All() {
		if say.Leads(one) != roomful.SingleLeg || one.Skill.Needed || one.Loads(roomful.StressImpact) || one.StrideM > 0 || limiting(one) != limiting(m) || one.Bound == nil {
			continue
		}
		hard := one.Bound.Share
		if one.TakesLoad() {
			hard += mostOneLeg
		} else if hard > mostOneLeg {
			continue
		}
		if hard <= hardest {
			continue
		}
		if fit, why := f.try(f.line.Swapped(one, 0, "")); why.form == byNothing {
			best, hardest = fit, hard
		}
	}
	if best != nil {
		best.sided = true
	}
	return best
}

// limiting is the muscle group that limits a movement.
func limiting(m *roomful.Movement) roomful.Muscles {
	for _, d := range m.Demand {
		if d.Weight == 1 {
			return d.Muscles
		}
	}
	return roomful.MuscleGroups
}

// slowReps are the repetitions of a slow set: as many as stand for a heavier one,
// within half of the set's clock; a side each where it is one leg at a time.
func (f *fitter) slowReps(fit *fitted, m *roomful.Movement) float64 {
	sides := 1.0
	if fit.sided {
		sides = 2
	}
	n := min(max(fit.task.Amount, setOf(m)), max(setOf(m), 8))
	if fit.sided {
		n = 8
	}
	clock := 2 * time.Minute
	if s := f.Piece.Format.(roomful.Sets); s.Every > 0 {
		clock = s.Every
	}
	most := math.Floor(slowShare * clock.Seconds() / fit.task.Tempo.Seconds() / sides)
	return max(min(n, most), 1) * sides
}

// whySlower says what stands for a load that is missing.
func whySlower(f *fitted, w, t roomful.Task) string {
	switch {
	case t.Tempo == nil || w.Tempo != nil:
		return ""
	case f.sided:
		return say.Amount(t.Amount/2, roomful.Rep) + " a side, three seconds down for the missing load"
	}
	return "three seconds down for the missing load"
}
