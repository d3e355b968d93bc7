package room

import (
	"context"
	"math"
	"time"

	"roomful"
)

// arrangement is a way for a class to go through a piece.
type arrangement struct {
	name  string
	heats int           // 1 for all at once
	waves int           // 1 for all together; in every heat
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

// forecast returns how everybody fares, heat after heat. Of places it tells what
// they are like in the heat in which they are waited for longest.
func (o outcome) forecast() roomful.Forecast {
	if len(o.heat) == 0 {
		return roomful.Forecast{}
	}
	all := roomful.Forecast{Kind: o.heat[0].forecast.Kind, Places: o.places()}
	for _, g := range o.heat {
		all.Athletes = append(all.Athletes, g.forecast.Athletes...)
	}
	return all
}

// places returns the use of each kind of place in the heat in which it is waited for
// longest.
func (o outcome) places() (out []roomful.PlaceForecast) {
	for _, g := range o.heat {
	next:
		for _, p := range g.forecast.Places {
			for i, was := range out {
				if was.Word == p.Word {
					if p.WaitMean > was.WaitMean {
						out[i] = p
					}
					continue next
				}
			}
			out = append(out, p)
		}
	}
	return out
}

// together is as it is when nobody says otherwise.
var together = arrangement{heats: 1, waves: 1, turns: 1}

// asked is how a piece is gone through when nothing is changed: only the main piece
// has heats and waves.
func (h *house) asked(p Piece) arrangement {
	a := together
	if p.Kind == roomful.Main {
		a.heats, a.waves, a.gap = max(1, h.Heats), max(1, h.Waves), h.Gap
	}
	return a.within(crewsOf(p.Entrants, p.Team.Size))
}

// try simulates an arrangement of a piece.
func (h *house) try(ctx context.Context, p Piece, a arrangement) (outcome, error) {
	a = a.within(crewsOf(p.Entrants, p.Team.Size))
	out := outcome{arrangement: a, onIntent: math.NaN()}
	entrants := h.arranged(p, a, &out)
	var wait, intent float64
	stated := 0
	for n := range a.heats {
		one := p
		one.Entrants = share(entrants, n, a.heats, p.Team.Size)
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

// arranged returns the entrants as an arrangement has them, and notes the waves and
// who does something else than with nothing changed.
func (h *house) arranged(p Piece, a arrangement, out *outcome) []roomful.Entrant {
	team, asked := max(1, p.Team.Size), h.asked(p)
	entrants := inOrder(p.Entrants, a.order, team)
	crews := crewsOf(entrants, team)
	moved := map[int]bool{}
	for _, m := range a.moved {
		entrants[m.who].Work = entrants[m.who].Work.With(m.task, m.choice.Task)
		moved[m.who] = true
	}
	for i := range entrants {
		e, crew := &entrants[i], i/team
		listed := crew
		if a.order != nil {
			listed = a.order[crew]
		}
		at, was := a.spot(crew, crews), asked.spot(listed, crews)
		e.Work.Round = at.begun(e.Work.Round, a.turns)
		if e.Wait = a.after(at); a.waves > 1 {
			out.join(p.Name(), a, at, e.ID)
		}
		if moved[i] || at.heat != was.heat || e.Wait != asked.after(was) || at.turn > 0 || at.back {
			out.touched = append(out.touched, e.Name)
		}
	}
	return entrants
}

// join puts somebody into the wave that they stand in. People come in the order in
// which they go.
func (o *outcome) join(part string, a arrangement, at spot, id string) {
	w := roomful.Wave{Part: part, N: at.wave + 1, After: a.after(at)}
	if a.heats > 1 {
		w.Heat = at.heat + 1
	}
	if n := len(o.wave); n == 0 || o.wave[n-1].N != w.N || o.wave[n-1].Heat != w.Heat {
		o.wave = append(o.wave, w)
	}
	last := &o.wave[len(o.wave)-1]
	last.People = append(last.People, id)
}

// seconds turns seconds into a duration.
func seconds(s float64) time.Duration { return time.Duration(s * float64(time.Second)) }
