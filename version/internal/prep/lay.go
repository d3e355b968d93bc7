// Package prep is what comes before and after the pieces: a warm-up or mobility
// laid out second by second, and the sets that lead from an empty bar to a
// person's own load.
//
// It decides when, how long and how heavy; who does what instead of a drill is
// decided above, as for any other line of a sheet.
package prep

import (
	"strings"
	"time"

	"roomful"
	"roomful/version/internal/say"
)

// Slot is a stretch of a part: one line, or rest.
type Slot struct {
	From, Length time.Duration
	Round        int // from 1
	Line         int // index into the lines laid out, -1 for rest
}

// Line is one thing to do within a part.
type Line struct {
	Element roomful.Element
	// Own is the time its own amount takes, 0 when it states none.
	Own time.Duration
	// From is the round it is done from, Until the last one; 0 is any. A switch in
	// a line makes two of it.
	From, Until int
	// Beside joins a line to the one before it within one interval.
	Beside bool
	At     time.Duration // of the interval, when it takes over; 0 when not said
}

// Usual times of a warm-up (common practice, no source).
const (
	usualDrill = 30 * time.Second // of a line without any time
	usualLongs = 2                // lines without their own time get at most this many usual drills each
)

// Lay lays the lines of a part out, second by second, and says in words what
// does not fit.
func Lay(p roomful.Part, lines []Line) (slots []Slot, length time.Duration, note string) {
	l := layer{lines: lines}
	switch f := p.Format.(type) {
	case roomful.Unscored:
		if f.Each > 0 {
			l.rounds(max(f.Rounds, 1), f.Each, 0, 0)
			return l.slots, l.at, overflow(l.at, f.Duration)
		}
		return l.divided(f)
	case roomful.Stations:
		l.rounds(f.Rounds, f.Work, f.Change, f.Rest)
	case roomful.Intervals:
		if f.Work == 0 {
			l.ownTimes(f.Count, f.Rest)
			break
		}
		l.turns(f.Count, f.Work, f.Rest)
	case roomful.Every:
		l.turns(f.Count, f.Interval, 0)
	case roomful.RoundsInTime:
		l.until(f.Window)
	case roomful.AmountInTime:
		l.rounds(1, f.Window, 0, 0)
	case roomful.ForTime:
		l.ownTimes(max(f.Rounds, 1), f.Rest)
	case roomful.Sets:
		l.ownTimes(max(f.Count, 1), f.Rest)
	}
	return l.slots, l.at, ""
}

// layer lays slots one behind the other.
type layer struct {
	lines []Line
	slots []Slot
	at    time.Duration
}

// add puts one line, or rest, next.
func (l *layer) add(line, round int, d time.Duration) {
	if d <= 0 {
		return
	}
	l.slots = append(l.slots, Slot{From: l.at, Length: d, Round: round, Line: line})
	l.at += d
}

// groups are the lines of a round by the interval they share.
func (l *layer) groups(round int) [][]int {
	var out [][]int
	for i, line := range l.lines {
		switch {
		case line.From > round || line.Until > 0 && line.Until < round:
		case line.Beside && len(out) > 0:
			out[len(out)-1] = append(out[len(out)-1], i)
		default:
			out = append(out, []int{i})
		}
	}
	return out
}

// interval shares one interval among the lines of a group: a stated switch or
// time first, what is left in equal parts.
func (l *layer) interval(group []int, round int, d time.Duration) {
	if len(group) == 1 {
		l.add(group[0], round, d)
		return
	}
	own, free := time.Duration(0), 0
	for _, i := range group {
		if t := l.lines[i].Own; t > 0 {
			own += t
		} else {
			free++
		}
	}
	left := d
	for n, i := range group {
		t := l.lines[i].Own
		if t == 0 {
			t = max(d-own, 0) / time.Duration(free)
		}
		switch {
		case n == len(group)-1:
			t = left
		case l.lines[group[n+1]].At > 0:
			t = l.lines[group[n+1]].At - (d - left)
		}
		t = min(max(t, 0), left)
		l.add(i, round, t)
		left -= t
	}
}

// rounds lays every interval of every round, with changes between them and rest
// between rounds.
func (l *layer) rounds(n int, each, change, rest time.Duration) {
	for r := 1; r <= n; r++ {
		groups := l.groups(r)
		for i, g := range groups {
			l.interval(g, r, each)
			if i < len(groups)-1 {
				l.add(-1, r, change)
			}
		}
		if r < n {
			l.add(-1, r, max(rest, change))
		}
	}
}

// turns takes the intervals in turn, by slots where lines have them.
func (l *layer) turns(n int, work, rest time.Duration) {
	groups := l.groups(1)
	if len(groups) == 0 {
		return
	}
	slots := map[int][]int{}
	most := 0
	for i, line := range l.lines {
		if s := line.Element.Slot; s > 0 {
			slots[s] = append(slots[s], i)
			most = max(most, s)
		}
	}
	if most > 0 {
		groups = nil
		for s := 1; s <= most; s++ {
			groups = append(groups, slots[s])
		}
	}
	for i := range n {
		round := i/len(groups) + 1
		if g := groups[i%len(groups)]; len(g) > 0 {
			l.interval(g, round, work)
		}
		if i < n-1 {
			l.add(-1, round, rest)
		}
	}
}

// ownTimes lays rounds of lines that each take their own time.
func (l *layer) ownTimes(n int, rest time.Duration) {
	for r := 1; r <= n; r++ {
		for _, g := range l.groups(r) {
			for _, i := range g {
				l.add(i, r, orUsual(l.lines[i].Own))
			}
		}
		if r < n {
			l.add(-1, r, rest)
		}
	}
}

// until goes round and round until a window ends.
func (l *layer) until(window time.Duration) {
	for r := 1; l.at < window; r++ {
		before := l.at
		for _, g := range l.groups(r) {
			for _, i := range g {
				l.add(i, r, min(orUsual(l.lines[i].Own), window-l.at))
			}
		}
		if l.at == before {
			return
		}
	}
}

// divided lays a part of which at most the whole length is known: lines keep
// their own time, the others share what is left.
func (l *layer) divided(f roomful.Unscored) ([]Slot, time.Duration, string) {
	n := max(f.Rounds, 1)
	own, free := time.Duration(0), 0
	for r := 1; r <= n; r++ {
		for _, g := range l.groups(r) {
			for _, i := range g {
				if t := l.lines[i].Own; t > 0 {
					own += t
				} else {
					free++
				}
			}
		}
	}
	share := usualDrill
	if f.Duration > 0 && free > 0 {
		share = min(max((f.Duration-own)/time.Duration(free), usualDrill/2), usualLongs*2*usualDrill)
		share = share.Truncate(time.Second)
	}
	for r := 1; r <= n; r++ {
		for _, g := range l.groups(r) {
			for _, i := range g {
				t := l.lines[i].Own
				if t == 0 {
					t = share
				}
				l.add(i, r, t)
			}
		}
	}
	return l.slots, max(f.Duration, 0), overflow(l.at, f.Duration)
}

// orUsual is a time, or the usual one of a drill when it is 0.
func orUsual(d time.Duration) time.Duration {
	if d > 0 {
		return d
	}
	return usualDrill
}

// overflow says in words when a sum is not the stated length.
func overflow(sum, stated time.Duration) string {
	switch {
	case stated == 0 || sum == 0:
	case sum > stated:
		return "the lines come to " + say.Minutes(sum) + " of " + say.Minutes(stated) + ": leave out the last of it"
	case stated-sum >= time.Minute:
		return "the lines come to " + say.Minutes(sum) + " of " + say.Minutes(stated) + ": the rest is for changing over and once more of what is tight"
	}
	return ""
}

// Sided reports whether a note says that an amount is for each side.
func Sided(note string) bool {
	for _, w := range []string{"a side", "each side", "per side", "each leg", "a leg", "per leg", "each arm", "an arm", "per arm"} {
		if strings.Contains(strings.ToLower(note), w) {
			return true
		}
	}
	return false
}
