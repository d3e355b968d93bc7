package version

import (
	"math"
	"slices"

	"roomful"
	"roomful/version/internal/piece"
	"roomful/version/internal/rung"
	"roomful/version/internal/say"
)

// plan is a version that a person could do: a rung with their own loads.
type plan struct {
	p      *person
	rung   int
	fits   []*fitted
	tasks  []roomful.Task
	dose   roomful.Dose
	change float64
	raised float64 // how much more than their swaps and sides ask, to fill the window
	later  float64 // how far its swaps stand behind others that would do, in cost
	less   float64 // the share of the work that is cut
	oneOff bool
	aside  int // how many lines are one-offs, those with another movement twice
	stuck  bool
	harder bool // than written
	home   bool // where one-offs cost nobody anything

	guess    float64 // probability of the window by the screen alone
	guessIn  bool    // the screened score lies in the window
	prob     float64 // probability by simulation
	medianIn bool    // the simulated median lies in the window
	off      float64 // how far the score or its median misses the window, as a share; under 0 when too slow
}

// levels is how many loadings of a rung are tried for a person, and the share
// of a load that stays from one to the next. Under three quarters of what the bounds allow
// the piece feels like another (moderate becomes light), so fewer repetitions fit
// better (common practice, no source).
const (
	levels     = 6
	levelShare = 0.91
	levelFloor = 0.74
)

// plans lists a person's versions on a rung: with the heaviest loads their
// bounds allow, then each time lightening what holds them up most.
func (c *class) plans(p *person, ri int) []*plan {
	r := c.rungs[ri]
	if r.Harder() && (p.care.Any() || p.stranger || len(p.care.Acting) > 0) {
		return nil
	}
	var fits []*fitted
	for li, k := range r.Picks {
		f := c.fit(p, li, k)
		if f.lowered && !f.oneOff && r.Loads == rung.Exact || r.Harder() && (f.lowered || f.fixed || f.oneOff && !c.Home) {
			return nil
		}
		fits = append(fits, f)
	}
	base := c.plan(p, ri, fits)
	var out []*plan
	switch r.Loads {
	case rung.Exact:
		out = []*plan{base}
	case rung.Own:
		out = c.lighterPlans(base)
	default:
		out = c.heavierPlans(base)
	}
	for _, q := range out {
		c.weigh(q)
	}
	return out
}

// plan is a rung with the lines as fitted.
func (c *class) plan(p *person, ri int, fits []*fitted) *plan {
	q := &plan{p: p, rung: ri, harder: c.rungs[ri].Harder(), home: c.Home, fits: fits, dose: c.dose(p, fits), tasks: make([]roomful.Task, 0, len(fits))}
	for _, f := range fits {
		q.tasks = append(q.tasks, f.task)
		if f.oneOff {
			q.oneOff = true
			q.aside++
			if f.why.form != byOption && f.why.form != byNothing {
				q.aside++
			}
		}
		q.stuck = q.stuck || f.stuck
	}
	q.oneOff = q.oneOff || !q.dose.Whole()
	return q
}

// weigh measures how far a plan is from what is written.
func (c *class) weigh(q *plan) {
	q.change, q.less = c.cost.Change(q.p.written, q.tasks), piece.Less(q.p.written, q.tasks)
}

// with returns the plan with another load on one line.
func (q *plan) with(li int, load roomful.Mass) *plan {
	next := *q
	next.tasks = slices.Clone(q.tasks)
	t := &next.tasks[li]
	t.Load, t.RPE, t.Fresh, t.Percent = load, 0, 0, 0
	return &next
}

// lighterPlans lightens, one line at a time, the load that can be moved the
// fewest times for what is asked of it.
func (c *class) lighterPlans(base *plan) []*plan {
	out := []*plan{base}
	if c.free(base.p) {
		return out
	}
	for q := base; len(out) < levels; {
		worst, load := -1, roomful.Mass{}
		strain := math.Inf(1)
		for li, f := range q.fits {
			if !f.measured || f.fixed {
				continue
			}
			down, ok := q.p.stock.Below(f.tool(), q.tasks[li].Load.Kg()*levelShare)
			if !ok || down.Kg() < f.task.Load.Kg()*levelFloor {
				continue
			}
			if s := c.Forecaster.Unbroken(q.p.Abilities, q.tasks[li]) / max(f.need, 1); s < strain {
				worst, load, strain = li, down, s
			}
		}
		if worst < 0 {
			break
		}
		q = q.with(worst, load)
		out = append(out, q)
	}
	return out
}

// mostHeavier is how far above what is written a harder option may go.
const mostHeavier = 1.5

// heavierPlans makes everything that is lifted heavier, as far as the bounds
// allow.
func (c *class) heavierPlans(base *plan) []*plan {
	var out []*plan
	for _, up := range []float64{1.1, 1.25, mostHeavier} {
		q := base
		for li, f := range base.fits {
			if !f.measured {
				continue
			}
			tool, now := f.tool(), f.task.Load.Kg()
			load, ok := q.p.stock.Below(tool, now*up)
			if ok && load.Kg() <= now+tiny { // bells and balls come in larger steps
				load, ok = q.p.stock.Heavier(tool, f.task.Load)
			}
			if !ok || load.Kg() > now*mostHeavier {
				continue
			}
			if next := q.with(li, load); c.Forecaster.Unbroken(q.p.Abilities, next.tasks[li]) >= f.need {
				q = next
			}
		}
		if q != base {
			out = append(out, q)
		}
	}
	return out
}

// raise is how much more is asked of what was swapped and of what stayed.
type raise struct{ swapped, stayed float64 }

// raises are tried for somebody whose swaps leave the piece too easy: the swaps
// first, then the work beside them too (1.3 to 1.5 for a load that is lost is
// common practice, no source; twice is for what weighs nothing).
var raises = []raise{{1.25, 1}, {1.5, 1}, {2, 1}, {1.5, 1.25}, {2, 1.25}}

// costLater is what a swap costs for each that the catalogue puts before it.
const costLater = 0.75

// mostMixes bounds how many mixtures of other forms are tried.
const mostMixes = 6

// variants are further plans beside one with swaps: with the other forms of
// lines that hurt and, when the swaps leave it too easy, with more of them.
func (c *class) variants(base *plan) []*plan {
	var out []*plan
	p, picks := base.p, c.rungs[base.rung].Picks
	mixes := []*plan{base}
	for li := range base.fits {
		for n, other := range c.others(p, li, picks[li]) {
			for _, m := range mixes {
				if len(mixes) < mostMixes && m.fits[li] == base.fits[li] {
					fits := slices.Clone(m.fits)
					fits[li] = other
					q := c.plan(p, base.rung, fits)
					if q.later = m.later; other.why.form == byLimit { // another movement, not less of this
						q.later += costLater * float64(n+1)
					}
					mixes = append(mixes, q)
				}
			}
		}
	}
	for i, q := range mixes {
		if i > 0 {
			out = append(out, q)
		}
		if c.free(p) || p.care.Any() || c.Effort.Proposed || c.Piece.Team.Size > 1 {
			continue // nobody is asked for more who is held back, or without a window of the sheet's
		}
		for _, r := range raises {
			if up := c.raise(q, r); up != nil {
				out = append(out, up)
			}
		}
	}
	for _, q := range out {
		c.weigh(q)
	}
	return out
}

// raise asks more of a plan, nil when there is nothing to ask more of. Machines
// and running keep the time as they are, and what is cut stays cut.
func (c *class) raise(q *plan, r raise) *plan {
	next := *q
	next.tasks = slices.Clone(q.tasks)
	sore := len(q.p.care.Acting) > 0
	var swapped, stayed float64 // how much more it came to
	for li, f := range q.fits {
		m, t := f.form.Movement, &next.tasks[li]
		swap := f.oneOff && t.Movement != q.p.written[li].Movement
		up := r.stayed
		switch {
		case m == nil || t.Amount == 0 || m.Modality == roomful.Machine || m.Modality == roomful.Running || t.Movement == roomful.Rest || f.why.amount == byLimit:
			continue
		case swap:
			if up = r.swapped; m.TakesLoad() || !sore {
				up = min(up, lostLoad)
			}
		case !sore:
			continue
		}
		n := say.Tidy(t.Amount*up, t.Unit)
		if n <= t.Amount {
			continue
		}
		t.Amount = n
		if swap {
			swapped = max(swapped, up-1)
		} else {
			stayed = up - 1
		}
	}
	next.raised = swapped + 2*stayed // what was left alone had better stay so
	if next.raised == 0 {
		return nil
	}
	return &next
}
