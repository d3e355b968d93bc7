package room

import (
	"slices"
	"time"

	"roomful"
)

// spot is where an arrangement has a crew: in which heat, in which of its waves and
// with which of its groups, all from 0.
type spot struct {
	heat, wave, turn int
	back             bool
}

// spot returns where an arrangement has one of so many crews. Waves and groups are
// those of its heat.
func (a arrangement) spot(crew, crews int) spot {
	s := spot{heat: groupOf(crew, crews, a.heats)}
	from, to := first(s.heat, crews, a.heats), first(s.heat+1, crews, a.heats)
	crew, crews = crew-from, to-from
	s.wave, s.turn = groupOf(crew, crews, a.waves), groupOf(crew, crews, a.turns)
	s.back = a.back && groupOf(crew, crews, min(2, crews)) > 0
	return s
}

// after returns how long after the first wave of its heat a crew starts.
func (a arrangement) after(s spot) time.Duration { return time.Duration(s.wave) * a.gap }

// within is the arrangement with no more heats than crews, and no more waves or
// groups than the smallest heat has crews: none is empty.
func (a arrangement) within(crews int) arrangement {
	a.heats = max(1, min(a.heats, crews))
	least := max(1, crews/a.heats)
	a.waves, a.turns = max(1, min(a.waves, least)), max(1, min(a.turns, least))
	return a
}

// begun returns the tasks of a round in the order in which they are done at a spot,
// when so many groups start at different ones.
func (s spot) begun(round []roomful.Task, turns int) []roomful.Task {
	if s.back {
		round = slices.Clone(round)
		slices.Reverse(round)
	}
	if s.turn > 0 {
		round = turned(round, s.turn*len(round)/turns)
	}
	return round
}

// groupOf returns in which of so many groups one of n stands, from 0.
func groupOf(i, n, groups int) int { return ((i+1)*groups - 1) / n }

// first returns the first of n who stands in a group. Later groups are the larger:
// with the quickest first the slow heat is the full one, which takes least in all.
func first(group, n, groups int) int { return group * n / groups }

// share returns the n-th of so many parts of a list of people; partners stay
// together.
func share[P any](all []P, n, parts, team int) []P {
	team = max(1, team)
	crews := crewsOf(all, team)
	return all[min(len(all), first(n, crews, parts)*team):min(len(all), first(n+1, crews, parts)*team)]
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
func crewsOf[P any](all []P, team int) int {
	team = max(1, team)
	return (len(all) + team - 1) / team
}

// turned returns tasks that begin at the n-th and go round.
func turned(tasks []roomful.Task, n int) []roomful.Task {
	return slices.Concat(tasks[n:], tasks[:n])
}
