package bars

import "slices"

// Wish is what a bar could carry if no disc were short.
type Wish struct {
	// Below and Above are the nearest loads to the target within the ceiling; -1
	// when there is none.
	Below, Above int64
	// Missing has for each size the pairs that the bar would need beyond its own
	// and the spare ones to be as near to its target as can be; nil when it is so
	// already.
	Missing []int
}

// fewWays bounds the ways looked at for wishes, which are advice.
const fewWays = 1 << 16

// Wishes tells what each bar of an answer lacks. Spare discs are given to the
// first bar that wishes for them.
func Wishes(p Problem, a Answer) []Wish {
	plenty := p
	plenty.Sizes = slices.Clone(p.Sizes)
	spare := make([]int, len(p.Sizes))
	for j := range p.Sizes {
		spare[j] = p.Sizes[j].Pairs
		plenty.Sizes[j].Pairs = p.Sleeve
	}
	for _, side := range a.Sides {
		for _, j := range side {
			spare[j]--
		}
	}
	sc, _ := newScale(&plenty)
	m := newMarket(&plenty, sc, fewWays)
	out := make([]Wish, len(p.Bars))
	for _, c := range m.classes {
		for _, i := range c.members {
			out[i] = m.wish(c, a.Sides[i], spare)
		}
	}
	return out
}

// wish is what one bar lacks.
func (m *market) wish(c *class, side []int, spare []int) Wish {
	w := Wish{Below: -1, Above: -1}
	if c.split > 0 {
		w.Below = c.Bare + 2*m.sum[c.split-1]
	}
	if c.split < c.top {
		w.Above = c.Bare + 2*m.sum[c.split]
	}
	load := c.Bare
	for _, j := range side {
		load += 2 * m.sizes[j].Mass
	}
	m.outward(c, func(d int, _ int64) bool {
		if c.cost(c.Bare+2*m.sum[d]) < c.cost(load) {
			w.Missing = m.missing(d, side, spare)
		}
		return false
	})
	return w
}

// missing returns the pairs that the least wanting way to mass d needs beyond
// those on a side and the spare ones, and takes the latter.
func (m *market) missing(d int, side, spare []int) []int {
	pool := slices.Clone(spare)
	for _, j := range side {
		pool[j]++
	}
	var best []int
	least := 0
	var used []int
	for _, w := range m.ways(d) {
		need, lack := make([]int, len(pool)), make([]int, len(pool))
		for _, j := range m.discs(w) {
			need[j]++
		}
		for j := range need {
			lack[j] = max(0, need[j]-pool[j])
		}
		if n := total(lack); best == nil || n < least {
			best, least, used = lack, n, need
		}
	}
	for j := range spare {
		spare[j] = max(0, pool[j]-used[j])
	}
	return best
}
