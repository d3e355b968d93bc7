package phrase

import (
	"time"

	"roomful"
	"roomful/notation/internal/scan"
)

// Timed is a length of time and where it stands.
type Timed struct {
	D  time.Duration
	At scan.Span
}

// Count is a whole number and where it stands.
type Count struct {
	N  int
	At scan.Span
}

// Set reports whether it was said.
func (t Timed) Set() bool { return !t.At.IsZero() }

// Set reports whether it was said.
func (n Count) Set() bool { return !n.At.IsZero() }

// Facts are what the clauses of a part say, before they are put together into a
// format. The zero value of a place means that nothing was said.
type Facts struct {
	AsMany      scan.Span // as many as possible
	Window      Timed     // of that
	ForTime     scan.Span
	EachForTime scan.Span // each round for time
	Cap         Timed
	Interval    Timed     // every so often
	Work, Rest  Timed     // of a bout
	RestRange   scan.Span // where the rest follows every station
	Between     Timed     // rest between rounds
	Change      Timed     // between stations
	Each        Timed     // of each element or station
	Stations    scan.Span
	Total       Timed     // a length that stands alone
	Rounds      Count     // "5 rounds"
	Times       Count     // "5 x", "x 5"
	Sets        Count     // "5 sets"
	Intervals   Count     // "5 intervals"
	Reps        Count     // of a set
	Open        scan.Span // "5 x max"
	Ladder      roomful.Ladder
	LadderAt    scan.Span
	OfSets      bool // "sets of" stood before the ladder
	Build       scan.Span
	Unbroken    scan.Span
	Alternating scan.Span
	NotScored   bool
	Then        bool // follows the part before without a pause
	Team        roomful.Team
	TeamAt      scan.Span
	Score       string
	Load        roomful.Load
	Tempo       *roomful.Tempo
	Notes       []string
}

// Begins reports whether the clauses are a format that can begin a piece by
// itself.
func (f *Facts) Begins() bool {
	switch {
	case !f.AsMany.IsZero(), !f.ForTime.IsZero(), !f.EachForTime.IsZero(), !f.Build.IsZero(),
		f.Interval.Set(), f.Work.Set(), f.Intervals.Set(), f.Sets.Set():
		return true
	case !f.LadderAt.IsZero():
		return len(f.Ladder.Steps) > 2 || f.Ladder.Open
	}
	return false
}

// Structured reports whether anything is said about rounds, sets or time.
func (f *Facts) Structured() bool {
	return f.Begins() || f.Rounds.Set() || f.Times.Set() || f.Window.Set() || f.Total.Set() || f.Each.Set() || !f.Stations.IsZero() || !f.LadderAt.IsZero()
}

// Merge adds what g says to f. What both say is a clash, and its place is
// handed to the function.
func (f *Facts) Merge(g *Facts, clash func(what string, second scan.Span)) {
	pick := func(what string, mine *Timed, other Timed) {
		switch {
		case !other.Set():
		case mine.Set() && mine.D != other.D:
			clash(what, other.At)
		default:
			*mine = other
		}
	}
	pickN := func(what string, mine *Count, other Count) {
		switch {
		case !other.Set():
		case mine.Set() && mine.N != other.N:
			clash(what, other.At)
		default:
			*mine = other
		}
	}
	pick("window", &f.Window, g.Window)
	pick("cap", &f.Cap, g.Cap)
	pick("interval", &f.Interval, g.Interval)
	pick("work time", &f.Work, g.Work)
	pick("rest", &f.Rest, g.Rest)
	pick("rest between rounds", &f.Between, g.Between)
	pick("change", &f.Change, g.Change)
	pick("time for each", &f.Each, g.Each)
	pick("length", &f.Total, g.Total)
	pickN("number of rounds", &f.Rounds, g.Rounds)
	pickN("number of times", &f.Times, g.Times)
	pickN("number of sets", &f.Sets, g.Sets)
	pickN("number of intervals", &f.Intervals, g.Intervals)
	pickN("number of reps", &f.Reps, g.Reps)
	for _, s := range []struct{ mine, other *scan.Span }{
		{&f.AsMany, &g.AsMany}, {&f.ForTime, &g.ForTime}, {&f.EachForTime, &g.EachForTime}, {&f.Stations, &g.Stations}, {&f.RestRange, &g.RestRange},
		{&f.Build, &g.Build}, {&f.Unbroken, &g.Unbroken}, {&f.Alternating, &g.Alternating}, {&f.Open, &g.Open}, {&f.TeamAt, &g.TeamAt},
	} {
		if s.mine.IsZero() {
			*s.mine = *s.other
		}
	}
	f.mergeRest(g, clash)
}

// mergeRest adds what is neither a time nor a count.
func (f *Facts) mergeRest(g *Facts, clash func(what string, second scan.Span)) {
	switch {
	case g.LadderAt.IsZero():
	case !f.LadderAt.IsZero():
		clash("ladder", g.LadderAt)
	default:
		f.Ladder, f.LadderAt, f.OfSets = g.Ladder, g.LadderAt, g.OfSets
	}
	if g.Team.Size > 0 {
		f.Team.Size = g.Team.Size
	}
	if g.Team.Style != roomful.Alone {
		f.Team.Style = g.Team.Style
	}
	if g.Score != "" {
		f.Score = g.Score
	}
	if f.Load == nil {
		f.Load = g.Load
	}
	if f.Tempo == nil {
		f.Tempo = g.Tempo
	}
	f.NotScored = f.NotScored || g.NotScored
	f.Notes = append(f.Notes, g.Notes...)
}

// FirstCol returns the column of the first clause that makes a format.
func (f *Facts) FirstCol() int32 {
	first := int32(1 << 30)
	for _, s := range []scan.Span{f.AsMany, f.ForTime, f.EachForTime, f.Interval.At, f.Work.At, f.LadderAt, f.Build, f.Sets.At, f.Times.At, f.Rounds.At, f.Intervals.At} {
		if !s.IsZero() {
			first = min(first, s.Col)
		}
	}
	return first
}

// Scheme reports whether sets and their repetitions are said.
func (f *Facts) Scheme() bool {
	return f.Reps.Set() && (f.Sets.Set() || f.Times.Set() || f.Rounds.Set()) || !f.Build.IsZero() || f.OfSets || !f.Open.IsZero()
}

// BeginsPiece reports whether the facts are a format that can begin a piece.
func (f *Facts) BeginsPiece() bool { return f.Begins() || f.Scheme() }

// TimedFormat reports whether the facts say what the clock does.
func (f *Facts) TimedFormat() bool {
	return !f.AsMany.IsZero() || !f.ForTime.IsZero() || f.Interval.Set() || f.Work.Set() || !f.EachForTime.IsZero()
}

// OnlyClock reports whether nothing but an interval is said.
func (f *Facts) OnlyClock() bool {
	return f.Interval.Set() && !f.Total.Set() && !f.Times.Set() && !f.Rounds.Set() && !f.Sets.Set() && f.ForTime.IsZero() && f.AsMany.IsZero()
}

// Compatible reports whether two heads can be one: the second only says more.
func (f *Facts) Compatible(g *Facts) bool {
	return !f.AsMany.IsZero() == !g.AsMany.IsZero() && !f.ForTime.IsZero() == !g.ForTime.IsZero() && f.Interval.Set() == g.Interval.Set() && !(f.Rounds.Set() && g.Rounds.Set())
}

// SameScheme reports whether both say the same sets and repetitions.
func (f *Facts) SameScheme(g *Facts) bool {
	return f.Scheme() && (!g.Scheme() && !g.Begins() || f.Reps.N == g.Reps.N && f.Sets.N == g.Sets.N && f.Times.N == g.Times.N && f.LadderAt.IsZero())
}

// Monotone reports whether every step is larger, or every step smaller, than
// the one before.
func Monotone(steps []int) bool {
	up, down := true, true
	for i := 1; i < len(steps); i++ {
		up = up && steps[i] > steps[i-1]
		down = down && steps[i] < steps[i-1]
	}
	return up || down
}
