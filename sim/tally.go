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
	held, missed          int     // intervals done in time, and not
	roundBegan            float64
	roundBad              bool
	load                  float64 // heaviest set done, kg
	finish                float64 // when the last work ended
	complete              bool    // all of the work is done
	cannot                bool
}

// share is an amount done by what it counts.
type share struct{ counted, metres, seconds float64 }

// mark is a completed round.
type mark struct{ began, ended float64 }

// group is what was done in one bout.
type group struct {
	share
	began, ended float64
	worked       float64 // seconds of work
	seen, full   bool
}

// reset empties the tally and keeps its memory.
func (t *tally) reset() {
	*t = tally{rounds: t.rounds[:0], groups: t.groups[:0]}
}

// ideal adds time that work would take without fatigue.
func (t *tally) ideal(act *action, seconds float64) {
	if act.kind == repsAction {
		t.idealSeconds += seconds
	}
}

// record books what a step did.
func (c *crew) record(st *step, act *action, done, lasted float64, full bool) {
	t := &c.tally
	did := act.share(done, lasted)
	if act.kind == restAction {
		did = share{}
	} else {
		t.finish = c.clock
	}
	t.counted += did.counted
	if !st.once {
		t.inRound.counted += did.counted
		t.inRound.metres += did.metres
		t.inRound.seconds += did.seconds
		t.book(st, did, c.clock, full, act.kind == restAction)
	}
	late := st.due > 0 && c.clock > st.due+1e-9
	t.roundBad = t.roundBad || !full || late
	if st.ends {
		t.endRound(st, c.clock)
	}
	if st.once {
		t.roundBegan = c.clock
	}
	if st.strict && full {
		t.load = max(t.load, act.task.LoadKg())
	}
}

// endRound closes a round. What was done of a round that is not complete stays
// on the books.
func (t *tally) endRound(st *step, now float64) {
	switch {
	case !t.roundBad:
		t.rounds = append(t.rounds, mark{t.roundBegan, now})
		t.inRound, t.roundBegan = share{}, now
		if st.due > 0 {
			t.held++
		}
	case st.due > 0:
		t.missed++
	}
	t.roundBad = false
}

// book adds to the step's group.
func (t *tally) book(st *step, did share, now float64, full, resting bool) {
	for len(t.groups) <= st.group {
		t.groups = append(t.groups, group{})
	}
	g := &t.groups[st.group]
	if !g.seen {
		g.seen, g.full, g.began = true, true, max(st.start, t.roundBegan)
	}
	g.counted += did.counted
	g.metres += did.metres
	g.seconds += did.seconds
	g.full = g.full && full
	if !resting {
		g.ended = now
	}
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
