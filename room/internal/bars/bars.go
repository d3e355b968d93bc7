// Package bars chooses the discs on each bar of a room so that the loads are as
// near to what was asked as the discs allow, and says how near that is to the
// best there can be.
//
// Everything is a whole number: masses in grains of the caller's choosing, costs
// in grains times weight. An answer that is called proven is proven exactly.
//
// The method, in the order of the files: what one sleeve can hold (sleeve.go);
// a price for each size of disc, such that bars choosing for themselves at these
// prices want about as many discs as there are (prices.go, from a linear program
// in master.go); a first loading at these prices (greedy.go); and a search over
// some of the bars or all (search.go) that follows every loading whose regret,
// what it costs beyond those choices, is small enough to matter. The prices give
// a bound below which no loading can fall, and a search over all bars raises it.
// solve.go and mend.go say what is searched when; wish.go tells what a bar lacks.
package bars

import "slices"

// Problem is what there is and what is wanted. Masses are in grains.
type Problem struct {
	Sizes  []Size // largest first, no two of one mass
	Sleeve int    // discs that one sleeve takes
	Bars   []Bar
}

// Size is a kind of disc.
type Size struct {
	Mass  int64
	Pairs int // how many bars can have one on each side
}

// Bar is one bar that is to be loaded.
type Bar struct {
	Bare    int64
	Wants   []Want // at least one; several people may lift one bar
	Ceiling int64  // the load is never above this
	// Floor is a load below which the bar should not be stripped: as few bars as
	// can be fall below theirs, whatever that costs the sum. 0 is none; it is not
	// above any target. It makes no
	// bar so heavy that the bare one would be nearer to the target.
	Floor int64
	// Previous is how many of each size are on a side now; nil when the bar is
	// new. Among loadings of one cost the one that moves fewest discs is taken.
	Previous []int
}

// Want is a load that somebody asks of a bar. A grain of deviation costs
// Weight.
type Want struct{ Target, Weight int64 }

// Answer is a loading of every bar.
type Answer struct {
	// Sides has for each bar the indices of sizes on one side, innermost first.
	Sides [][]int
	// Cost is the sum of weight times deviation; no loading costs less than Bound.
	// Bars below their floor are counted in Stripped, and cost nothing besides.
	Cost, Bound int64
	Stripped    int
	// Proven reports that no loading is better: in bars stripped first, then in
	// cost, then in discs moved.
	Proven bool
}

// cost is the deviation of a load times its weight, over all who want it.
func (b *Bar) cost(load int64) int64 {
	var sum int64
	for _, w := range b.Wants {
		d := load - w.Target
		if d < 0 {
			d = -d
		}
		sum += w.Weight * d
	}
	return sum
}

// highest is the largest target.
func (b *Bar) highest() int64 {
	t := b.Wants[0].Target
	for _, w := range b.Wants[1:] {
		t = max(t, w.Target)
	}
	return t
}

// middle is a load at which the cost is least: the weighted median of the
// targets.
func (b *Bar) middle() int64 {
	ws := slices.Clone(b.Wants)
	slices.SortFunc(ws, func(x, y Want) int { return int(min(1, max(-1, x.Target-y.Target))) })
	var all, below int64
	for _, w := range ws {
		all += w.Weight
	}
	for _, w := range ws {
		if below += w.Weight; 2*below >= all {
			return w.Target
		}
	}
	return ws[len(ws)-1].Target
}

// reach is the heaviest side worth looking at, in grains: within the ceiling,
// and no further from the target than the bare bar, or as it was before.
func (b *Bar) reach(sizes []Size) int64 {
	side := b.highest() - b.Bare
	var before int64
	for j, n := range b.Previous {
		before += int64(n) * sizes[j].Mass
	}
	return max(0, min((b.Ceiling-b.Bare)/2, max(side, before)))
}
