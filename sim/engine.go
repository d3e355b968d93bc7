package sim

import (
	"math"

	"roomful"
	"roomful/equation"
	"roomful/sim/internal/kernel"
)

// rateFunc turns metabolic power (W per kg of body mass) into units per
// second, or back.
type rateFunc func(float64) float64

// compileEngine fills in an action on a machine or on foot.
func (m *Model) compileEngine(act *action) {
	act.kind = engineAction
	t := act.task
	act.counts = t.Unit == roomful.Calorie
	if t.Unit == roomful.Second {
		act.timed, act.amount = t.Amount, 0
	}
	c := &m.constants
	if act.movement.Modality == roomful.Running {
		act.mode = kernel.Run
		per := c.RunJoules
		if act.movement.Travel.JoulesPerKg > 0 {
			per = act.movement.Travel.JoulesPerKg
		}
		act.rate = func(w float64) float64 { return max(w, 0.1) / per }
		act.power = func(rate float64) float64 { return rate * per }
		return
	}
	act.mode = kernel.Machine
	e := m.machine(act.movement.Implement)
	through := e.share * act.massKg
	watts := func(w float64) float64 { return max(leastWatts, through*(w-e.rest)) }
	back := func(watts float64) float64 { return watts/through + e.rest }
	if t.Unit == roomful.Calorie {
		act.rate = func(w float64) float64 { return e.calories * equation.FlywheelCaloriesPerHour(watts(w)) / 3600 }
		act.power = func(rate float64) float64 { return back(equation.FlywheelCaloriePower(rate / e.calories * 3600)) }
		return
	}
	act.rate = func(w float64) float64 { return e.distance * equation.FlywheelSpeed(watts(w)) }
	act.power = func(rate float64) float64 { return back(equation.FlywheelPower(rate / e.distance)) }
}

// leastWatts is what anybody gets out of a machine.
const leastWatts = 5

// engine is how metabolic power becomes what a machine shows: watts are share times
// body mass times what is above rest, metres and calories so many times a rower's at
// the same watts.
type engine struct{ share, rest, distance, calories float64 }

// machine returns the engine of a machine.
func (m *Model) machine(im roomful.Implement) engine {
	c := &m.constants
	switch im {
	case roomful.SkiMachine:
		return engine{c.SkiShare, 0, 1, 1}
	case roomful.Bike:
		return engine{c.BikeShare, c.BikeRest, 2, 1}
	case roomful.FanBike:
		// Common practice, no source: 1.2 times the flywheel bike's metres, 0.8
		// of its calories.
		return engine{c.BikeShare, c.BikeRest, 2.4, 0.8}
	}
	return engine{c.RowShare, 0, 1, 1}
}

// boutSeconds returns how long a member takes for an amount of engine work when
// left seconds of the piece remain, and at what power: both are unknown at once,
// since a shorter bout can be harder. It looks for the time in which the power that
// the body chooses is the power that the amount asks for, by secants from the time
// at the oxygen supply alone; should those wander, a longer time asks for less, so
// bisection on the logarithm of time cannot fail.
func (m *member) boutSeconds(i int, amount, left float64) (tau, watts float64) {
	act, b := &m.actions[i], &m.body
	tau = amount * m.acts[i].Seconds
	var last, missed float64
	for k := range 12 {
		watts = b.PowerFor(act.mode, tau, left)
		miss := 1 - act.power(amount/tau)/watts
		if math.Abs(miss) < 2e-4 {
			return tau, watts
		}
		step := -miss / 3 // as if power went with the cube of speed
		if slope := (miss - missed) / (tau - last); k > 0 && slope*tau > 0.3 {
			step = -miss / (slope * tau)
		}
		last, missed = tau, miss
		tau *= max(0.5, min(1+step, 2))
	}
	lo, hi := 0.5, longest
	for range 60 {
		tau = math.Sqrt(lo * hi)
		if act.power(amount/tau) > b.PowerFor(act.mode, tau, left) {
			lo = tau
		} else {
			hi = tau
		}
	}
	return tau, b.PowerFor(act.mode, tau, left)
}

// longest is the time in seconds at which any run stops.
const longest = 4 * 3600.0
