package bars

import "slices"

// Fits reports whether the figures of a problem can be added up exactly, and it
// has no more kinds of disc than are reckoned with.
func (p *Problem) Fits() bool {
	_, ok := newScale(p)
	return ok && len(p.Sizes) <= maxSizes
}

// Solve loads the bars. Its steps are counted, not timed, so that the same
// problem has the same answer on every machine; a million take a few tenths of a
// second. A bar's bare mass must not be above its ceiling, and the problem must
// fit.
func Solve(p Problem, steps int) Answer {
	sc, ok := newScale(&p)
	if !ok {
		panic("bars: a problem that does not fit")
	}
	m := newMarket(&p, sc, mostWays)
	o := m.outlook(len(p.Bars))
	steps -= m.finish(o)
	steps -= m.dive(o)
	open := slices.Repeat([]bool{true}, len(p.Bars))
	slack := int64(0)
	for round := 0; o.floor < o.best.cost && steps > 0; round++ {
		if steps -= m.mend(o, round); o.floor >= o.best.cost || steps <= 0 {
			break
		}
		s := m.reopen(o, o.best, open, narrowest<<round, slack)
		s.steps = steps
		found, ok := s.run()
		m.take(o, found, ok)
		o.floor = max(o.floor, min(o.best.cost, m.roundUp(o.bound+s.cut)))
		steps = s.steps
		slack = max(m.step, 2*slack, (o.best.cost-o.floor)/16/m.step*m.step)
	}
	m.neaten(&o.best)
	return m.answer(&p, o)
}

// narrowest is the width of the first search over all bars. Each one after is
// twice as wide.
const narrowest = 128

// outlook is what is known of the answer so far.
type outlook struct {
	bound  int64     // at the present prices, shifted
	others [][]int64 // prices that came near
	floor  int64     // no loading comes to less
	best   loading
	size   []int64 // the present prices
	// mixed is the linear program's loading, less the bars it leaves undecided.
	mixed     loading
	undecided [][]int // by class
}

// views is how many other sets of prices judge what is left.
const views = 24

// outlook finds the prices, a bound and a first loading.
func (m *market) outlook(bars int) *outlook {
	o := &outlook{mixed: m.bare(bars)}
	count := []int{}
	for _, c := range m.classes {
		count = append(count, len(c.members))
		o.undecided = append(o.undecided, c.members)
	}
	prices := newMaster(m, count, m.pack.stock)
	o.bound = prices.solve()
	o.size = prices.bestSize
	o.others = prices.met[max(0, len(prices.met)-views):]
	o.floor = m.roundUp(o.bound)
	o.best = m.greedy(bars)
	prices.decided(&o.mixed, o.undecided, false)
	return o
}

// take keeps a loading if it is the best, and reports whether it was.
func (m *market) take(o *outlook, l loading, ok bool) bool {
	if !ok {
		return false
	}
	if m.settle(&l); l.cost >= o.best.cost {
		return false
	}
	o.best = l
	return true
}

// roundUp turns a bound in shifted units into the least that a loading could
// come to.
func (m *market) roundUp(bound int64) int64 {
	b := (bound + 1<<m.shift - 1) >> m.shift
	if rest := b % m.step; rest > 0 {
		b += m.step - rest
	}
	return b
}

// answer puts the best loading into the caller's terms.
func (m *market) answer(p *Problem, o *outlook) Answer {
	a := Answer{Proven: m.complete() && o.floor >= o.best.cost}
	for i, w := range o.best.way {
		b := &p.Bars[i]
		load := b.Bare + 2*m.mass[w]
		a.Sides = append(a.Sides, m.discs(w))
		a.Cost += b.cost(load)
		if load < b.Floor {
			a.Stripped++
		}
	}
	switch {
	case a.Proven:
		a.Bound = a.Cost
	case m.complete():
		a.Bound = min(a.Cost, max(0, (o.floor-int64(a.Stripped)*m.strip-m.moved)/m.grain))
	default:
		a.Bound = p.loose()
	}
	return a
}

// complete reports whether every way to load a sleeve was looked at.
func (m *market) complete() bool { return m.whole && m.pack.exact }

// loose is a bound for any discs there could be: each bar as near to its
// target as bare bar and ceiling let it.
func (p *Problem) loose() int64 {
	var sum int64
	for i := range p.Bars {
		b := &p.Bars[i]
		sum += b.cost(min(max(b.middle(), b.Bare), b.Ceiling))
	}
	return sum
}
