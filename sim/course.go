package sim

import (
	"math"

	"roomful"
)

// course is a format at work: it hands a crew one step after another. A course
// holds no state of a run; that is in the cursor.
type course interface {
	// next fills in the step at the cursor and moves on; it returns false when
	// the piece is done.
	next(cur *cursor, c *crew, st *step) bool
	// window returns when the piece is cut in seconds, +Inf when it is not.
	window() float64
	// hour returns the length that pacing goes by in seconds; 0 when it depends
	// on the people.
	hour() float64
}

// cursor is where a crew is in a course.
type cursor struct {
	phase        int // 0 once, 1 rounds, 2 last, 3 done
	round, index int
	start        float64 // when the current bout or turn starts
	begun        bool
	turn         float64 // when the current partner's turn began
	offset       float64 // when the piece starts on the clock
}

// linear is once, rounds and last, one after the other: rounds in time, one
// amount in time, for time.
type linear struct {
	once, round, last []int // actions
	rounds            int   // -1 endless
	ladder            roomful.Ladder
	rest              float64 // between rounds
	limit             float64
	team              int // people who take rounds in turn, 0 or 1 for none
}

func (l *linear) window() float64 { return l.limit }

func (l *linear) hour() float64 {
	if l.rounds < 0 {
		return l.limit
	}
	return 0
}

// next implements course.
func (l *linear) next(cur *cursor, c *crew, st *step) bool {
	for {
		list, ok := l.list(cur)
		if !ok {
			return false
		}
		if cur.index < len(list) {
			l.step(cur, c, list, st)
			cur.index++
			return true
		}
		cur.index = 0
		if cur.phase != 1 {
			cur.phase++
			continue
		}
		cur.round++
		if cur.start = 0; l.rest > 0 && cur.round < l.rounds {
			cur.start = c.clock + l.rest
		}
	}
}

// list returns the actions of the cursor's phase, moving past a finished one.
func (l *linear) list(cur *cursor) ([]int, bool) {
	if cur.phase == 1 {
		over := len(l.round) == 0 || l.rounds >= 0 && cur.round >= l.rounds
		if len(l.ladder.Steps) > 0 {
			_, more := l.ladder.Step(cur.round)
			over = over || !more
		}
		if over {
			cur.phase, cur.index = 2, 0
		}
	}
	switch cur.phase {
	case 0:
		return l.once, true
	case 1:
		return l.round, true
	case 2:
		return l.last, true
	}
	return nil, false
}

// step makes the step at the cursor.
func (l *linear) step(cur *cursor, c *crew, list []int, st *step) {
	*st = step{act: c.now(list[cur.index]), until: math.Inf(1), group: cur.round}
	act := &c.members[0].actions[st.act]
	if st.amount = act.amount; st.amount == 0 {
		st.amount = math.Inf(1)
		if count, ok := l.ladder.Step(cur.round); ok && cur.phase == 1 && count > 0 {
			st.amount = float64(count)
		}
	}
	st.once = cur.phase != 1
	st.ends = cur.phase == 1 && cur.index == len(list)-1
	if cur.index == 0 && cur.phase == 1 {
		st.start = cur.start
	}
	if l.team > 1 {
		st.who = cur.round % l.team
		if cur.index == 0 {
			cur.turn = max(c.clock, cur.start)
		}
		st.horizon = cur.turn + c.lasts
	}
}

// bout is a stretch of work with its own start.
type bout struct {
	start  float64 // s from the start of the piece; -1: after rest from the end of the last
	rest   float64 // s before it when start is -1
	until  float64 // s from the start of the piece; +Inf: until its work is done
	due    float64 // late after this, 0 never
	acts   []int
	loops  bool // start over while there is time
	group  int
	ends   bool // completes a round
	counts []int
}

// bouts is work cut into bouts: every interval, intervals, stations, sets.
type bouts struct {
	list   []bout
	limit  float64
	pace   float64 // length of one bout, for pacing
	strict bool
	team   int
	open   bool // open amounts are the score, fixed ones beside them are not
}

func (b *bouts) window() float64 { return b.limit }
func (b *bouts) hour() float64   { return b.pace }

// next implements course.
func (b *bouts) next(cur *cursor, c *crew, st *step) bool {
	for cur.round < len(b.list) {
		bt := &b.list[cur.round]
		if !cur.begun {
			cur.begun, cur.index = true, 0
			cur.start = cur.offset + bt.start
			if bt.start < 0 {
				cur.start = c.clock + bt.rest
			}
		}
		until := cur.offset + bt.until
		over := cur.index >= len(bt.acts) && !bt.loops || max(c.clock, cur.start) >= until-1e-9 ||
			bt.due > 0 && cur.index == 0 && c.clock >= cur.offset+bt.due
		if over || len(bt.acts) == 0 {
			cur.round, cur.begun = cur.round+1, false
			continue
		}
		b.step(cur, c, bt, until, st)
		cur.index++
		return true
	}
	return false
}

// step makes the step at the cursor of a bout.
func (b *bouts) step(cur *cursor, c *crew, bt *bout, until float64, st *step) {
	k := cur.index % len(bt.acts)
	*st = step{act: c.now(bt.acts[k]), start: cur.start, until: until, group: bt.group,
		strict: b.strict}
	act := &c.members[0].actions[st.act]
	if st.amount = act.amount; len(bt.counts) > 0 && act.amount == 0 {
		st.amount = float64(bt.counts[0])
	}
	if st.amount == 0 {
		st.amount = math.Inf(1)
	}
	st.aside = b.open && !math.IsInf(st.amount, 1)
	st.ends = bt.ends && k == len(bt.acts)-1
	if bt.due > 0 {
		st.due = cur.offset + bt.due
		st.horizon = st.due
		if math.IsInf(st.amount, 1) {
			st.until = min(st.until, st.due)
		}
	} else if !math.IsInf(until, 1) {
		st.horizon = until
	} else if c.lasts > 0 {
		st.horizon = cur.start + c.lasts
	}
	if b.team > 1 {
		st.who = cur.round % b.team
	}
}
