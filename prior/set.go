package prior

import (
	"fmt"
	"math"
	"slices"

	"roomful"
)

// setStep is how far a capacity's logarithm is moved to see what a set feels of it.
const setStep = 0.01

// WithSet returns abilities after a set that somebody just managed. The forecaster's own law says what it tells: the maximum and the
// endurance under which so many repetitions are just possible at that load. So a
// load asked for another number of repetitions rests on no published law between
// the two, and who remembers a long set is not taken for sure of their maximum.
func WithSet(a *roomful.Abilities, s roomful.KnownSet, m *roomful.Movement, f roomful.Forecaster) (*roomful.Abilities, error) {
	task := roomful.Task{Movement: s.Movement, Amount: float64(s.Reps), Unit: roomful.Rep, Load: s.Load}
	if m.Pair {
		task.Implements = 2
	}
	load := func(ab *roomful.Abilities) float64 { return math.Log(f.LoadFor(ab, task, float64(s.Reps))) }
	at := load(a)
	if math.IsInf(at, 0) || math.IsNaN(at) {
		return nil, &roomful.Error{Summary: fmt.Sprintf("%s tells nothing of %s: no maximum bounds their load", s, m.Plural), Hint: "leave the set out; the proof set decides"}
	}
	r := reading{label: s.String(), value: math.Log(task.LoadKg()), noise: setNoise.one()}
	if s.From != "" {
		r.noise = scoreNoise.one()
	}
	var spread float64
	for _, c := range boundsOf(m) {
		i := a.Index(c)
		if i < 0 {
			continue
		}
		slope := (load(moved(a, i, setStep)) - at) / setStep
		r.terms = append(r.terms, term{i, slope})
		r.value += slope * a.Dims[i].Centre
		spread = math.Hypot(spread, slope*a.Dims[i].SD())
	}
	if gap := math.Log(task.LoadKg()) - at; math.Abs(gap) > doubtSDs.one()*math.Hypot(spread, r.noise) {
		return nil, &roomful.Error{
			Summary: fmt.Sprintf("%s is far from all else that is known: about %s would be expected for %d", s, expected(math.Exp(at)/float64(max(task.Implements, 1)), s.Load.Unit), s.Reps),
			Hint:    "check the set, and what was told before",
		}
	}
	r.value -= at
	out := *a
	out.Dims = slices.Clone(a.Dims)
	for i := range out.Dims {
		out.Dims[i].Informed = slices.Clip(out.Dims[i].Informed)
	}
	condition(&out, []reading{r})
	if d := &out.Dims[r.terms[0].dim]; !slices.Contains(d.Informed, r.label) { // a long set says little of it, and is what it rests on
		d.Informed = append(d.Informed, r.label)
	}
	return &out, nil
}

// expected writes a load in whole units.
func expected(kg float64, u roomful.MassUnit) roomful.Mass {
	return roomful.Mass{Value: math.Round(roomful.Kg(kg).In(u).Value), Unit: u}
}

// boundsOf are the capacities that bound a movement's load.
func boundsOf(m *roomful.Movement) []roomful.Capacity {
	switch {
	case m.Bound == nil:
		return nil
	case m.Bound.Lift != "":
		return []roomful.Capacity{roomful.OneRM(m.Bound.Lift), roomful.Endurance(string(m.Bound.Lift))}
	}
	return []roomful.Capacity{roomful.OwnMax(m.Bound.Own), roomful.Endurance(string(m.Bound.Own))}
}

// moved returns abilities with one centre moved.
func moved(a *roomful.Abilities, dim int, by float64) *roomful.Abilities {
	out := *a
	out.Dims = slices.Clone(a.Dims)
	out.Dims[dim].Centre += by
	return &out
}
