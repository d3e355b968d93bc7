package sim

import (
	"math"

	"roomful"
	"roomful/equation"
	"roomful/sim/internal/kernel"
)

// rateFunc turns metabolic power (W per kg of body mass) into units per
// second.
type rateFunc func(wattsPerKg float64) float64

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
		return
	}
	act.mode = kernel.Machine
	watts, distance, calories := m.machine(act.movement.Implement, act.massKg)
	if t.Unit == roomful.Calorie {
		act.rate = func(w float64) float64 {
			return calories * equation.FlywheelCaloriesPerHour(watts(w)) / 3600
		}
		return
	}
	act.rate = func(w float64) float64 { return distance * equation.FlywheelSpeed(watts(w)) }
}

// machine returns how metabolic W/kg become watts at the flywheel, and how a
// machine's metres and calories compare with a rower's at the same watts.
func (m *Model) machine(im roomful.Implement, massKg float64) (watts rateFunc, distance, calories float64) {
	c := &m.constants
	through := func(share, rest float64) rateFunc {
		return func(w float64) float64 { return max(5, share*massKg*(w-rest)) }
	}
	switch im {
	case roomful.SkiMachine:
		return through(c.SkiShare, 0), 1, 1
	case roomful.Bike:
		return through(c.BikeShare, c.BikeRest), 2, 1
	case roomful.FanBike:
		// Common practice, no source: 1.2 times the flywheel bike's metres, 0.8
		// of its calories.
		return through(c.BikeShare, c.BikeRest), 2.4, 0.8
	}
	return through(c.RowShare, 0), 1, 1
}

// boutSeconds returns how long a body takes for an amount of engine work when
// left seconds of the piece remain, and at what power: both are unknown at
// once, since a shorter bout can be harder. It looks for the time that asks for
// the power that takes that time, by secants; should those wander, the amount
// covered grows with time, so bisection on the logarithm of time cannot fail.
func boutSeconds(b *kernel.Body, act *action, amount, left float64) (tau, watts float64) {
	takes := func(tau float64) float64 { return amount / act.rate(b.PowerFor(act.mode, tau, left)) }
	tau = amount / act.rate(b.Supply[act.mode])
	var last, missed float64
	for i := range 12 {
		next := takes(tau)
		miss := next - tau
		if math.Abs(miss) < 1e-4*tau {
			return next, b.PowerFor(act.mode, next, left)
		}
		step := miss / 2
		if slope := (miss - missed) / (tau - last); i > 0 && slope < -0.2 {
			step = -miss / slope
		}
		last, missed = tau, miss
		tau = max(tau/4, tau+step)
	}
	lo, hi := 0.5, longest
	for range 60 {
		tau = math.Sqrt(lo * hi)
		if takes(tau) > tau {
			lo = tau
		} else {
			hi = tau
		}
	}
	return tau, b.PowerFor(act.mode, tau, left)
}

// longest is the time in seconds at which any run stops.
const longest = 4 * 3600.0
