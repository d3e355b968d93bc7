package room

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"roomful"
)

// arrangement is a way for a class to go through a piece.
type arrangement struct {
	name  string
	heats int           // 1 for all at once
	waves int           // 1 for all together
	gap   time.Duration // between waves
	turns int           // groups that start at different elements, 1 for all at the first
	moved []move        // people who do something else
}

// move is a person who does something else in the place of an element.
type move struct {
	who    int // of the piece's entrants
	task   int // of their work, once, round and last
	choice roomful.Choice
}

// outcome is how an arrangement goes.
type outcome struct {
	arrangement
	over     time.Duration // when the last is done
	heat     []heat
	wave     []roomful.Wave
	wait     time.Duration // of each, on average
	longest  time.Duration // of whoever waits longest, on average over the runs
	onIntent float64       // mean probability of meeting the effort, NaN when none is stated
	touched  []string      // names
}

// heat is one of the groups that go through a piece on their own.
type heat struct {
	people   []string // ids
	forecast roomful.Forecast
	length   time.Duration
	from     string // where the length comes from
}

// places returns the use of places in the first heat, the fullest.
func (o outcome) places() []roomful.PlaceForecast {
	if len(o.heat) == 0 {
		return nil
	}
	return o.heat[0].forecast.Places
}

// together is as it is when nobody says otherwise.
var together = arrangement{heats: 1, waves: 1, turns: 1}

// try simulates an arrangement of a piece.
func (h *house) try(ctx context.Context, p Piece, a arrangement) (outcome, error) {
	out := outcome{arrangement: a, onIntent: math.NaN()}
	entrants := h.arranged(p, a, &out)
	var wait, intent float64
	stated := 0
	for n := range a.heats {
		one := p
		if one.Entrants = share(entrants, n, a.heats, p.Team.Size); len(one.Entrants) == 0 {
			continue
		}
		f, err := h.Forecaster.Forecast(ctx, h.request(one))
		if err != nil {
			return out, err
		}
		g := heat{forecast: f}
		for _, e := range one.Entrants {
			g.people = append(g.people, e.ID)
		}
		g.length, g.from = lasts(p.Part, f, time.Duration(a.waves-1)*a.gap)
		if out.over += g.length; n > 0 {
			out.over += h.Gym.Hour.HeatChange
		}
		out.heat = append(out.heat, g)
		for _, one := range f.Athletes {
			wait += one.WaitMean
			out.longest = max(out.longest, seconds(one.WaitMean))
			if one.OnIntent != nil {
				intent += *one.OnIntent
				stated++
			}
		}
	}
	out.wait = seconds(wait / float64(len(entrants)))
	if stated > 0 {
		out.onIntent = intent / float64(stated)
	}
	return out, nil
}

// arranged returns the entrants as an arrangement has them and notes who does
// something else than with everybody together.
func (h *house) arranged(p Piece, a arrangement, out *outcome) []roomful.Entrant {
	entrants := slices.Clone(p.Entrants)
	touched := map[int]bool{}
	for _, m := range a.moved {
		entrants[m.who].Work = withTask(entrants[m.who].Work, m.task, m.choice.Task)
		touched[m.who] = true
	}
	team := max(1, p.Team.Size)
	crews := (len(entrants) + team - 1) / team
	for i := range entrants {
		crew := i / team
		if n := crew * a.turns / crews; n > 0 && a.turns > 1 {
			entrants[i].Work.Round = turned(entrants[i].Work.Round, n*len(entrants[i].Work.Round)/a.turns)
			touched[i] = true
		}
		if n := crew * a.waves / crews; a.waves > 1 {
			entrants[i].Wait = time.Duration(n) * a.gap
			touched[i] = touched[i] || n > 0
			if n >= len(out.wave) {
				out.wave = append(out.wave, roomful.Wave{Part: p.Name(), N: n + 1, After: entrants[i].Wait})
			}
			out.wave[n].People = append(out.wave[n].People, entrants[i].ID)
		}
		if a.heats > 1 && crew*a.heats/crews > 0 {
			touched[i] = true
		}
	}
	for i := range entrants {
		if touched[i] {
			out.touched = append(out.touched, entrants[i].Name)
		}
	}
	return entrants
}

// share returns the n-th of so many parts of the entrants; partners stay
// together.
func share(all []roomful.Entrant, n, parts, team int) []roomful.Entrant {
	team = max(1, team)
	crews := (len(all) + team - 1) / team
	return all[min(len(all), n*crews/parts*team):min(len(all), (n+1)*crews/parts*team)]
}

// turned returns tasks that begin at the n-th and go round.
func turned(tasks []roomful.Task, n int) []roomful.Task {
	return slices.Concat(tasks[n:], tasks[:n])
}

// withTask returns work with one task replaced, counted over once, round and
// last.
func withTask(w roomful.Work, n int, t roomful.Task) roomful.Work {
	for _, list := range []*[]roomful.Task{&w.Once, &w.Round, &w.Last} {
		if n < len(*list) {
			*list = slices.Clone(*list)
			(*list)[n] = t
			return w
		}
		n -= len(*list)
	}
	return w
}

// seconds turns seconds into a duration.
func seconds(s float64) time.Duration { return time.Duration(s * float64(time.Second)) }

// candidates lists what may take the waiting of a piece away.
func (h *house) candidates(p Piece, f roomful.Forecast) []arrangement {
	var out []arrangement
	if n := len(p.Round); n > 1 && turnable(p.Part) {
		for turns := 2; turns <= min(n, 4); turns++ {
			a := together
			a.turns, a.name = turns, fmt.Sprintf("%d groups, each starting at another element", turns)
			out = append(out, a)
			if turns == 2 {
				a.waves, a.gap = 2, h.round(p, f)/4
				a.name = fmt.Sprintf("2 groups, each starting at another element, the second %s later", clock(a.gap))
				out = append(out, a)
			}
		}
	}
	for _, place := range f.Places {
		at := h.timeAt(p, f, place.Word)
		for _, waves := range []int{2, 3} {
			for _, part := range []float64{0.5, 1} {
				a := together
				a.waves, a.gap = waves, seconds(at*part).Round(15*time.Second)
				a.name = fmt.Sprintf("%d waves, %s apart", waves, clock(a.gap))
				if a.gap >= 15*time.Second {
					out = append(out, a)
				}
			}
		}
		over := place.Need - place.Count
		for _, n := range []int{(over + 3) / 4, (over + 1) / 2, over} {
			if a, ok := h.elsewhere(p, place, n); ok {
				out = append(out, a)
			}
		}
		heats := (place.Need + place.Count - 1) / place.Count
		if heats >= 2 && heats <= 4 {
			a := together
			a.heats, a.name = heats, fmt.Sprintf("%d heats", heats)
			out = append(out, a)
		}
	}
	return slices.CompactFunc(slices.SortedStableFunc(slices.Values(out), func(a, b arrangement) int { return cmp.Compare(a.name, b.name) }),
		func(a, b arrangement) bool { return a.name == b.name })
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

// elsewhere moves so many people from a place to something else, the last of the
// list first.
func (h *house) elsewhere(p Piece, place roomful.PlaceForecast, most int) (arrangement, bool) {
	a := together
	if h.Else == nil {
		return a, false
	}
	spare := map[string]int{}
	for i := len(p.Entrants) - 1; i >= 0 && len(a.moved) < most; i-- {
		e := p.Entrants[i]
		for k, t := range e.Work.All() {
			if !h.holds(t, place.Word) {
				continue
			}
			if c, ok := h.other(e, t, place.Word, spare); ok {
				a.moved = append(a.moved, move{i, k, c})
			}
			break
		}
	}
	if len(a.moved) == 0 {
		return a, false
	}
	var to []string
	for _, m := range a.moved {
		if name := h.named(m.choice.Movement); !slices.Contains(to, name) {
			to = append(to, name)
		}
	}
	a.name = fmt.Sprintf("%d on %s instead of the %s", len(a.moved), strings.Join(to, " and "), place.Word)
	return a, true
}

// other finds what a person may do instead of a task away from a place, where
// there is a place for it still.
func (h *house) other(e roomful.Entrant, t roomful.Task, word string, taken map[string]int) (roomful.Choice, bool) {
	for _, c := range h.Else(e.ID, t) {
		m := h.Lexicon.Movement(c.Movement)
		if m == nil || h.holds(c.Task, word) || h.Kit.Lacks(m) != "" {
			continue
		}
		places := h.Kit.Places(m, c.Task)
		if slices.ContainsFunc(places, func(p roomful.Place) bool { return taken[p.Word]+p.Count > h.Kit.Count(p.Word) }) {
			continue
		}
		for _, p := range places {
			taken[p.Word] += p.Count
		}
		return c, true
	}
	return roomful.Choice{}, false
}

// named returns a movement's name.
func (h *house) named(id roomful.MovementID) string {
	if m := h.Lexicon.Movement(id); m != nil {
		return m.Name
	}
	return strings.ReplaceAll(string(id), "-", " ")
}
