package sim

import (
	"math"

	"roomful"
)

// unlike reports whether partners do different things at a step: one has
// another movement of another kind, counted in another unit, or, when they take
// turns, another amount.
func (c *crew) unlike(act int) bool {
	first := &c.members[0].actions[act]
	for _, m := range c.members[1:] {
		a := &m.actions[act]
		if a.kind != first.kind || a.task.Unit != first.task.Unit || (a.timed > 0) != (first.timed > 0) ||
			c.style == roomful.Alternating && a.amount != first.amount {
			return true
		}
	}
	return false
}

// apart lets partners who do different things each do their own: in turns, a
// share each, or side by side until the last is done. The answer is in the first
// one's unit.
func (c *crew) apart(st *step) (done float64, full bool) {
	switch c.style {
	case roomful.Alternating:
		return c.alone(st.who, *st, 1)
	case roomful.Synchronised:
		return c.besides(*st)
	}
	turns := 2 * len(c.members)
	if math.IsInf(st.amount, 1) {
		turns = len(c.members)
	}
	full = true
	for t := range turns {
		sub := *st
		if math.IsInf(st.amount, 1) {
			sub.until = c.clock + (st.until-c.clock)/float64(turns-t)
		}
		n, all := c.alone(c.turn, sub, 1/float64(turns))
		done, full = done+n, full && all
		c.turn = (c.turn + 1) % len(c.members)
		if c.clock >= st.until-1e-9 {
			return done, full && t == turns-1
		}
	}
	return done, full
}

// alone lets one member do a share of what they have at a step while the others
// rest, and returns how much that is in the first member's unit.
func (c *crew) alone(who int, st step, share float64) (done float64, full bool) {
	began := c.clock
	done, full = c.solo(who, &st, share)
	for i, m := range c.members {
		if i != who {
			m.body.Rest(c.clock - began)
		}
	}
	return done, full
}

// besides lets everybody do what they have at a step at the same time.
func (c *crew) besides(st step) (done float64, full bool) {
	began, end := c.clock, c.clock
	ends := make([]float64, len(c.members))
	done, full = math.Inf(1), true
	for k := range c.members {
		c.clock = began
		own := st
		n, all := c.solo(k, &own, 1)
		done, full = min(done, n), full && all
		ends[k] = c.clock
		end = max(end, c.clock)
	}
	for k, m := range c.members {
		m.body.Rest(end - ends[k])
	}
	c.clock = end
	return done, full
}

// solo lets one member work as if nobody else were there.
func (c *crew) solo(who int, st *step, share float64) (done float64, full bool) {
	act := &c.members[who].actions[st.act]
	asked := st.amount
	if act.amount > 0 {
		st.amount = act.amount
	}
	if !math.IsInf(asked, 1) {
		st.amount *= share
		if act.kind == repsAction {
			st.amount = math.Ceil(st.amount)
		}
	}
	whole := st.amount
	one := *c
	one.members, one.style, one.turn = c.members[who:who+1], roomful.Alone, 0
	did, full := one.work(st, act)
	c.clock, c.budget, c.trips = one.clock, one.budget, one.trips
	c.tally = one.tally
	switch {
	case math.IsInf(asked, 1):
		return did, full
	case whole > 0:
		return min(1, did/whole) * asked * share, full
	case full:
		return asked * share, true
	}
	return 0, false
}
