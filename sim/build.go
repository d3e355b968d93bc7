package sim

import (
	"math"
)

// build is working up to the heaviest set of a number of repetitions: from
// three fifths of what is likely upwards, in steps of loads that exist, until
// the next one would more likely fail than not.
type build struct {
	act  int
	rest float64 // s before each set
}

func (b *build) window() float64 { return math.Inf(1) }
func (b *build) hour() float64   { return 60 }

// next implements course. The cursor's index counts the loads passed over.
func (b *build) next(cur *cursor, c *crew, st *step) bool {
	m := c.members[0]
	act := &m.actions[b.act]
	reps := max(1, act.amount)
	if cur.round > 0 {
		c.rest(b.rest)
	}
	load, ok := b.pick(m, reps, cur)
	if !ok {
		return false
	}
	m.lift(b.act, load)
	cur.round++
	*st = step{act: b.act, amount: reps, start: c.clock, until: math.Inf(1), group: cur.round - 1, strict: true, ends: true}
	return true
}

// pick chooses the next load for a member as they are now.
func (b *build) pick(m *member, reps float64, cur *cursor) (kg float64, ok bool) {
	act := &m.actions[b.act]
	loads := act.loads
	tired := m.body.Local(&m.acts[b.act])
	top := -1 // the heaviest that is more likely than not
	for i := cur.index; i < len(loads) && m.possible(b.act, loads[i], tired) >= reps; i++ {
		top = i
	}
	if top < 0 {
		return 0, false
	}
	from := 0.6 * loads[top]
	if cur.round > 0 {
		// Ever smaller steps: half of what is left, at least the next load.
		from = (loads[cur.index-1] + loads[top]) / 2
	}
	for i := cur.index; i <= top; i++ {
		if loads[i] >= from-1e-9 {
			cur.index = i + 1
			return loads[i], true
		}
	}
	return 0, false
}
