package version

import (
	"cmp"
	"context"
	"math"
	"slices"

	"roomful/version/internal/piece"
	"roomful/version/internal/rung"
)

// What a version is worth to the class when options are chosen, in people: a
// person in the window counts one (judgement, chosen on what a coach would do
// with the cases of this package's tests).
const (
	worthWindow = 1.0  // in the window
	worthGuess  = 0.8  // times the rough probability of it
	worthOneOff = 0.4  // less for a one-off
	worthChange = 0.08 // less for every unit of change
	worthWork   = 0.8  // less for all of the work that is cut: too light fails too
	worthForm   = 0.2  // less when a movement they can do gives way
	worthOption = 0.6  // less for every option to brief beyond as written
	mostEasier  = 3    // easier options, two when there is a harder one
)

// decide lays the rungs, chooses the options among them and settles everybody's
// plan; people keep theirs in chosen.
func (c *class) decide(ctx context.Context) error {
	if len(c.going) == 0 {
		return ctx.Err()
	}
	l := c.layout()
	c.gatherForms(l.Slow)
	l.Lines = c.lines
	c.rungs = append(c.rungs, l.Rungs()...)
	var all []*plan
	byPerson := make([][]*plan, len(c.going))
	for i, p := range c.going {
		for ri := range c.rungs {
			byPerson[i] = append(byPerson[i], c.plans(p, ri)...)
		}
		all = append(all, byPerson[i]...)
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	c.screen(all)
	set := c.bestSet(byPerson)
	for i, plans := range byPerson {
		byPerson[i] = slices.DeleteFunc(plans, func(q *plan) bool { return !slices.Contains(set, q.rung) })
		if len(byPerson[i]) == 0 { // own loads of what is written are always possible
			byPerson[i] = c.plans(c.going[i], c.ownRung())
		}
	}
	c.widen(byPerson)
	if err := c.choose(ctx, byPerson); err != nil {
		return err
	}
	for i, p := range c.going {
		p.plans = distinct(byPerson[i])
	}
	return nil
}

// widen adds the variants of everybody's best plan when it has swaps: to choose
// among safe forms, and to fill the window when swaps leave the piece too easy.
func (c *class) widen(byPerson [][]*plan) {
	var more []*plan
	from := make([]int, len(byPerson)+1)
	for i, plans := range byPerson {
		if base := slices.MinFunc(plans, preferred); base.oneOff && !base.stuck {
			more = append(more, c.variants(base)...)
		}
		from[i+1] = len(more)
	}
	c.screen(more)
	for i := range byPerson {
		byPerson[i] = append(byPerson[i], more[from[i]:from[i+1]]...)
	}
}

// preferred orders plans as the screen would have them given.
func preferred(a, b *plan) int {
	return cmp.Or(-cmp.Compare(a.serves().preferred, b.serves().preferred), cmp.Compare(a.rung, b.rung))
}

// ownRung is the rung that changes nothing but loads.
func (c *class) ownRung() int {
	return slices.IndexFunc(c.rungs, func(r rung.Rung) bool { return r.Loads == rung.Own && r.Steps() == 0 })
}

// layout looks at everybody as written to learn what else is worth trying.
func (c *class) layout() rung.Layout {
	l := rung.Layout{Home: c.Home, Shared: c.Piece.Team.Size > 1, Proposed: c.Effort.Proposed}
	for li := range c.lines {
		l.Heights = append(l.Heights, c.going[0].written[li].HeightCm > 0)
	}
	var plans []*plan
	for _, p := range c.going {
		q := &plan{p: p}
		for li := range c.lines {
			q.tasks = append(q.tasks, c.fit(p, li, rung.Plain).task)
		}
		plans = append(plans, q)
	}
	if !c.windowed {
		return l
	}
	scores := c.Forecaster.Typical(c.request(plans))
	for i, q := range plans {
		at := i * max(c.Piece.Team.Size, 1)
		if at >= len(scores) || c.free(q.p) {
			continue
		}
		off := c.off(scores[at])
		l.Slow = l.Slow || off < 0
		l.Fast = l.Fast || off > 0 && !q.p.care.Any()
	}
	return l
}

// screenError is how near the edge of a window a screened score may be taken for
// inside: it is no surer than that (doc/model.md; a test bounds it).
const screenError = 0.03

// served is how a person fares on a rung: how much the rule of choice prefers
// it, and what that is worth to the class.
type served struct{ preferred, worth float64 }

// serves weighs a plan as the rule of choice will, by the screen alone.
func (q *plan) serves() served {
	s := served{preferred: q.guess, worth: worthGuess*q.guess - worthChange*q.change - worthWork*q.less}
	if q.guessIn || math.Abs(q.off) <= screenError {
		s.preferred = 100 - q.distance()
		if q.p.stranger {
			s.preferred = 100 + q.change
		}
		s.worth += worthWindow
	}
	if q.oneOff && !q.home {
		s.worth -= worthOneOff
	}
	if q.stuck {
		s.preferred -= 200
		s.worth -= worthWindow
	}
	if q.spares() {
		s.worth -= worthForm
	}
	return s
}

// spares reports whether a plan takes a movement away that its person can do as
// written.
func (q *plan) spares() bool {
	for li, t := range q.tasks {
		if plainly := q.p.lines[li].fits[rung.Plain]; plainly != nil && !plainly.oneOff && t.Movement != plainly.task.Movement {
			return true
		}
	}
	return false
}

// bestSet finds the at most four rungs, as written among them, that serve the
// class best.
func (c *class) bestSet(byPerson [][]*plan) []int {
	table := c.serve(byPerson)
	s := &setSearch{table: table, harder: make([]bool, len(c.rungs))}
	for i, r := range c.rungs {
		s.harder[i] = r.Harder()
	}
	s.grow(append(make([]int, 0, 2+mostEasier), 0), table[0], 1, mostEasier, 1)
	return s.best
}

// nowhere is a rung that somebody cannot do at all.
var nowhere = served{preferred: -1000, worth: -2}

// serve tabulates how every rung serves every person.
func (c *class) serve(byPerson [][]*plan) [][]served {
	out := make([][]served, len(c.rungs))
	for r := range out {
		out[r] = slices.Repeat([]served{nowhere}, len(byPerson))
	}
	for i, plans := range byPerson {
		for _, q := range plans {
			out[q.rung][i] = better(out[q.rung][i], q.serves())
		}
	}
	return out
}

// better returns what a person would be given of two.
func better(a, b served) served {
	if b.preferred > a.preferred {
		return b
	}
	return a
}

// setSearch tries every small set of rungs.
type setSearch struct {
	table  [][]served // by rung and person
	harder []bool
	best   []int
	top    float64
	rooms  [][]served // memory for what each person gets, by the size of the set
}

// grow values a set and every set that adds rungs from next on to it; have is
// what each person gets from the set so far.
func (s *setSearch) grow(set []int, have []served, next, easier, harder int) {
	total := -worthOption * float64(len(set)-1)
	for _, v := range have {
		total += v.worth
	}
	if s.best == nil || total > s.top+tiny {
		s.best, s.top = slices.Clone(set), total
	}
	for len(s.rooms) <= len(set) {
		s.rooms = append(s.rooms, make([]served, len(have)))
	}
	merged := s.rooms[len(set)]
	for r := next; r < len(s.table) && easier > 0; r++ {
		left := harder
		if s.harder[r] {
			left--
		}
		if left < 0 {
			continue
		}
		for i := range have {
			merged[i] = better(have[i], s.table[r][i])
		}
		s.grow(append(set, r), merged, r+1, easier-1, left)
	}
}

// distinct drops plans that ask the very same of their person as an earlier
// one.
func distinct(plans []*plan) []*plan {
	var out []*plan
	for _, q := range plans {
		if !slices.ContainsFunc(out, func(o *plan) bool { return slices.EqualFunc(o.tasks, q.tasks, piece.Same) }) {
			out = append(out, q)
		}
	}
	return out
}
