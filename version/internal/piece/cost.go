package piece

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

// Cost measures departures from what is written.
type Cost struct {
	Lines   []Line
	Lexicon roomful.Lexicon
	Protect string // what the effort protects
}

// Change measures how far tasks are from what is written, 0 for the same.
func (c *Cost) Change(written, tasks []roomful.Task) float64 {
	var load, amount, height, form, more, protected float64
	lighter := false
	for i := range c.Lines {
		w, t, l := written[i], tasks[i], &c.Lines[i]
		if Same(w, t) {
			continue
		}
		if isProtected(c.Protect, l.Movement) {
			protected = costProtected
		}
		if t.Movement != w.Movement {
			if form > 0 {
				more += costAnother
			}
			form = max(form, c.form(l, t.Movement))
			if t.Unit == w.Unit && t.Amount < w.Amount {
				amount += apart(w.Amount, t.Amount)
			}
			if t.LoadKg() < w.LoadKg() {
				lighter = true
				if m := c.Lexicon.Movement(t.Movement); m != nil && m.Implement == l.Implement() {
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
		return base + math.Min(size/float64(len(c.Lines)), 0.9)
	}
	total := protected + form + more + axis(costLoad, load) + axis(costAmount, amount) + axis(costHeight, height)
	if form > 0 && c.Protect == "skill" || lighter && c.Protect == "load" {
		total += costProtected
	}
	return total
}

// Less is the mean share by which the lines that stay are cut.
func Less(written, tasks []roomful.Task) float64 {
	var cut float64
	for i, w := range written {
		if t := tasks[i]; t.Movement == w.Movement && t.Amount < w.Amount {
			cut += apart(w.Amount, t.Amount)
		}
	}
	return cut / float64(max(len(written), 1))
}

// formCost is what another movement costs on a line.
func (c *Cost) form(l *Line, id roomful.MovementID) float64 {
	m := c.Lexicon.Movement(id)
	switch {
	case l.Movement == nil:
		return costMovement
	case !say.Keeps(l.Movement, m):
		return costPattern
	case slices.Contains(l.Movement.Easier, id), slices.ContainsFunc(l.Instead, func(g Form) bool { return g.Movement == m }):
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

// What a sheet in one unit reads as in a room with the other (common practice, no
// source): 65 lb is done with 30 kg, 24 in on 60 cm.
const (
	readLoad     = 0.03 // of a load whose unit differs
	readHeightCm = 1.3  // half an inch
)

// slack is how far a load may be from one that is written in another unit.
func slack(a, b roomful.Task) float64 {
	if a.Load.Unit != b.Load.Unit && a.Load.Value > 0 && b.Load.Value > 0 {
		return readLoad * max(a.LoadKg(), b.LoadKg())
	}
	return tiny
}

// Same reports whether two tasks ask the same of a person.
func Same(a, b roomful.Task) bool {
	return a.Movement == b.Movement && a.Amount == b.Amount && a.Unit == b.Unit &&
		math.Abs(a.LoadKg()-b.LoadKg()) < slack(a, b) && math.Abs(a.HeightCm-b.HeightCm) < readHeightCm
}

// Easier reports whether t asks less of a person than w.
func Easier(w, t roomful.Task) bool {
	return t.Movement != w.Movement || t.Unit != w.Unit || t.Amount < w.Amount-tiny ||
		t.LoadKg() < w.LoadKg()-slack(w, t) || t.HeightCm < w.HeightCm-readHeightCm
}

// tiny absorbs rounding when masses and amounts are compared.
const tiny = 1e-6
