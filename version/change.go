package version

import (
	"math"
	"slices"

	"roomful"
	"roomful/version/internal/say"
)

// What a change from the written piece costs, once for each axis: load before
// repetitions before height before a simpler form before another movement of
// the same pattern, and a change of pattern last (common practice, no source).
// The size of the change, under 1, is added, so that the order holds between
// axes and the smaller change wins within one.
const (
	costLoad      = 1.0
	costAmount    = 2.0
	costHeight    = 3.0
	costForm      = 4.0
	costMovement  = 6.0
	costPattern   = 8.0
	costAnother   = 1.2 // for every further line with another movement
	costProtected = 6.0 // more, on an axis or a movement that the effort protects
)

// change measures how far tasks are from what is written, 0 for the same.
func (c *class) change(written, tasks []roomful.Task) float64 {
	var load, amount, height, form, more, protected float64
	lighter := false
	for i := range c.lines {
		w, t, l := written[i], tasks[i], &c.lines[i]
		if same(w, t) {
			continue
		}
		if isProtected(c.Effort.Protect, l.movement) {
			protected = costProtected
		}
		if t.Movement != w.Movement {
			if form > 0 {
				more += costAnother
			}
			form = max(form, c.formCost(l, t.Movement))
			if t.Unit == w.Unit && t.Amount < w.Amount {
				amount += apart(w.Amount, t.Amount)
			}
			if t.LoadKg() < w.LoadKg() {
				lighter = true
				if m := c.Lexicon.Movement(t.Movement); m != nil && m.Implement == l.implement() {
					load += apart(w.LoadKg(), t.LoadKg())
				}
			}
			continue
		}
		lighter = lighter || t.LoadKg() < w.LoadKg()
		load += apart(w.LoadKg(), t.LoadKg())
		if t.Amount < w.Amount || t.LoadKg() >= w.LoadKg() { // more of it for a lighter load is no ease
			amount += apart(w.Amount, t.Amount)
		}
		height += apart(w.HeightCm, t.HeightCm)
	}
	axis := func(base, size float64) float64 {
		if size == 0 {
			return 0
		}
		return base + math.Min(size/float64(len(c.lines)), 0.9)
	}
	total := protected + form + more + axis(costLoad, load) + axis(costAmount, amount) + axis(costHeight, height)
	if form > 0 && c.Effort.Protect == "skill" || lighter && c.Effort.Protect == "load" {
		total += costProtected
	}
	return total
}

// less is the mean share by which the lines that stay are cut.
func (c *class) less(written, tasks []roomful.Task) float64 {
	var cut float64
	for i, w := range written {
		if t := tasks[i]; t.Movement == w.Movement && t.Amount < w.Amount {
			cut += apart(w.Amount, t.Amount)
		}
	}
	return cut / float64(max(len(written), 1))
}

// formCost is what another movement costs on a line.
func (c *class) formCost(l *line, id roomful.MovementID) float64 {
	m := c.Lexicon.Movement(id)
	switch {
	case l.movement == nil:
		return costMovement
	case !say.Keeps(l.movement, m):
		return costPattern
	case slices.Contains(l.movement.Easier, id), slices.ContainsFunc(l.instead, func(g form) bool { return g.movement == m }):
		return costForm
	}
	return costMovement
}

// apart is the size of a change from a to b as a share of a.
func apart(a, b float64) float64 {
	if a == b || a == 0 {
		return 0
	}
	return math.Abs(b-a) / a
}

// same reports whether two tasks ask the same of a person.
func same(a, b roomful.Task) bool {
	return a.Movement == b.Movement && a.Amount == b.Amount && a.Unit == b.Unit &&
		math.Abs(a.LoadKg()-b.LoadKg()) < tiny && math.Abs(a.HeightCm-b.HeightCm) < tiny
}

// easier reports whether t asks less of a person than w.
func easier(w, t roomful.Task) bool {
	return t.Movement != w.Movement || t.Unit != w.Unit || t.Amount < w.Amount-tiny ||
		t.LoadKg() < w.LoadKg()-tiny || t.HeightCm < w.HeightCm-tiny
}

// tiny absorbs rounding when masses and amounts are compared.
const tiny = 1e-6
