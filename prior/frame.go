package prior

import (
	"math"

	"roomful"
)

// The shared factors. They come first, so that conditioning keeps the loads of
// capacities it does not name short. Every dim has one more of its own.
const (
	strengthFactor = iota
	enduranceFactor
	squatFactor
	pressFactor
	pullFactor
	divisionFactor // the unknowns of the person; without load when told
	ageFactor
	massFactor
	trainingFactor
	sharedFactors // how many there are
)

// sharedKeys name the shared factors.
var sharedKeys = [sharedFactors]string{"strength", "endurance", "squats", "presses", "pulls", "division", "age", "mass", "training"}

// wholePerson are the capacities that belong to no lift or movement, in the order of
// a frame, with the spread of each between people of one kind.
var wholePerson = [...]struct {
	capacity roomful.Capacity
	spread   constant
}{
	{roomful.CapVO2max, oxygenSD}, {roomful.CapReserve, reserveSD}, {roomful.CapSpeed, speedSD},
	{roomful.CapPacing, pacingSD}, {roomful.CapBreaks, breaksSD}, {roomful.CapRecovery, recoverySD},
}

// frame is which capacities a person has under a lexicon, in a fixed order: the
// whole person's, the lifts, own maxima, endurance of lifts and of own maxima,
// trips.
type frame struct {
	own   []*roomful.Movement // movements that are their own reference
	trips []*roomful.Movement // movements an attempt at which can fail
	all   []roomful.Capacity
	keys  []string // of the factors
}

func frameOf(lex roomful.Lexicon) frame {
	var f frame
	for _, m := range lex.All() {
		if m.Bound != nil && m.Bound.Own == m.ID && m.ID != "" {
			f.own = append(f.own, m)
		}
		if m.Skill.Trips {
			f.trips = append(f.trips, m)
		}
	}
	f.all = make([]roomful.Capacity, 0, len(wholePerson)+2*len(roomful.Lifts)+2*len(f.own)+len(f.trips))
	for _, w := range wholePerson {
		f.all = append(f.all, w.capacity)
	}
	for _, l := range roomful.Lifts {
		f.all = append(f.all, roomful.OneRM(l))
	}
	for _, m := range f.own {
		f.all = append(f.all, roomful.OwnMax(m.ID))
	}
	for _, l := range roomful.Lifts {
		f.all = append(f.all, roomful.Endurance(string(l)))
	}
	for _, m := range f.own {
		f.all = append(f.all, roomful.Endurance(string(m.ID)))
	}
	for _, m := range f.trips {
		f.all = append(f.all, roomful.TripLogit(m.ID))
	}
	f.keys = append(f.keys, sharedKeys[:]...)
	for _, c := range f.all {
		f.keys = append(f.keys, string(c))
	}
	return f
}

// believe returns the abilities of a person of whom no figure is known.
func (f frame) believe(r reckoned) *roomful.Abilities {
	ab := &roomful.Abilities{
		Dims:    make([]roomful.Dim, len(f.all)),
		Factors: sharedFactors + len(f.all),
		Keys:    f.keys,
		MassKg:  r.mass(),
	}
	centre := f.centres(r)
	unknowns := f.unknowns(r)
	loads := make([]roomful.FactorLoad, 0, len(f.all)*(3+len(unknowns)))
	for i, c := range f.all {
		from := len(loads)
		loads = f.appendSpread(loads, i)
		for _, u := range unknowns {
			if sd := u.slope[i]; sd != 0 {
				loads = append(loads, roomful.FactorLoad{Factor: u.factor, SD: sd})
			}
		}
		ab.Dims[i] = roomful.Dim{Capacity: c, Centre: centre[i], Loads: loads[from:len(loads):len(loads)]}
	}
	return ab
}

// centres returns the centre of every capacity; between the divisions when the
// person's is unknown.
func (f frame) centres(r reckoned) []float64 {
	switch r.division {
	case roomful.DivisionA:
		return f.medians(r.terms(0))
	case roomful.DivisionB:
		return f.medians(r.terms(1))
	}
	a, b := f.medians(r.terms(0)), f.medians(r.terms(1))
	for i := range a {
		a[i] = (a[i] + b[i]) / 2
	}
	return a
}

// unknown is what a person did not tell: how far one standard deviation of it
// moves every capacity.
type unknown struct {
	factor int
	slope  []float64
}

// unknowns returns a factor for each thing not told. For the division, one
// standard deviation leads from the mean to either half of the even mixture,
// which keeps the mixture's mean and covariance.
func (f frame) unknowns(r reckoned) []unknown {
	half := func(plus, minus []float64) []float64 {
		for i := range plus {
			plus[i] = (plus[i] - minus[i]) / 2
		}
		return plus
	}
	var us []unknown
	if r.division == roomful.AnyDivision {
		us = append(us, unknown{divisionFactor, half(f.medians(r.terms(0)), f.medians(r.terms(1)))})
	}
	for _, u := range []struct {
		factor  int
		assumed bool
	}{{ageFactor, r.assumed.age}, {massFactor, r.assumed.mass}, {trainingFactor, r.assumed.months}} {
		if u.assumed {
			us = append(us, unknown{u.factor, half(f.centres(r.lean(u.factor, 1)), f.centres(r.lean(u.factor, -1)))})
		}
	}
	return us
}

// families tells which family factor each lift shares with others, in the order
// of [roomful.Lifts]; strengthFactor when with none.
var families = map[roomful.Lift]int{
	roomful.BackSquat: squatFactor, roomful.FrontSquat: squatFactor, roomful.Thruster: squatFactor,
	roomful.BenchPress: pressFactor, roomful.Press: pressFactor, roomful.PushPress: pressFactor,
	roomful.Clean: pullFactor, roomful.CleanAndJerk: pullFactor, roomful.Snatch: pullFactor,
}

// appendSpread appends the loads of capacity i between people of one kind.
func (f frame) appendSpread(loads []roomful.FactorLoad, i int) []roomful.FactorLoad {
	own := func(sd float64) []roomful.FactorLoad {
		return append(loads, roomful.FactorLoad{Factor: sharedFactors + i, SD: sd})
	}
	share := func(factor int, sd float64) { loads = append(loads, roomful.FactorLoad{Factor: factor, SD: sd}) }
	lifts, maxima := len(roomful.Lifts), len(f.own)
	switch j := i - len(wholePerson); {
	case j < 0:
		return own(wholePerson[i].spread.one())
	case j < lifts:
		alone := 1 - strengthShared.one()
		share(strengthFactor, strengthSD.one()*math.Sqrt(strengthShared.one()))
		if family, ok := families[roomful.Lifts[j]]; ok {
			alone -= strengthFamily.one()
			share(family, strengthSD.one()*math.Sqrt(strengthFamily.one()))
		}
		return own(strengthSD.one() * math.Sqrt(alone))
	case j < lifts+maxima:
		sd := spreadOf(f.own[j-lifts])
		share(strengthFactor, sd*ownStrength.one())
		share(enduranceFactor, sd*ownEndurance.one())
		return own(sd * ownAlone.one())
	case j < 2*(lifts+maxima):
		share(enduranceFactor, enduranceShared.one())
		return own(enduranceAlone.one())
	}
	return own(tripSD.one())
}

// spreadOf returns the log-sd of a movement's unbroken maximum.
func spreadOf(m *roomful.Movement) float64 {
	if m.Bound.LogSD > 0 {
		return m.Bound.LogSD
	}
	return ownSD.one()
}
