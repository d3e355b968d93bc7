package room

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"roomful"
)

// mostCalled is how many people a coach calls out one by one, for an order of their
// own or for work of their own (judgement). A bigger room hears whole blocks of the list.
const mostCalled = 40

// mostHeats is how many goes a class is split into at most (judgement).
const mostHeats = 6

// candidates lists what may take the waiting of a piece away, when it goes as asked.
func (h *house) candidates(ctx context.Context, p Piece, f roomful.Forecast) ([]arrangement, error) {
	asked := h.asked(p)
	crews := crewsOf(p.Entrants, p.Team.Size)
	quick := quickest(p, f)
	out := h.turnsOf(p, f, asked, quick)
	for _, place := range f.Places {
		out = append(out, h.wavesAt(p, f, place, quick)...)
		out = append(out, h.heatsAt(p, place, quick)...)
		elsewhere, err := h.away(ctx, p, place)
		if err != nil {
			return nil, err
		}
		out = append(out, elsewhere...)
	}
	out = slices.DeleteFunc(out, func(a arrangement) bool {
		fits := a.within(crews)
		return a.heats != fits.heats || a.waves != fits.waves || a.turns != fits.turns || crews > mostCalled && a.order != nil
	})
	return slices.CompactFunc(slices.SortedStableFunc(slices.Values(out), func(a, b arrangement) int { return cmp.Compare(a.name, b.name) }),
		func(a, b arrangement) bool { return a.name == b.name }), nil
}

// away lists some people who do something else, fewer and more of them.
func (h *house) away(ctx context.Context, p Piece, place roomful.PlaceForecast) (out []arrangement, err error) {
	over := place.Need - place.Count
	counts := []int{(over + 3) / 4, (over + 1) / 2, over}
	if counts = slices.DeleteFunc(counts, func(n int) bool { return n > mostCalled }); len(counts) == 0 {
		return nil, nil
	}
	leavers, err := h.leavers(ctx, p, place.Word)
	if err != nil {
		return nil, err
	}
	for _, n := range counts {
		if a, ok := h.elsewhere(p, place, leavers, n); ok {
			out = append(out, a)
		}
	}
	return out, nil
}

// turnsOf lists groups that start at different elements.
func (h *house) turnsOf(p Piece, f roomful.Forecast, a arrangement, quick []int) (out []arrangement) {
	if n := len(p.Round); n > 1 && turnable(p.Part) {
		for turns := 2; turns <= min(n, 4); turns++ {
			a := a
			a.turns, a.name = turns, fmt.Sprintf("%d groups, each starting at another element", turns)
			out = append(out, a, a.ordered(quick, "the quickest at the first"), a.ordered(backwards(quick), "the quickest at the last"))
			if turns == 2 {
				a.waves, a.gap = 2, h.round(p, f)/4
				a.name = fmt.Sprintf("2 groups, each starting at another element, the second %s later", clock(a.gap))
				out = append(out, a)
			}
		}
	}
	if list, ok := p.Format.(roomful.ForTime); ok && list.Rounds <= 1 && len(list.Ladder.Steps) == 0 && len(p.Round) > 2 {
		a.back, a.name = true, "half from the last element backwards; ask yourself first, the order is part of the piece"
		out = append(out, a)
	}
	return out
}

// wavesAt lists waves that come to a place one after the other.
func (h *house) wavesAt(p Piece, f roomful.Forecast, place roomful.PlaceForecast, quick []int) (out []arrangement) {
	at := h.timeAt(p, f, place.Word)
	for _, waves := range []int{2, 3} {
		for _, part := range []float64{0.5, 1} {
			a := h.asked(p)
			a.waves, a.gap = waves, seconds(at*part).Round(15*time.Second)
			if a.name = fmt.Sprintf("%d waves, %s apart", waves, clock(a.gap)); a.heats > 1 {
				a.name = fmt.Sprintf("%d waves in each heat, %s apart", waves, clock(a.gap))
			}
			if a.gap >= 15*time.Second {
				out = append(out, a, a.ordered(quick, "the quickest first"), a.ordered(backwards(quick), "the quickest last"))
			}
		}
	}
	return out
}

// heatsAt lists heats: as many as leave everybody a place, and fewer where that takes
// more than a class has time for.
func (h *house) heatsAt(p Piece, place roomful.PlaceForecast, quick []int) (out []arrangement) {
	asked := h.asked(p)
	enough := asked.heats * ((place.Need + place.Count - 1) / place.Count)
	counts := []int{enough}
	if enough > 4 {
		counts = []int{2, 3, 4, min(enough, mostHeats)}
	}
	for _, n := range counts {
		if n <= asked.heats {
			continue
		}
		a := asked
		a.heats, a.name = n, fmt.Sprintf("%d heats", n)
		out = append(out, a)
		if _, ok := p.Format.(roomful.ForTime); ok { // each heat lasts as long as its slowest
			out = append(out, a.ordered(quick, "the quickest together"))
		}
	}
	return out
}

// ordered is an arrangement with the crews in an order that has a name.
func (a arrangement) ordered(order []int, name string) arrangement {
	a.order, a.name = order, a.name+", "+name
	return a
}

// backwards is an order from its end.
func backwards(order []int) []int {
	order = slices.Clone(order)
	slices.Reverse(order)
	return order
}

// quickest orders crews by how soon they are done, or by how much they do in a
// window, as forecast.
func quickest(p Piece, f roomful.Forecast) []int {
	team := max(1, p.Team.Size)
	crews := crewsOf(p.Entrants, team)
	order := make([]int, crews)
	for i := range order {
		order[i] = i
	}
	score := func(crew int) float64 {
		if crew*team >= len(f.Athletes) {
			return 0
		}
		a := f.Athletes[crew*team]
		if f.Kind.HigherIsBetter() {
			return -a.Score.P50
		}
		return a.Score.P50
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(score(a), score(b)) })
	return order
}

// turnable reports whether the elements of a round may be done from another one
// on: not where a ladder or a time of its own ties them.
func turnable(p roomful.Part) bool {
	switch f := p.Format.(type) {
	case roomful.RoundsInTime:
		return len(f.Ladder.Steps) == 0
	case roomful.ForTime:
		return len(f.Ladder.Steps) == 0 && f.Rounds > 1
	case roomful.Stations, roomful.Intervals:
		return true
	}
	return false
}

// round returns how long a round lasts, on average over people.
func (h *house) round(p Piece, f roomful.Forecast) time.Duration {
	var sum float64
	for i, a := range f.Athletes {
		for k := range p.Entrants[i].Work.Round {
			if k += len(p.Entrants[i].Work.Once); k < len(a.Elements) && a.Cannot == 0 {
				sum += a.Elements[k].Seconds
			}
		}
	}
	return seconds(sum / float64(max(1, len(f.Athletes)))).Round(time.Minute)
}

// timeAt returns how long one visit to a place lasts, on average over people and
// the elements done there.
func (h *house) timeAt(p Piece, f roomful.Forecast, word string) float64 {
	var sum, n float64
	for i, a := range f.Athletes {
		for k, t := range p.Entrants[i].Work.All() {
			if k < len(a.Elements) && h.holds(t, word) {
				sum += a.Elements[k].Seconds
				n++
			}
		}
	}
	return sum / max(1, n)
}

// holds reports whether a task is done at a place.
func (h *house) holds(t roomful.Task, word string) bool {
	m := h.Lexicon.Movement(t.Movement)
	return m != nil && slices.ContainsFunc(h.Kit.Places(m, t), func(p roomful.Place) bool { return p.Word == word })
}

// named returns a movement's name.
func (h *house) named(id roomful.MovementID) string {
	if m := h.Lexicon.Movement(id); m != nil {
		return m.Name
	}
	return strings.ReplaceAll(string(id), "-", " ")
}
