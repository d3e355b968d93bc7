package sim

import (
	"fmt"
	"math"
	"slices"
	"time"

	"roomful"
)

// plan is a piece compiled for one crew: the course and, for each member, the
// actions its steps point at. All members share the course; amounts are those
// of the first member, since partners share one score.
type plan struct {
	piece  roomful.Part
	course course
	kind   roomful.ScoreKind
	round  []int // actions
}

// whole returns what round n asks for in all, counted by a member's actions.
func (p *plan) whole(acts []action, n int) (s share) {
	l, laddered := p.course.(*linear)
	for _, i := range p.round {
		a := &acts[i]
		amount := a.amount
		if laddered && amount == 0 {
			count, _ := l.ladder.Step(n)
			amount = float64(count)
		}
		s.add(a.share(amount, a.timed))
	}
	return s
}

// places says which actions stand in once, round and last.
type places struct{ once, round, last []int }

// newCourse turns a piece's format into a course over actions. Formats that
// cannot be simulated as they stand are refused by name.
func newCourse(p roomful.Part, at places, first []action) (course, error) {
	team := 0
	if p.Team.Style == roomful.Alternating {
		team = p.Team.Size
	}
	if _, ok := p.Format.(roomful.RoundsInTime); !ok {
		if _, ok := p.Format.(roomful.ForTime); !ok && len(at.once)+len(at.last) > 0 {
			return nil, refuse(p, "a once or last block outside rounds in time and for time")
		}
	}
	if fault := unbounded(p.Format, at, first); fault != "" {
		return nil, refuse(p, fault)
	}
	switch f := p.Format.(type) {
	case roomful.RoundsInTime:
		return &linear{once: at.once, round: at.round, last: at.last, rounds: -1, ladder: f.Ladder, limit: f.Window.Seconds(), team: team}, nil
	case roomful.AmountInTime:
		return newAmount(f, p, at, first)
	case roomful.ForTime:
		return &linear{once: at.once, round: at.round, last: at.last, rounds: max(1, f.Rounds), ladder: f.Ladder,
			rest: f.Rest.Seconds(), limit: orEndless(f.Cap), team: team}, nil
	case roomful.Every:
		return newEvery(f, at.round, first, team), nil
	case roomful.Intervals:
		return newIntervals(f, at.round, first, team), nil
	case roomful.Stations:
		return newStations(f, at.round, first, team), nil
	case roomful.Sets:
		return newSets(f, at.round, first)
	}
	return nil, refuse(p, "no score")
}

// unbounded says what keeps a format from being run, "" when nothing does.
func unbounded(f roomful.Format, at places, first []action) string {
	open := hasOpen(at.round, first)
	aside := hasOpen(at.once, first) || hasOpen(at.last, first)
	switch f := f.(type) {
	case roomful.RoundsInTime:
		if f.Window <= 0 {
			return "no window"
		}
		if aside || open && len(f.Ladder.Steps) == 0 {
			return "an amount left open"
		}
	case roomful.ForTime:
		if aside || open && len(f.Ladder.Steps) == 0 {
			return "an amount left open"
		}
		if f.Ladder.Open {
			return "a ladder that never ends"
		}
	case roomful.Every:
		if f.Interval <= 0 || f.Count <= 0 {
			return "no interval"
		}
	case roomful.Intervals:
		if f.Count <= 0 {
			return "no bout"
		}
		if f.Work <= 0 && open {
			return "an amount left open"
		}
	case roomful.Stations:
		if f.Work <= 0 || f.Rounds <= 0 {
			return "no time at a station"
		}
	}
	return ""
}

// refuse says that a piece cannot be simulated.
func refuse(p roomful.Part, why string) error {
	return &roomful.Error{
		Summary: fmt.Sprintf("forecasting %s: %s with %s is not simulated", p.Name(), p.Format.Name(), why),
		Hint:    "write the piece in one of the formats of notation/spec.md",
	}
}

// orEndless returns a time in seconds, +Inf for none.
func orEndless(d time.Duration) float64 {
	if d <= 0 {
		return math.Inf(1)
	}
	return d.Seconds()
}

// newAmount is as much as possible of one movement. Unbroken is a maximal set:
// nobody breaks it by choice.
func newAmount(f roomful.AmountInTime, p roomful.Part, at places, first []action) (course, error) {
	if len(at.round) != 1 {
		return nil, refuse(p, fmt.Sprintf("%d movements", len(at.round)))
	}
	if f.Window <= 0 && !f.Unbroken {
		return nil, refuse(p, "no window")
	}
	limit := orEndless(f.Window)
	first[at.round[0]].amount = 0
	return &bouts{list: []bout{{until: limit, acts: at.round}}, limit: limit, pace: f.Window.Seconds(), strict: f.Unbroken}, nil
}

// newEvery starts work on every interval; what is late runs into the next.
func newEvery(f roomful.Every, round []int, first []action, team int) course {
	period := f.Interval.Seconds()
	slots := 1
	for _, i := range round {
		slots = max(slots, first[i].task.Slot)
	}
	b := &bouts{limit: float64(f.Count) * period, pace: period, team: team, open: anyOpen(round, first)}
	for k := range f.Count {
		bt := bout{start: float64(k) * period, until: math.Inf(1), due: float64(k+1) * period, group: k, ends: true}
		for _, i := range round {
			if s := first[i].task.Slot; s == 0 || s == k%slots+1 {
				bt.acts = append(bt.acts, i)
			}
		}
		b.list = append(b.list, bt)
	}
	return b
}

// newIntervals are bouts of work with rest after each.
func newIntervals(f roomful.Intervals, round []int, first []action, team int) course {
	work, rest := f.Work.Seconds(), f.Rest.Seconds()
	b := &bouts{limit: math.Inf(1), pace: work, team: team, open: anyOpen(round, first)}
	if work > 0 {
		b.limit = float64(f.Count)*(work+rest) - rest
	}
	loops := len(round) > 1 && !b.open
	for k := range f.Count {
		bt := bout{start: -1, rest: rest, until: math.Inf(1), acts: round, group: k, ends: true}
		if k == 0 {
			bt.start = 0
		}
		if work > 0 {
			bt.start = float64(k) * (work + rest)
			bt.until, bt.loops = bt.start+work, loops
		}
		b.list = append(b.list, bt)
	}
	return b
}

// anyOpen reports whether work has no amount of its own.
func anyOpen(list []int, acts []action) bool {
	return slices.ContainsFunc(list, func(i int) bool { return acts[i].open() && acts[i].kind != restAction })
}

// hasOpen reports whether work or rest has no amount of its own.
func hasOpen(list []int, acts []action) bool {
	return slices.ContainsFunc(list, func(i int) bool { return acts[i].open() })
}

// open reports whether an action has no amount of its own.
func (act *action) open() bool { return act.amount == 0 && act.timed == 0 }

// newStations are rounds of timed stations. A rest line among them is a
// station of rest.
func newStations(f roomful.Stations, round []int, first []action, team int) course {
	work, change, rest := f.Work.Seconds(), f.Change.Seconds(), f.Rest.Seconds()
	b := &bouts{pace: work, team: team, open: anyOpen(round, first)}
	var now float64
	stations := bySlot(round, first)
	for r := range f.Rounds {
		for s, acts := range stations {
			b.list = append(b.list, bout{start: now, until: now + work, acts: acts, group: r, ends: s == len(stations)-1})
			b.limit = now + work
			now += work + change
		}
		if rest > 0 {
			now += rest
			if !f.Resting {
				now -= change
			}
		}
	}
	return b
}

// bySlot joins actions of one slot; an action without a slot stands alone.
func bySlot(round []int, first []action) [][]int {
	var out [][]int
	last := 0
	for _, i := range round {
		s := first[i].task.Slot
		if s > 0 && s == last {
			out[len(out)-1] = append(out[len(out)-1], i)
		} else {
			out = append(out, []int{i})
		}
		last = s
	}
	return out
}

// newSets are strength sets, on a fixed clock or with rest between them.
func newSets(f roomful.Sets, round []int, first []action) (course, error) {
	if f.Build {
		if len(round) != 1 {
			return nil, &roomful.Error{Summary: "forecasting sets: building to a heavy set needs one movement", Hint: "give each movement its own strength part"}
		}
		return &build{act: round[0], rest: DefaultSetRest(f)}, nil
	}
	count := max(f.Count, len(f.Reps), 1)
	b := &bouts{limit: math.Inf(1), strict: true}
	for k := range count {
		bt := bout{start: -1, rest: DefaultSetRest(f), until: math.Inf(1), acts: round, group: k, ends: true}
		if f.Every > 0 {
			bt.start = float64(k) * f.Every.Seconds()
		} else if k == 0 {
			bt.start = 0
		}
		if len(f.Reps) > 0 {
			bt.counts = []int{f.Reps[min(k, len(f.Reps)-1)]}
		}
		b.list = append(b.list, bt)
	}
	return b, nil
}

// DefaultSetRest returns the rest between strength sets in seconds: as stated,
// what a fixed clock leaves, or two and a half minutes (common practice, no
// source).
func DefaultSetRest(f roomful.Sets) float64 {
	switch {
	case f.Rest > 0:
		return f.Rest.Seconds()
	case f.Every > 0:
		return max(30, f.Every.Seconds()-30)
	}
	return Defaults().SetRest
}
