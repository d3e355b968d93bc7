package sim

import (
	"math"

	"roomful"
)

// found reports whether an action's load is found on the day: by how hard it
// feels, or as a share of the maximum that the person has that day.
func (act *action) found() bool {
	return act.bound.kind != noBound && act.bound.strength >= 0 && (act.task.RPE > 0 || act.task.Percent > 0)
}

// find puts the load on an action that a member finds on the day: as heavy as
// the share of their maximum asked for, or as leaves the repetitions in reserve
// that the rating means, tired as they are; and no heavier than a load that
// exists.
func (m *member) find(act int, reps float64) {
	a := &m.actions[act]
	if !a.found() {
		return
	}
	var kg float64
	if a.task.Percent > 0 {
		kg = a.task.Percent / 100 * a.bound.kgFor(m.dims, m.endurance, 1)
	} else {
		if !(reps >= 1) || math.IsInf(reps, 1) {
			return
		}
		tired := min(0.9, m.body.Local(&m.acts[act]))
		kg = a.bound.kgFor(m.dims, m.endurance, (reps+10-a.task.RPE)/(1-tired))
	}
	m.lift(act, below(a.loads, kg))
}

// below returns the heaviest of ascending loads that is no heavier than kg, the
// lightest when all are; without a list, kg in steps of 2.5 kg.
func below(loads []float64, kg float64) float64 {
	if len(loads) == 0 {
		return max(0, math.Floor(kg/2.5+1e-9)*2.5)
	}
	best := loads[0]
	for _, l := range loads {
		if l <= kg+1e-9 {
			best = l
		}
	}
	return best
}

// possible returns the repetitions possible at a total load for a member whose
// muscles are tired.
func (m *member) possible(act int, kg, tired float64) float64 {
	b := m.actions[act].bound
	b.put(kg)
	return b.fresh(m.dims, m.endurance) * (1 - tired)
}

// lift puts a total load on a member's action.
func (m *member) lift(act int, kg float64) {
	a := &m.actions[act]
	a.bound.put(kg)
	a.loadKg = kg
	a.task.Load = roomful.Kg(kg / float64(max(a.task.Implements, 1)))
	a.joules = repJoules(a, m.c)
	floor := m.acts[act].Floor
	m.acts[act] = a.resolve(m)
	m.acts[act].Floor = floor
}

// put sets the total load in kg that a bound reckons with.
func (b *bound) put(kg float64) {
	if b.kind == liftBound {
		b.load = kg * b.perKg
		return
	}
	b.share = b.bare + kg*b.perKg
}

// kgFor returns the total load in kg at which n units are possible fresh, 0
// when not even the bare movement allows them.
func (b *bound) kgFor(dims []float64, endurance, n float64) float64 {
	strength, eta := dims[b.strength], endurance
	if b.endurance >= 0 {
		eta *= dims[b.endurance]
	}
	n = max(1, n)
	if b.kind == liftBound {
		return strength / (1 + (n-1)/(b.curve*eta)) / b.perKg
	}
	own := 1 + (strength-1)/b.curve
	return max(0, (own/(1+(n-1)/b.curve)-b.bare)/b.perKg)
}
