package roomful

import (
	"slices"
	"time"
)

// PartKind says what a part of the session is for.
type PartKind uint8

// The kinds of part, in the order they are usually done.
const (
	WarmUp PartKind = iota
	Ramp
	Strength
	Main
	Mobility
)

// String returns the word a sheet uses for the kind.
func (k PartKind) String() string {
	return [...]string{"warm-up", "ramp", "strength", "main", "mobility"}[k]
}

// Part is one section of a session. A scored part is a piece.
type Part struct {
	Kind   PartKind
	Letter string // "a", "b" when pieces of one kind run on one clock, else empty
	Format Format
	Team   Team
	Scored bool
	// ScoreBy is the stated rule, empty when the format's own holds: "total",
	// "sum", "slowest", "lowest", "each", "load", "time", "reps".
	ScoreBy   string
	Once      []Element // done first, outside the rounds
	Round     []Element
	Last      []Element // done at the end, outside the rounds
	Standards []Standard
	Instead   []Instead
	Note      string // text that follows the head, kept as typed
	Line      int    // where its head stands in the sheet, from 1
}

// Name returns the kind with its letter, "main b".
func (p Part) Name() string {
	if p.Letter == "" {
		return p.Kind.String()
	}
	return p.Kind.String() + " " + p.Letter
}

// All returns every line in order: once, round, last.
func (p Part) All() []Element { return slices.Concat(p.Once, p.Round, p.Last) }

// Standard is what counts as a repetition, in the coach's words.
type Standard struct {
	Movement MovementID
	Text     string
}

// Instead lists what the sheet offers in place of a movement, in its order.
// An amount that is not stated means the same time for this person.
type Instead struct {
	Movement MovementID
	Options  []Element
}

// TeamStyle is how partners share a piece.
type TeamStyle uint8

// The ways partners work. Alternating is you-go-I-go.
const (
	Alone TeamStyle = iota
	Shared
	Alternating
	Synchronised
)

// String returns the word a sheet and JSON use.
func (s TeamStyle) String() string {
	return [...]string{"", "shared", "you-go-I-go", "synchronised"}[s]
}

// Team says how many people do a piece together and how. Size is 0 or 1 for
// one person alone.
type Team struct {
	Size  int
	Style TeamStyle
}

// Format is how a part is organised and scored. It is one of [RoundsInTime],
// [AmountInTime], [ForTime], [Every], [Intervals], [Stations], [Sets] and
// [Unscored].
type Format interface {
	// Name returns the word for the format used in JSON.
	Name() string
	// Length returns how long the part lasts, 0 when that depends on the people.
	Length(elements int) time.Duration
}

// Ladder is a count that changes from round to round, 21-15-9. Open ladders,
// 3-6-9-…, go on by the difference of their last two steps.
type Ladder struct {
	Steps []int
	Open  bool
}

// Step returns the count of round n, from 0; ok is false past a closed end.
func (l Ladder) Step(n int) (count int, ok bool) {
	k := len(l.Steps)
	switch {
	case n < k:
		return l.Steps[n], true
	case !l.Open || k == 0:
		return 0, false
	case k == 1:
		return l.Steps[0] * (n + 1), true
	}
	count = l.Steps[k-1] + (n-k+1)*(l.Steps[k-1]-l.Steps[k-2])
	return count, count > 0
}

// RoundsInTime is as many rounds as possible in a window. A ladder may set the
// count of each round.
type RoundsInTime struct {
	Window time.Duration
	Ladder Ladder
}

// AmountInTime is as much as possible of one movement in a window.
type AmountInTime struct {
	Window   time.Duration
	Unbroken bool // the first break ends it
}

// ForTime is a fixed amount of work, done as fast as possible. With a ladder,
// Rounds is the number of its steps. Cap is 0 when there is none.
type ForTime struct {
	Rounds int
	Ladder Ladder
	Cap    time.Duration
	Rest   time.Duration // between rounds, counted in the time
}

// Every starts a fixed amount of work on every interval. Count is the number
// of intervals; with slots, each alternation counts.
type Every struct {
	Interval time.Duration
	Count    int
}

// Intervals are bouts of work and rest. Work is 0 when a bout lasts until its
// amount is done.
type Intervals struct {
	Count      int
	Work, Rest time.Duration
}

// Stations are rounds of timed stations. Change is the time between stations;
// Rest is the time between rounds.
type Stations struct {
	Rounds             int
	Work, Change, Rest time.Duration
	// Resting is true when the time between stations was called rest: it then
	// follows every station, the last included.
	Resting bool
}

// Sets are strength sets. Reps gives the repetitions of each set when they
// differ; Build means building to a heaviest set, drops are elements of one
// round. Every is the fixed clock of the sets, Rest the rest between them,
// Within the time for all of them, "build to a heavy 3 in 15 min"; 0 when not
// said.
type Sets struct {
	Count               int
	Reps                []int
	Build               bool
	Every, Rest, Within time.Duration
}

// Unscored is work without a score: a warm-up, a ramp, mobility.
type Unscored struct {
	Rounds   int           // 0 when not said
	Each     time.Duration // of each element, 0 when not said
	Duration time.Duration // of the whole, 0 when not said
}

// Name implements [Format].
func (RoundsInTime) Name() string { return "rounds-in-time" }

// Name implements [Format].
func (AmountInTime) Name() string { return "amount-in-time" }

// Name implements [Format].
func (ForTime) Name() string { return "for-time" }

// Name implements [Format].
func (Every) Name() string { return "every" }

// Name implements [Format].
func (Intervals) Name() string { return "intervals" }

// Name implements [Format].
func (Stations) Name() string { return "stations" }

// Name implements [Format].
func (Sets) Name() string { return "sets" }

// Name implements [Format].
func (Unscored) Name() string { return "unscored" }

// Length implements [Format].
func (f RoundsInTime) Length(int) time.Duration { return f.Window }

// Length implements [Format].
func (f AmountInTime) Length(int) time.Duration { return f.Window }

// Length implements [Format].
func (ForTime) Length(int) time.Duration { return 0 }

// Length implements [Format].
func (f Every) Length(int) time.Duration { return time.Duration(f.Count) * f.Interval }

// Length implements [Format]. Each bout counts with its rest, the last one too,
// as the trade counts: eight times 20 s and 10 s is four minutes.
func (f Intervals) Length(int) time.Duration {
	if f.Work == 0 {
		return 0
	}
	return time.Duration(f.Count) * (f.Work + f.Rest)
}

// Length implements [Format].
func (f Stations) Length(elements int) time.Duration {
	n := time.Duration(elements)
	gaps := n - 1
	if f.Resting || f.Rest == 0 {
		gaps = n
	}
	round := n*f.Work + max(gaps, 0)*f.Change
	all := time.Duration(f.Rounds)*round + time.Duration(max(f.Rounds-1, 0))*f.Rest
	if !f.Resting && f.Rest == 0 {
		all -= f.Change
	}
	return max(all, 0)
}

// Length implements [Format].
func (f Sets) Length(int) time.Duration {
	if f.Within > 0 {
		return f.Within
	}
	return time.Duration(f.Count) * f.Every
}

// Length implements [Format].
func (f Unscored) Length(elements int) time.Duration {
	if f.Duration > 0 {
		return f.Duration
	}
	return time.Duration(max(f.Rounds, 1)) * time.Duration(elements) * f.Each
}
