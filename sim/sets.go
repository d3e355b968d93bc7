package sim

import (
	"math"

	"roomful"
)

// outcome says why a set of repetitions ended.
type outcome uint8

const (
	finished outcome = iota // all of the work is done
	timeUp                  // the step's time is over
	broke                   // by choice or by fatigue
	tripped                 // an attempt failed
	turned                  // a partner takes over
)

// largestChunk is how many units are stepped at once at most. One at a time
// would differ by less than a hundredth (TestChunks).
const largestChunk = 5

// reps does repetitions, holds or carries in sets with breaks between them and
// returns the units done.
func (c *crew) reps(st step) float64 {
	var done float64
	for {
		who := c.working(st)
		if c.unable(who, st.act) {
			c.tally.cannot = true
			c.rest(max(0, min(st.until, longest)-c.clock))
			return done
		}
		n, why := c.set(who, st, st.amount-done)
		done += n
		switch {
		case why == finished, why == timeUp:
			return done
		case st.single, st.strict:
			return done
		case why == tripped:
			c.rest(min(c.c.TripSeconds, max(0, st.until-c.clock)))
		case why == turned:
			c.handOver(st, st.amount-done)
		default:
			c.breather(who, st, st.amount-done)
		}
		if c.clock >= st.until-1e-9 {
			return done
		}
	}
}

// working returns the members who do the next set: all of them when they move
// as one, else one.
func (c *crew) working(st step) []*member {
	switch {
	case len(c.members) == 1 || c.style == roomful.Synchronised:
		return c.members
	case c.style == roomful.Alternating:
		return c.members[st.who : st.who+1]
	}
	return c.members[c.turn : c.turn+1]
}

// unable reports whether one of the members cannot do even one unit.
func (c *crew) unable(who []*member, act int) bool {
	for _, m := range who {
		if m.acts[act].N < 1 {
			return true
		}
	}
	return false
}

// set does one unbroken set of at most left units.
func (c *crew) set(who []*member, st step, left float64) (done float64, why outcome) {
	budget, trips, tempo := 1.0, 1.0, 1.0
	if !c.quiet {
		budget, trips = c.rng.Exp(), c.rng.Exp()
		tempo = math.Exp(c.c.SetSpread * c.rng.Norm())
	}
	turn := math.Inf(1)
	if c.style == roomful.Shared && len(c.members) > 1 {
		turn = max(1, math.Ceil(st.amount/float64(2*len(c.members))))
		if math.IsInf(st.amount, 1) {
			turn = 10
		}
	}
	for done < left-1e-9 {
		if done >= turn {
			return done, turned
		}
		ch := c.chunk(who, st, min(left-done, turn-done), tempo)
		if ch.n < 1 && ch.n < left-done-1e-9 {
			return done, broke
		}
		if over := c.clock + ch.n*ch.seconds - st.until; over > 1e-9 {
			return done + c.cutShort(who, st, ch), timeUp
		}
		n, ended := ch.n, outcome(0)
		if !st.strict {
			if n, ended = ch.ending(&budget, &trips, left-done); ended == tripped {
				c.doUnits(who, st.act, n, ch.seconds)
				return done + n, c.fail(st, ch.seconds)
			}
		}
		c.doUnits(who, st.act, n, ch.seconds)
		done += n
		if ended == broke {
			return done, broke
		}
	}
	return done, finished
}

// fail spends the time of a unit that was tried and not done.
func (c *crew) fail(st step, seconds float64) outcome {
	c.rest(min(seconds, max(0, st.until-c.clock)))
	return tripped
}

// chunk is a few units that are stepped at once.
type chunk struct {
	n       float64 // units
	seconds float64 // of one unit
	hazard  float64 // of a break, per unit
	trip    float64 // rate of failing, per unit; 0 when it cannot fail
}

// chunk sizes the next few units of a set for the members at work.
func (c *crew) chunk(who []*member, st step, left, tempo float64) chunk {
	ch := chunk{n: min(left, largestChunk)}
	for _, m := range who {
		a := &m.acts[st.act]
		local := m.body.Local(a)
		ch.n = min(ch.n, max(1, math.Floor(0.08*a.N)), math.Floor(m.body.Room(a, local)+1e-9))
	}
	for _, m := range who {
		a := &m.acts[st.act]
		local := m.body.Local(a)
		if len(a.Parts) > 0 {
			local += (ch.n - 1) / 2 / a.N
		}
		ch.seconds = max(ch.seconds, m.body.UnitSeconds(a, local, tempo))
		ch.hazard = max(ch.hazard, m.body.Hazard(local))
		if a.Trips {
			ch.trip += m.body.TripRate(a, local)
		}
	}
	return ch
}

// ending uses up the budgets of a set and returns how many of the chunk's
// units are done and how it ends; finished means that it goes on. A set is not
// broken by choice in its last two units.
func (ch chunk) ending(budget, trips *float64, left float64) (n float64, why outcome) {
	n = ch.n
	if ch.trip > 0 {
		if *trips -= ch.trip * n; *trips < 0 {
			return math.Max(0, math.Floor(n+*trips/ch.trip)), tripped
		}
	}
	exposed := max(0, min(n, left-2))
	if *budget -= ch.hazard * exposed; *budget < 0 {
		return max(1, math.Ceil(exposed+*budget/ch.hazard)), broke
	}
	return n, finished
}

// cutShort does what fits of a chunk before the step's time is over. Holds and
// carries are cut anywhere, repetitions at whole ones.
func (c *crew) cutShort(who []*member, st step, ch chunk) float64 {
	n := max(0, (st.until-c.clock)/ch.seconds)
	if u := c.members[0].actions[st.act].task.Unit; u == roomful.Rep || u == roomful.Second && !isHold(c.members[0].actions[st.act].movement) {
		n = math.Floor(n + 1e-9)
	}
	if n > 0 {
		c.doUnits(who, st.act, n, ch.seconds)
	}
	c.rest(max(0, st.until-c.clock))
	return n
}

// isHold reports whether a movement is counted in seconds by itself.
func isHold(m *roomful.Movement) bool { return m != nil && m.Modality == roomful.Hold }

// doUnits lets the members at work do n units; the others rest.
func (c *crew) doUnits(who []*member, act int, n, seconds float64) {
	for _, m := range who {
		m.body.Do(&m.acts[act], n, seconds)
	}
	if len(who) == len(c.members) {
		c.clock += n * seconds
	} else {
		for _, m := range c.members {
			if m != who[0] {
				m.body.Rest(n * seconds)
			}
		}
		c.clock += n * seconds
	}
	c.tally.ideal(&who[0].actions[act], n*who[0].acts[act].Seconds)
}

// breather is the rest after a broken set: as long as a person takes in a
// piece of this length, and until a set worth starting is possible.
func (c *crew) breather(who []*member, st step, left float64) {
	var length float64
	for _, m := range who {
		a := &m.acts[st.act]
		local := m.body.Local(a)
		length = max(length, c.c.BreakSeconds*math.Pow(c.hour/300, c.c.BreakGrowth)*(1+m.body.Spent()+local))
	}
	if !c.quiet {
		length *= math.Exp(c.c.BreakSpread * c.rng.Norm())
	}
	began := c.clock
	c.rest(min(length, max(0, st.until-c.clock)))
	c.recover(who, st, left)
	c.emit(Event{Start: began, End: c.clock, Movement: who[0].actions[st.act].task.Movement, Break: true, Round: st.group})
}

// recover waits until a set worth starting is possible.
func (c *crew) recover(who []*member, st step, left float64) {
	var wait float64
	for _, m := range who {
		a := &m.acts[st.act]
		worth := min(left, max(1, math.Round(c.c.Fragment*a.N)))
		wait = max(wait, m.body.Recovery(a, max(0.05, 1-worth/a.N)))
	}
	c.rest(min(wait, max(0, st.until-c.clock)))
}

// handOver gives shared work to the next partner, who may have to recover.
func (c *crew) handOver(st step, left float64) {
	c.turn = (c.turn + 1) % len(c.members)
	c.recover(c.working(st), st, left)
}

// floors sets how fast each act may be at most by intent: the second pass is
// paced by what the first one took (doc/model.md, rule 7).
func (c *crew) floors() {
	care := 1 - c.c.PaceCare*math.Sqrt(120/c.hour)
	for _, m := range c.members {
		for i := range m.acts {
			a := &m.acts[i]
			a.Floor = 0
			if c.paced {
				a.Floor = care * c.ratio * a.Seconds * m.pace
			}
		}
	}
}
