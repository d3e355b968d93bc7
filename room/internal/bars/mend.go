package bars

import (
	"math/rand/v2"
	"slices"
)

// finish loads the bars on which the linear program is of two minds, leaving
// the others as it has them. At first it looks only for loadings as good as the
// bound, then for worse ones, until one is found.
func (m *market) finish(o *outlook) (steps int) {
	open := make([]bool, len(o.best.way))
	for _, bars := range o.undecided {
		for _, bar := range bars {
			open[bar] = true
		}
	}
	for slack := int64(0); o.floor < o.best.cost; slack = max(m.step, 4*slack, (o.best.cost-o.floor)/16/m.step*m.step) {
		s := m.reopen(o, o.mixed, open, 256, slack)
		found, ok := s.run()
		steps += generous - s.steps
		m.take(o, found, ok)
		if ok || o.floor+slack >= o.best.cost-m.step {
			break
		}
	}
	return steps
}

// dive asks the linear program again for the bars that are left each time some
// are loaded as it says, until none is.
func (m *market) dive(o *outlook) (steps int) {
	if o.floor >= o.best.cost {
		return 0
	}
	l := loading{way: slices.Clone(o.mixed.way), left: o.mixed.left, cost: o.mixed.cost}
	open := slices.Clone(o.undecided)
	for {
		count, left := []int{}, 0
		for _, bars := range open {
			count = append(count, len(bars))
			left += len(bars)
		}
		if left == 0 {
			break
		}
		again := newMaster(m, count, l.left)
		again.solve()
		steps += len(again.met) * (setting + len(m.mass)/32)
		if again.decided(&l, open, true) == 0 {
			break
		}
	}
	m.reprice(o.size)
	m.bound()
	m.take(o, l, true)
	return steps
}

// Reopening a few bars at a time: how many at first and at most, how often
// without gain, and what setting up a search is worth in steps.
const (
	fewest  = 8
	many    = 14
	tries   = 20
	setting = 1000
)

// mend reopens a few bars at a time of the best loading and loads them anew;
// more in later rounds.
func (m *market) mend(o *outlook, round int) (steps int) {
	bars := len(o.best.way)
	few := min(fewest+2*round, many)
	if few >= bars {
		return 0 // the search over all bars does as much
	}
	rng := rand.New(rand.NewPCG(1, uint64(round)))
	// What early rounds did not better is mostly best already, and wants a proof.
	for idle := 0; idle < max(4, tries-5*round) && o.floor < o.best.cost; idle++ {
		open := make([]bool, bars)
		for _, i := range rng.Perm(bars)[:few] {
			open[i] = true
		}
		s := m.reopen(o, o.best, open, min(narrowest/2<<round, narrowest), o.best.cost)
		found, ok := s.run()
		steps += generous - s.steps + setting
		if m.take(o, found, ok) {
			idle = -1
		}
	}
	return steps
}

// neaten uses fewer discs where they come to the same.
func (m *market) neaten(l *loading) {
	for better := true; better; {
		better = false
		for _, c := range m.classes {
			for _, bar := range c.members {
				way := l.way[bar]
				if w := m.neater(c, way, l.left.plus(m.key[way])); w != way {
					m.put(l, c, bar, w)
					better = true
				}
			}
		}
	}
}

// neater returns the way with the fewest discs, of those in left, that is as
// good for a class; ways of one mass are listed so.
func (m *market) neater(c *class, way int32, left key) int32 {
	for _, w := range m.ways(int(m.group[way])) {
		if w == way {
			break
		}
		if _, ok := m.pack.take(left, m.key[w]); ok && m.of(c, w) <= m.of(c, way) {
			return w
		}
	}
	return way
}
