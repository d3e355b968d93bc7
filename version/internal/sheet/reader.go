// Package sheet reads what a part of a session says for one person: amounts and
// heights of their division, and loads that exist.
package sheet

import (
	"roomful"
	"roomful/version/internal/rack"
)

// ownChoice is the repetition test of a load nobody stated: moderate, 12 or
// more unbroken (common practice, no source).
const ownChoice = 12

// ownRPE is how hard strength sets of one's own choice feel: two repetitions
// are left (common practice, no source).
const ownRPE = 8

// MassUnit is the unit that a part states its first mass in, the gym's when it
// states none.
func MassUnit(p roomful.Part, g roomful.Gym) roomful.MassUnit {
	for _, es := range [][]roomful.Element{p.Once, p.Round, p.Last} {
		for _, e := range es {
			if m, ok := e.Load.(roomful.Masses); ok && len(m) > 0 {
				return m[0].Unit
			}
		}
	}
	return g.Unit
}

// Reader resolves the elements of one part for one person.
type Reader struct {
	Part       roomful.Part
	Effort     roomful.Effort
	Athlete    roomful.Athlete
	Abilities  *roomful.Abilities
	Lexicon    roomful.Lexicon
	Forecaster roomful.Forecaster
	Stock      *rack.Stock
	// AsStated keeps stated masses and heights that the kit does not have, so
	// that what is done instead can be told from what is written.
	AsStated bool
}

// Work resolves every element of the part.
func (r *Reader) Work() roomful.Work {
	return roomful.Work{Once: r.tasks(r.Part.Once), Round: r.tasks(r.Part.Round), Last: r.tasks(r.Part.Last)}
}

func (r *Reader) tasks(es []roomful.Element) []roomful.Task {
	var out []roomful.Task
	for _, e := range es {
		out = append(out, r.Task(e))
	}
	return out
}

// Task resolves one element.
func (r *Reader) Task(e roomful.Element) roomful.Task {
	d := r.Athlete.Division
	t := roomful.Task{
		Movement:   e.Movement,
		Amount:     e.Amount.For(d),
		Unit:       e.Amount.Unit.Base(),
		Implements: e.Implements,
		HeightCm:   e.HeightCm(d),
		Slot:       e.Slot,
		Tempo:      e.Tempo,
	}
	m := r.Lexicon.Movement(e.Movement)
	if m == nil {
		if ms, ok := e.Load.(roomful.Masses); ok && len(ms) > 0 {
			t.Load = ms.For(d)
		}
		return t
	}
	if t.Implements == 0 && m.Pair {
		t.Implements = 2
	}
	if !e.Amount.Stated() && t.Unit == roomful.Rep && len(m.Units) > 0 {
		t.Unit = m.Units[0]
	}
	if t.HeightCm == 0 {
		t.HeightCm = rack.UsualHeight(m, d)
	}
	if !r.AsStated {
		t.HeightCm = r.Stock.Height(m, t.HeightCm)
	}
	r.load(&t, e, m)
	return t
}

// load sets what is lifted.
func (r *Reader) load(t *roomful.Task, e roomful.Element, m *roomful.Movement) {
	d, each := r.Athlete.Division, float64(max(t.Implements, 1))
	tool := rack.ToolOf(m, *t)
	switch l := e.Load.(type) {
	case roomful.Masses:
		if len(l) == 0 {
			return
		}
		t.Load = l.For(d)
		if r.Stock.Given && !r.AsStated {
			if owned, ok := r.Stock.Nearest(tool, t.Load.Kg()); ok {
				t.Load = owned
			}
		}
	case roomful.Percent:
		if kg, ok := r.oneRM(m); ok {
			t.Load, _ = r.Stock.Nearest(tool, kg*float64(l)/100/each)
			t.Percent = float64(l)
		}
	case roomful.BodyFraction:
		if len(l) > 0 && r.Abilities != nil {
			t.Load, _ = r.Stock.Nearest(tool, l.For(d)*r.Abilities.MassKg/each)
		}
	case roomful.Fresh:
		t.Fresh = int(l)
		t.Load = r.fresh(*t, m, float64(l))
	case roomful.RPE:
		t.RPE = float64(l)
		if t.Amount > 0 && t.Unit == roomful.Rep {
			t.Load = r.fresh(*t, m, t.Amount+10-float64(l))
		}
	case nil:
		if m.TakesLoad() && m.Bound != nil && !r.builds() {
			if reps := r.setReps(t); reps > 0 {
				t.RPE = ownRPE
				t.Load = r.fresh(*t, m, reps+10-ownRPE)
				return
			}
			t.Load = r.fresh(*t, m, r.ownReps(t))
		}
	}
}

// setReps returns the repetitions of the first strength set of a task, 0 when
// the part has none.
func (r *Reader) setReps(t *roomful.Task) float64 {
	s, ok := r.Part.Format.(roomful.Sets)
	switch {
	case !ok || t.Unit != roomful.Rep:
		return 0
	case t.Amount > 0:
		return t.Amount
	case len(s.Reps) > 0:
		return float64(s.Reps[0])
	}
	return 0
}

// builds reports whether the load of a part is found by building up to it.
func (r *Reader) builds() bool {
	s, ok := r.Part.Format.(roomful.Sets)
	return ok && s.Build
}

// ownReps is the repetition test for a load of the person's own choice.
func (r *Reader) ownReps(t *roomful.Task) float64 {
	if n := r.Effort.FreshFor(t.Movement); n > 0 {
		return float64(n)
	}
	return ownChoice
}

// oneRM returns the person's median maximum of a movement in kg.
func (r *Reader) oneRM(m *roomful.Movement) (kg float64, ok bool) {
	if m.Bound == nil || m.Bound.Lift == "" || r.Abilities == nil {
		return 0, false
	}
	kg, ok = r.Abilities.Median(roomful.OneRM(m.Bound.Lift))
	return kg * m.Bound.Share, ok
}

// fresh returns the heaviest load per implement that the person could move
// reps times unbroken, rounded down; the lightest there is when all are too
// heavy, and none when nothing is known.
func (r *Reader) fresh(t roomful.Task, m *roomful.Movement, reps float64) roomful.Mass {
	if r.Abilities == nil {
		return roomful.Mass{}
	}
	kg := r.Forecaster.LoadFor(r.Abilities, t, reps) / float64(max(t.Implements, 1))
	load, ok := r.Stock.Below(rack.ToolOf(m, t), kg)
	if !ok {
		load, _ = r.Stock.Lightest(rack.ToolOf(m, t))
	}
	return load
}
