package sim

import (
	"roomful"
	"roomful/sim/internal/kernel"
)

// action is one task of one person, compiled as far as it can be before
// abilities are drawn. Its unit is a repetition, a metre or a second, or a
// calorie on a machine.
type action struct {
	movement *roomful.Movement
	task     roomful.Task
	kind     actionKind
	mode     kernel.Mode
	joules   float64 // J/kg per unit
	seconds  float64 // s per unit for a skilled person at a light load
	loadKg   float64
	massKg   float64
	parts    []kernel.Part
	bound    bound
	trip     int // dim of the trip logit, -1 when it cannot fail
	counts   bool
	// timed is how long it lasts when its amount is in seconds but its unit is
	// not; 0 otherwise.
	timed  float64
	amount float64   // in units; 0 is open, or as the ladder says
	perRep float64   // repetitions in one unit; 0 counts as 1
	rate   rateFunc  // units per second at a metabolic power in W/kg
	power  rateFunc  // and the power for so many units per second
	loads  []float64 // total kg that exist, ascending, when the load is found on the day
}

// actionKind says which rules drive an action.
type actionKind uint8

const (
	repsAction    actionKind = iota
	engineAction             // a machine or running: power decides
	restAction               // waiting
	gentleAction             // time passes, nobody tires
	unknownAction            // a name that was not recognised
)

// bound is what limits the units possible fresh.
type bound struct {
	kind      boundKind
	strength  int     // dim of the 1RM or the own maximum
	endurance int     // dim, -1 when none
	load      float64 // kg that count against the 1RM, with share and multiple
	perKg     float64 // of load, or of share, for one kg held
	share     float64 // part of body mass moved, for own maxima, load included
	bare      float64 // and without the load
	curve     float64
	fallback  float64 // units possible when the dim is missing
	perSecond bool    // the bound counts seconds
}

type boundKind uint8

const (
	noBound boundKind = iota
	liftBound
	ownBound
)

// endless is the number of units possible when nothing local limits them.
const endless = 1000

// compile resolves a task for a person whose abilities are a.
func (m *Model) compile(t roomful.Task, a *roomful.Abilities, d roomful.Division) action {
	mov := m.lex.Movement(t.Movement)
	act := action{task: t, movement: mov, trip: -1, massKg: a.MassKg, loadKg: t.LoadKg(), amount: t.Amount, loads: totals(&t)}
	switch {
	case t.Movement == roomful.Rest || mov != nil && mov.Modality == roomful.Pause:
		act.kind = restAction
		return act
	case mov == nil:
		act.kind = unknownAction
		return act
	case mov.Modality == roomful.Easy:
		act.kind = gentleAction
		act.counts = t.Unit == roomful.Rep
		if act.seconds = paceOf(mov); t.Unit == roomful.Second {
			act.seconds = 1
		}
		return act
	case mov.Modality == roomful.Machine || mov.Modality == roomful.Running:
		m.compileEngine(&act)
		return act
	}
	m.compileReps(&act, a, d)
	return act
}

// compileReps fills in an action made of repetitions, metres of carrying or
// seconds of holding.
func (m *Model) compileReps(act *action, a *roomful.Abilities, d roomful.Division) {
	mov, t, c := act.movement, act.task, &m.constants
	act.kind, act.mode = repsAction, kernel.Lift
	act.seconds = paceOf(mov)
	if t.Tempo != nil {
		act.seconds = t.Tempo.Seconds()
	}
	usual := roomful.Rep
	if len(mov.Units) > 0 {
		usual = mov.Units[0]
	}
	perSecond := mov.Modality == roomful.Hold
	act.joules = repJoules(act, c)
	switch {
	case t.Unit == roomful.Second && perSecond:
		act.seconds = 1
	case t.Unit == roomful.Second:
		// So many seconds of repetitions, or of carrying.
		act.timed, act.amount = act.amount, 0
	case t.Unit == roomful.Metre && usual == roomful.Rep && mov.StrideM > 0:
		// A distance of repetitions, as of lunges.
		act.perRep = 1 / mov.StrideM
		act.seconds *= act.perRep
		act.joules *= act.perRep
	}
	act.counts = t.Unit == roomful.Rep || t.Unit == roomful.Calorie
	act.parts = make([]kernel.Part, 0, len(mov.Demand))
	for _, q := range mov.Demand {
		act.parts = append(act.parts, kernel.Part{Group: uint8(q.Muscles), Weight: q.Weight})
	}
	if mov.Skill.Trips {
		act.trip = a.Index(roomful.TripLogit(mov.ID))
	}
	act.bound = boundOf(mov, act, a, c, d)
	act.bound.perSecond = perSecond || mov.Modality == roomful.Carrying
}

// repJoules returns the metabolic energy of one unit in J per kg of body mass
// (doc/model.md, rule 1).
func repJoules(act *action, c *Constants) float64 {
	mov, t := act.movement, act.task
	per := c.LoadedJoules
	if mov.Travel.Dropped {
		per = c.DroppedJoules
	}
	rise := mov.Travel.BodyTravelM
	if mov.Travel.OverHeight {
		height := t.HeightCm
		if height == 0 {
			height = mov.Travel.UsualHeight
		}
		rise += height / 100
	}
	return per*(act.loadKg*mov.Travel.LoadTravelM/act.massKg+rise) + mov.Travel.JoulesPerKg
}

// boundOf compiles what limits the units possible fresh.
func boundOf(mov *roomful.Movement, act *action, a *roomful.Abilities, c *Constants, d roomful.Division) bound {
	b := bound{strength: -1, endurance: -1, fallback: endless}
	s := mov.Bound
	if s == nil {
		return b
	}
	multiple := s.Multiple
	if multiple == 0 {
		multiple = 1
	}
	share := s.Share
	if share == 0 {
		share = 1
	}
	b.curve = s.Curve
	if s.Lift != "" {
		b.kind = liftBound
		b.strength = a.Index(roomful.OneRM(s.Lift))
		b.endurance = a.Index(roomful.Endurance(string(s.Lift)))
		b.perKg = multiple / share
		b.put(act.loadKg)
		if b.curve == 0 {
			b.curve = c.Curve
		}
		return b
	}
	b.kind = ownBound
	b.strength = a.Index(roomful.OwnMax(s.Own))
	b.bare, b.perKg = share, 1/act.massKg
	b.put(act.loadKg)
	if b.curve == 0 {
		b.curve = c.BodyCurve
	}
	k := 1
	if d == roomful.DivisionA {
		k = 0
	}
	if s.Most[k] > 0 {
		b.fallback = s.Most[k]
	}
	return b
}

// fresh returns the units possible fresh for drawn abilities; below 1 means
// that not even one is (doc/model.md, rule 4). Endurance is the day's and the
// gym's, 1 usually.
func (b *bound) fresh(dims []float64, endurance float64) float64 {
	if b.kind == noBound {
		return endless
	}
	if b.strength < 0 {
		return b.fallback
	}
	strength, eta := dims[b.strength], endurance
	if b.endurance >= 0 {
		eta *= dims[b.endurance]
	}
	if b.kind == liftBound {
		if b.load <= 0 {
			return endless
		}
		return min(endless, 1+b.curve*eta*(strength/b.load-1))
	}
	own := 1 + (strength-1)/b.curve
	return min(endless*4, 1+b.curve*(own/b.share-1))
}

// relative returns the load as a share of the maximum, 0 when unloaded.
func (b *bound) relative(dims []float64) float64 {
	if b.strength < 0 {
		return 0
	}
	switch b.kind {
	case liftBound:
		return b.load / dims[b.strength]
	case ownBound:
		return b.share / (1 + (dims[b.strength]-1)/b.curve)
	}
	return 0
}

// paceOf returns the skilled time of one unit in seconds.
func paceOf(m *roomful.Movement) float64 {
	if m.Pace.Skilled > 0 {
		return m.Pace.Skilled
	}
	return 2
}

// resolve turns an action into a kernel act for a member as drawn.
func (act *action) resolve(m *member) kernel.Act {
	dims, c := m.dims, m.c
	n := act.bound.fresh(dims, m.endurance)
	f := act.bound.relative(dims)
	k := kernel.Act{Mode: act.mode, Joules: act.joules, Parts: act.parts, N: n}
	k.Seconds = act.seconds
	k.Still = act.movement.Modality == roomful.Hold
	if act.task.Tempo == nil && !k.Still {
		k.Seconds *= m.speed * (1 + c.SlowLoad*max(0, min(f, 1.2)-0.5))
	}
	switch {
	case act.bound.perSecond:
		k.N = n / k.Seconds
	case act.perRep > 0 && n >= 1:
		k.N = max(1, n/act.perRep)
	}
	k.Slow = c.SlowGrowth * min(1, n/c.SlowAt)
	if act.trip >= 0 {
		k.Trips, k.Trip = true, dims[act.trip]
	}
	k.Ready()
	return k
}
