package bars

import (
	"cmp"
	"slices"
)

// search takes the open bars of a loading one by one and keeps, for each set of
// discs that may be left, the way there with the least regret. What exceeds the
// limit is of no use and is dropped. When more is left than the width allows,
// what has most regret goes, and the least regret among that bounds what the
// search has not seen.
type search struct {
	*market
	base   loading // the bars that are not open are as they are here
	width  int
	steps  int   // how many it may still take
	limit  int64 // regret that is of use
	cut    int64 // least regret of what was dropped though it might have been of use
	groups []group
	levels [][]state // by open bars done
	views  []view
}

// group is the open bars of one class with the ways worth trying.
type group struct {
	*class
	open []int
	list []choice
}

// state is where a search stands after some bars.
type state struct {
	left   key
	regret int64
	from   int32 // state of the level before
	chosen int32 // choice of this bar
}

// view is another set of prices, which judges better what is left when that is
// far from what the first prices expect.
type view struct {
	size []int64
	rest []int64 // by bars done: what the others pay at least, beyond the first prices
}

// generous is more steps than a search of few bars takes.
const generous = 1 << 24

// reopen returns a search for a loading that is better than the best known and
// comes to no more than slack above the floor. It differs from base in the open
// bars alone.
func (m *market) reopen(o *outlook, base loading, open []bool, width int, slack int64) *search {
	s := &search{market: m, width: width, steps: generous, base: loading{way: slices.Clone(base.way), left: base.left}}
	aim := min(o.floor+slack, o.best.cost-m.step)
	s.limit = aim<<m.shift - o.bound
	s.cut = s.limit + 1
	start := state{regret: s.part(open), left: s.base.left}
	s.levels = [][]state{{start}}
	for i := range s.groups {
		g := &s.groups[i]
		var cut int64
		g.list, cut = m.choices(g.class, s.limit-start.regret, max(8, width/4), append(s.waysNow(g.open), g.support...))
		s.cut = min(s.cut, start.regret+cut)
	}
	slices.SortStableFunc(s.groups, func(a, b group) int { return cmp.Compare(len(a.list), len(b.list)) })
	s.views = append(s.views, s.newView(s.size))
	for _, size := range o.others {
		s.views = append(s.views, s.newView(size))
	}
	return s
}

// part gives back the discs of the open bars, and returns the regret of the
// others.
func (s *search) part(open []bool) (regret int64) {
	for _, c := range s.classes {
		g := group{class: c}
		for _, bar := range c.members {
			way := s.base.way[bar]
			if open[bar] {
				g.open = append(g.open, bar)
				s.base.left = s.base.left.plus(s.key[way])
				continue
			}
			regret += s.of(c, way) + s.price[way] - c.value
			s.base.cost += s.of(c, way) >> s.shift
		}
		if len(g.open) > 0 {
			s.groups = append(s.groups, g)
		}
	}
	return regret
}

// waysNow lists the ways of open bars before they were reopened.
func (s *search) waysNow(open []int) []int32 {
	var out []int32
	for _, bar := range open {
		out = append(out, s.base.way[bar])
	}
	return out
}

// newView works out what the bars still to be loaded pay at other prices.
func (s *search) newView(size []int64) view {
	v := view{size: size, rest: []int64{0}}
	for i := len(s.groups) - 1; i >= 0; i-- {
		g := &s.groups[i]
		least := int64(1 << 62)
		for _, ch := range g.list {
			sum := s.of(g.class, ch.way)
			for w := ch.way; w > 0; w = s.parent[w] {
				sum += size[s.outer[w]]
			}
			least = min(least, sum)
		}
		for range g.open {
			v.rest = append(v.rest, v.rest[len(v.rest)-1]+least-g.value)
		}
	}
	slices.Reverse(v.rest)
	return v
}

// run returns the best loading within the limit.
func (s *search) run() (found loading, ok bool) {
	later := s.usesAfter()
	n := 0
	for i := range s.groups {
		for range s.groups[i].open {
			next := s.extend(s.levels[n], s.groups[i].list)
			n++
			s.levels = append(s.levels, s.keep(next, n, later[n]))
			if s.steps < 0 {
				s.cut = 0 // it has not seen enough to say anything
			}
			if s.steps < 0 || len(s.levels[n]) == 0 {
				return found, false
			}
		}
	}
	return s.trace(), true
}

// usesAfter returns for each number of bars done how many of each size the
// others can still use.
func (s *search) usesAfter() [][]int64 {
	later := [][]int64{make([]int64, len(s.stock))}
	for i := len(s.groups) - 1; i >= 0; i-- {
		most := make([]int64, len(s.stock))
		for _, ch := range s.groups[i].list {
			for j := range most {
				most[j] = max(most[j], int64(s.pack.count(s.key[ch.way], j)))
			}
		}
		for range s.groups[i].open {
			sum := slices.Clone(later[len(later)-1])
			for j := range sum {
				sum[j] += most[j]
			}
			later = append(later, sum)
		}
	}
	slices.Reverse(later)
	return later
}

// extend loads one more bar in every way, keeping for each key the least
// regret.
func (s *search) extend(from []state, list []choice) []state {
	seen := newTable(len(from))
	for i := range from {
		f := &from[i]
		if s.steps < 0 {
			break
		}
		for k := range list {
			regret := f.regret + list[k].regret
			if regret > s.limit {
				break
			}
			s.steps--
			if left, ok := s.pack.take(f.left, s.key[list[k].way]); ok {
				seen.offer(state{left, regret, int32(i), int32(k)})
			}
		}
	}
	return seen.states
}

// keep drops states that leave too much of what is dear, and the worst of more
// than width.
func (s *search) keep(all []state, n int, later []int64) []state {
	type ranked struct {
		at    int32
		total int64
	}
	rank := make([]ranked, 0, len(all))
	for i := range all {
		if t := all[i].regret + s.ahead(all[i].left, n, later); t <= s.limit {
			rank = append(rank, ranked{int32(i), t})
		}
	}
	if len(rank) > s.width {
		slices.SortFunc(rank, func(a, b ranked) int {
			return cmp.Or(cmp.Compare(a.total, b.total), cmp.Compare(all[a.at].left[0], all[b.at].left[0]), cmp.Compare(all[a.at].left[1], all[b.at].left[1]))
		})
		s.cut = min(s.cut, rank[s.width].total)
		rank = rank[:s.width]
	}
	out := make([]state, len(rank))
	for i, r := range rank {
		out[i] = all[r.at]
	}
	return out
}

// ahead is the least regret that the bars still to be loaded add, when n are done.
func (s *search) ahead(left key, n int, later []int64) int64 {
	var have [maxSizes]int64
	var worth int64
	for j, price := range s.size {
		have[j] = int64(s.pack.count(left, j))
		worth += price * have[j]
		have[j] = min(have[j], later[j])
	}
	most := int64(0)
	for i := range s.views {
		v := &s.views[i]
		sum := worth + v.rest[n]
		for j, price := range v.size {
			sum -= price * have[j]
		}
		most = max(most, sum)
	}
	return most
}

// trace follows the best last state back to the first.
func (s *search) trace() loading {
	none := make([]int64, len(s.stock))
	n := len(s.levels) - 1
	last, best, least := s.levels[n], 0, int64(1<<62)
	for i := range last {
		if r := last[i].regret + s.ahead(last[i].left, n, none); r < least {
			best, least = i, r
		}
	}
	l, at := s.base, int32(best)
	for i := len(s.groups) - 1; i >= 0; i-- {
		g := &s.groups[i]
		for _, bar := range g.open {
			st := s.levels[n][at]
			way := g.list[st.chosen].way
			l.way[bar] = way
			l.cost += s.of(g.class, way) >> s.shift
			l.left = l.left.minus(s.key[way])
			n, at = n-1, st.from
		}
	}
	return l
}

// maxSizes bounds the kinds of disc in one problem.
const maxSizes = 32
