package room

import (
	"context"
	"math"
	"slices"
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
	back  bool          // half go through a long list from its other end
	order []int         // crews in the order in which they go, nil as they are listed
	moved []move        // people who do something else
}

// move is a person who does something else in the place of an element.
type move struct {
	who    int // of the piece's entrants
	task   int // of their work, once, round and last
	choice roomful.Choice
	less   bool // likely to keep the effort
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
	crews := crewsOf(p.Entrants, p.Team.Size)
	a.heats, a.waves = max(1, min(a.heats, crews)), max(1, min(a.waves, crews)) // none is empty
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
	team := max(1, p.Team.Size)
	entrants := inOrder(p.Entrants, a.order, team)
	touched := map[int]bool{}
	for _, m := range a.moved {
		entrants[m.who].Work = entrants[m.who].Work.With(m.task, m.choice.Task)
		touched[m.who] = true
	}
	crews := crewsOf(entrants, team)
	for i := range entrants {
		crew := i / team
		if a.back && 2*crew >= crews {
			entrants[i].Work.Round = slices.Clone(entrants[i].Work.Round)
			slices.Reverse(entrants[i].Work.Round)
			touched[i] = true
		}
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

// inOrder returns the entrants crew by crew in an order, as they are for none.
func inOrder(all []roomful.Entrant, order []int, team int) []roomful.Entrant {
	if order == nil {
		return slices.Clone(all)
	}
	var out []roomful.Entrant
	for _, crew := range order {
		out = append(out, all[crew*team:min(len(all), (crew+1)*team)]...)
	}
	return out
}

// crewsOf is how many start by themselves: people, or teams.
func crewsOf(all []roomful.Entrant, team int) int {
	team = max(1, team)
	return (len(all) + team - 1) / team
}

// share returns the n-th of so many parts of the entrants; partners stay
// together.
func share(all []roomful.Entrant, n, parts, team int) []roomful.Entrant {
	team = max(1, team)
	crews := crewsOf(all, team)
	return all[min(len(all), n*crews/parts*team):min(len(all), (n+1)*crews/parts*team)]
}

// turned returns tasks that begin at the n-th and go round.
func turned(tasks []roomful.Task, n int) []roomful.Task {
	return slices.Concat(tasks[n:], tasks[:n])
}

// seconds turns seconds into a duration.
func seconds(s float64) time.Duration { return time.Duration(s * float64(time.Second)) }
