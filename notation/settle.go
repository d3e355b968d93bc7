package notation

import (
	"fmt"
	"time"

	"roomful"
)

// settle turns the parts that were read into those of the session.
func (p *parser) settle() {
	p.letters()
	for _, pt := range p.parts {
		p.part = pt
		p.checkSlotted(pt)
		p.nameFromNotes(pt)
		p.fillHead(pt)
		part := roomful.Part{Kind: pt.kind, Letter: pt.letter, Line: pt.line, ScoreBy: pt.facts.score, Standards: pt.standards, Instead: pt.instead}
		part.Scored = scored(pt.kind) && !pt.facts.notScored
		part.Team = p.team(pt)
		part.Format = p.format(pt)
		if _, slots := part.Format.(roomful.Every); !slots {
			pt.dropSlots()
		}
		part.Once, part.Round, part.Last = elementsOf(pt.once), elementsOf(pt.round), elementsOf(pt.last)
		part.Note = joinLines(append(pt.facts.notes, pt.notes...))
		p.session.Parts = append(p.session.Parts, part)
	}
}

// nameFromNotes takes the words at the head of sets without any movement for the
// name of one that is not known.
func (p *parser) nameFromNotes(pt *part) {
	f := &pt.facts
	if !pt.empty() || len(f.notes) != 1 || !scored(pt.kind) || !p.asSets(pt) || !plainName(f.notes[0]) {
		return
	}
	d := drafted{at: pt.head, nameAt: pt.head}
	d.Words, d.Line = f.notes[0], pt.line
	pt.round, f.notes = []drafted{d}, nil
}

// dropSlots forgets the slots of a part without intervals, where "station 1:"
// is only a number.
func (pt *part) dropSlots() {
	for i := range pt.round {
		pt.round[i].Slot = 0
	}
}

func elementsOf(list []drafted) []roomful.Element {
	var out []roomful.Element
	for _, d := range list {
		out = append(out, d.Element)
	}
	return out
}

// joinLines joins notes, one to a line, without repeating one.
func joinLines(notes []string) string {
	text := ""
	for i, n := range notes {
		if n == "" || i > 0 && n == notes[i-1] {
			continue
		}
		if text != "" {
			text += "\n"
		}
		text += n
	}
	return text
}

// letters gives letters to pieces of one kind that have none, and speaks of two
// with the same name.
func (p *parser) letters() {
	for _, kind := range [...]roomful.PartKind{roomful.Strength, roomful.Main} {
		var same []*part
		for _, pt := range p.parts {
			if pt.kind == kind {
				same = append(same, pt)
			}
		}
		if len(same) > 1 {
			p.letter(kind, same)
		}
	}
}

// letter gives the pieces of one kind distinct letters.
func (p *parser) letter(kind roomful.PartKind, same []*part) {
	used := map[string]bool{}
	for i, pt := range same {
		name := kind.String()
		if pt.letter == "" && !used[pt.label] {
			pt.letter = pt.label
		}
		switch {
		case pt.letter != "" && used[pt.letter]:
			p.fault(pt.head, name+" "+pt.letter+" is there twice", "give each piece its own letter")
			pt.letter = ""
		case pt.letter == "" && i > 0 && pt.explicit && same[i-1].explicit:
			p.warn(pt.head, "a second "+name, "if they run on one clock, write "+name+" a: and "+name+" b:")
		case i > 0 && !pt.facts.then && (pt.letter == "" || pt.letter == pt.label):
			p.hint(pt.head, "a second "+name+": the two are read as "+name+" a and b, on one clock", "write "+name+" a: and "+name+" b: to say so")
		}
		if pt.letter != "" {
			used[pt.letter] = true
		}
	}
	next := 'a'
	for _, pt := range same {
		for used[string(next)] && pt.letter == "" {
			next++
		}
		if pt.letter == "" {
			pt.letter = string(next)
			used[pt.letter] = true
		}
	}
}

// fillHead gives the elements what the head said for all: repetitions of a set,
// a load, a tempo, what is counted.
func (p *parser) fillHead(pt *part) {
	f := &pt.facts
	for i := range pt.round {
		d := &pt.round[i]
		if d.Movement == roomful.Rest {
			continue
		}
		if !d.Amount.Stated() && f.reps.set() {
			p.fillReps(d, f.reps)
		}
		if !d.Amount.Stated() && d.Amount.Unit == roomful.Rep && pt.counts != roomful.Rep && counts(d.move, pt.counts.Base()) {
			d.Amount.Unit = pt.counts
		}
		if d.Load == nil && f.load != nil && (d.move == nil || loaded(d.move)) {
			d.Load = f.load
		}
		if d.Tempo == nil {
			d.Tempo = f.tempo
		}
	}
}

// fillReps gives an element the repetitions of a set.
func (p *parser) fillReps(d *drafted, reps count) {
	if !counts(d.move, roomful.Rep) {
		p.fault(reps.at, fmt.Sprintf("what %d counts is not said", reps.n), d.move.Name+" is counted in "+unitList(d.move)+": add the unit")
		p.keepText(reps.at)
		return
	}
	d.Amount = roomful.Amount{By: []float64{float64(reps.n)}}
}

// team settles how many work together and how.
func (p *parser) team(pt *part) roomful.Team {
	t, at := pt.facts.team, pt.facts.teamAt
	switch {
	case at.isZero():
		return roomful.Team{}
	case t.Size == 0:
		t.Size = 2
		p.warn(at, "how many work together is not said: read as pairs", "write in pairs, or in threes")
	case t.Size < 2 || t.Size > 12:
		p.fault(at, fmt.Sprintf("a team of %d cannot be right", t.Size), "write in pairs, in threes or in teams of 4")
	}
	if t.Style == roomful.Alone {
		t.Style = roomful.Shared
		p.warn(at, "how the work is shared is not said: read as shared", "write share the work, you go I go, or synchronised")
	}
	return t
}

// asSets reports whether the part is made of sets.
func (p *parser) asSets(pt *part) bool {
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
func (p *parser) format(pt *part) roomful.Format {
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
func (p *parser) unscored(pt *part) roomful.Format {
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
func (p *parser) asMany(pt *part) roomful.Format {
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
		p.keepText(f.cap.at)
	}
	if f.window.set() && f.total.set() && f.window.d != f.total.d {
		p.clash("window", f.total.at)
	}
	if n := max(f.times.n, f.sets.n, f.intervals.n, f.rounds.n); n > 1 {
		return roomful.Intervals{Count: n, Work: window.d, Rest: max(f.rest.d, f.between.d)}
	}
	if p.movements(pt) == 1 && f.ladderAt.isZero() {
		return roomful.AmountInTime{Window: window.d, Unbroken: !f.unbroken.isZero()}
	}
	return roomful.RoundsInTime{Window: window.d, Ladder: f.ladder}
}

// movements counts the elements of a round, rest aside.
func (p *parser) movements(pt *part) int {
	n := 0
	for _, d := range pt.round {
		if d.Movement != roomful.Rest {
			n++
		}
	}
	return n
}

// checkUnbroken says when unbroken has nothing to end.
func (p *parser) checkUnbroken(pt *part) {
	f := &pt.facts
	if f.unbroken.isZero() || !f.asMany.isZero() && p.movements(pt) == 1 {
		return
	}
	p.hint(f.unbroken, "unbroken is kept as a note", "it ends a window of one movement; otherwise write it beside the movement")
	pt.notes = append(pt.notes, "unbroken")
}

// forTime is a fixed amount of work.
func (p *parser) forTime(pt *part) roomful.Format {
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
func (p *parser) assumedForTime(pt *part) {
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

// every is a fixed amount of work on every interval.
func (p *parser) every(pt *part) roomful.Format {
	f := &pt.facts
	slots := p.slots(pt)
	out := roomful.Every{Interval: f.interval.d}
	switch {
	case f.interval.d <= 0:
		p.fault(f.interval.at, "an interval of nothing", "write every minute x 12")
	case f.times.set():
		out.Count = f.times.n
	case f.sets.set():
		out.Count = f.sets.n
	case f.rounds.set():
		out.Count = f.rounds.n * max(slots, 1)
	case f.total.set():
		out.Count = p.timesIn(f)
	case f.cap.set():
		f.total = f.cap
		out.Count = p.timesIn(f)
	default:
		p.fault(pt.head, "how long it goes on is not said", "write every minute x 12, or EMOM 12")
	}
	if out.Count > 0 && slots > out.Count {
		p.fault(f.interval.at, fmt.Sprintf("%d slots do not fit into %d intervals", slots, out.Count), "add intervals or drop a slot")
	} else if slots > 1 && out.Count%slots != 0 {
		p.hint(f.interval.at, fmt.Sprintf("%d intervals do not end with a whole turn of %d slots", out.Count, slots), "check that this is meant")
	}
	return out
}

// timesIn returns how many intervals a length holds.
func (p *parser) timesIn(f *facts) int {
	n := int(f.total.d / f.interval.d)
	switch {
	case n == 0:
		p.fault(f.total.at, length(f.total.d)+" is shorter than one interval", "write the whole length, such as every 2 min for 10 min")
	case f.total.d%f.interval.d != 0:
		p.warn(f.total.at, fmt.Sprintf("%s is no whole number of intervals: read as %d", length(f.total.d), n), fmt.Sprintf("write x %d", n))
	case f.interval.d != time.Minute:
		p.hint(f.total.at, fmt.Sprintf("%s holds %d intervals", length(f.total.d), n), fmt.Sprintf("write x %d to say so", n))
	}
	return n
}

// checkSlotted says when odd and even stand in a piece without intervals.
func (p *parser) checkSlotted(pt *part) {
	if f := &pt.facts; pt.oddEven.isZero() || f.interval.set() || !scored(pt.kind) {
		return
	}
	p.fault(pt.oddEven, "a slot in a piece that has no intervals", "write every minute x 12 at the head, or drop odd: and even:")
}

// slots settles which interval each element belongs to and returns how many
// slots there are, 0 when every interval has all.
func (p *parser) slots(pt *part) int {
	labelled := len(pt.round) > 0
	for _, d := range pt.round {
		labelled = labelled && d.label > 0
	}
	if !pt.slotted {
		line, slot := 0, 0
		for i := range pt.round {
			d := &pt.round[i]
			switch {
			case labelled:
				d.Slot = d.label
			case !pt.facts.alternating.isZero():
				if d.Line != line {
					line, slot = d.Line, slot+1
				}
				d.Slot = slot
			}
		}
	}
	return p.checkSlots(pt)
}

// checkSlots says when a slot is left out or cannot be, and returns the highest.
func (p *parser) checkSlots(pt *part) int {
	var used [64]bool
	most := 0
	for _, d := range pt.round {
		if d.Slot >= len(used) {
			p.fault(d.at, fmt.Sprintf("slot %d is out of range", d.Slot), "number the slots from 1")
			continue
		}
		used[max(d.Slot, 0)] = true
		most = max(most, d.Slot)
	}
	for s := 1; s < most; s++ {
		if !used[s] {
			p.fault(pt.head, fmt.Sprintf("slot %d is missing", s), fmt.Sprintf("write %d: rest if nothing is done then", s))
			break
		}
	}
	if most > 0 && used[0] {
		p.hint(pt.head, "what has no slot is done in every interval", "give each line a slot if that is not meant")
	}
	return most
}

// stations are rounds of timed stations.
func (p *parser) stations(pt *part) roomful.Format {
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
func (p *parser) bouts(pt *part) roomful.Format {
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
func (p *parser) intervals(pt *part) roomful.Format {
	f := &pt.facts
	out := roomful.Intervals{Count: max(f.intervals.n, f.times.n, f.rounds.n, f.sets.n), Rest: max(f.rest.d, f.between.d)}
	if n := len(pt.round) - 1; out.Rest == 0 && n > 0 && pt.round[n].Movement == roomful.Rest && pt.round[n].Amount.Stated() {
		out.Rest = seconds(pt.round[n].Amount.For(roomful.DivisionA))
		pt.round = pt.round[:n]
	}
	if out.Count == 0 {
		p.fault(pt.head, "how many intervals is not said", "write 5 intervals, rest 2 min")
	}
	if out.Rest == 0 {
		p.warn(pt.head, "intervals without rest", "write rest 2 min, or for time")
	}
	return out
}

// sets are strength sets.
func (p *parser) sets(pt *part) roomful.Format {
	f := &pt.facts
	out := roomful.Sets{Count: max(f.sets.n, f.times.n, f.rounds.n, f.intervals.n), Reps: f.ladder.Steps, Build: !f.build.isZero(), Every: f.interval.d, Rest: max(f.rest.d, f.between.d)}
	if n := len(out.Reps); n > 0 {
		out.Count = n
	}
	if n := len(pt.round) - 1; out.Rest == 0 && n > 0 && pt.round[n].Movement == roomful.Rest && pt.round[n].Amount.Stated() {
		out.Rest = seconds(pt.round[n].Amount.For(roomful.DivisionA))
		pt.round = pt.round[:n]
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
