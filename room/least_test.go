package room_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"roomful"
	"roomful/room"
)

// TestTurnsByHand has bounds that anybody can check, of two who share the only bar
// and of two who wait for it.
func TestTurnsByHand(t *testing.T) {
	pair := func(plates []roomful.Stock, share bool, targets ...float64) roomful.BarQuestion {
		q := roomful.BarQuestion{Plates: plates, Rack: []roomful.Stock{{Mass: roomful.Kg(20), Count: 1}}}
		for i, kg := range targets {
			w := wanted(string(rune('A'+i)), roomful.Kg(20), roomful.Kg(kg))
			w.MayShare = share
			q.Wanted = append(q.Wanted, w)
		}
		return q
	}
	for _, c := range []struct {
		name       string
		q          roomful.BarQuestion
		off, bound float64
	}{
		{"each at their target", pair(stock(1, 20, 2.5), true, 60, 65), 0, 0},
		{"no small disc: one of them is 5 off", pair(stock(1, 20), true, 60, 65), 5, 5},
		{"two more discs a side than may be changed", pair(stock(1, 20, 2.5, 1.25), true, 60, 67.5), 2.5, 0},
		{"the second waits and could have the tens then", pair(stock(1, 10), false, 40, 40), 20, 0},
		{"who waits lacks a disc whoever lifts before", pair(stock(1, 10), false, 40, 45), 25, 5},
	} {
		a := answer(t, c.q)
		if a.Deviation != c.off || a.Bound != c.bound || a.Proven != (c.off == c.bound) {
			t.Errorf("%s: %v off, bound %v, proven %v; want %v, bound %v", c.name, a.Deviation, a.Bound, a.Proven, c.off, c.bound)
		}
	}
}

// crowded draws a room with too few bars that can be solved by trying everything.
func crowded(t *rapid.T) roomful.BarQuestion {
	q := roomful.BarQuestion{SleevePlates: rapid.IntRange(1, 3).Draw(t, "sleeve"), Rack: []roomful.Stock{}}
	for _, kg := range rapid.SampledFrom([][]float64{{20, 10, 2.5}, {15, 5, 1.25}, {10, 5}}).Draw(t, "discs") {
		q.Plates = append(q.Plates, roomful.Stock{Mass: roomful.Kg(kg), Count: rapid.IntRange(0, 8).Draw(t, "count")})
	}
	for _, kg := range []float64{15, 20} {
		q.Rack = append(q.Rack, roomful.Stock{Mass: roomful.Kg(kg), Count: rapid.IntRange(0, 2).Draw(t, "bars")})
	}
	q.Rack[1].Count++
	base := rapid.Float64Range(30, 80).Draw(t, "base")
	for i := range rapid.IntRange(2, 5).Draw(t, "people") {
		target := math.Round(2*base*rapid.Float64Range(0.9, 1.2).Draw(t, "target")) / 2
		w := wanted(fmt.Sprint(i), roomful.Mass{}, roomful.Kg(target))
		w.MayShare = rapid.IntRange(0, 3).Draw(t, "share") > 0
		w.Weight = float64(rapid.IntRange(0, 3).Draw(t, "weight"))
		if rapid.Bool().Draw(t, "limited") {
			w.Ceiling = roomful.Kg(max(20, target))
		}
		q.Wanted = append(q.Wanted, w)
	}
	return q
}

// side is one way to load a bar: how many pairs of each disc, and what that costs
// whoever lifts it.
type side struct {
	pairs []int
	cost  float64
}

// sides lists every way to load somebody's bar, the cheapest first.
func sides(q roomful.BarQuestion, b roomful.LoadedBar) []side {
	var out []side
	pairs := make([]int, len(q.Plates))
	var add func(j, on int, load float64)
	add = func(j, on int, load float64) {
		if b.Ceiling.Value > 0 && load > b.Ceiling.Kg() {
			return
		}
		if j == len(pairs) {
			out = append(out, side{slices.Clone(pairs), b.Weight * math.Abs(load-b.Target.Kg())})
			return
		}
		for n := 0; n <= q.Plates[j].Count/2 && on+n <= q.SleevePlates; n++ {
			pairs[j] = n
			add(j+1, on+n, load+2*float64(n)*q.Plates[j].Mass.Kg())
		}
		pairs[j] = 0
	}
	add(0, 0, b.Bar.Kg())
	slices.SortStableFunc(out, func(x, y side) int { return int(math.Copysign(1, x.cost-y.cost)) })
	return out
}

// turnByTurn tries every loading of the bars of an answer in every order of those
// who share one, discs going from bar to bar between turns, and returns the least
// deviation. Somebody whose kind of bar is short has all the discs to choose from.
func turnByTurn(q roomful.BarQuestion, a roomful.BarAnswer) float64 {
	const all = 6 // turns, in which one, two or three lift equally often
	alone, lifters := 0.0, [][]side(nil)
	var orders [][]int // of each lifter: the places in their bar's queue they may have
	for i, b := range a.Bars {
		if slices.ContainsFunc(a.Short, func(l roomful.Lack) bool { return l.What == "bar" && l.Mass == b.Bar }) {
			alone += sides(q, b)[0].cost
			continue
		}
		lifters, orders = append(lifters, sides(q, b)), append(orders, []int{i, len(b.With) + 1})
	}
	best := math.Inf(1)
	used := make([][]int, all)
	for k := range used {
		used[k] = make([]int, len(q.Plates))
	}
	taken := map[string]bool{} // place of a bar's queue
	var try func(n int, sum float64)
	try = func(n int, sum float64) {
		if sum >= best {
			return
		}
		if n == len(lifters) {
			best = sum
			return
		}
		b, of := a.Bars[orders[n][0]], orders[n][1]
		bar := slices.Min(append([]string{b.Name}, b.With...))
		for place := range of {
			key := fmt.Sprint(bar, "/", place)
			if taken[key] {
				continue
			}
			taken[key] = true
			for _, s := range lifters[n] {
				if sum+s.cost >= best {
					break
				}
				if lift(q, used, place, of, s.pairs, 1) {
					try(n+1, sum+s.cost)
				}
				lift(q, used, place, of, s.pairs, -1)
			}
			delete(taken, key)
		}
	}
	try(0, 0)
	return alone + best
}

// lift puts discs on, or with sign -1 takes them off, in every so-manieth turn and
// reports whether there are enough.
func lift(q roomful.BarQuestion, used [][]int, place, of int, pairs []int, sign int) bool {
	enough := true
	for k := place; k < len(used); k += of {
		for j, n := range pairs {
			used[k][j] += sign * n
			enough = enough && used[k][j] <= q.Plates[j].Count/2
		}
	}
	return enough
}

// TestTurnsBound: the bound of bars shared in turn is never above the best there
// is, and what is called proven is the best.
func TestTurnsBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := crowded(t)
		a, err := room.Plates(q, 100_000)
		if err != nil {
			t.Fatal(err)
		}
		best := turnByTurn(q, a)
		if a.Bound > best+1e-9 || a.Deviation < best-1e-9 || a.Proven && a.Deviation > best+1e-9 || a.Proven != (a.Bound == a.Deviation) {
			t.Fatalf("%s\nbound %v, best %v, here %v, proven %v", shown(a), a.Bound, best, a.Deviation, a.Proven)
		}
	})
}
