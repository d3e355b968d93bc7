package room

import (
	"context"
	"fmt"
	"math"
	"slices"

	"roomful"
	"roomful/room/internal/deal"
)

// leaver is somebody who uses a place, and what they may do elsewhere.
type leaver struct {
	who, task int // of the piece's entrants, of their work
	ways      []way
}

// way is something that takes somebody away from a place, and what they lose by it.
type way struct {
	roomful.Choice
	loss int
	less bool // likely to keep the effort than as they are
}

// mostWays is how many ways are weighed for each person.
const mostWays = 6

// leaveRuns is how often a way is simulated to see whether it keeps the effort.
const leaveRuns = 32

// What leaving a place loses (judgement): what a version loses that is less likely to
// keep the effort, a little for each swap that the catalogue puts before it, and more
// than anything to have nowhere to go.
const (
	laterLoss   = 3
	nowhereLoss = 1000
)

// leavers lists who uses a place, each with the ways that the room has for them.
func (h *house) leavers(ctx context.Context, p Piece, word string) (out []leaver, err error) {
	if h.Else == nil {
		return nil, nil
	}
	for i, e := range p.Entrants {
		k := slices.IndexFunc(e.Work.All(), func(t roomful.Task) bool { return h.holds(t, word) })
		if k < 0 {
			continue
		}
		l := leaver{who: i, task: k}
		for n, c := range h.Else(e.ID, e.Work.All()[k]) {
			m := h.Lexicon.Movement(c.Movement)
			c.Slot = e.Work.All()[k].Slot // it takes the same turn
			if m != nil && !h.holds(c.Task, word) && h.Kit.Lacks(m) == "" && len(l.ways) < mostWays {
				l.ways = append(l.ways, way{Choice: c, loss: 1 + n*laterLoss})
			}
		}
		out = append(out, l)
	}
	return out, h.price(ctx, p, out)
}

// price adds to every way how much less likely it is to keep the effort, each person
// as if alone in the room. Partners share a score, so theirs say nothing.
func (h *house) price(ctx context.Context, p Piece, leavers []leaver) error {
	if p.Team.Size > 1 || len(leavers) == 0 {
		return nil
	}
	var entrants []roomful.Entrant
	for _, l := range leavers {
		e := p.Entrants[l.who]
		entrants = append(entrants, e)
		for _, w := range l.ways {
			other := e
			other.ID, other.Work = fmt.Sprint(e.ID, " at ", w.Movement), e.Work.With(l.task, w.Task)
			entrants = append(entrants, other)
		}
	}
	alone := *h
	alone.Kit, alone.Runs = nil, min(h.Runs, leaveRuns)
	p.Entrants = entrants
	f, err := h.Forecaster.Forecast(ctx, alone.request(p))
	if err != nil {
		return fmt.Errorf("forecasting who leaves a place to others: %w", err)
	}
	at := 0
	for _, l := range leavers {
		own := f.Athletes[at].OnIntent
		for n := range l.ways {
			at++
			if other := f.Athletes[at].OnIntent; own != nil && other != nil {
				l.ways[n].loss += int(math.Ceil(dropLoss * max(0, *own-*other)))
				l.ways[n].less = *own-*other > doesAsWell
			}
		}
		at++
	}
	return nil
}

// elsewhere has so many people leave a place for something else: those who lose least
// in all, with no more going anywhere than there is room for.
func (h *house) elsewhere(p Piece, place roomful.PlaceForecast, leavers []leaver, most int) (arrangement, bool) {
	a := h.asked(p)
	things := map[string]int{place.Word: 0}
	have := []int{len(leavers) - most}
	takes := func(t roomful.Task) (out []deal.Take) {
		for _, on := range h.Kit.Places(h.Lexicon.Movement(t.Movement), t) {
			n, known := things[on.Word]
			if !known {
				n = len(have)
				things[on.Word], have = n, append(have, h.Kit.Count(on.Word)-h.held(p, on.Word))
			}
			out = append(out, deal.Take{Thing: n, Count: on.Count})
		}
		return out
	}
	people := make([][]deal.Option, len(leavers))
	for i, l := range leavers {
		people[i] = []deal.Option{{Takes: []deal.Take{{Thing: 0, Count: 1}}}, {Loss: nowhereLoss}}
		for _, w := range l.ways {
			people[i] = append(people[i], deal.Option{Takes: takes(w.Task), Loss: w.loss})
		}
	}
	var to []string
	for i, j := range deal.Out(have, people).Chosen {
		if l := leavers[i]; j >= 2 {
			w := l.ways[j-2]
			a.moved = append(a.moved, move{l.who, l.task, w.Choice, w.less})
			if name := h.named(w.Movement); !slices.Contains(to, name) {
				to = append(to, name)
			}
		}
	}
	a.name = fmt.Sprintf("%d on %s instead of the %s", len(a.moved), list(to), place.Word)
	return a, len(a.moved) > 0
}

// held is how many of a thing people hold as they are, or all that there are when it is
// fewer.
func (h *house) held(p Piece, word string) (n int) {
	for _, e := range p.Entrants {
		for _, on := range h.Kit.Held(e.Work.All(), h.Lexicon) {
			if on.Word == word {
				n += on.Count
			}
		}
	}
	return min(n, h.Kit.Count(word))
}
