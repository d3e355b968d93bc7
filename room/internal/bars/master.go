package bars

import (
	"cmp"
	"math"
	"slices"
)

// master is the linear program that finds the prices: each class of bars takes
// a mixture of ways, no size is used beyond its stock, and the cost is least. Its
// columns are made as they are needed (column generation, Gilmore and Gomory
// 1961), and its multipliers are the prices. Floating point is good enough
// here: whatever the prices are, the bound they give is worked out exactly.
type master struct {
	*market
	count    []int       // bars of each class that are open
	rows     int         // a row for each size, then one for each class
	inverse  [][]float64 // of the basis
	basis    []column    // the column in each row
	amount   []float64   // how much of it
	duals    []float64
	bestSize []int64
	bestAt   int64
	met      [][]int64 // prices on the way, the latest last
}

// column is a way of a class, or discs left in stock.
type column struct {
	class int // -1 for stock
	way   int32
	cost  float64
	rate  float64 // reduced cost when it was found
}

var slack = column{class: -1}

// newMaster starts with every open bar bare, which is always allowed. Left is the
// discs there are for them.
func newMaster(m *market, count []int, left key) *master {
	s := &master{market: m, count: count, rows: len(m.stock) + len(m.classes), bestAt: math.MinInt64, bestSize: make([]int64, len(m.stock))}
	s.basis, s.amount, s.duals = make([]column, s.rows), make([]float64, s.rows), make([]float64, s.rows)
	for i := range s.rows {
		row := make([]float64, s.rows)
		row[i] = 1
		s.inverse = append(s.inverse, row)
	}
	for j, n := range m.stock {
		if m.pack.field[j] != 0 {
			n = int64(m.pack.count(left, j))
		}
		s.amount[j] = float64(n)
		s.basis[j] = slack
	}
	for i, c := range m.classes {
		r := len(m.stock) + i
		s.amount[r] = float64(count[i])
		s.basis[r] = column{class: i, cost: float64(m.of(c, 0))}
		s.duals[r] = s.basis[r].cost
	}
	return s
}

// patience bounds the rounds of the linear program.
const patience = 400

// solve finds the prices with the best bound and sets them.
func (s *master) solve() (bound int64) {
	sizes := make([]int64, len(s.stock))
	for range patience {
		if s.slacken() {
			continue
		}
		for j := range sizes {
			if sizes[j] = int64(math.Round(max(0, -s.duals[j]))); s.pack.field[j] == 0 {
				sizes[j] = 0 // there is more than enough, and a search does not count it
			}
		}
		s.reprice(sizes)
		s.met = append(s.met, slices.Clone(sizes))
		if b := s.bound(); b > s.bestAt {
			s.bestAt = b
			copy(s.bestSize, sizes)
		}
		if !s.enter(s.attractive()) {
			break
		}
	}
	for _, col := range s.basis {
		if col.class >= 0 {
			s.classes[col.class].supports(col.way)
		}
	}
	s.reprice(s.bestSize)
	return s.bound()
}

// tolerance is how much, against the largest cost, a column must gain.
const tolerance = 1e-11

// slacken lets the stock of a size with a negative price go unused.
func (s *master) slacken() bool {
	worst, at := -tolerance*s.largest(), -1
	for j := range s.stock {
		if v := -s.duals[j]; v < worst {
			worst, at = v, j
		}
	}
	if at < 0 {
		return false
	}
	alpha := make([]float64, s.rows)
	for i := range alpha {
		alpha[i] = s.inverse[i][at]
	}
	return s.pivot(alpha, slack, worst)
}

// largest is the scale of costs, for tolerances.
func (s *master) largest() float64 {
	top := 1.0
	for _, c := range s.basis {
		top = max(top, c.cost)
	}
	return top
}

// attractive lists for each class the best way at the present prices, if it
// would lower the cost.
func (s *master) attractive() []column {
	var out []column
	for i, c := range s.classes {
		w, _ := s.best(c)
		col := column{class: i, way: w, cost: float64(s.of(c, w))}
		if col.rate = s.reduced(col); col.rate < -tolerance*s.largest() {
			out = append(out, col)
		}
	}
	slices.SortStableFunc(out, func(a, b column) int { return cmp.Compare(a.rate, b.rate) })
	return out
}

// reduced is what the cost changes by for each unit of a column.
func (s *master) reduced(c column) float64 {
	rate := c.cost - s.duals[len(s.stock)+c.class]
	for w := c.way; w > 0; w = s.parent[w] {
		rate -= s.duals[s.outer[w]]
	}
	return rate
}

// enter brings columns into the basis as long as they still gain; false when
// none did.
func (s *master) enter(cols []column) bool {
	moved := false
	for _, c := range cols {
		rate := s.reduced(c)
		if rate >= -tolerance*s.largest() {
			continue
		}
		alpha := make([]float64, s.rows)
		for i, row := range s.inverse {
			alpha[i] = row[len(s.stock)+c.class]
			for w := c.way; w > 0; w = s.parent[w] {
				alpha[i] += row[s.outer[w]]
			}
		}
		moved = s.pivot(alpha, c, rate) || moved
	}
	return moved
}

// pivot exchanges a column of the basis for the one whose coordinates are
// alpha.
func (s *master) pivot(alpha []float64, c column, rate float64) bool {
	out, step := -1, math.Inf(1)
	for i, a := range alpha {
		if a > 1e-9 {
			if t := s.amount[i] / a; t < step-1e-12 || t < step+1e-12 && out >= 0 && a > alpha[out] {
				out, step = i, t
			}
		}
	}
	if out < 0 {
		return false
	}
	step = max(step, 0)
	pivotRow, p := s.inverse[out], alpha[out]
	for k := range pivotRow {
		pivotRow[k] /= p
		s.duals[k] += rate * pivotRow[k]
	}
	for i, row := range s.inverse {
		if a := alpha[i]; i != out && a != 0 {
			s.amount[i] -= a * step
			for k, v := range pivotRow {
				row[k] -= a * v
			}
		}
	}
	s.amount[out], s.basis[out] = step, c
	return true
}

// supports notes a way that the linear program takes.
func (c *class) supports(way int32) {
	if !slices.Contains(c.support, way) {
		c.support = append(c.support, way)
	}
}

// decided puts on bars what the mixture agrees on, or at least the way it is
// most for when force is set. It reports how many bars it loaded.
func (s *master) decided(l *loading, open [][]int, force bool) int {
	most, n := -1, 0
	for i, col := range s.basis {
		if col.class < 0 || s.amount[i] <= 1e-6 {
			continue
		}
		for k := int(s.amount[i] + 1e-6); k > 0 && s.load(l, open, col); k-- {
			n++
		}
		if most < 0 || s.amount[i] > s.amount[most] {
			most = i
		}
	}
	if n == 0 && force && most >= 0 && s.load(l, open, s.basis[most]) {
		n++
	}
	return n
}

// load gives the next open bar of a class a way, if there are discs for it.
func (s *master) load(l *loading, open [][]int, col column) bool {
	bars := open[col.class]
	if len(bars) == 0 {
		return false
	}
	if _, ok := s.pack.take(l.left, s.key[col.way]); !ok {
		return false
	}
	s.put(l, s.classes[col.class], bars[0], col.way)
	open[col.class] = bars[1:]
	return true
}
