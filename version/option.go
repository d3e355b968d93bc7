package version

import (
	"cmp"
	"context"
	"maps"
	"slices"

	"roomful"
	"roomful/version/internal/rack"
	"roomful/version/internal/say"
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
	worthOption = 0.3  // less for every option to brief beyond as written
	mostEasier  = 3    // easier options, two when there is a harder one
)

// decide lays the rungs, chooses the options among them and settles everybody's
// plan; people keep theirs in chosen.
func (c *class) decide(ctx context.Context) error {
	if len(c.going) == 0 {
		return ctx.Err()
	}
	d := c.demands()
	c.gatherForms(d.slow)
	c.layRungs(d)
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
	if err := c.choose(ctx, byPerson); err != nil {
		return err
	}
	for i, p := range c.going {
		p.plans = distinct(byPerson[i])
	}
	return nil
}

// ownRung is the rung that changes nothing but loads.
func (c *class) ownRung() int {
	return slices.IndexFunc(c.rungs, func(r rung) bool { return r.loads == own && r.steps() == 0 })
}

// demands looks at everybody as written to learn what else is worth trying.
func (c *class) demands() demand {
	d := demand{volume: 1}
	var plans []*plan
	for _, p := range c.going {
		q := &plan{p: p}
		for li := range c.lines {
			q.tasks = append(q.tasks, c.fit(p, li, plain).task)
		}
		d.volume = min(d.volume, p.care.Volume)
		plans = append(plans, q)
	}
	if !c.windowed {
		return d
	}
	scores := c.Forecaster.Typical(c.request(plans))
	for i, q := range plans {
		at := i * max(c.Piece.Team.Size, 1)
		if at >= len(scores) || q.p.care.Volume < 1 {
			continue
		}
		side := c.side(scores[at])
		d.slow = d.slow || side < 0
		d.fast = d.fast || side > 0 && !q.p.care.Any()
	}
	return d
}

// served is how a person fares on a rung: how much the rule of choice prefers
// it, and what that is worth to the class.
type served struct{ preferred, worth float64 }

// serves weighs a plan as the rule of choice will, by the screen alone.
func (q *plan) serves() served {
	in := q.guessIn || q.p.care.Volume < 1
	s := served{preferred: q.guess, worth: worthGuess*q.guess - worthChange*q.change - worthWork*q.less}
	if in {
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
		if plainly := q.p.lines[li].fits[plain]; plainly != nil && !plainly.oneOff && t.Movement != plainly.task.Movement {
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
		s.harder[i] = r.harder()
	}
	s.grow([]int{0}, table[0], 1, mostEasier, 1)
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
	for r := next; r < len(s.table) && easier > 0; r++ {
		left := harder
		if s.harder[r] {
			left--
		}
		if left < 0 {
			continue
		}
		merged := make([]served, len(have))
		for i := range have {
			merged[i] = better(have[i], s.table[r][i])
		}
		s.grow(append(slices.Clone(set), r), merged, r+1, easier-1, left)
	}
}

// distinct drops plans that ask the very same of their person as an earlier
// one.
func distinct(plans []*plan) []*plan {
	var out []*plan
	for _, q := range plans {
		if !slices.ContainsFunc(out, func(o *plan) bool { return slices.EqualFunc(o.tasks, q.tasks, same) }) {
			out = append(out, q)
		}
	}
	return out
}

// options describes the rungs that people stand on, as written first, then by
// how much they change.
func (c *class) options() ([]roomful.Option, map[int]string) {
	on := map[int][]*person{0: nil}
	for _, p := range c.everyone {
		if len(p.plans) > 0 {
			on[p.plans[0].rung] = append(on[p.plans[0].rung], p)
		}
	}
	rungs := slices.Collect(maps.Keys(on))
	slices.SortFunc(rungs, func(a, b int) int {
		return cmp.Or(order(a != 0, b != 0), order(c.rungs[a].harder(), c.rungs[b].harder()),
			cmp.Compare(c.rungs[a].steps(), c.rungs[b].steps()), cmp.Compare(a, b))
	})
	names := map[int]string{}
	var out []roomful.Option
	for _, r := range rungs {
		o := c.option(r, on[r])
		o.Name = say.Unused(c.optionName(r, o.Elements, on[r]), out)
		names[r] = o.Name
		out = append(out, o)
	}
	return out, names
}

// option is a rung as its people do it: on each line the task that most of
// them share, one-offs apart.
func (c *class) option(r int, people []*person) roomful.Option {
	o := roomful.Option{}
	for _, p := range people {
		o.People = append(o.People, p.id)
	}
	for li := range c.lines {
		var tasks []roomful.Task
		for _, p := range people {
			if f := p.plans[0].fits[li]; !f.oneOff || c.Home {
				tasks = append(tasks, p.plans[0].tasks[li])
			}
		}
		if len(tasks) == 0 {
			tasks = append(tasks, c.bare(r, li))
		}
		o.Elements = append(o.Elements, most(tasks))
	}
	return o
}

// bare is a line of a rung as anybody in division a would be asked to do it.
func (c *class) bare(r, li int) roomful.Task {
	p := newPerson(Person{Athlete: roomful.Athlete{ID: "nobody", Division: roomful.DivisionA}}, c.On)
	p.stock = rack.New(c.Kit, c.Gym, roomful.DivisionA, massUnit(c.Piece, c.Gym))
	p.written = c.reader(p).work().All()
	f := &fitter{class: c, p: p, li: li, line: &c.lines[li], pick: c.rungs[r].picks[li]}
	return f.base(c.lines[li].forms[c.rungs[r].picks[li].form]).task
}

// most returns the commonest task; of two equally common the heavier, then the
// longer.
func most(tasks []roomful.Task) roomful.Task {
	count := func(t roomful.Task) (n int) {
		for _, u := range tasks {
			if same(t, u) {
				n++
			}
		}
		return n
	}
	return slices.MaxFunc(tasks, func(a, b roomful.Task) int {
		return cmp.Or(cmp.Compare(count(a), count(b)), cmp.Compare(a.LoadKg(), b.LoadKg()), cmp.Compare(a.Amount, b.Amount),
			cmp.Compare(a.Movement, b.Movement))
	})
}
