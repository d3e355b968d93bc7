package rack

import (
	"cmp"
	"math"
	"slices"

	"roomful"
)

// discs are the usual plates when no kit is given: the discs of the
// international weightlifting rules from 25 kg down with the 1.25 kg of common
// gyms, and the usual pound plates (common practice).
var discs = map[roomful.MassUnit][]float64{
	roomful.Kilogram: {25, 20, 15, 10, 5, 2.5, 2, 1.5, 1.25, 1, 0.5},
	roomful.Pound:    {45, 35, 25, 15, 10, 5, 2.5},
}

// usualPairs is how many pairs of a plate go on a bar when no kit is given.
const usualPairs = 6

// Side returns the plates on one side of a bar, largest innermost, so that the
// bar weighs load; ok is false when no plates make it exactly.
func (s *Stock) Side(d roomful.Division, load roomful.Mass) (bar roomful.Mass, plates []roomful.Mass, ok bool) {
	for _, b := range s.barsFor(d) {
		left := (load.Kg() - b.Kg()) / 2
		if left < -tiny {
			continue
		}
		if plates, ok := fill(s.pairs(load.Unit), left); ok {
			return b, plates, true
		}
	}
	return roomful.Mass{}, nil, false
}

// Onto returns the plates on one side of a bar so that it weighs load, with
// what is on already left there; ok is false when nothing added makes it.
func (s *Stock) Onto(bar roomful.Mass, on []roomful.Mass, load roomful.Mass) (plates []roomful.Mass, ok bool) {
	left := (load.Kg() - bar.Kg()) / 2
	pairs := slices.Clone(s.pairs(load.Unit))
	for _, p := range on {
		left -= p.Kg()
		if i := slices.Index(pairs, p); i >= 0 {
			pairs = slices.Delete(pairs, i, i+1)
		}
	}
	if left < -tiny {
		return nil, false
	}
	more, ok := fill(pairs, left)
	return append(slices.Clone(on), more...), ok
}

// Bar returns the bar of a division, the lightest there is when it has none.
func (s *Stock) Bar(d roomful.Division) (bar roomful.Mass, ok bool) {
	bars := s.barsFor(d)
	if len(bars) == 0 {
		return roomful.Mass{}, false
	}
	return bars[0], true
}

// barsFor lists the kit's bars, that of the division first: the heaviest for a
// and the lightest otherwise (20 and 15 kg, international weightlifting rules).
func (s *Stock) barsFor(d roomful.Division) []roomful.Mass {
	var bars []roomful.Mass
	for _, b := range s.Kit.Bars {
		if b.Count > 0 {
			bars = append(bars, b.Mass)
		}
	}
	slices.SortFunc(bars, func(a, b roomful.Mass) int {
		if d == roomful.DivisionA {
			a, b = b, a
		}
		return cmp.Compare(a.Kg(), b.Kg())
	})
	return bars
}

// pairs lists the plates there are a pair of, largest first, one entry for each
// pair.
func (s *Stock) pairs(u roomful.MassUnit) []roomful.Mass {
	var out []roomful.Mass
	if !s.Given {
		for _, v := range discs[u] {
			for range usualPairs {
				out = append(out, roomful.Mass{Value: v, Unit: u})
			}
		}
		return out
	}
	for _, p := range s.Kit.Plates {
		for range min(p.Count/2, usualPairs) {
			out = append(out, p.Mass)
		}
	}
	slices.SortStableFunc(out, func(a, b roomful.Mass) int {
		return cmp.Compare(b.Kg(), a.Kg())
	})
	return out
}

// slackGrams absorbs the rounding of pounds to whole grams.
const slackGrams = 4

// mostDiscs is how many plates one sleeve takes.
const mostDiscs = 8

// fill finds plates that weigh kg in all, the fewest that a search from the
// largest finds first.
func fill(pairs []roomful.Mass, kg float64) ([]roomful.Mass, bool) {
	type state struct {
		from  int
		grams int
		discs int
	}
	failed := map[state]bool{}
	var try func(from, grams, discs int) ([]roomful.Mass, bool)
	try = func(from, grams, discs int) ([]roomful.Mass, bool) {
		if grams <= slackGrams {
			return nil, true
		}
		at := state{from, grams, discs}
		if discs == 0 || failed[at] {
			return nil, false
		}
		for i := from; i < len(pairs); i++ {
			g := int(math.Round(pairs[i].Kg() * 1000))
			if g > grams+slackGrams || i > from && pairs[i] == pairs[i-1] {
				continue
			}
			if rest, ok := try(i+1, grams-g, discs-1); ok {
				return append([]roomful.Mass{pairs[i]}, rest...), true
			}
		}
		failed[at] = true
		return nil, false
	}
	return try(0, int(math.Round(kg*1000)), mostDiscs)
}
