package notation

import (
	"time"

	"roomful"
)

// timed is a length of time and where it stands.
type timed struct {
	d  time.Duration
	at span
}

// count is a whole number and where it stands.
type count struct {
	n  int
	at span
}

// set reports whether it was said.
func (t timed) set() bool { return !t.at.isZero() }

// set reports whether it was said.
func (n count) set() bool { return !n.at.isZero() }

// facts are what the clauses of a part say, before they are put together into a
// format. The zero value of a place means that nothing was said.
type facts struct {
	asMany      span  // as many as possible
	window      timed // of that
	forTime     span
	eachForTime span // each round for time
	cap         timed
	interval    timed // every so often
	work, rest  timed // of a bout
	restRange   span  // where the rest follows every station
	between     timed // rest between rounds
	change      timed // between stations
	each        timed // of each element or station
	stations    span
	total       timed // a length that stands alone
	rounds      count // "5 rounds"
	times       count // "5 x", "x 5"
	sets        count // "5 sets"
	intervals   count // "5 intervals"
	reps        count // of a set
	open        span  // "5 x max"
	ladder      roomful.Ladder
	ladderAt    span
	ofSets      bool // "sets of" stood before the ladder
	build       span
	unbroken    span
	alternating span
	notScored   bool
	then        bool // follows the part before without a pause
	team        roomful.Team
	teamAt      span
	score       string
	load        roomful.Load
	tempo       *roomful.Tempo
	notes       []string
}

// begins reports whether the clauses are a format that can begin a piece by
// itself.
func (f *facts) begins() bool {
	switch {
	case !f.asMany.isZero(), !f.forTime.isZero(), !f.eachForTime.isZero(), !f.build.isZero(),
		f.interval.set(), f.work.set(), f.intervals.set(), f.sets.set():
		return true
	case !f.ladderAt.isZero():
		return len(f.ladder.Steps) > 2 || f.ladder.Open
	}
	return false
}

// structured reports whether anything is said about rounds, sets or time.
func (f *facts) structured() bool {
	return f.begins() || f.rounds.set() || f.times.set() || f.window.set() || f.total.set() || f.each.set() || !f.stations.isZero() || !f.ladderAt.isZero()
}

// merge adds what g says to f. What both say is a clash, and its place is
// handed to the function.
func (f *facts) merge(g facts, clash func(what string, second span)) {
	pick := func(what string, mine *timed, other timed) {
		switch {
		case !other.set():
		case mine.set() && mine.d != other.d:
			clash(what, other.at)
		default:
			*mine = other
		}
	}
	pickN := func(what string, mine *count, other count) {
		switch {
		case !other.set():
		case mine.set() && mine.n != other.n:
			clash(what, other.at)
		default:
			*mine = other
		}
	}
	pick("window", &f.window, g.window)
	pick("cap", &f.cap, g.cap)
	pick("interval", &f.interval, g.interval)
	pick("work time", &f.work, g.work)
	pick("rest", &f.rest, g.rest)
	pick("rest between rounds", &f.between, g.between)
	pick("change", &f.change, g.change)
	pick("time for each", &f.each, g.each)
	pick("length", &f.total, g.total)
	pickN("number of rounds", &f.rounds, g.rounds)
	pickN("number of times", &f.times, g.times)
	pickN("number of sets", &f.sets, g.sets)
	pickN("number of intervals", &f.intervals, g.intervals)
	pickN("number of reps", &f.reps, g.reps)
	for _, s := range []struct{ mine, other *span }{
		{&f.asMany, &g.asMany}, {&f.forTime, &g.forTime}, {&f.eachForTime, &g.eachForTime}, {&f.stations, &g.stations}, {&f.restRange, &g.restRange},
		{&f.build, &g.build}, {&f.unbroken, &g.unbroken}, {&f.alternating, &g.alternating}, {&f.open, &g.open}, {&f.teamAt, &g.teamAt},
	} {
		if s.mine.isZero() {
			*s.mine = *s.other
		}
	}
	f.mergeRest(g, clash)
}

// mergeRest adds what is neither a time nor a count.
func (f *facts) mergeRest(g facts, clash func(what string, second span)) {
	switch {
	case g.ladderAt.isZero():
	case !f.ladderAt.isZero():
		clash("ladder", g.ladderAt)
	default:
		f.ladder, f.ladderAt, f.ofSets = g.ladder, g.ladderAt, g.ofSets
	}
	if g.team.Size > 0 {
		f.team.Size = g.team.Size
	}
	if g.team.Style != roomful.Alone {
		f.team.Style = g.team.Style
	}
	if g.score != "" {
		f.score = g.score
	}
	if f.load == nil {
		f.load = g.load
	}
	if f.tempo == nil {
		f.tempo = g.tempo
	}
	f.notScored = f.notScored || g.notScored
	f.notes = append(f.notes, g.notes...)
}

// firstCol returns the column of the first clause that makes a format.
func (f *facts) firstCol() int {
	first := 1 << 30
	for _, s := range []span{f.asMany, f.forTime, f.eachForTime, f.interval.at, f.work.at, f.ladderAt, f.build, f.sets.at, f.times.at, f.rounds.at, f.intervals.at} {
		if !s.isZero() {
			first = min(first, s.col)
		}
	}
	return first
}

// scheme reports whether sets and their repetitions are said.
func (f *facts) scheme() bool {
	return f.reps.set() && (f.sets.set() || f.times.set() || f.rounds.set()) || !f.build.isZero() || f.ofSets || !f.open.isZero()
}

// beginsPiece reports whether the facts are a format that can begin a piece.
func (f *facts) beginsPiece() bool { return f.begins() || f.scheme() }

// timedFormat reports whether the facts say what the clock does.
func (f *facts) timedFormat() bool {
	return !f.asMany.isZero() || !f.forTime.isZero() || f.interval.set() || f.work.set() || !f.eachForTime.isZero()
}

// compatible reports whether two heads can be one: the second only says more.
func (f *facts) compatible(g *facts) bool {
	return !f.asMany.isZero() == !g.asMany.isZero() && !f.forTime.isZero() == !g.forTime.isZero() && f.interval.set() == g.interval.set() && !(f.rounds.set() && g.rounds.set())
}

// sameScheme reports whether both say the same sets and repetitions.
func (f *facts) sameScheme(g *facts) bool {
	return f.scheme() && (!g.scheme() && !g.begins() || f.reps.n == g.reps.n && f.sets.n == g.sets.n && f.times.n == g.times.n && f.ladderAt.isZero())
}

// monotone reports whether every step is larger, or every step smaller, than
// the one before.
func monotone(steps []int) bool {
	up, down := true, true
	for i := 1; i < len(steps); i++ {
		up = up && steps[i] > steps[i-1]
		down = down && steps[i] < steps[i-1]
	}
	return up || down
}
