package version

import (
	"fmt"
	"math"

	"roomful"
	"roomful/version/internal/say"
)

// mostProof bounds the repetitions of a proof set.
const mostProof = 12

// proof is the set that shows that the load holding a person up most is right;
// without loads, that a movement under a fresh rule is.
func (c *class) proof(q *plan) *roomful.Proof {
	best, strain := -1, math.Inf(1)
	for li, f := range q.fits {
		if !f.measured || q.tasks[li].Unit != roomful.Rep || q.tasks[li].Load.Value == 0 {
			continue
		}
		s := c.Forecaster.Unbroken(q.p.Abilities, q.tasks[li]) / max(f.need, 1)
		if f.form.Movement.Implement != roomful.Barbell {
			s *= 2 // a bar is what the ramp is for
		}
		if s < strain {
			best, strain = li, s
		}
	}
	if best < 0 {
		return c.bareProof(q)
	}
	f, t := q.fits[best], q.tasks[best]
	reps := c.proofReps(q, best)
	return &roomful.Proof{Movement: t.Movement, Reps: reps, Load: t.Load, Say: proofWords(q, f, t, reps)}
}

// felt is the share of a load that is left by a step that one feels (common
// practice, no source).
const felt = 0.92

// proofWords says the set, and what to take when it turns out otherwise.
func proofWords(q *plan, f *fitted, t roomful.Task, reps int) string {
	own := q.p.Athlete.Unit
	load := say.Load(t.Load, own)
	if t.Implements > 1 {
		load = fmt.Sprintf("%d x %s", t.Implements, load)
	}
	words := fmt.Sprintf("%d %s at %s without putting it down", reps, say.Plural(f.form.Movement), load)
	if reps == 1 {
		words = fmt.Sprintf("one good %s at %s", f.form.Movement.Name, load)
	}
	if down, ok := q.p.stock.Below(f.tool(), t.Load.Kg()*felt); ok {
		words += ". If it is a fight, take " + say.Load(down, own)
	}
	if up, ok := q.p.stock.Heavier(f.tool(), t.Load); ok && f.why.load == byUnknown {
		words += ". If it is easy, take " + say.Load(up, own)
	}
	return words
}

// proofReps is the fresh rule's number, or the largest unbroken set that the
// version implies.
func (c *class) proofReps(q *plan, li int) int {
	f, t := q.fits[li], q.tasks[li]
	ft := &fitter{class: c, p: q.p, li: li, line: &c.lines[li]}
	if n := ft.rule(f.form.Movement); n > 0 {
		return int(n)
	}
	can := math.Floor(c.Forecaster.Unbroken(q.p.Abilities, t) + tiny)
	if f.why.load == byUnknown { // the set decides, so it asks what is needed
		can = math.Ceil(f.need)
	}
	reps := ft.count(t)
	if reps == 0 {
		reps = f.need
	}
	return int(max(min(reps, can, mostProof), 1))
}

// bareProof is the proof set of a movement without a load under a fresh rule.
func (c *class) bareProof(q *plan) *roomful.Proof {
	for li, t := range q.tasks {
		n := c.Effort.FreshFor(t.Movement)
		if n == 0 || q.fits[li].form.Movement == nil {
			continue
		}
		name := say.Plural(q.fits[li].form.Movement)
		return &roomful.Proof{Movement: t.Movement, Reps: n, Say: fmt.Sprintf("%d %s unbroken. If it is a fight, take the easier form", n, name)}
	}
	return nil
}

// plates loads every bar of a plan.
func (c *class) plates(q *plan) []roomful.SideLoad {
	var out []roomful.SideLoad
	seen := map[roomful.Mass]bool{}
	for li, t := range q.tasks {
		m := q.fits[li].form.Movement
		if m == nil || m.Implement != roomful.Barbell || t.Load.Value == 0 || seen[t.Load] {
			continue
		}
		bar, plates, ok := q.p.stock.Side(q.p.Athlete.Division, t.Load)
		if !ok {
			continue
		}
		seen[t.Load] = true
		out = append(out, roomful.SideLoad{Movement: t.Movement, Bar: bar, PerSide: plates})
	}
	return out
}
