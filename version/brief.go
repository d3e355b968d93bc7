package version

import (
	"cmp"
	"maps"
	"slices"

	"roomful"
	"roomful/version/internal/piece"
	"roomful/version/internal/rung"
	"roomful/version/internal/say"
)

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
		return cmp.Or(order(a != 0, b != 0), order(c.rungs[a].Harder(), c.rungs[b].Harder()),
			cmp.Compare(c.rungs[a].Steps(), c.rungs[b].Steps()), cmp.Compare(a, b))
	})
	names := map[int]string{}
	var out []roomful.Option
	for _, r := range rungs {
		o := c.option(r, on[r])
		o.Name = say.Unused(c.name(r, o.Elements, on[r]), out)
		names[r] = o.Name
		out = append(out, o)
	}
	return out, names
}

// option is a rung as its people do it. As written stands as the sheet says for
// both divisions; any other as most of its people do it, by division when there
// are both.
func (c *class) option(r int, people []*person) roomful.Option {
	var o roomful.Option
	for _, p := range people {
		o.People = append(o.People, p.id)
	}
	of := func(d roomful.Division) []roomful.Task {
		if r == 0 {
			return c.nobody(d).written
		}
		return c.typical(r, people, d)
	}
	o.Elements, o.Second = c.unowned(r, of(roomful.DivisionA)), c.unowned(r, of(roomful.DivisionB))
	inA := func(p *person) bool { return p.Athlete.Division == roomful.DivisionA }
	inB := func(p *person) bool { return !inA(p) }
	switch {
	case r > 0 && !slices.ContainsFunc(people, inA):
		o.Elements, o.Second = o.Second, nil
	case r > 0 && !slices.ContainsFunc(people, inB), slices.EqualFunc(o.Elements, o.Second, piece.Same):
		o.Second = nil
	}
	return o
}

// name says what a rung changes for the people on it.
func (c *class) name(r int, tasks []roomful.Task, people []*person) string {
	b := rung.Brief{Rung: c.rungs[r], Lines: c.lines, Tasks: tasks, Cut: make([]bool, len(c.lines)), Alike: make([]bool, len(c.lines))}
	lighter := 0
	for li := range c.lines {
		b.Alike[li] = true
		for _, p := range people {
			amount := p.plans[0].tasks[li].Amount
			b.Cut[li] = b.Cut[li] || amount != p.written[li].Amount
			b.Alike[li] = b.Alike[li] && (amount == tasks[li].Amount || p.plans[0].fits[li].oneOff)
		}
	}
	for _, p := range people {
		if p.plans[0].lighter() {
			lighter++
		}
	}
	b.Lighter = 2*lighter > len(people)
	return b.Name()
}

// lighter reports whether something is lifted that is less than written.
func (q *plan) lighter() bool {
	for li, t := range q.tasks {
		if w := q.p.written[li]; t.Movement == w.Movement && t.LoadKg() < w.LoadKg()-tiny {
			return true
		}
	}
	return false
}

// typical is each line of a rung as most people of a division do it, one-offs
// apart; where there is none, as the other people do.
func (c *class) typical(r int, people []*person, d roomful.Division) []roomful.Task {
	var out []roomful.Task
	for li, k := range c.rungs[r].Picks {
		var tasks, others []roomful.Task
		for _, p := range people {
			switch q := p.plans[0]; {
			case (q.fits[li].oneOff || q.raised > 0) && !c.Home:
			case (p.Athlete.Division == roomful.DivisionA) == (d == roomful.DivisionA):
				tasks = append(tasks, q.tasks[li])
			default:
				others = append(others, q.tasks[li])
			}
		}
		if len(tasks) == 0 {
			tasks = others
		}
		if len(tasks) == 0 {
			f := &fitter{class: c, p: c.nobody(d), li: li, line: &c.lines[li], pick: k}
			tasks = append(tasks, f.base(f.line.Forms[k.Form]).task)
		}
		out = append(out, most(tasks))
	}
	return out
}

// nobody is somebody of a division of whom nothing is known and whom nothing
// bounds.
func (c *class) nobody(d roomful.Division) *person {
	p := newPerson(Person{Athlete: roomful.Athlete{ID: "nobody", Division: d}}, c.On)
	p.stock = c.stock(c.Kit, d)
	p.amounts = 1
	p.written = c.reader(p).Work().All()
	return p
}

// unowned takes out loads that are each person's own: a share, a feel, a
// repetition test, a choice.
func (c *class) unowned(r int, tasks []roomful.Task) []roomful.Task {
	out := slices.Clone(tasks)
	for li := range out {
		t := &out[li]
		choice := r == 0 && c.lines[li].Element.Load == nil
		if p, ok := c.lines[li].Element.Load.(roomful.Percent); ok && r == 0 {
			t.Percent = float64(p)
		}
		if choice || t.Percent > 0 || t.RPE > 0 || t.Fresh > 0 {
			t.Load = roomful.Mass{}
		}
	}
	return out
}

// most returns the commonest task; of equally common ones that with the load, and
// then the amount, in the middle.
func most(tasks []roomful.Task) roomful.Task {
	all := slices.Clone(tasks)
	slices.SortFunc(all, func(a, b roomful.Task) int {
		return cmp.Or(cmp.Compare(a.LoadKg(), b.LoadKg()), cmp.Compare(a.Amount, b.Amount), cmp.Compare(a.Movement, b.Movement))
	})
	count := func(t roomful.Task) (n int) {
		for _, u := range all {
			if piece.Same(t, u) {
				n++
			}
		}
		return n
	}
	middle := len(all) / 2
	best := all[middle]
	for _, t := range all {
		if count(t) > count(best) {
			best = t
		}
	}
	return best
}
