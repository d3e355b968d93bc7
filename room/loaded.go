package room

import (
	"fmt"
	"math/big"
	"slices"

	"roomful"
	"roomful/room/internal/bars"
)

// loaded tells the answer in the words of the question.
func (t *table) loaded() roomful.BarAnswer {
	out := roomful.BarAnswer{Bars: make([]roomful.LoadedBar, len(t.q.Wanted))}
	for b, on := range t.lifted {
		for _, i := range on {
			out.Bars[i] = t.loadedBar(b, i)
		}
	}
	t.topUp(out.Bars)
	off := new(big.Rat)
	for i := range out.Bars {
		l := &out.Bars[i]
		d := new(big.Rat).Sub(t.load(l), exact(l.Target))
		off.Add(off, d.Abs(d).Mul(d, decimal(l.Weight)))
		if q := t.under(l); q != "" {
			out.Questions = append(out.Questions, q)
		}
	}
	for _, on := range t.lifted {
		out.Moved += 2 * out.Bars[on[0]].Moved
	}
	out.Deviation = t.inUnit(off)
	least := t.least(off)
	out.Bound = t.inUnit(least)
	out.Proven = least.Cmp(off) == 0
	return out
}

// loadedBar is what one person lifts of a bar.
func (t *table) loadedBar(bar, i int) roomful.LoadedBar {
	l := roomful.LoadedBar{WantedBar: t.q.Wanted[i]}
	for _, j := range t.answer.Sides[bar] {
		l.PerSide = append(l.PerSide, t.discs[j].Mass)
	}
	for _, o := range t.lifted[bar] {
		if o != i {
			l.With = append(l.With, t.q.Wanted[o].Name)
		}
	}
	l.Load = t.massOf(t.load(&l), l.Target.Unit)
	if i == t.lifted[bar][0] && l.Previous != nil {
		l.Moved = moved(l.Previous, l.PerSide)
	}
	return l
}

// load is the exact load of a bar in kg.
func (t *table) load(l *roomful.LoadedBar) *big.Rat {
	sum := new(big.Rat).Add(exact(l.Bar), exact(t.q.Collars))
	for _, m := range l.PerSide {
		sum.Add(sum, exact(m)).Add(sum, exact(m))
	}
	return sum
}

// massOf writes an exact mass in kg in a unit.
func (t *table) massOf(kg *big.Rat, u roomful.MassUnit) roomful.Mass {
	v := new(big.Rat).Set(kg)
	if u == roomful.Pound {
		v.Quo(v, pound)
	}
	f, _ := v.Float64()
	return roomful.Mass{Value: f, Unit: u}
}

// inUnit writes an exact mass in kg in the unit of the question.
func (t *table) inUnit(kg *big.Rat) float64 { return t.massOf(kg, t.q.Unit).Value }

// under asks before a bar is left further below its target than may be.
func (t *table) under(l *roomful.LoadedBar) string {
	if t.q.MostUnder.Value <= 0 {
		return ""
	}
	d := new(big.Rat).Sub(exact(l.Target), t.load(l))
	if d.Cmp(exact(t.q.MostUnder)) <= 0 {
		return ""
	}
	return fmt.Sprintf("%s gets %s, %s under: is that all right?", l.Name, l.Load, t.massOf(d, l.Target.Unit))
}

// moved counts the discs that are put on or taken off one side.
func moved(before, after []roomful.Mass) int {
	left := slices.Clone(before)
	n := 0
	for _, m := range after {
		if at := slices.IndexFunc(left, func(o roomful.Mass) bool { return exact(o).Cmp(exact(m)) == 0 }); at >= 0 {
			left = slices.Delete(left, at, at+1)
			continue
		}
		n++
	}
	return n + len(left)
}

// topUp lets each who shares a bar and is below their target put on one spare
// pair more for their own turn, if it brings them nearer.
func (t *table) topUp(all []roomful.LoadedBar) {
	spare := make([]int, len(t.discs))
	for j, d := range t.discs {
		spare[j] = d.Count / 2
	}
	for _, side := range t.answer.Sides {
		for _, j := range side {
			spare[j]--
		}
	}
	for _, on := range t.lifted {
		if len(on) < 2 {
			continue
		}
		for _, i := range on {
			if j := t.ownPair(&all[i], spare); j >= 0 {
				spare[j]--
				t.putOn(&all[i], j)
			}
		}
	}
}

// ownPair returns the spare disc that brings a bar nearest to its target without
// passing the ceiling, -1 when none brings it nearer.
func (t *table) ownPair(l *roomful.LoadedBar, spare []int) int {
	best := -1
	short := new(big.Rat).Sub(exact(l.Target), t.load(l))
	least := new(big.Rat).Abs(short)
	for j, d := range t.discs {
		pair := new(big.Rat).Mul(exact(d.Mass), big.NewRat(2, 1))
		load := new(big.Rat).Add(t.load(l), pair)
		if spare[j] < 1 || l.Ceiling.Value > 0 && load.Cmp(exact(l.Ceiling)) > 0 || t.q.SleevePlates > 0 && len(l.PerSide) >= t.q.SleevePlates {
			continue
		}
		if off := pair.Sub(short, pair); off.Abs(off).Cmp(least) < 0 {
			best, least = j, off
		}
	}
	return best
}

// putOn adds a disc to each side, where its size belongs.
func (t *table) putOn(l *roomful.LoadedBar, j int) {
	m := t.discs[j].Mass
	at := slices.IndexFunc(l.PerSide, func(o roomful.Mass) bool { return exact(o).Cmp(exact(m)) < 0 })
	if at < 0 {
		at = len(l.PerSide)
	}
	l.PerSide = slices.Insert(slices.Clone(l.PerSide), at, m)
	l.Load = t.massOf(t.load(l), l.Target.Unit)
}

// short tells which discs the bars that are off their target lack, and the
// nearest loads there could be.
func (t *table) short(out *roomful.BarAnswer) []roomful.Lack {
	if out.Deviation == 0 {
		return nil
	}
	lacks := make([]roomful.Lack, len(t.discs))
	for b, w := range bars.Wishes(t.problem, t.answer) {
		on := t.lifted[b]
		for _, i := range on {
			t.near(&out.Bars[i], w)
		}
		for j, n := range w.Missing {
			if n > 0 {
				lacks[j].Need += 2 * n
				lacks[j].For = append(lacks[j].For, out.Bars[on[0]].Name)
			}
		}
	}
	for j, d := range t.discs {
		lacks[j].What, lacks[j].Mass, lacks[j].Have = "disc", d.Mass, d.Count
		lacks[j].Need += d.Count / 2 * 2
	}
	return slices.DeleteFunc(lacks, func(l roomful.Lack) bool { return len(l.For) == 0 })
}

// near notes the nearest loads of a bar that is off its target.
func (t *table) near(l *roomful.LoadedBar, w bars.Wish) {
	if t.load(l).Cmp(exact(l.Target)) == 0 || len(l.With) > 0 {
		return
	}
	if w.Below >= 0 {
		l.Below = t.ruler.mass(w.Below, l.Target.Unit)
	}
	if w.Above >= 0 {
		l.Above = t.ruler.mass(w.Above, l.Target.Unit)
	}
}
