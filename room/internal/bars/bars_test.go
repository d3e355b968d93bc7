package bars

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// enough is what the command searches.
const enough = 20_000_000

// TestByHand has answers that anybody can check.
func TestByHand(t *testing.T) {
	bar := func(target, ceiling, weight int64) Bar {
		return Bar{Bare: 20, Ceiling: ceiling, Wants: []Want{{target, weight}}}
	}
	for _, c := range []struct {
		name string
		p    Problem
		want string
	}{
		{"one disc a side", Problem{Sleeve: 6, Sizes: []Size{{20, 1}}, Bars: []Bar{bar(60, 60, 1)}}, "[[0]] 0"},
		{"the bare bar is nearer", Problem{Sleeve: 6, Sizes: []Size{{20, 1}}, Bars: []Bar{bar(39, 99, 1)}}, "[[]] 19"},
		{"never above the ceiling", Problem{Sleeve: 6, Sizes: []Size{{20, 1}, {5, 1}}, Bars: []Bar{bar(59, 59, 1)}}, "[[1]] 29"},
		{"the heavier weight has the pair", Problem{Sleeve: 6, Sizes: []Size{{20, 1}}, Bars: []Bar{bar(60, 60, 1), bar(60, 60, 2)}}, "[[] [0]] 40"},
		{"a full sleeve", Problem{Sleeve: 2, Sizes: []Size{{10, 9}}, Bars: []Bar{bar(100, 100, 1)}}, "[[0 0]] 40"},
		{"the twenty goes where the tens are not enough", Problem{Sleeve: 6, Sizes: []Size{{20, 1}, {10, 3}}, Bars: []Bar{bar(60, 60, 1), bar(80, 80, 1)}}, "[[0] [1 1 1]] 0"},
		{"the fewest discs", Problem{Sleeve: 6, Sizes: []Size{{20, 1}, {10, 3}, {5, 4}}, Bars: []Bar{bar(60, 60, 1)}}, "[[0]] 0"},
		{"heavier than its target", Problem{Sleeve: 6, Sizes: []Size{{5, 1}}, Bars: []Bar{bar(15, 30, 1)}}, "[[]] 5"},
		{"no discs", Problem{Sleeve: 6, Bars: []Bar{bar(60, 60, 3)}}, "[[]] 120"},
	} {
		a := Solve(c.p, enough)
		if got := fmt.Sprint(a.Sides, " ", a.Cost); got != c.want || !a.Proven || a.Bound != a.Cost {
			t.Errorf("%s: %s, bound %d, proven %v; want %s", c.name, got, a.Bound, a.Proven, c.want)
		}
	}
}

// TestFloors strips as few bars as can be, whatever the sum: of one pair of 20
// and two bars, one more pair of 10 keeps the second from being stripped.
func TestFloors(t *testing.T) {
	bar := func(target, weight, floor int64) Bar {
		return Bar{Bare: 20, Ceiling: target, Floor: floor, Wants: []Want{{target, weight}}}
	}
	p := Problem{Sleeve: 6, Sizes: []Size{{20, 1}, {10, 1}}, Bars: []Bar{bar(80, 3, 0), bar(60, 1, 0)}}
	if a := Solve(p, enough); a.Cost != 40 || fmt.Sprint(a.Sides) != "[[0 1] []]" {
		t.Errorf("without floors %v", a)
	}
	p.Bars[0].Floor, p.Bars[1].Floor = 40, 40
	a := Solve(p, enough)
	if a.Cost != 20*3+20 || a.Stripped != 0 || !a.Proven || fmt.Sprint(a.Sides) != "[[0] [1]]" {
		t.Errorf("with floors %v", a)
	}
	p.Bars[1].Floor = 60
	if a := Solve(p, enough); a.Stripped != 0 || a.Cost != 40*3 || fmt.Sprint(a.Sides) != "[[1] [0]]" {
		t.Errorf("with a floor at the target %v", a)
	}
	p.Sizes = p.Sizes[1:]
	if a := Solve(p, enough); a.Stripped != 1 || !a.Proven {
		t.Errorf("with too few discs %v", a)
	}
}

// TestPrevious keeps discs where they are when that costs nothing.
func TestPrevious(t *testing.T) {
	p := Problem{Sleeve: 6, Sizes: []Size{{20, 2}, {10, 4}, {5, 2}},
		Bars: []Bar{{Bare: 20, Ceiling: 70, Wants: []Want{{70, 1}}, Previous: []int{0, 2, 0}}}}
	a := Solve(p, enough)
	if fmt.Sprint(a.Sides) != "[[1 1 2]]" || a.Cost != 0 || !a.Proven {
		t.Errorf("%v: the two tens stay and a five is added", a)
	}
}

// TestShared weighs everybody who lifts a bar: the one load is the weighted
// median of what they ask.
func TestShared(t *testing.T) {
	p := Problem{Sleeve: 6, Sizes: []Size{{10, 2}, {5, 2}, {1, 5}},
		Bars: []Bar{{Bare: 20, Ceiling: 100, Wants: []Want{{40, 1}, {50, 3}, {56, 1}}}}}
	if a := Solve(p, enough); a.Cost != 10+0+6 || !a.Proven {
		t.Errorf("%v", a)
	}
}

// small draws a problem that can be solved by trying everything.
func small(t *rapid.T) Problem {
	masses := rapid.SampledFrom([][]int64{{40, 20, 10}, {15, 10, 5, 2}, {25, 20, 5}, {lbGrains * 10, kgGrains * 5, lbGrains * 5}}).Draw(t, "masses")
	unit := masses[len(masses)-1]
	p := Problem{Sleeve: rapid.IntRange(1, 4).Draw(t, "sleeve")}
	for _, m := range masses {
		p.Sizes = append(p.Sizes, Size{m, rapid.IntRange(0, 3).Draw(t, "pairs")})
	}
	for range rapid.IntRange(1, 4).Draw(t, "bars") {
		b := Bar{Bare: unit * rapid.Int64Range(2, 4).Draw(t, "bare")}
		for range rapid.IntRange(1, 2).Draw(t, "people") {
			b.Wants = append(b.Wants, Want{unit * rapid.Int64Range(1, 24).Draw(t, "target") / 2, rapid.Int64Range(0, 3).Draw(t, "weight")})
		}
		b.Ceiling = max(b.Bare, b.Wants[0].Target+unit*rapid.Int64Range(0, 3).Draw(t, "over"))
		if rapid.Bool().Draw(t, "floored") {
			b.Floor = max(0, b.lowest()-unit)
		}
		if rapid.Bool().Draw(t, "loaded") {
			b.Previous = make([]int, len(masses))
			b.Previous[rapid.IntRange(0, len(masses)-1).Draw(t, "had")] = 1
		}
		p.Bars = append(p.Bars, b)
	}
	return p
}

func (b *Bar) lowest() int64 {
	return slices.MinFunc(b.Wants, func(x, y Want) int { return int(x.Target - y.Target) }).Target
}

// judged is what a loading is judged by.
type judged struct {
	stripped int
	cost     int64
	moved    int
}

func (j judged) worse(o judged) bool {
	if j.stripped != o.stripped {
		return j.stripped > o.stripped
	}
	return j.cost > o.cost || j.cost == o.cost && j.moved > o.moved
}

// judge adds what one bar's side comes to.
func (j judged) judge(p Problem, bar int, counts []int) judged {
	b := &p.Bars[bar]
	load := b.Bare
	for k, n := range counts {
		load += 2 * int64(n) * p.Sizes[k].Mass
		if b.Previous != nil {
			j.moved += max(n-b.Previous[k], b.Previous[k]-n)
		}
	}
	if load < b.Floor {
		j.stripped++
	}
	j.cost += b.cost(load)
	return j
}

// everything tries every loading.
func everything(p Problem) judged {
	left := make([]int, len(p.Sizes))
	for j, z := range p.Sizes {
		left[j] = z.Pairs
	}
	best := judged{stripped: len(p.Bars) + 1}
	counts := make([]int, len(p.Sizes))
	var try func(bar, size, room int, load int64, sum judged)
	try = func(bar, size, room int, load int64, sum judged) {
		switch {
		case load > p.Bars[bar].Ceiling, p.Bars[bar].Floor > 0 && load > p.Bars[bar].Bare+2*p.Bars[bar].reach(p.Sizes):
			return
		case size < len(p.Sizes):
			most := min(left[size], room)
			for n := 0; n <= most; n++ {
				counts[size] = n
				left[size] -= n
				try(bar, size+1, room-n, load+2*int64(n)*p.Sizes[size].Mass, sum)
				left[size] += n
			}
			counts[size] = 0
			return
		}
		sum = sum.judge(p, bar, counts)
		if bar+1 < len(p.Bars) {
			kept := slices.Clone(counts)
			clear(counts)
			try(bar+1, 0, p.Sleeve, p.Bars[bar+1].Bare, sum)
			copy(counts, kept)
		} else if best.worse(sum) {
			best = sum
		}
	}
	try(0, 0, p.Sleeve, p.Bars[0].Bare, judged{})
	return best
}

// counted turns a side into counts.
func counted(p Problem, side []int) []int {
	counts := make([]int, len(p.Sizes))
	for _, j := range side {
		counts[j]++
	}
	return counts
}

// held fails when an answer breaks a rule or says of itself what is not so.
func held(t interface{ Fatalf(string, ...any) }, p Problem, a Answer) judged {
	used := make([]int, len(p.Sizes))
	var sum judged
	for i, side := range a.Sides {
		load := p.Bars[i].Bare
		for _, j := range side {
			used[j]++
			load += 2 * p.Sizes[j].Mass
		}
		if !slices.IsSorted(side) || len(side) > p.Sleeve || load > p.Bars[i].Ceiling {
			t.Fatalf("bar %d has %v, %d in all, sleeve %d, ceiling %d", i, side, load, p.Sleeve, p.Bars[i].Ceiling)
		}
		sum = sum.judge(p, i, counted(p, side))
	}
	for j, n := range used {
		if n > p.Sizes[j].Pairs {
			t.Fatalf("%d pairs of %d used, %d there", n, p.Sizes[j].Mass, p.Sizes[j].Pairs)
		}
	}
	if a.Cost != sum.cost || a.Stripped != sum.stripped || a.Bound > a.Cost || a.Proven && a.Bound != a.Cost {
		t.Fatalf("it says %+v and comes to %+v", a, sum)
	}
	return sum
}

// TestEverything compares with trying every loading.
func TestEverything(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := small(t)
		a := Solve(p, enough)
		got, want := held(t, p, a), everything(p)
		if got != want || !a.Proven {
			t.Fatalf("%+v, proven %v; the best is %+v", got, a.Proven, want)
		}
	})
}

// TestHurried holds that an answer cut short keeps every rule, and that its
// bound is below the best.
func TestHurried(t *testing.T) {
	for _, r := range []room{kilos, pounds, mixed} {
		for seed := range uint64(6) {
			p := r.problem(20, 0.8, seed)
			hurried, best := Solve(p, 1), Solve(p, enough)
			held(t, p, hurried)
			held(t, p, best)
			if hurried.Bound > best.Cost || hurried.Cost < best.Bound || best.Cost > hurried.Cost {
				t.Errorf("%s %d: hurried %d to %d, at leisure %d to %d", r.name, seed, hurried.Bound, hurried.Cost, best.Bound, best.Cost)
			}
		}
	}
}

// TestOrder holds that the order of the bars does not change how near they
// come, and that the same question has the same answer.
func TestOrder(t *testing.T) {
	for seed := range uint64(10) {
		p := kilos.problem(14, 0.9, seed)
		a, again := Solve(p, enough), Solve(p, enough)
		if fmt.Sprint(a) != fmt.Sprint(again) {
			t.Errorf("seed %d: %v and %v", seed, a, again)
		}
		rng := rand.New(rand.NewPCG(seed, 0))
		rng.Shuffle(len(p.Bars), func(i, j int) { p.Bars[i], p.Bars[j] = p.Bars[j], p.Bars[i] })
		if b := Solve(p, enough); b.Cost != a.Cost || !a.Proven || !b.Proven {
			t.Errorf("seed %d: %d and, in another order, %d", seed, a.Cost, b.Cost)
		}
	}
}

// TestCBC compares with a general solver for mixed-integer programs, CBC of
// the COIN-OR project (Forrest and Lougee-Heimer 2005, doi
// 10.1287/educ.1053.0020). Where it proves its answer both must agree; where it
// does not ours must not be worse. SLOW=1 holds it against 35 instances with half a
// minute each.
func TestCBC(t *testing.T) {
	seeds := uint64(2)
	slow := os.Getenv("SLOW") != ""
	if slow {
		seeds = 7
	}
	for _, c := range []struct {
		room
		bars   int
		scarce float64
		unit   float64
		limit  time.Duration
	}{
		{kilos, 12, 0.7, 1, 20 * time.Second}, {kilos, 40, 0.7, 1, 20 * time.Second}, {pounds, 24, 0.7, 1, 20 * time.Second},
		{mixed, 4, 0.7, kgGrains, time.Second}, {mixed, 24, 0.5, kgGrains, time.Second},
	} {
		if slow {
			c.limit = 30 * time.Second
		}
		for seed := range seeds {
			p := c.problem(c.bars, c.scarce, seed)
			a := Solve(p, enough)
			held(t, p, a)
			want, optimal := cbc(t, p, c.unit, c.limit)
			got := float64(a.Cost) / c.unit
			if got > want+1e-4 || optimal && float64(a.Bound)/c.unit > want+1e-4 {
				t.Errorf("%s, %d bars, seed %d: %g, bound %g; cbc %g, optimal %v", c.name, c.bars, seed, got, float64(a.Bound)/c.unit, want, optimal)
			}
		}
	}
}

// TestGLPK compares rooms of up to eight bars with a second general solver, the GNU
// Linear Programming Kit, which proves them in moments.
func TestGLPK(t *testing.T) {
	for _, c := range []room{kilos, pounds} {
		for _, n := range []int{2, 4, 6, 8} {
			for seed := range uint64(2) {
				p := c.problem(n, 0.7, seed)
				a := Solve(p, enough)
				held(t, p, a)
				if want, optimal := glpk(t, p); optimal && math.Abs(float64(a.Cost)-want) > 1e-6*max(1, want) {
					t.Errorf("%s, %d bars, seed %d: %d, glpk %g", c.name, n, seed, a.Cost, want)
				}
			}
		}
	}
}

// TestTooFine refuses figures whose sums would not fit.
func TestTooFine(t *testing.T) {
	p := Problem{Sleeve: 1, Sizes: []Size{{1 << 50, 1}}, Bars: []Bar{{Bare: 1, Ceiling: 1 << 52, Wants: []Want{{1 << 51, 1 << 12}}}}}
	if p.Fits() {
		t.Error("2^63 does not fit")
	}
}

// TestManyKinds reckons with more kinds of disc than fit into a key, and with
// more ways than are looked at, and then claims no proof.
func TestManyKinds(t *testing.T) {
	p := Problem{Sleeve: 12}
	for m := int64(30); m > 0; m-- {
		p.Sizes = append(p.Sizes, Size{m, 100})
	}
	for i := range int64(60) {
		p.Bars = append(p.Bars, Bar{Bare: 20, Ceiling: 400 + i, Wants: []Want{{400 + i, 1}}})
	}
	a := Solve(p, 100_000)
	held(t, p, a)
	if a.Proven || a.Bound != 0 {
		t.Errorf("bound %d, proven %v", a.Bound, a.Proven)
	}
}

// TestWishes: of one pair of tens and one of ones the second bar gets none, and
// lacks both.
func TestWishes(t *testing.T) {
	b := func(weight int64) Bar { return Bar{Bare: 20, Ceiling: 45, Wants: []Want{{43, weight}}} }
	p := Problem{Sleeve: 6, Sizes: []Size{{10, 1}, {1, 1}}, Bars: []Bar{b(2), b(1)}}
	w := Wishes(p, Solve(p, enough))
	if got := fmt.Sprint(w); got != "[{42 44 []} {42 44 [1 1]}]" {
		t.Errorf("%s", got)
	}
}

// BenchmarkSolve loads made-up rooms, forty of each kind and size, and tells
// the slowest and how many are proven.
func BenchmarkSolve(b *testing.B) {
	for _, r := range []room{kilos, pounds, mixed} {
		for _, n := range []int{12, 24, 40} {
			b.Run(fmt.Sprintf("%s/%d", r.name, n), func(b *testing.B) {
				var slowest time.Duration
				proven, all := 0, 0
				for b.Loop() {
					for seed := range uint64(40) {
						p := r.problem(n, []float64{0.5, 0.8, 1, 1.3}[seed%4], seed)
						start := time.Now()
						if Solve(p, enough).Proven {
							proven++
						}
						all++
						slowest = max(slowest, time.Since(start))
					}
				}
				b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(all)/1000, "ms/room")
				b.ReportMetric(float64(slowest.Microseconds())/1000, "ms/slowest")
				b.ReportMetric(100*float64(proven)/float64(all), "%proven")
			})
		}
	}
}
