package sim

import (
	"math"

	"roomful"
	"roomful/sim/internal/kernel"
)

// member is one person in one run: a body, and their acts for the day.
type member struct {
	body      kernel.Body
	actions   []action
	acts      []kernel.Act
	c         *Constants
	endurance float64   // of the gym, multiplies repetitions possible beyond the first
	dims      []float64 // drawn capacities, by index in the abilities
	pace      float64   // multiplies the pace that intent sets
	speed     float64   // multiplies the time of a repetition
	local     float64   // fatigue at the start of the chunk being sized
	busy      float64   // s of its units in which the muscles work
}

// crew is the people who do a piece together on one clock: one, or partners.
type crew struct {
	c       *Constants
	members []*member
	style   roomful.TeamStyle
	clock   float64
	cursor  cursor
	tally   tally
	// end is when the window or the cap closes, +Inf when neither does.
	end float64
	// horizon is when the work is expected to end, for spreading effort.
	horizon  float64
	lasts    float64 // s, how long a bout without a window of its own, or a turn, is expected to last; 0 unknown
	hour     float64 // s, the length that rules of pacing and breaks go by (H)
	quiet    bool    // no noise
	paced    bool    // intent holds: the second pass
	scouting bool    // a free pass of which only the time is wanted
	ratio    float64 // station time over ideal time of the free pass (R)

	// budget and trips are what is left of the waiting time to the next break
	// and to the next failed attempt, in accumulated hazard.
	budget, trips           float64
	began                   float64 // when the step began, with the walk to it
	over                    bool    // a step has ended the piece
	ahead                   step    // memory of the step that is scouted
	grain                   grain
	breakSeconds, meanBreak float64 // of a break in this piece, and its mean over its median

	from  []float64 // s from the start of the piece, when they go over to other work
	shift int       // of actions, each time
	watch float64   // s from the start of the piece, when to note how far they are

	key    uint64 // of the run's random numbers
	block  uint64
	rng    *noise
	turn   int // whose set it is when work is shared
	last   int // action done before, -1 at the start and after a rest, in which people walk over
	events func(Event)
}

// step is the next thing a course asks of a crew.
type step struct {
	act     int     // index of the action
	amount  float64 // in the action's unit, +Inf for as much as possible
	start   float64 // not before this time
	until   float64 // cut at this time
	horizon float64 // spread effort to this time; 0 means the crew's own
	who     int     // whose turn when partners alternate
	once    bool    // outside the rounds
	ends    bool    // completes a round when done in full
	strict  bool    // a strength set: no choice of breaks, a stop ends it
	group   int     // bout or round that the amount belongs to
	due     float64 // late after this time, for work on every interval; 0 never
	aside   bool    // no part of the score: a fixed amount beside an open one
}

// reset puts the crew at rest at the start of a run.
func (c *crew) reset() {
	for _, m := range c.members {
		m.body.Reset()
	}
	c.clock, c.cursor, c.block, c.turn, c.last = 0, cursor{}, 0, 0, -1
	c.tally.reset()
	if c.budget, c.trips = 0.5, 0.5; !c.quiet {
		c.rng.Seek(c.key)
		c.budget, c.trips = c.rng.ExpFloat64(), c.rng.ExpFloat64()
	}
}

// scouted is how much of a window the free pass walks at least, in s: by then
// what recovers slowest is near its level, and the rounds repeat themselves.
const scouted = 400

// scout takes the crew through a third of a long window, and takes the rest to go
// like the second half of that. Scores move by less than a two-hundredth
// (TestScout).
func (c *crew) scout(course course, least float64) {
	began, window := c.clock, c.end-c.clock
	enough := max(least, window/3)
	if window < 2.4*enough {
		enough = math.Inf(1)
	}
	var half struct{ at, station, ideal float64 }
	st := &c.ahead
	for course.next(&c.cursor, c, st) {
		c.approach(st)
		if !c.carryOut(st) {
			return
		}
		switch {
		case !st.ends || c.clock < began+enough/2:
		case half.at == 0:
			half.at, half.station, half.ideal = c.clock, c.tally.station, c.tally.idealSeconds
		case c.clock >= began+enough:
			more := (c.end - c.clock) / (c.clock - half.at)
			c.tally.station += more * (c.tally.station - half.station)
			c.tally.idealSeconds += more * (c.tally.idealSeconds - half.ideal)
			c.clock = c.end
			return
		}
	}
}

// blockStride parts the random numbers of one step from those of the next: an
// odd constant without a pattern, so that the stretches used of one stream do
// not meet.
const blockStride = 0xd1342543de82ef95

// now returns the action that stands for one of the piece's at this time.
func (c *crew) now(act int) int {
	for _, from := range c.from {
		if c.clock < c.cursor.offset+from {
			break
		}
		act += c.shift
	}
	return act
}

// approach takes the crew up to a step: the rest before it, and the walk.
func (c *crew) approach(st *step) {
	if c.block++; !c.quiet {
		c.rng.Seek(c.key + c.block*blockStride)
	}
	if last := min(c.end, longest); st.until > last {
		st.until = last
	}
	if st.start > c.clock {
		c.rest(min(st.start, st.until) - c.clock)
		c.last = -1
	}
	if st.strict {
		for _, m := range c.members {
			m.find(st.act, st.amount)
		}
	}
	c.began, c.tally.breaks = c.clock, 0
	act := &c.members[c.lead(st)].actions[st.act]
	if c.last >= 0 && c.last != st.act && act.kind != restAction {
		c.walk(min(c.c.Transition, max(0, st.until-c.clock)))
		c.tally.ideal(act, c.c.Transition)
	}
}

// carryOut does the step that the crew has come up to; it returns false when the
// piece has to stop.
func (c *crew) carryOut(st *step) bool {
	act := &c.members[c.lead(st)].actions[st.act]
	if c.last = st.act; act.kind == restAction {
		c.last = -1
	}
	started := c.clock
	var done float64
	var full bool
	if len(c.members) > 1 && c.unlike(st.act) {
		done, full = c.apart(st)
	} else {
		done, full = c.work(st, act)
	}
	if act.kind == repsAction {
		c.tally.station += c.clock - c.began
	}
	if !c.scouting {
		c.record(st, act, deed{c.began, started, done, full})
	}
	if c.events != nil {
		c.events(Event{Start: started, End: c.clock, Movement: act.task.Movement, Done: done, Round: st.group, Person: c.lead(st)})
	}
	if math.IsInf(c.end, 1) {
		c.tally.cannot = c.tally.cannot || c.clock >= longest
		if c.tally.cannot && !c.paced {
			return false
		}
	}
	return c.clock < min(c.end, longest)
}

// lead returns who does a step, for reports: partners who work at once count
// as the first of them.
func (c *crew) lead(st *step) int {
	if c.style == roomful.Alternating {
		return st.who
	}
	return 0
}

// work does a step's work and returns how much was done and whether it was all.
// Of an open amount, anything is.
func (c *crew) work(st *step, act *action) (done float64, full bool) {
	open := math.IsInf(st.amount, 1)
	if act.timed > 0 {
		until := c.clock + act.timed
		full = until <= st.until+1e-9
		st.until, st.amount = min(st.until, until), math.Inf(1)
	}
	switch act.kind {
	case restAction, unknownAction:
		c.rest(clip(st.amount, st.until-c.clock))
		return 0, open || c.clock < st.until
	case gentleAction:
		length := clip(st.amount*act.seconds, st.until-c.clock)
		c.rest(length)
		return length / act.seconds, full || c.clock < st.until
	case engineAction:
		done = c.engine(st)
	default:
		done = c.reps(st)
	}
	return done, full || open && done > 0 || done >= st.amount-1e-9
}

// clip returns v held between 0 and most.
func clip(v, most float64) float64 { return max(0, min(v, most)) }

// rest lets everybody rest.
func (c *crew) rest(seconds float64) {
	if seconds <= 0 {
		return
	}
	for _, m := range c.members {
		m.body.Rest(seconds)
	}
	c.clock += seconds
}

// walk lets everybody walk to the next element.
func (c *crew) walk(seconds float64) {
	for _, m := range c.members {
		m.body.Walk(seconds)
	}
	c.clock += seconds
}

// others lets everybody rest but the member at work.
func (c *crew) others(worker int, seconds float64) {
	for i, m := range c.members {
		if i != worker {
			m.body.Rest(seconds)
		}
	}
	c.clock += seconds
}

// left returns the time in seconds over which effort is spread.
func (c *crew) left(st *step) float64 {
	if st.horizon > 0 {
		return max(1, st.horizon-c.clock)
	}
	seconds := c.horizon - c.clock
	if c.shares() {
		seconds /= float64(len(c.members)) // of one's own work
	}
	return max(1, seconds)
}

// engine does machine or running work: alone, in turns, or all at the pace of
// the slowest.
func (c *crew) engine(st *step) float64 {
	switch {
	case len(c.members) == 1:
		return c.bout(0, st)
	case c.style == roomful.Alternating:
		return c.bout(st.who, st)
	case c.style == roomful.Synchronised:
		return c.boutTogether(st)
	}
	turns := 2 * len(c.members)
	each := *st
	each.amount = st.amount / float64(turns)
	var done float64
	for t := range turns {
		if math.IsInf(st.amount, 1) {
			each.until = c.clock + (st.until-c.clock)/float64(turns-t)
		}
		done += c.bout(c.turn, &each)
		c.turn = (c.turn + 1) % len(c.members)
		if c.clock >= st.until-1e-9 {
			break
		}
	}
	return done
}

// bout lets one member do machine or running work, and returns the units done.
func (c *crew) bout(who int, st *step) float64 {
	m := c.members[who]
	act := &m.actions[st.act]
	room := st.until - c.clock
	if room <= 0 {
		return 0
	}
	left := c.left(st)
	var tau, watts float64
	if math.IsInf(st.amount, 1) {
		tau, watts = room, m.body.PowerFor(act.mode, room, left)
	} else {
		tau, watts = m.boutSeconds(st.act, st.amount, left)
	}
	done := st.amount
	if tau >= room {
		tau = room
		done = min(done, act.rate(watts)*tau)
	}
	m.body.Bout(act.mode, watts, tau)
	c.others(who, tau)
	return done
}

// boutTogether lets everybody do the same machine or running work side by
// side; the slowest sets the time, and the others hold back to it.
func (c *crew) boutTogether(st *step) float64 {
	room := st.until - c.clock
	if room <= 0 {
		return 0
	}
	left, slowest := c.left(st), 0.0
	for _, m := range c.members {
		if math.IsInf(st.amount, 1) {
			slowest = room
			continue
		}
		tau, _ := m.boutSeconds(st.act, st.amount, left)
		slowest = max(slowest, tau)
	}
	tau, done := min(slowest, room), math.Inf(1)
	for _, m := range c.members {
		act := &m.actions[st.act]
		watts := m.body.PowerFor(act.mode, slowest, left)
		done = min(done, st.amount, act.rate(watts)*tau)
		m.body.Bout(act.mode, watts, tau)
	}
	c.clock += tau
	if slowest <= room && !math.IsInf(st.amount, 1) {
		done = st.amount
	}
	return done
}
