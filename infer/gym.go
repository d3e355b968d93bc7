package infer

import (
	"math"
	"slices"

	"roomful"
)

// How a gym's people are taken to differ from the people of published figures, as a
// share of how far people differ from each other (judgement).
const gymSpread = 0.5

// leastTold is how much of what was not known before a person's results must have
// taken away from a capacity, as a share of its variance, to count for the gym's.
const leastTold = 0.1

// Shift is how far the people of a gym are from what published figures say of such
// people: to be added to a capacity, on its own scale.
type Shift map[roomful.Capacity]float64

// Of returns a prior as it is for somebody of the gym: capacities that something
// told of them informs stay as they are.
func (s Shift) Of(a *roomful.Abilities) *roomful.Abilities {
	out := *a
	out.Dims = slices.Clone(a.Dims)
	for i := range out.Dims {
		if d := &out.Dims[i]; len(d.Informed) == 0 {
			d.Centre += s[d.Capacity]
		}
	}
	return &out
}

// deviation is what results alone say of one capacity of one person: a deviation from
// the prior, seen through noise.
type deviation struct{ off, variance, spread float64 }

// Population is what everybody's results say of a gym, capacity by capacity, so
// that people can be seen against the others of their gym and not against
// themselves.
type Population struct {
	people []map[roomful.Capacity]deviation
}

// Add lays what was learnt of the next person beside what was believed of them.
func (g *Population) Add(prior, learnt *roomful.Abilities) {
	own := map[roomful.Capacity]deviation{}
	for k := range prior.Dims {
		d := &prior.Dims[k]
		j := learnt.Index(d.Capacity)
		if j < 0 || len(d.Informed) > 0 {
			continue
		}
		after := &learnt.Dims[j]
		before, now := d.SD()*d.SD(), after.SD()*after.SD()
		if before <= 0 || now >= (1-leastTold)*before {
			continue
		}
		// The posterior is the prior and the results weighed by their precisions.
		gained := 1/now - 1/before
		own[d.Capacity] = deviation{off: (after.Centre - d.Centre) / now / gained, variance: 1 / gained, spread: d.SD()}
	}
	g.people = append(g.people, own)
}

// Without returns the shift of the gym as all people but one show it; -1 leaves
// nobody out. Few people, or little told, leave it near nought: the mean of a gym
// is itself believed to lie within half the spread between people.
func (g Population) Without(person int) Shift {
	weight, sum, spread := map[roomful.Capacity]float64{}, map[roomful.Capacity]float64{}, map[roomful.Capacity]float64{}
	for i, own := range g.people {
		if i == person {
			continue
		}
		for c, d := range own {
			w := 1 / (d.variance + d.spread*d.spread)
			weight[c] += w
			sum[c] += w * d.off
			spread[c] = math.Max(spread[c], d.spread)
		}
	}
	out := Shift{}
	for c, w := range weight {
		out[c] = sum[c] / (w + 1/(gymSpread*gymSpread*spread[c]*spread[c]))
	}
	return out
}

// LearnTogether learns from the results of a gym's people, of whom there are so many:
// each is seen as one of the others, whose results have moved what is believed of the
// gym. Person is asked twice of everybody, so that no more than one record need be at
// hand; keep is told what was learnt of each, and how the others moved what was believed
// of them. It returns the gym's own shift, for who comes new.
func (s Simulator) LearnTogether(n int, person func(i int) (Person, error), today roomful.Date, by Emulators, keep func(i int, l Learnt, by Shift) error) (Shift, error) {
	var gym Population
	for i := range n {
		p, err := person(i)
		if err != nil {
			return nil, err
		}
		gym.Add(p.Prior, s.Learn(p, today, by).Abilities)
	}
	for i := range n {
		p, err := person(i)
		if err != nil {
			return nil, err
		}
		shift := gym.Without(i)
		p.Prior = shift.Of(p.Prior)
		if err := keep(i, s.Learn(p, today, by), shift); err != nil {
			return nil, err
		}
	}
	return gym.Without(-1), nil
}
