package room

import (
	"math/big"
	"slices"

	"roomful/room/internal/bars"
)

// least is what no loading of the bars comes below, in kg; off when that is
// proven to be the least.
func (t *table) least(off *big.Rat) *big.Rat {
	switch {
	case off.Sign() == 0, t.atOnce() && t.answer.Proven && !t.rounded:
		return off
	case t.atOnce():
		return t.kg(big.NewRat(t.answer.Bound, 1))
	}
	if least := t.kg(up(t.turns().solve(t.steps), t.problem.Step())); least.Cmp(off) < 0 {
		return least
	}
	return off
}

// up returns the first multiple of step from r on, which is not below zero.
func up(r *big.Rat, step int64) *big.Rat {
	n := new(big.Int).Mul(r.Denom(), big.NewInt(step))
	times := new(big.Int).Add(r.Num(), n)
	times.Quo(times.Sub(times, big.NewInt(1)), n)
	return new(big.Rat).SetInt(times.Mul(times, big.NewInt(step)))
}

// kg turns a bound of a problem into a sum of deviations. Where weights were
// rounded it is lowered by as much as the most exaggerated of them.
func (t *table) kg(bound *big.Rat) *big.Rat {
	kg := new(big.Rat).Mul(bound, t.ruler.grain)
	kg.Mul(kg, t.unit)
	least := big.NewRat(1, 1)
	for i, w := range t.q.Wanted {
		if n := t.weights[i]; t.rounded && n > 0 {
			r := new(big.Rat).Quo(decimal(w.Weight), new(big.Rat).Mul(big.NewRat(n, 1), t.unit))
			if r.Cmp(least) < 0 {
				least = r
			}
		}
	}
	return kg.Mul(kg, least)
}

// atOnce reports whether everybody has a bar and nobody shares theirs, so that
// one loading serves all.
func (t *table) atOnce() bool { return len(t.lifted) == len(t.q.Wanted) && len(t.lacks) == 0 }

// turns bounds what people can have who do not all lift at once, however discs
// are changed in between.
//
// Of three who share a bar each lifts a third of the time, and discs that are on
// their bar then are on no other. So over six times the discs, the most that six
// turns can use, those with a bar of their own lift six times, of a pair each
// three times, of three each twice: what nobody could do better with all those
// discs in one heap bounds what they can do turn by turn. Somebody who waits for a
// bar lifts when others may have left, and is given the whole room.
type turns struct {
	sharing, waiting bars.Problem
}

// everyTurn is how many turns are looked at together: of one, two or three who
// share a bar each lifts in a whole number of them.
const everyTurn = 6

// turns poses the two problems.
func (t *table) turns() turns {
	w := turns{sharing: bars.Problem{Sleeve: t.problem.Sleeve}, waiting: bars.Problem{Sleeve: t.problem.Sleeve}}
	for _, on := range t.lifted {
		waits := t.waits(on[0])
		for _, i := range on {
			if waits {
				w.waiting.Bars = append(w.waiting.Bars, t.turn(i, 1))
				continue
			}
			one := t.turn(i, int64(len(on)))
			w.sharing.Bars = append(w.sharing.Bars, slices.Repeat([]bars.Bar{one}, everyTurn/len(on))...)
		}
	}
	for _, z := range t.problem.Sizes {
		w.sharing.Sizes = append(w.sharing.Sizes, bars.Size{Mass: z.Mass, Pairs: everyTurn * z.Pairs})
		w.waiting.Sizes = append(w.waiting.Sizes, bars.Size{Mass: z.Mass, Pairs: len(w.waiting.Bars) * z.Pairs})
	}
	return w
}

// waits reports whether the bars of somebody's kind are too few.
func (t *table) waits(i int) bool {
	for _, l := range t.lacks {
		if l.Mass == t.q.Wanted[i].Bar {
			return true
		}
	}
	return false
}

// turn is somebody's bar in one turn, each grain off counted so many times.
// Floors are left out: a bound without them holds with them.
func (t *table) turn(i int, times int64) bars.Bar {
	w := &t.q.Wanted[i]
	b := bars.Bar{Bare: t.ruler.grains(w.Bar) + t.ruler.grains(t.q.Collars), Ceiling: t.ruler.most}
	b.Wants = []bars.Want{{Target: t.ruler.grains(w.Target), Weight: times * t.weights[i]}}
	if w.Ceiling.Value > 0 {
		b.Ceiling = t.ruler.grains(w.Ceiling)
	}
	return b
}

// fits reports whether both problems can be reckoned exactly.
func (w turns) fits() bool { return w.sharing.Fits() && w.waiting.Fits() }

// solve returns the bound, in costs of one turn.
func (w turns) solve(steps int) *big.Rat {
	sum := new(big.Rat)
	if len(w.sharing.Bars) > 0 {
		sum.SetFrac64(bars.Solve(w.sharing, steps).Bound, everyTurn)
	}
	if len(w.waiting.Bars) > 0 {
		sum.Add(sum, big.NewRat(bars.Solve(w.waiting, steps).Bound, 1))
	}
	return sum
}
