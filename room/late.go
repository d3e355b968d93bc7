package room

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"roomful"
)

// Behind says how late a class is: By minutes at minute At of the clock.
type Behind struct{ By, At time.Duration }

// Late lays out the hour and cuts what is left of it, so that it ends on time
// where it can. What is cut, in this order (common practice, no source): the
// general warm-up is shortened, strength sets are left out, the window, the cap
// or the rounds of pieces come down, and mobility goes. The briefing and a ramp
// are never cut.
func Late(ctx context.Context, q Request, b Behind) (roomful.Hour, error) {
	h, err := newHouse(ctx, q)
	if err != nil {
		return roomful.Hour{}, err
	}
	hour, err := h.lay(ctx)
	if err != nil {
		return hour, err
	}
	if b.At >= hour.Length {
		return hour, &roomful.Error{Summary: fmt.Sprintf("at minute %d a class of %s is over", int(b.At.Minutes()), clock(hour.Length)),
			Hint: "give the minute of the class, such as 7@24 for seven minutes late at minute 24"}
	}
	c := cutter{house: h, hour: &hour, at: b.At}
	c.delay(b)
	c.all()
	hour.NoMore = c.over() > 0
	return hour, nil
}

// The least that is left of what is cut (common practice, no source): half of a
// warm-up but four minutes, five sets of seven, six tenths of a piece, and a
// minute to take scores.
const (
	leastWarmUp = 4 * time.Minute
	leastSets   = 5.0 / 7
	leastPiece  = 0.6
	leastScores = time.Minute
)

// cutter shortens what has not been done yet.
type cutter struct {
	*house
	hour *roomful.Hour
	at   time.Duration // now, from the start of the class
}

// all cuts in order until the hour ends on time.
func (c *cutter) all() {
	for _, cut := range []func(){c.warmUp, c.sets, c.pieces, c.scores, c.mobility} {
		if c.over() > 0 {
			cut()
		}
	}
}

// delay moves everything that is not done by as much as the class is behind: it
// is in the middle of what the plan has at that much less than now.
func (c *cutter) delay(b Behind) {
	planned := b.At - b.By
	for i := range c.hour.Lines {
		l := &c.hour.Lines[i]
		if l.End > planned {
			l.End += b.By
		}
		if l.Start > planned {
			l.Start += b.By
		}
	}
}

// over returns how much too late the hour ends.
func (c *cutter) over() time.Duration { return c.hour.Ends() - c.hour.Length }

// shorten takes as much from a line as the hour is over, but leaves it at least a
// length, and never takes what has gone by. It returns what it took.
func (c *cutter) shorten(i int, least time.Duration) time.Duration {
	l := &c.hour.Lines[i]
	if l.Start < c.at { // under way: what has gone by stands
		least = max(least, c.at-l.Start)
	}
	took := min(c.over(), l.Length()-least)
	if took <= 0 {
		return 0
	}
	l.End -= took
	for j := i + 1; j < len(c.hour.Lines); j++ {
		c.hour.Lines[j].Start -= took
		c.hour.Lines[j].End -= took
	}
	return took
}

// each calls f with the lines of a kind that are not over.
func (c *cutter) each(kind roomful.HourKind, f func(i int, l *roomful.HourLine)) {
	for i := range c.hour.Lines {
		if l := &c.hour.Lines[i]; l.Kind == kind && l.End > c.at && c.over() > 0 {
			f(i, l)
		}
	}
}

// drop notes what the class leaves out.
func (c *cutter) drop(format string, args ...any) {
	c.hour.Dropped = append(c.hour.Dropped, fmt.Sprintf(format, args...))
}

// warmUp shortens the general warm-up.
func (c *cutter) warmUp() {
	c.each(roomful.HourWarmUp, func(i int, l *roomful.HourLine) {
		was := l.Length()
		if c.shorten(i, max(leastWarmUp, was/2)) > 0 {
			c.drop("warm-up: %s instead of %s", clock(l.Length()), clock(was))
		}
	})
}

// part returns the piece a line is of.
func (c *cutter) part(l *roomful.HourLine) (roomful.Part, bool) { return c.Session.Piece(l.Part) }

// sets leaves out strength sets, whole ones, from the last.
func (c *cutter) sets() {
	c.each(roomful.HourWork, func(i int, l *roomful.HourLine) {
		p, ok := c.part(l)
		f, sets := p.Format.(roomful.Sets)
		n := max(f.Count, len(f.Reps))
		if !ok || !sets || f.Build || n < 2 {
			return
		}
		each := l.Length() / time.Duration(n)
		fewest := max(1, int(leastSets*float64(n)+0.5))
		keep := max(fewest, n-int((c.over()+each-1)/each))
		if took := c.shortenBy(i, time.Duration(n-keep)*each); took > 0 {
			l.What = fmt.Sprintf("%s: %d sets", l.Part, keep)
			c.drop("%s: %d sets instead of %d", l.Part, keep, n)
		}
	})
}

// shortenBy takes a whole length from a line, unless that has gone by.
func (c *cutter) shortenBy(i int, by time.Duration) time.Duration {
	l := &c.hour.Lines[i]
	if by <= 0 || l.End-by < c.at {
		return 0
	}
	l.End -= by
	for j := i + 1; j < len(c.hour.Lines); j++ {
		c.hour.Lines[j].Start -= by
		c.hour.Lines[j].End -= by
	}
	return by
}

// pieces brings windows, caps and rounds down, to whole half minutes, in every heat
// alike. A piece under way is left alone.
func (c *cutter) pieces() {
	cuts := map[string]*cutPiece{}
	c.each(roomful.HourWork, func(_ int, l *roomful.HourLine) {
		p, ok := c.part(l)
		if _, sets := p.Format.(roomful.Sets); !ok || sets || cuts[l.Part] != nil {
			return
		}
		heats := c.heats(l.Part)
		if heats[0] < c.at {
			return
		}
		was := l.Length()
		share := (c.over() + time.Duration(len(heats)) - 1) / time.Duration(len(heats))
		cut := cutTo(p, max(was-share, time.Duration(leastPiece*float64(was))))
		if cut == nil || cut.length >= was {
			return
		}
		cuts[l.Part] = cut
		for i := range c.hour.Lines {
			if heat := &c.hour.Lines[i]; heat.Kind == roomful.HourWork && heat.Part == l.Part {
				heat.What = strings.Replace(heat.What, c.head(p), cut.now, 1)
				c.shortenBy(i, was-cut.length)
			}
		}
		c.drop("%s: %s", l.Part, cut.said)
	})
}

// heats returns when the work of a part starts, heat by heat.
func (c *cutter) heats(part string) (starts []time.Duration) {
	for _, l := range c.hour.Lines {
		if l.Kind == roomful.HourWork && l.Part == part {
			starts = append(starts, l.Start)
		}
	}
	return starts
}

// cutPiece is a piece made shorter.
type cutPiece struct {
	part      roomful.Part
	length    time.Duration
	now, said string // "cap 9 min", "cap 9 min instead of 12 min"
}

// half is the step that windows and caps come down by.
const half = 30 * time.Second

// cutTo makes a piece last at most a time; nil when its format cannot.
func cutTo(p roomful.Part, target time.Duration) *cutPiece {
	window := target.Truncate(half)
	c := &cutPiece{part: p, length: window}
	rounds := func(n int, each time.Duration, word string) (int, bool) {
		keep := int(target / max(each, 1))
		if each <= 0 || keep < 1 || keep >= n {
			return 0, false
		}
		c.length = time.Duration(keep) * each
		if keep == 1 {
			word = strings.TrimSuffix(word, "s")
		}
		c.now, c.said = fmt.Sprintf("%d %s", keep, word), fmt.Sprintf("%d %s instead of %d", keep, word, n)
		return keep, true
	}
	ok := true
	switch f := p.Format.(type) {
	case roomful.RoundsInTime:
		c.now, c.said = clock(window), clock(window)+" instead of "+clock(f.Window)
		f.Window, c.part.Format = window, f
	case roomful.AmountInTime:
		c.now, c.said = clock(window), clock(window)+" instead of "+clock(f.Window)
		f.Window, c.part.Format = window, f
	case roomful.ForTime:
		c.now, c.said = "cap "+clock(window), "cap "+clock(window)
		if f.Cap > 0 {
			c.said += " instead of " + clock(f.Cap)
		}
		f.Cap, c.part.Format = window, f
	case roomful.Every:
		f.Count, ok = rounds(f.Count, f.Interval, "intervals")
		c.part.Format = f
	case roomful.Intervals:
		f.Count, ok = rounds(f.Count, f.Work+f.Rest, "bouts")
		c.part.Format = f
	case roomful.Stations:
		f.Rounds, ok = rounds(f.Rounds, f.Length(len(p.Round))/time.Duration(max(1, f.Rounds)), "rounds")
		c.part.Format = f
	default:
		return nil
	}
	if !ok || window <= 0 {
		return nil
	}
	return c
}

// scores takes scores quickly.
func (c *cutter) scores() {
	c.each(roomful.HourScores, func(i int, l *roomful.HourLine) {
		if c.shorten(i, leastScores) > 0 {
			c.drop("scores: %s, the rest by message", clock(l.Length()))
		}
	})
}

// mobility leaves the end out, in part or whole.
func (c *cutter) mobility() {
	c.each(roomful.HourMobility, func(i int, l *roomful.HourLine) {
		was := l.Length()
		if c.shorten(i, 0) == 0 {
			return
		}
		if left := l.Length(); left > 0 {
			c.drop("mobility: %s instead of %s", clock(left), clock(was))
		} else {
			c.drop("mobility: on their own today")
		}
	})
	c.hour.Lines = slices.DeleteFunc(c.hour.Lines, func(l roomful.HourLine) bool { return l.Length() == 0 })
}

// clock writes a length as a coach says it: "12 min", "9:30".
func clock(d time.Duration) string {
	if d%time.Minute == 0 {
		return fmt.Sprintf("%d min", d/time.Minute)
	}
	return strings.TrimSpace(roomful.Clock(d.Seconds()))
}
