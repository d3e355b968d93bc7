package prior

import (
	"math"

	"roomful"
)

// medians returns the centre of every capacity for one division, each on its
// own scale.
func (f frame) medians(t terms) []float64 {
	out := make([]float64, 0, len(f.all))
	out = append(out, t.oxygen(), math.Log(reserveMedian.of(t.division)), speedUntrained.one()*(1-t.trained), 0, 0, 0)
	out = t.appendLifts(out)
	for _, m := range f.own {
		out = append(out, t.ownMax(m))
	}
	out = out[:len(out)+len(roomful.Lifts)+len(f.own)] // endurance has centre 0
	for _, m := range f.trips {
		out = append(out, t.trips(m))
	}
	return out
}

// oxygen returns the logarithm of the median VO2max.
func (t terms) oxygen() float64 {
	const at25 = 25 - grown
	return math.Log(oxygenMedian.of(t.division)) +
		math.Log1p(oxygenTraining.one()*t.trained) -
		oxygenPerYear.one()*(t.past18-at25) +
		oxygenMass.one()*t.logMass
}

// appendLifts appends the logarithms of the median maxima in kg, in the order
// of [roomful.Lifts].
func (t terms) appendLifts(out []float64) []float64 {
	d := t.division
	body := math.Log(massReference.of(d)) + massExponent.one()*t.logMass + t.logAge
	squat := body + math.Log(squatShare.of(d)) + math.Log1p(squatTraining.one()*t.trained)
	bench := body + math.Log(benchShare.of(d)) + math.Log1p(benchTraining.one()*t.trained)
	front := squat + math.Log(frontSquatPerSquat.one())
	pushPress := bench + math.Log(pushPressPerBench.of(d))
	clean := squat + math.Log(cleanPerSquat.one()) + math.Log(cleanUntrained.one()+cleanTraining.one()*t.trained)
	thruster := math.Log(thrusterShare.of(d)) + (math.Log(thrusterFront.one())+front+pushPress)/2
	for _, l := range roomful.Lifts {
		v := squat
		switch l {
		case roomful.FrontSquat:
			v = front
		case roomful.Deadlift:
			v += math.Log(deadliftPerSquat.of(d))
		case roomful.BenchPress:
			v = bench
		case roomful.Press:
			v = bench + math.Log(pressPerBench.one())
		case roomful.PushPress:
			v = pushPress
		case roomful.Clean:
			v = clean
		case roomful.CleanAndJerk:
			v = clean + math.Log(cleanJerkPerClean.one())
		case roomful.Snatch:
			v = clean + math.Log(snatchPerClean.one())
		case roomful.Thruster:
			v = thruster
		}
		out = append(out, v)
	}
	return out
}

// ownMax returns the logarithm of the median unbroken maximum. Age and mass act
// through strength per body mass.
func (t terms) ownMax(m *roomful.Movement) float64 {
	b := m.Bound
	relative := t.logAge + (massExponent.one()-1)*t.logMass
	return math.Log(max(b.Most[t.division], 0.01)) + b.Growth[t.division]*t.trained + ownPerStrength.one()*relative
}

// trips returns the median log-odds of failing an attempt.
func (t terms) trips(m *roomful.Movement) float64 {
	v := tripLogit.one() + tripUntrained.one()*(1-t.trained)
	if !m.Skill.Needed {
		v += tripUnlearnt.one()
	}
	return v
}
