package version

import (
	"cmp"
	"context"
	"math"
	"slices"

	"roomful"
)

// How a set of options is valued, in people: a person in the window counts one.
const (
	valueWritten = 2.0  // in the window as written: no other option may tempt them away
	valueWindow  = 1.0  // in the window
	valueGuess   = 0.3  // times the rough probability of it
	valueOneOff  = 0.25 // less for a one-off
	valueChange  = 0.08 // less for every unit of change
	valueOption  = 0.3  // less for every option to brief beyond as written
	mostEasier   = 3    // easier options, two when there is a harder one
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
		d.volume = min(d.volume, p.volume)
		plans = append(plans, q)
	}
	if !c.windowed {
		return d
	}
	scores := c.Forecaster.Typical(c.request(plans))
	for i, q := range plans {
		at := i * max(c.Piece.Team.Size, 1)
		if at >= len(scores) || q.p.volume < 1 {
			continue
		}
		side := c.side(scores[at])
		d.slow = d.slow || side < 0
		d.fast = d.fast || side > 0 && !q.p.bounded()
	}
	return d
}

// value is how well a plan serves its person.
func (q *plan) value() float64 {
	v := valueGuess*q.guess - valueChange*q.change
	switch {
	case q.asWritten() && q.guessIn:
		v += valueWritten
	case q.guessIn || q.p.volume < 1:
		v += valueWindow
	}
	if q.oneOff {
		v -= valueOneOff
	}
	if q.stuck {
		v -= valueWindow
	}
	return v
}

// bestSet finds the at most four rungs, as written among them, that serve the
// class best.
func (c *class) bestSet(byPerson [][]*plan) []int {
	values := c.values(byPerson)
	s := &setSearch{values: values, harder: make([]bool, len(c.rungs))}
	for i, r := range c.rungs {
		s.harder[i] = r.harder()
	}
	s.grow([]int{0}, values[0], 1, mostEasier, 1)
	return s.best
}

// nowhere is the value of a rung to somebody who cannot do it at all.
const nowhere = -2

// values tabulates the value of every rung to every person.
func (c *class) values(byPerson [][]*plan) [][]float64 {
	out := make([][]float64, len(c.rungs))
	for r := range out {
		out[r] = make([]float64, len(byPerson))
		for i := range out[r] {
			out[r][i] = nowhere
		}
	}
	for i, plans := range byPerson {
		for _, q := range plans {
			out[q.rung][i] = max(out[q.rung][i], q.value())
		}
	}
	return out
}

// setSearch tries every small set of rungs.
type setSearch struct {
	values [][]float64 // by rung and person
	harder []bool
	best   []int
	top    float64
}

// grow values a set and every set that adds rungs from next on to it. Values
// hold what each person gets from the set so far.
func (s *setSearch) grow(set []int, have []float64, next, easier, harder int) {
	total := -valueOption * float64(len(set)-1)
	for _, v := range have {
		total += v
	}
	if s.best == nil || total > s.top+1e-9 {
		s.best, s.top = slices.Clone(set), total
	}
	for r := next; r < len(s.values); r++ {
		e, h := easier-1, harder
		if s.harder[r] {
			e, h = easier-1, harder-1
		}
		if e < 0 || h < 0 {
			continue
		}
		merged := make([]float64, len(have))
		for i := range have {
			merged[i] = math.Max(have[i], s.values[r][i])
		}
		s.grow(append(slices.Clone(set), r), merged, r+1, e, h)
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
	var order []int
	for r := range on {
		order = append(order, r)
	}
	slices.SortFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(truth(a != 0), truth(b != 0)), cmp.Compare(truth(c.rungs[a].harder()), truth(c.rungs[b].harder())),
			cmp.Compare(c.rungs[a].steps(), c.rungs[b].steps()), cmp.Compare(a, b))
	})
	names := map[int]string{}
	var out []roomful.Option
	for _, r := range order {
		o := c.option(r, on[r])
		o.Name = unused(c.optionName(r, o.Elements, on[r]), out)
		names[r] = o.Name
		out = append(out, o)
	}
	return out, names
}

func truth(b bool) int {
	if b {
		return 1
	}
	return 0
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
			if f := p.plans[0].fits[li]; !f.oneOff {
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
	p := newPerson(Person{Athlete: roomful.Athlete{ID: "nobody", Division: roomful.DivisionA}}, 0, c.On)
	p.stock = newStock(c.Kit, c.Gym, roomful.DivisionA, massUnit(c.Piece, c.Gym))
	p.written = c.reader(p).work().All()
	f := &fitter{class: c, p: p, li: li, line: &c.lines[li], pick: c.rungs[r].picks[li]}
	return f.base(c.lines[li].forms[c.rungs[r].picks[li].form]).task
}

// most returns the commonest task, the heavier of two equally common.
func most(tasks []roomful.Task) roomful.Task {
	best, count := tasks[0], 0
	for _, t := range tasks {
		n := 0
		for _, u := range tasks {
			if same(t, u) {
				n++
			}
		}
		if n > count || n == count && t.LoadKg() > best.LoadKg() {
			best, count = t, n
		}
	}
	return best
}
