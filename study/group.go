package study

import (
	"math"
	"math/rand/v2"
	"strconv"

	"roomful"
	"roomful/prior"
)

// Group is the people of a study as it describes them.
type Group struct {
	Words string // "15 men who train for this", unique among groups
	N     int    // how many took part; 0 when the figure is no sample's
	// Mean is a person with the group's reported means and nothing else.
	Mean roomful.Athlete
	// Spread is the log-sd of a capacity between these people, where the source
	// tells it; elsewhere the prior's holds.
	Spread map[roomful.Capacity]float64
	// Mixed people differ in age and body mass too, as strangers do, and not only
	// in what people of one age and mass differ in.
	Mixed bool
}

// on is the day that ages are reckoned on; any would do.
var on = roomful.Date{Year: 2024, Month: 7, Day: 1}

// man and woman return a person with a group's means; age 0 is not reported.
func man(age int, massKg float64, known ...roomful.Known) roomful.Athlete {
	return person(roomful.DivisionA, age, massKg, known)
}

func woman(age int, massKg float64, known ...roomful.Known) roomful.Athlete {
	return person(roomful.DivisionB, age, massKg, known)
}

func person(d roomful.Division, age int, massKg float64, known []roomful.Known) roomful.Athlete {
	a := roomful.Athlete{ID: "mean", Name: "mean", Division: d, MassKg: massKg, Known: known}
	if age > 0 {
		a.Born = roomful.Date{Year: on.Year - age, Month: 1, Day: 1}
	}
	return a
}

// known is one figure that a study reports of its people.
func known(t roomful.Test, v float64) roomful.Known { return roomful.Known{Test: t, Value: v} }

// trained says how long somebody has trained, in months.
func trained(a roomful.Athlete, months float64) roomful.Athlete {
	a.Months = &months
	return a
}

// abilities returns what is believed of the group: centred on what its reported
// means say, spread as people of one kind are spread, since a mean that is known
// well leaves the people behind it as different as they are.
func (g *Group) abilities(lex roomful.Lexicon) *roomful.Abilities {
	strangers := g.Mean
	strangers.Known = nil
	mid, wide := prior.Of(g.Mean, lex, on), prior.Of(strangers, lex, on)
	out := *wide
	out.Dims = make([]roomful.Dim, len(wide.Dims))
	for i, d := range wide.Dims {
		d.Centre = mid.Dims[i].Centre
		if sd := g.Spread[d.Capacity]; sd > 0 {
			d.Loads = scaled(d.Loads, sd/d.SD())
		}
		out.Dims[i] = d
	}
	return &out
}

func scaled(loads []roomful.FactorLoad, by float64) []roomful.FactorLoad {
	out := make([]roomful.FactorLoad, len(loads))
	for i, l := range loads {
		out[i] = roomful.FactorLoad{Factor: l.Factor, SD: l.SD * by}
	}
	return out
}

// member is one simulated person of a group: a point within its abilities.
type member struct {
	athlete   roomful.Athlete
	abilities *roomful.Abilities
}

// draw returns n people of a group. Each factor is drawn once from each of n
// equally likely slices, in its own random order, so that means and medians
// settle with few people.
func (g *Group) draw(lex roomful.Lexicon, n int, seed uint64) []member {
	all := g.abilities(lex)
	z := strata(all.Factors+2, n, rand.New(rand.NewPCG(seed, 1)))
	people := make([]member, n)
	for i := range people {
		who := g.Mean
		who.ID = strconv.Itoa(i)
		if g.Mixed {
			who = stranger(who, z[all.Factors][i], z[all.Factors+1][i])
			all = prior.Of(who, lex, on)
		}
		a := &roomful.Abilities{Dims: make([]roomful.Dim, len(all.Dims)), MassKg: all.MassKg}
		for k := range all.Dims {
			d := &all.Dims[k]
			x := d.Centre
			for _, l := range d.Loads {
				x += l.SD * z[l.Factor][i]
			}
			a.Dims[k] = roomful.Dim{Capacity: d.Capacity, Centre: x}
		}
		people[i] = member{who, a}
	}
	return people
}

// How far strangers differ, as package prior assumes of people of whom nothing is
// told.
const (
	strangersAge  = 9.0  // years, sd
	strangersMass = 0.16 // log-sd
)

// stranger gives somebody an age of 18 to 65 and a body mass that are so many
// standard deviations from their group's.
func stranger(who roomful.Athlete, age, mass float64) roomful.Athlete {
	who.Born.Year = min(on.Year-18, max(on.Year-65, who.Born.Year-int(math.Round(strangersAge*age))))
	who.MassKg *= math.Exp(strangersMass * mass)
	return who
}

// strata returns for each factor n normal scores, one from each of n equally
// likely slices.
func strata(factors, n int, rng *rand.Rand) [][]float64 {
	z := make([][]float64, factors)
	for f := range z {
		z[f] = make([]float64, n)
		for i, k := range rng.Perm(n) {
			p := (float64(k) + 0.5) / float64(n)
			z[f][i] = math.Sqrt2 * math.Erfinv(2*p-1)
		}
	}
	return z
}
