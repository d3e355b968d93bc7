package bars

import (
	"cmp"
	"slices"
)

// loading is a way for every bar, with what is left over and what it comes to
// in units of the scale, not shifted.
type loading struct {
	way  []int32 // by bar
	left key
	cost int64
}

// bare is the loading that uses no disc.
func (m *market) bare(bars int) loading {
	l := loading{way: make([]int32, bars), left: m.pack.stock}
	for _, c := range m.classes {
		l.cost += int64(len(c.members)) * m.of(c, 0) >> m.shift
	}
	return l
}

// put changes the way of one bar, of class c, to one that there are discs for.
func (m *market) put(l *loading, c *class, bar int, way int32) {
	old := l.way[bar]
	l.left, _ = m.pack.take(l.left.plus(m.key[old]), m.key[way])
	l.cost += (m.of(c, way) - m.of(c, old)) >> m.shift
	l.way[bar] = way
}

// greedy lets the bars choose one after another at the present prices among
// what is left, in several orders, and then again with the room's leftovers,
// and returns the best loading met.
func (m *market) greedy(bars int) loading {
	best := m.bare(bars)
	m.settle(&best)
	for _, order := range []func(a, b *class) int{
		func(a, b *class) int { return cmp.Compare(b.weight(), a.weight()) },
		func(a, b *class) int { return cmp.Compare(b.middle(), a.middle()) },
		func(a, b *class) int { return cmp.Compare(a.middle(), b.middle()) },
	} {
		classes := slices.Clone(m.classes)
		slices.SortStableFunc(classes, order)
		l := m.bare(bars)
		for _, c := range classes {
			for _, bar := range c.members {
				m.put(&l, c, bar, m.fit(c, l.left, 1))
			}
		}
		if m.settle(&l); l.cost < best.cost {
			best = l
		}
	}
	return best
}

// settle lets each bar in turn take what suits it better, until none does.
func (m *market) settle(l *loading) {
	for better := true; better; {
		better = false
		for _, c := range m.classes {
			for _, bar := range c.members {
				before := l.cost
				m.put(l, c, bar, m.fit(c, l.left.plus(m.key[l.way[bar]]), 0))
				better = better || l.cost < before
			}
		}
	}
}

// fit returns the way that costs class c least among those left has discs for.
// With dear 0 the price of discs only decides between equals.
func (m *market) fit(c *class, left key, dear int64) int32 {
	way, value, price := int32(0), int64(1<<62), int64(1<<62)
	m.outward(c, func(d int, cost int64) bool {
		if cost > value {
			return false
		}
		if cost+dear*m.cheapest[d] > value {
			return true
		}
		for _, w := range m.ways(d) {
			v := m.of(c, w) + dear*m.price[w]
			if v > value || v == value && m.price[w] >= price {
				continue
			}
			if _, ok := m.pack.take(left, m.key[w]); ok {
				way, value, price = w, v, m.price[w]
			}
		}
		return true
	})
	return way
}

// weight is what a grain of deviation costs a bar in all.
func (b *Bar) weight() int64 {
	var sum int64
	for _, w := range b.Wants {
		sum += w.Weight
	}
	return sum
}
