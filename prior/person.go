package prior

import (
	"math"
	"strconv"

	"roomful"
)

// reckoned is the person as computed with: told or assumed.
type reckoned struct {
	division roomful.Division
	age      float64 // years, held to 10-85
	months   float64
	massKg   [2]float64 // by division; the same twice when told
	assumed  struct{ age, months, mass bool }
}

// The ages the curves are held to, in years.
const (
	youngest, grown, strongest = 10.0, 18.0, 30.0
	late, oldest               = 60.0, 85.0
)

// reckon fills in what the person did not tell, or cannot have meant, and says
// what, one line each.
func reckon(a roomful.Athlete, on roomful.Date) (r reckoned, said []string) {
	r.division = a.Division
	if a.Division == roomful.AnyDivision {
		said = append(said, "division: not told, reckoned between the two")
	}
	years, ok := a.Age(on)
	r.age = min(max(float64(years), youngest), oldest)
	if r.assumed.age = !ok; !ok {
		r.age = assumedAge.one()
		said = append(said, "age: "+roomful.Figure(r.age)+" assumed")
	}
	r.massKg = [2]float64{a.MassKg, a.MassKg}
	if r.assumed.mass = !(a.MassKg >= lightestKg && a.MassKg <= heaviestKg); r.assumed.mass {
		r.massKg = [2]float64{massReference.of(0), massReference.of(1)}
		said = append(said, "body mass: "+strconv.Itoa(int(math.Round(r.mass())))+" kg assumed")
	}
	if a.Months != nil && *a.Months >= 0 && *a.Months <= 12*eldest {
		r.months = *a.Months
		return r, said
	}
	r.months, r.assumed.months = assumedMonths.one(), true
	return r, append(said, "training: "+roomful.Figure(r.months)+" months assumed")
}

// mass returns the one body mass reckoned with, in kg.
func (r reckoned) mass() float64 {
	switch r.division {
	case roomful.DivisionA:
		return r.massKg[0]
	case roomful.DivisionB:
		return r.massKg[1]
	}
	return (r.massKg[0] + r.massKg[1]) / 2
}

// lean returns the person moved along one of the unknowns, by sds standard
// deviations of it.
func (r reckoned) lean(f int, sds float64) reckoned {
	switch f {
	case ageFactor:
		r.age += sds * assumedAgeSD.one()
	case massFactor:
		grow := math.Exp(sds * assumedMassSD.one())
		r.massKg = [2]float64{r.massKg[0] * grow, r.massKg[1] * grow}
	case trainingFactor:
		r.months *= math.Exp(sds * assumedMonthsSD.one())
	}
	return r
}

// terms are what the medians of one division depend on.
type terms struct {
	division int
	trained  float64 // g, from 0 to 1
	past18   float64 // years
	logMass  float64 // of body mass over the reference
	logAge   float64 // strength at this age over the best, as a logarithm
}

// terms returns what the medians depend on, for division 0 or 1.
func (r reckoned) terms(division int) terms {
	return terms{
		division: division,
		trained:  1 - math.Exp(-r.months/trainingMonths.one()),
		past18:   max(r.age, grown) - grown,
		logMass:  math.Log(r.massKg[division] / massReference.of(division)),
		logAge: -strengthYouth.one()*max(grown-r.age, 0) -
			strengthDecline.one()*max(r.age-strongest, 0) -
			strengthDeclineLate.one()*max(r.age-late, 0),
	}
}
