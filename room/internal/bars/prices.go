package bars

import (
	"cmp"
	"slices"
	"sort"
)

// market is the problem with a price on each size of disc. At any prices, what
// the bars would pay for the loadings they like best, less what all discs cost,
// is a bound below which no loading of the room can fall.
type market struct {
	scale
	*sleeves
	stock   []int64 // pairs of each size, as far as the bars could use them
	classes []*class
	// At the present prices, in units of the scale shifted: of each way, of the
	// cheapest way to each mass, and of each size.
	price    []int64
	cheapest []int64
	size     []int64
}

// class is the bars that are alike.
type class struct {
	Bar
	members []int
	split   int      // how many masses leave the bar at its middle or below
	top     int      // how many masses it may carry
	costs   []int64  // of the masses it may carry; nil when they would take much memory
	moves   []uint16 // discs moved for each way; nil when the bar is new
	value   int64    // what the best way costs, discs included
	support []int32  // ways that a linear program took, and the empty one
}

// newMarket sorts the bars into classes and lists the ways to load a sleeve.
func newMarket(p *Problem, s scale, most int) *market {
	m := &market{scale: s}
	var reach int64
	for i := range p.Bars {
		reach = max(reach, p.Bars[i].reach(p.Sizes))
	}
	deep := p.deep(reach)
	m.sleeves = newSleeves(p.Sizes, deep, reach, len(p.Bars), most)
	m.price, m.cheapest = make([]int64, len(m.mass)), make([]int64, len(m.sum))
	m.size = make([]int64, len(p.Sizes))
	for _, z := range p.Sizes {
		m.stock = append(m.stock, int64(min(z.Pairs, deep*len(p.Bars))))
	}
	for i, b := range p.Bars {
		at := slices.IndexFunc(m.classes, func(c *class) bool { return c.alike(&b) })
		if at < 0 {
			at = len(m.classes)
			m.classes = append(m.classes, m.newClass(b))
		}
		m.classes[at].members = append(m.classes[at].members, i)
	}
	return m
}

// deep is how many discs a sleeve can hold, as far as there are discs and the
// heaviest side asks for them.
func (p *Problem) deep(reach int64) int {
	pairs, lightest := 0, reach
	for _, z := range p.Sizes {
		pairs += min(z.Pairs, p.Sleeve)
		lightest = min(lightest, z.Mass)
	}
	return min(p.Sleeve, pairs, int(reach/max(1, lightest)))
}

// alike reports whether a bar belongs to a class.
func (c *class) alike(b *Bar) bool {
	return c.Bare == b.Bare && c.Ceiling == b.Ceiling && c.Floor == b.Floor && slices.Equal(c.Wants, b.Wants) &&
		(c.Previous == nil) == (b.Previous == nil) && slices.Equal(c.Previous, b.Previous)
}

// newClass prepares what is looked up often.
func (m *market) newClass(b Bar) *class {
	c := &class{Bar: b, support: []int32{0}}
	middle := b.middle()
	reach := b.reach(m.sizes)
	c.top = sort.Search(len(m.sum), func(d int) bool { return m.sum[d] > reach })
	c.split = min(c.top, sort.Search(len(m.sum), func(d int) bool { return b.Bare+2*m.sum[d] > middle }))
	if b.Previous != nil {
		c.moves = m.movesFrom(b.Previous)
	}
	if c.top <= mostCosts {
		costs := make([]int64, c.top)
		for d := range costs {
			costs[d] = m.cost(c, d)
		}
		c.costs = costs
	}
	return c
}

// mostCosts bounds the costs that are kept of one class.
const mostCosts = 1 << 14

// movesFrom counts for each way the discs taken off and put on one side.
func (m *market) movesFrom(previous []int) []uint16 {
	out := make([]uint16, len(m.mass))
	for w := range out {
		left := slices.Clone(previous)
		for v := int32(w); v > 0; v = m.parent[v] {
			left[m.outer[v]]--
		}
		n := 0
		for _, d := range left {
			n += max(d, -d)
		}
		out[w] = uint16(n)
	}
	return out
}

// cost is what a load of class c costs with mass d on each side, moves apart.
func (m *market) cost(c *class, d int) int64 {
	if c.costs != nil {
		return c.costs[d]
	}
	load := c.Bare + 2*m.sum[d]
	sum := c.Bar.cost(load) * m.grain
	if load < c.Floor {
		sum += m.strip
	}
	return sum << m.shift
}

// of is what way w costs a class, discs not counted.
func (m *market) of(c *class, w int32) int64 {
	sum := m.cost(c, int(m.group[w]))
	if c.moves != nil {
		sum += int64(c.moves[w]) << m.shift
	}
	return sum
}

// outward calls yield with the masses a class may carry, the least cost first,
// until it returns false.
func (m *market) outward(c *class, yield func(d int, cost int64) bool) {
	l, r := c.split-1, c.split
	for l >= 0 || r < c.top {
		var left, right int64
		if l >= 0 {
			left = m.cost(c, l)
		}
		if r < c.top {
			right = m.cost(c, r)
		}
		if r >= c.top || l >= 0 && left <= right {
			if !yield(l, left) {
				return
			}
			l--
			continue
		}
		if !yield(r, right) {
			return
		}
		r++
	}
}

// reprice sets the prices of the sizes and works out those of all ways.
func (m *market) reprice(size []int64) {
	copy(m.size, size)
	for d := range m.cheapest {
		m.cheapest[d] = 1 << 62
	}
	m.cheapest[m.group[0]] = 0
	for w := 1; w < len(m.price); w++ {
		p := m.price[m.parent[w]] + size[m.outer[w]]
		m.price[w] = p
		if d := m.group[w]; p < m.cheapest[d] {
			m.cheapest[d] = p
		}
	}
}

// best returns the way that costs class c least at the present prices; of
// equal ones the first found, which is nearest to the target.
func (m *market) best(c *class) (way int32, value int64) {
	way, value = -1, 1<<62
	m.outward(c, func(d int, cost int64) bool {
		if cost >= value {
			return false
		}
		if cost+m.cheapest[d] >= value {
			return true
		}
		for _, w := range m.ways(d) {
			if v := m.of(c, w) + m.price[w]; v < value {
				way, value = w, v
			}
		}
		return true
	})
	return way, value
}

// bound returns the bound that the present prices give, setting every class's
// value.
func (m *market) bound() int64 {
	var sum int64
	for _, c := range m.classes {
		_, c.value = m.best(c)
		sum += c.value * int64(len(c.members))
	}
	for j, n := range m.stock {
		sum -= m.size[j] * n
	}
	return sum
}

// A choice is a way for a bar, with what it costs beyond the best one at the
// present prices.
type choice struct {
	way    int32
	regret int64
}

// choices lists the ways of a class whose regret is at most limit, least
// first, no more than most and those to keep; cut is the least regret of one
// left out.
func (m *market) choices(c *class, limit int64, most int, keep []int32) (all []choice, cut int64) {
	cut = limit + 1
	m.outward(c, func(d int, cost int64) bool {
		if cost-c.value > limit {
			return false
		}
		if cost+m.cheapest[d]-c.value > limit {
			return true
		}
		for _, w := range m.ways(d) {
			if r := m.of(c, w) + m.price[w] - c.value; r <= limit {
				all = append(all, choice{w, r})
			}
		}
		return true
	})
	slices.SortFunc(all, func(a, b choice) int {
		return cmp.Or(cmp.Compare(a.regret, b.regret), cmp.Compare(a.way, b.way))
	})
	if len(all) > most {
		rest := all[most:]
		cut = rest[0].regret
		all = all[:most]
		for _, ch := range rest {
			if slices.Contains(keep, ch.way) {
				all = append(all, ch)
			}
		}
	}
	return all, cut
}
