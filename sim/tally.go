package sim

import (
	"math"

	"roomful"
)

// tally gathers what a run is scored by.
type tally struct {
	station, idealSeconds float64 // time at stations of repetitions, and what it would be unhurried by fatigue
	counted               float64 // repetitions and calories done
	inRound               share   // of the current round
	rounds                []mark  // completed rounds
	groups                []group // bouts or rounds, by step.group
	held                  int     // intervals done in time
	roundBegan            float64
	roundBad              bool
	load                  float64 // heaviest set done, kg per implement
	finish                float64 // when the last work ended
	waited                float64 // s for places
	reached               float64 // counted when they were watched
	breaks                float64 // in the current step
	spells                []spell // by action
	complete              bool    // all of the work is done
	cannot                bool
}

// spell is how often an element came up, and what it took in all.
type spell struct{ visits, seconds, breaks float64 }

// share is an amount done by what it counts.
type share struct{ counted, metres, seconds float64 }

// mark is a completed round.
type mark struct{ began, ended float64 }

// group is what was done in one bout.
type group struct {
	share
	began, ended float64
	seen         bool
}

// reset empties the tally and keeps its memory.
func (t *tally) reset() {
	clear(t.spells)
	*t = tally{rounds: t.rounds[:0], groups: t.groups[:0], spells: t.spells}
}

// ideal adds time that work would take without fatigue.
func (t *tally) ideal(act *action, seconds float64) {
	if act.kind == repsAction {
		t.idealSeconds += seconds
	}
}

// deed is what came of a step.
type deed struct {
	began   float64 // s, with the walk to it
	started float64 // s
	done    float64 // in the action's unit
	full    bool    // all that was asked
}

// record books what a step did.
func (c *crew) record(st *step, act *action, d deed) {
	t := &c.tally
	did := act.share(d.done, c.clock-d.started)
	if act.kind != restAction {
		t.finish = c.clock
	}
	if t.counted += did.counted; c.watch < math.Inf(1) {
		c.note(did.counted, d.started)
	}
	t.spells[st.act].add(spell{1, c.clock - d.started, t.breaks})
	if st.once {
		return
	}
	g := t.open(st.group, d.began)
	t.inRound.add(did)
	if !st.aside {
		g.add(did)
	}
	if act.kind != restAction {
		g.ended = c.clock
	}
	late := st.due > 0 && c.clock > st.due+1e-9
	t.roundBad = t.roundBad || !d.full || late
	if st.ends {
		t.endRound(st, c.clock)
	}
	if d.full && !late {
		t.load = max(t.load, act.task.Load.Kg())
	}
}

// note keeps how far the crew is at the time it is watched, the part of a step by
// its time.
func (c *crew) note(counted, started float64) {
	at := c.cursor.offset + c.watch
	switch {
	case c.clock <= at:
		c.tally.reached = c.tally.counted
	case started < at:
		c.tally.reached = c.tally.counted - counted*(c.clock-at)/(c.clock-started)
	}
}

// open returns a group, which begins now if this is its first step.
func (t *tally) open(n int, now float64) *group {
	for len(t.groups) <= n {
		t.groups = append(t.groups, group{})
	}
	g := &t.groups[n]
	if !g.seen {
		g.seen, g.began, g.ended = true, now, now
		t.inRound, t.roundBegan, t.roundBad = share{}, now, false
	}
	return g
}

// endRound closes a round. What was done of a round that is not complete stays
// on the books. An interval of rest alone counts as held, so that a piece done in
// full scores all of its intervals.
func (t *tally) endRound(st *step, now float64) {
	if t.roundBad {
		t.roundBad = false
		return
	}
	t.rounds = append(t.rounds, mark{t.roundBegan, now})
	t.inRound, t.roundBegan = share{}, now
	if st.due > 0 {
		t.held++
	}
}

// add adds another amount.
func (s *share) add(o share) {
	s.counted += o.counted
	s.metres += o.metres
	s.seconds += o.seconds
}

// add adds another spell.
func (s *spell) add(o spell) {
	s.visits += o.visits
	s.seconds += o.seconds
	s.breaks += o.breaks
}

// share sorts an amount of the action by what it counts as. Partial calories
// and repetitions do not count.
func (act *action) share(done, lasted float64) share {
	whole := math.Floor(done + 1e-6)
	switch {
	case act.kind == restAction || act.kind == unknownAction:
		return share{}
	case act.counts:
		return share{counted: whole}
	case act.timed > 0:
		return share{seconds: lasted}
	case act.task.Unit == roomful.Metre:
		return share{metres: done}
	}
	return share{seconds: done}
}
