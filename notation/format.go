package notation

import (
	"fmt"
	"time"

	"roomful"
)

// asSets reports whether the part is made of sets.
func (p *draft) asSets(pt *part) bool {
	f := &pt.facts
	if !f.asMany.isZero() || !f.forTime.isZero() {
		return false
	}
	switch {
	case !f.build.isZero(), f.ofSets, !f.open.isZero():
		return true
	case f.interval.set() && (pt.kind == roomful.Main || pt.slotted || !f.alternating.isZero()):
		return false
	case f.sets.set(), f.reps.set():
		return true
	case pt.kind == roomful.Strength:
		return !f.work.set() && !f.intervals.set() && f.stations.isZero()
	case !f.ladderAt.isZero() && !f.interval.set():
		return len(pt.round) == 1 && !monotone(f.ladder.Steps)
	}
	return false
}

// format puts the facts of a part together.
func (p *draft) format(pt *part) roomful.Format {
	f := &pt.facts
	if !scored(pt.kind) && !f.begins() && f.stations.isZero() {
		return p.unscored(pt)
	}
	p.checkUnbroken(pt)
	switch {
	case !f.asMany.isZero():
		return p.asMany(pt)
	case !scored(pt.kind) && f.each.set() && f.stations.isZero():
		return p.unscored(pt)
	case p.asSets(pt):
		return p.sets(pt)
	case f.interval.set():
		return p.every(pt)
	case !f.stations.isZero(), f.each.set():
		return p.stations(pt)
	case f.work.set():
		return p.bouts(pt)
	case f.forTime.isZero() && (!f.eachForTime.isZero() || f.intervals.set() || f.times.set()):
		return p.intervals(pt)
	case f.forTime.isZero() && f.total.set() && !f.rounds.set() && f.ladderAt.isZero():
		p.warn(f.total.at, "a length without a format: read as as many as possible", "write as many rounds as possible in "+length(f.total.d))
		return p.asMany(pt)
	}
	return p.forTime(pt)
}

// unscored is work without a score.
func (p *draft) unscored(pt *part) roomful.Format {
	f := &pt.facts
	u := roomful.Unscored{Rounds: max(f.rounds.n, f.times.n), Each: f.each.d, Duration: f.total.d}
	if f.work.set() && u.Each == 0 {
		u.Each = f.work.d
	}
	for _, rest := range [...]struct {
		t    timed
		what string
	}{{f.rest, "rest"}, {f.between, "rest between rounds"}, {f.change, "change"}} {
		if rest.t.set() {
			pt.notes = append(pt.notes, length(rest.t.d)+" "+rest.what)
		}
	}
	return u
}

// asMany is a window: rounds for a list, an amount for one movement, intervals
// when the window comes several times.
func (p *draft) asMany(pt *part) roomful.Format {
	f := &pt.facts
	window := f.window
	if !window.set() {
		window = f.total
	}
	if !window.set() {
		window = f.work
	}
	if !window.set() && f.cap.set() {
		window, f.cap = f.cap, timed{}
	}
	if !window.set() {
		p.fault(pt.head, "as many as possible needs a window", "write how long: as many rounds as possible in 12 min")
	}
	if f.cap.set() {
		p.warn(f.cap.at, "a cap beside a window: the window holds", "delete the cap")
		pt.keep(p.textAt(f.cap.at))
	}
	if f.window.set() && f.total.set() && f.window.d != f.total.d {
		p.clash("window", f.total.at)
		pt.keep(p.textAt(f.total.at))
	}
	if max(f.times.n, f.sets.n, f.intervals.n, f.rounds.n) > 1 {
		f.work = window
		return p.bouts(pt)
	}
	if p.movements(pt) == 1 && f.ladderAt.isZero() {
		return roomful.AmountInTime{Window: window.d, Unbroken: !f.unbroken.isZero()}
	}
	return roomful.RoundsInTime{Window: window.d, Ladder: f.ladder}
}

// movements counts the elements of a round, rest aside.
func (p *draft) movements(pt *part) int {
	n := 0
	for _, d := range pt.round {
		if d.Movement != roomful.Rest {
			n++
		}
	}
	return n
}

// checkUnbroken says when unbroken has nothing to end.
func (p *draft) checkUnbroken(pt *part) {
	f := &pt.facts
	if f.unbroken.isZero() || !f.asMany.isZero() && p.movements(pt) == 1 {
		return
	}
	p.hint(f.unbroken, "unbroken is kept as a note", "it ends a window of one movement; otherwise write it beside the movement")
	pt.notes = append(pt.notes, "unbroken")
}

// forTime is a fixed amount of work.
func (p *draft) forTime(pt *part) roomful.Format {
	f := &pt.facts
	out := roomful.ForTime{Rounds: max(f.rounds.n, f.times.n, f.sets.n, 1), Ladder: f.ladder, Cap: f.cap.d, Rest: max(f.between.d, f.rest.d)}
	if n := len(f.ladder.Steps); n > 0 {
		out.Rounds = n
	}
	if f.ladder.Open {
		p.fault(f.ladderAt, "a ladder without an end is never done", "give it a last step, or a window")
	}
	if t := f.total; t.set() && out.Cap == 0 {
		out.Cap = t.d
		p.hint(t.at, "read as the cap", "write cap "+length(t.d))
	} else if t := f.window; t.set() && out.Cap == 0 {
		out.Cap = t.d
	}
	if f.forTime.isZero() && !pt.isEmpty() {
		p.assumedForTime(pt)
	}
	return out
}

// isEmpty reports whether there is nothing to do at all.
func (pt *part) isEmpty() bool { return pt.empty() && !pt.facts.structured() }

// assumedForTime says that no format was written.
func (p *draft) assumedForTime(pt *part) {
	f := &pt.facts
	switch {
	case !f.ladderAt.isZero():
		p.hint(f.ladderAt, "a ladder without a window is read as for time", "write 21-15-9 for time")
	case f.rounds.set():
		p.warn(f.rounds.at, "rounds without a format: read as for time", "write 5 rounds for time, or as many rounds as possible in 12 min")
	default:
		p.warn(pt.head, "no format: read as for time", "write for time, or as many rounds as possible in 12 min")
	}
}

// stations are rounds of timed stations.
func (p *draft) stations(pt *part) roomful.Format {
	f := &pt.facts
	work := f.each
	if !work.set() {
		work = f.work
	}
	if !work.set() {
		work = f.total
	}
	out := roomful.Stations{Rounds: max(f.rounds.n, f.times.n, f.sets.n, 1), Work: work.d, Change: f.change.d, Rest: f.between.d}
	if f.rest.set() && out.Change == 0 {
		switch {
		case !f.restRange.isZero() || out.Rest > 0 || f.work.set():
			out.Change, out.Resting = f.rest.d, true
		default:
			out.Rest = f.rest.d
			p.hint(f.rest.at, "read as rest between rounds", "write rest between rounds, or between stations")
		}
	}
	if out.Work == 0 {
		p.fault(pt.head, "the time of a station is not said", "write 3 rounds of 1 min stations")
	}
	return out
}

// bouts are bouts of a fixed time: stations when there are several movements
// without an amount, intervals otherwise.
func (p *draft) bouts(pt *part) roomful.Format {
	f := &pt.facts
	n := max(f.times.n, f.rounds.n, f.sets.n, f.intervals.n)
	open := 0
	for _, d := range pt.round {
		if !d.Amount.Stated() {
			open++
		}
	}
	if len(pt.round) > 1 && open == len(pt.round) {
		out := roomful.Stations{Rounds: max(n, 1), Work: f.work.d, Change: max(f.rest.d, f.change.d), Rest: f.between.d, Resting: f.rest.set()}
		total := out.Length(len(pt.round))
		p.hint(f.work.at, fmt.Sprintf("read as %d rounds of %d stations, %s in all", out.Rounds, len(pt.round), length(total)), "write "+stationsText(out)+" to say so")
		return out
	}
	if !f.times.set() && !f.rounds.set() && !f.sets.set() && !f.intervals.set() {
		n = 1
		if f.total.set() && f.work.d+f.rest.d > 0 {
			n = int(f.total.d / (f.work.d + f.rest.d))
		} else {
			p.fault(f.work.at, "how many times is not said", "write 8 x 20 s work / 10 s rest")
		}
	}
	return roomful.Intervals{Count: n, Work: f.work.d, Rest: max(f.rest.d, f.between.d)}
}

// intervals are bouts that last until their amount is done.
func (p *draft) intervals(pt *part) roomful.Format {
	f := &pt.facts
	out := roomful.Intervals{Count: max(f.intervals.n, f.times.n, f.rounds.n, f.sets.n), Rest: max(f.rest.d, f.between.d)}
	if out.Rest == 0 {
		out.Rest = pt.takeRest()
	}
	if out.Count == 0 {
		p.fault(pt.head, "how many intervals is not said", "write 5 intervals, rest 2 min")
	}
	if out.Rest == 0 {
		p.warn(pt.head, "intervals without rest", "write rest 2 min, or for time")
	}
	return out
}

// takeRest takes the rest that stands last in a round out of it.
func (pt *part) takeRest() time.Duration {
	n := len(pt.round) - 1
	if n < 1 {
		return 0
	}
	d := &pt.round[n]
	if d.Movement != roomful.Rest || !d.Amount.Stated() || d.Amount.Unit.Base() != roomful.Second || d.Note != "" || d.Amount.For(roomful.DivisionA) <= 0 {
		return 0
	}
	pt.round = pt.round[:n]
	return seconds(d.Amount.For(roomful.DivisionA))
}

// sets are strength sets.
func (p *draft) sets(pt *part) roomful.Format {
	f := &pt.facts
	out := roomful.Sets{Count: max(f.sets.n, f.times.n, f.rounds.n, f.intervals.n), Reps: f.ladder.Steps, Build: !f.build.isZero(), Every: f.interval.d, Rest: max(f.rest.d, f.between.d)}
	if n := len(out.Reps); n > 0 {
		out.Count = n
	}
	if out.Rest == 0 {
		out.Rest = pt.takeRest()
	}
	if t := f.total; t.set() {
		if out.Every > 0 && out.Count == 0 {
			out.Count = p.timesIn(f)
		} else {
			out.Within = t.d
		}
	}
	if f.cap.set() {
		out.Within = f.cap.d
	}
	if said := f.sets.set() || f.times.set() || f.rounds.set() || f.intervals.set(); out.Count == 0 && !out.Build && len(pt.round) > 0 {
		out.Count = 1
		if len(pt.round) == 1 && !said {
			p.warn(pt.head, "how many sets is not said: read as one", "write 5 x 5, or build to a heavy 3")
		}
	}
	if f.ladder.Open {
		p.fault(f.ladderAt, "sets without an end", "write out the repetitions of each set")
	}
	return out
}
