package sim

import (
	"math"

	"roomful"
	"roomful/sim/internal/kernel"
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

// grain is how large a step may be: at most so many units, and at most so large
// a part of what is possible fresh.
type grain struct{ units, part float64 }

// Units are stepped a few at a time. One at a time would differ by less than a
// hundredth (TestChunks); the free pass, which only sets the pace, takes larger
// steps.
var (
	fine   = grain{16, 0.25}
	coarse = grain{32, 0.4}
)

// reps does repetitions, holds or carries in sets with breaks between them and
// returns the units done.
func (c *crew) reps(st *step) float64 {
	var done float64
	for {
		who := c.working(st)
		if c.unable(who, st.act) {
			c.tally.cannot = true
			if c.paced || !math.IsInf(c.end, 1) {
				c.rest(max(0, min(st.until, longest)-c.clock))
			}
			return done
		}
		n, why := c.set(who, st, st.amount-done)
		done += n
		switch {
		case why == finished, why == timeUp:
			if c.shares() {
				c.turn = (c.turn + 1) % len(c.members)
			}
			return done
		case st.strict:
			return done
		case why == tripped:
			c.rest(min(c.c.TripSeconds, max(0, st.until-c.clock)))
		case why == turned, why == broke && c.shares():
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
func (c *crew) working(st *step) []*member {
	switch {
	case len(c.members) == 1 || c.style == roomful.Synchronised:
		return c.members
	case c.style == roomful.Alternating:
		return c.members[st.who : st.who+1]
	}
	for range c.members {
		if c.members[c.turn].acts[st.act].N >= 1 {
			break
		}
		c.turn = (c.turn + 1) % len(c.members) // who cannot do it is passed over
	}
	return c.members[c.turn : c.turn+1]
}

// shares reports whether partners share each element's work.
func (c *crew) shares() bool { return c.style == roomful.Shared && len(c.members) > 1 }

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
func (c *crew) set(who []*member, st *step, left float64) (done float64, why outcome) {
	tempo := 1.0
	if !c.quiet {
		x := c.c.SetSpread * c.rng.Bell()
		tempo = 1 + x*(1+x*(0.5+x*(1.0/6))) // e^x for small x
	}
	turn := math.Inf(1)
	if c.shares() {
		turn = max(1, math.Ceil(st.amount/float64(2*len(c.members))))
		if math.IsInf(st.amount, 1) {
			turn = 10
		}
	}
	var ch chunk
	for done < left-1e-9 {
		if done >= turn {
			return done, turned
		}
		c.size(who, st, min(left, turn)-done, tempo, &ch)
		if ch.n < 1 && ch.n < left-done-1e-9 {
			return done, broke
		}
		if fits := (st.until-c.clock)/ch.seconds + 1e-9; fits < ch.n {
			if fits < 1 {
				return done + c.cutShort(who, st, &ch), timeUp
			}
			ch.n = math.Floor(fits)
		}
		n, ended := c.ending(&ch, left-done)
		if ended == tripped {
			c.doUnits(who, st.act, n, ch.seconds)
			return done + n, c.fail(who, st, ch.seconds)
		}
		c.doUnits(who, st.act, n, ch.seconds)
		done += n
		if ended == broke {
			return done, broke
		}
	}
	return done, finished
}

// fail spends the time and the effort of a unit that was tried and not done.
func (c *crew) fail(who []*member, st *step, seconds float64) outcome {
	if c.clock+seconds > st.until {
		c.rest(max(0, st.until-c.clock))
		return tripped
	}
	c.exert(who, st.act, 1, seconds)
	return tripped
}

// chunk is a few units that are stepped at once.
type chunk struct {
	n       float64 // units
	seconds float64 // of one unit
	hazard  float64 // of a break, per unit, half way through
	rise    float64 // of the hazard's logarithm from unit to unit
	trip    float64 // rate of failing, per unit; 0 when it cannot fail
}

// size sizes the next few units of a set for the members at work.
func (c *crew) size(who []*member, st *step, left, tempo float64, ch *chunk) {
	n := c.grain.units
	if left < n {
		n = left
	}
	for _, m := range who {
		a := &m.acts[st.act]
		if most := c.grain.part * a.N; n > most {
			n = math.Floor(most)
			if n < 1 {
				n = 1
			}
		}
		m.local = 0
		if len(a.Parts) > 0 {
			m.local = m.body.Local(a)
			// Rest before a set is timed to within 1e-6 of fatigue (kernel.Body.Recovery).
			if room := (1 - m.local + 2e-6) * a.N; n > room {
				n = math.Floor(room)
				if n < 1 && m.local <= 0.05+2e-6 {
					n = 1 // recovered as far as recover waits
				}
			}
		}
	}
	*ch = chunk{n: n}
	for _, m := range who {
		m.rate(&m.acts[st.act], tempo, st.strict, ch)
	}
}

// rate lets a member set how long a chunk's units take and how they may end:
// the slowest and the most tired decide.
func (m *member) rate(a *kernel.Act, tempo float64, strict bool, ch *chunk) {
	local := m.local // half way through
	if len(a.Parts) > 0 {
		local += (ch.n - 1) / 2 * a.PerUnit()
	}
	var s float64
	if s, m.busy = m.body.UnitSeconds(a, local, tempo); s > ch.seconds {
		ch.seconds = s
	}
	if !strict {
		if h := m.body.Hazard(local); h > ch.hazard {
			ch.hazard, ch.rise = h, 0
			if len(a.Parts) > 0 {
				ch.rise = m.c.BreakLocal * a.PerUnit()
			}
		}
	}
	if a.Trips {
		ch.trip += m.body.TripRate(a, local)
	}
}

// ending uses up the chances of a set and returns how many of the chunk's units
// are done and how it ends; finished means that it goes on. A set is not broken
// by choice in its last two units. Waiting times to a break and to a trip are
// exponential, so what is left of them carries over from set to set.
func (c *crew) ending(ch *chunk, left float64) (n float64, why outcome) {
	n = ch.n
	if ch.trip > 0 {
		if c.trips -= ch.trip * n; c.trips < 0 {
			n = max(0, math.Floor(n+c.trips/ch.trip))
			c.trips = c.chance()
			return n, tripped
		}
	}
	exposed := n
	if left-2 < n {
		exposed = left - 2
	}
	if exposed <= 0 || ch.hazard == 0 {
		return n, finished
	}
	risk := ch.hazard * exposed * (1 + ch.rise*ch.rise*(n*n-1)/24)
	if c.budget < risk {
		n = max(1, math.Ceil(exhausted(c.budget/risk, exposed, ch.rise)))
		c.budget = c.chance()
		return n, broke
	}
	c.budget -= risk
	return n, finished
}

// exhausted returns after how many of a number of units a share of their risk is
// used up, when it grows exponentially with a rate per unit.
func exhausted(share, units, rise float64) float64 {
	if rise*units < 1e-4 {
		return share * units
	}
	return math.Log(1+share*(kernel.Exp(rise*units)-1)) / rise
}

// chance draws the waiting time to the next break or trip, in units of
// accumulated hazard.
func (c *crew) chance() float64 {
	if c.quiet {
		return 1
	}
	return c.rng.ExpFloat64()
}

// cutShort does what fits of a chunk before the step's time is over. Holds and
// carries are cut anywhere, repetitions at whole ones.
func (c *crew) cutShort(who []*member, st *step, ch *chunk) float64 {
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
	c.exert(who, act, n, seconds)
	c.tally.ideal(&who[0].actions[act], n*who[0].acts[act].Seconds)
}

// exert spends the time and the effort of n units.
func (c *crew) exert(who []*member, act int, n, seconds float64) {
	for _, m := range who {
		m.body.Do(&m.acts[act], n, seconds, m.busy)
	}
	if len(who) < len(c.members) {
		for _, m := range c.members {
			if m != who[0] {
				m.body.Rest(n * seconds)
			}
		}
	}
	c.clock += n * seconds
}

// breather is the rest after a broken set: as long as a person takes in a
// piece of this length, and until a set worth starting is possible.
func (c *crew) breather(who []*member, st *step, left float64) {
	var length float64
	for _, m := range who {
		a := &m.acts[st.act]
		local := m.body.Local(a)
		length = max(length, c.breakSeconds*(1+m.body.Spent()+local))
	}
	if c.quiet {
		length *= c.meanBreak
	} else {
		length *= kernel.Exp(c.c.BreakSpread * c.rng.Bell())
	}
	c.tally.breaks++
	began := c.clock
	c.rest(min(length, max(0, st.until-c.clock)))
	c.recover(who, st, left)
	if c.events != nil {
		c.events(Event{Start: began, End: c.clock, Movement: who[0].actions[st.act].task.Movement, Break: true, Round: st.group})
	}
}

// recover waits until a set worth starting is possible.
func (c *crew) recover(who []*member, st *step, left float64) {
	var wait float64
	for _, m := range who {
		a := &m.acts[st.act]
		worth := min(left, max(1, math.Round(c.c.Fragment*a.N)))
		wait = max(wait, m.body.Recovery(a, max(0.05, 1-worth/a.N)))
	}
	c.rest(min(wait, max(0, st.until-c.clock)))
}

// handOver gives shared work to the next partner, who may have to recover.
func (c *crew) handOver(st *step, left float64) {
	c.turn = (c.turn + 1) % len(c.members)
	c.recover(c.working(st), st, left)
}

// settle sets what holds for a whole walk: how long breaks are, and how fast each act may be at most by intent: the second pass is
// paced by what the first one took (doc/model.md, rule 7).
func (c *crew) settle() {
	care := 1 - c.c.PaceCare*math.Sqrt(120/c.hour)
	c.breakSeconds = c.c.BreakSeconds * math.Pow(c.hour/300, c.c.BreakGrowth)
	c.meanBreak = math.Exp(c.c.BreakSpread * c.c.BreakSpread / 2)
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
