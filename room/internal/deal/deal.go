// Package deal hands out counted things: each person takes one of their options,
// each option takes so many of some things, and nobody takes what is not there.
// The sum of what the options lose is as small as can be, with a proof or a bound.
//
// Prices on the things (Lagrange multipliers) give the bound; a search that
// branches on people, the most undecided first, closes what is left of the gap.
// Losses are whole numbers, so that a bound above best-1 is a proof.
package deal

import (
	"cmp"
	"math"
	"slices"
)

// Take is so many of one thing.
type Take struct{ Thing, Count int }

// Option is what somebody may have, and what they lose by it.
type Option struct {
	Takes []Take
	Loss  int
}

// Result is who takes what.
type Result struct {
	Chosen []int // of each person's options; nil when nobody can be satisfied
	Loss   int   // in all
	Bound  int   // no deal loses less; equal to Loss when that is proven
}

// mostNodes bounds the search; demos need a few hundred.
const mostNodes = 200_000

// Out deals things out: have says how many there are of each.
func Out(have []int, people [][]Option) Result {
	s := &search{have: have, people: people, best: math.MaxInt}
	s.price()
	s.order()
	s.walk(0, slices.Clone(have), 0)
	out := Result{Chosen: s.chosen, Loss: s.best, Bound: s.best}
	if s.nodes > mostNodes {
		out.Bound = min(s.best, s.bound())
	}
	return out
}

// search is the work in hand.
type search struct {
	have   []int
	people [][]Option
	prices []float64
	who    []int     // people in the order of branching
	rest   []float64 // the least reduced loss of those from the k-th on
	taken  []int     // options on the way
	best   int
	chosen []int
	nodes  int
}

// reduced is what an option loses with what it takes paid for.
func (s *search) reduced(o Option) float64 {
	sum := float64(o.Loss)
	for _, t := range o.Takes {
		sum += s.prices[t.Thing] * float64(t.Count)
	}
	return sum
}

// cheapest returns the option of a person with the least reduced loss, and how
// much dearer the next is.
func (s *search) cheapest(options []Option) (at int, least, regret float64) {
	least, next := math.Inf(1), math.Inf(1)
	for i, o := range options {
		switch r := s.reduced(o); {
		case r < least:
			at, least, next = i, r, least
		case r < next:
			next = r
		}
	}
	return at, least, next - least
}

// rounds of the search for prices.
const rounds = 200

// price finds prices at which what people would take comes near to what there is,
// and keeps those with the highest bound.
func (s *search) price() {
	s.prices = make([]float64, len(s.have))
	best, top := math.Inf(-1), slices.Clone(s.prices)
	for n := range rounds {
		over := make([]float64, len(s.have)) // taken beyond what there is
		var value float64
		for t, h := range s.have {
			over[t] = -float64(h)
			value -= s.prices[t] * float64(h)
		}
		for _, options := range s.people {
			at, least, _ := s.cheapest(options)
			value += least
			if len(options) == 0 {
				continue
			}
			for _, t := range options[at].Takes {
				over[t.Thing] += float64(t.Count)
			}
		}
		if value > best {
			best, top = value, slices.Clone(s.prices)
		}
		for t := range s.prices {
			s.prices[t] = max(0, s.prices[t]+over[t]*step/float64(1+n))
		}
	}
	s.prices = top
}

// step is how far the first round moves a price for each thing that is missing.
const step = 4

// bound returns the least that any deal loses at these prices.
func (s *search) bound() int {
	sum := s.rest[0]
	for t, h := range s.have {
		sum -= s.prices[t] * float64(h)
	}
	return int(math.Ceil(sum - tiny))
}

// tiny absorbs rounding.
const tiny = 1e-6

// order puts those first who have most to lose by their second choice.
func (s *search) order() {
	regret := make([]float64, len(s.people))
	for i, options := range s.people {
		s.who = append(s.who, i)
		_, _, regret[i] = s.cheapest(options)
	}
	slices.SortStableFunc(s.who, func(a, b int) int { return cmp.Compare(regret[b], regret[a]) })
	s.rest = make([]float64, len(s.people)+1)
	for k := len(s.who) - 1; k >= 0; k-- {
		_, least, _ := s.cheapest(s.people[s.who[k]])
		s.rest[k] = s.rest[k+1] + least
	}
	s.taken = make([]int, len(s.people))
}

// walk tries every option of the k-th person and on, with so much left and lost.
func (s *search) walk(k int, left []int, lost int) {
	if s.nodes++; s.nodes > mostNodes {
		return
	}
	least := float64(lost) + s.rest[k]
	for t, n := range left {
		least -= s.prices[t] * float64(n)
	}
	if s.best != math.MaxInt && least > float64(s.best-1)+tiny {
		return
	}
	if k == len(s.who) {
		if lost < s.best {
			s.best, s.chosen = lost, slices.Clone(s.taken)
		}
		return
	}
	i := s.who[k]
	order := make([]int, len(s.people[i]))
	for j := range order {
		order[j] = j
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(s.reduced(s.people[i][a]), s.reduced(s.people[i][b]))
	})
	for _, j := range order {
		o := s.people[i][j]
		if !take(left, o.Takes, 1) {
			continue
		}
		s.taken[i] = j
		s.walk(k+1, left, lost+o.Loss)
		take(left, o.Takes, -1)
	}
}

// take takes things so many times over, or nothing when they are not there.
func take(left []int, takes []Take, times int) bool {
	for n, t := range takes {
		left[t.Thing] -= times * t.Count
		if left[t.Thing] < 0 {
			for _, back := range takes[:n+1] {
				left[back.Thing] += times * back.Count
			}
			return false
		}
	}
	return true
}
