package infer

import (
	"cmp"
	"math"
	"slices"

	"roomful"
)

// inputs are what an emulator follows, in order: capacities, then the loads and
// the body mass where they differ between the cases.
type inputs struct {
	capacities []roomful.Capacity
	loads      []int // places in Work.All
	mass       bool
	tasks      []tiring // whose effort a repetition is an input of its own
}

// tiring is a task that tires by the share of an unbroken set that a repetition
// is. The share runs away near the heaviest load, where the logarithm of a load
// does not; given to an emulator as well it leaves less to bend.
type tiring struct {
	at int   // in Work.All
	by []int // the inputs that change the share
}

// restPerRep is how much longer muscles take to recover from a whole unbroken set, in
// repetitions' times, than a repetition takes: what time costs goes with the logarithm
// of one and so much for each share (judgement; from 3 to 40 an emulator is as good).
const restPerRep = 10

// of returns the inputs of somebody at exact abilities, on their own scales,
// loads and masses as logarithms.
func (in *inputs) of(a *roomful.Abilities, r *Result) []float64 {
	x := make([]float64, 0, len(in.capacities)+len(in.loads)+1)
	for _, c := range in.capacities {
		v := 0.0
		if i := a.Index(c); i >= 0 {
			v = a.Dims[i].Centre
		}
		x = append(x, v)
	}
	if all := r.Work.All(); len(in.loads) > 0 {
		for _, at := range in.loads {
			x = append(x, math.Log(all[at].LoadKg()))
		}
	}
	if in.mass {
		x = append(x, math.Log(a.MassKg))
	}
	return x
}

// feltCases is how many people are asked which capacities a piece feels.
const feltCases = 4

// inputsOf finds what the scores of cases depend on.
func (s Simulator) inputsOf(cases []Case) inputs {
	var in inputs
	felt := map[roomful.Capacity]float64{}
	for _, c := range few(cases) {
		for _, lift := range []float64{0, 1.5} {
			s.feel(c, lift, felt)
		}
	}
	for _, d := range cases[0].Prior.Dims { // in the dims' order
		if felt[d.Capacity] > feltOver || d.Capacity == roomful.CapBreaks {
			in.capacities = append(in.capacities, d.Capacity)
		}
	}
	if len(in.capacities) > mostInputs {
		slices.SortStableFunc(in.capacities, func(a, b roomful.Capacity) int { return cmp.Compare(felt[b], felt[a]) })
		in.capacities = in.capacities[:mostInputs]
	}
	in.vary(cases)
	in.tire(s, cases)
	return in
}

// vary finds the loads that differ between cases, and whether body masses do.
func (in *inputs) vary(cases []Case) {
	first := cases[0].Result.Work.All()
	for at := range first {
		if first[at].Load.Value > 0 && slices.ContainsFunc(cases, func(c Case) bool {
			return math.Abs(c.Result.Work.All()[at].LoadKg()-first[at].LoadKg()) > sameKg
		}) {
			in.loads = append(in.loads, at)
		}
	}
	in.mass = slices.ContainsFunc(cases, func(c Case) bool { return math.Abs(c.Prior.MassKg-cases[0].Prior.MassKg) > sameKg })
}

// tire finds the tasks that tire, among a few of the cases.
func (in *inputs) tire(s Simulator, cases []Case) {
	for at := range cases[0].Result.Work.All() {
		own := tiring{at: at}
		for _, c := range few(cases) {
			d := doing(c)
			who := in.person(d, in.of(c.Prior, c.Result))
			now := share(s, who, d.tasks[at])
			for j := range in.capacities {
				who.Dims[j].Centre += 0.1
				if math.Abs(share(s, who, d.tasks[at])-now) > 1e-6 {
					own.by = append(own.by, j)
				}
				who.Dims[j].Centre -= 0.1
			}
		}
		if own.by = sorted(own.by); len(own.by) > 0 {
			in.tasks = append(in.tasks, own)
		}
	}
}

// doing is who does what, as far as it is no ability.
func doing(c Case) deed { return deed{c.Prior.MassKg, c.Result.Work.All()} }

// deed is a body mass with the tasks that are done.
type deed struct {
	massKg float64
	tasks  []roomful.Task
}

// person returns somebody whose capacities are exactly as inputs say.
func (in *inputs) person(d deed, x []float64) *roomful.Abilities {
	a := &roomful.Abilities{Dims: make([]roomful.Dim, len(in.capacities)), MassKg: d.massKg}
	for j, c := range in.capacities {
		a.Dims[j] = roomful.Dim{Capacity: c, Centre: x[j]}
	}
	return a
}

// share returns what the share of an unbroken set that a repetition of a task is does to
// the logarithm of how long the task takes somebody.
func share(s Simulator, a *roomful.Abilities, t roomful.Task) float64 {
	return math.Log1p(restPerRep / max(1, s.Unbroken(a, t)))
}

// full returns inputs followed by the shares of the tasks that tire.
func (in *inputs) full(s Simulator, d deed, x []float64) []float64 {
	out := append(make([]float64, 0, len(x)+len(in.tasks)), x...)
	if len(in.tasks) == 0 {
		return out
	}
	a := in.person(d, x)
	for _, t := range in.tasks {
		out = append(out, share(s, a, d.tasks[t.at]))
	}
	return out
}

// few returns some of the cases, evenly taken.
func few(cases []Case) []Case {
	n := min(feltCases, len(cases))
	var out []Case
	for k := range n {
		out = append(out, cases[k*len(cases)/n])
	}
	return out
}

// feel notes how far the typical score of a case moves when a capacity is one
// and a half spreads to either side, everything else lifted above the centre
// by so many spreads. From able to unable is far.
func (s Simulator) feel(c Case, lift float64, felt map[roomful.Capacity]float64) {
	base := exact(c.Prior, func(i int) float64 { return lift * c.Prior.Dims[i].SD() })
	q := roomful.ForecastRequest{Workers: 1, Piece: c.Result.capless(), Lead: c.Result.Before, Entrants: []roomful.Entrant{c.Result.entrant("", base)}}
	for i := range base.Dims {
		for _, side := range []float64{-1.5, 1.5} {
			a := *base
			a.Dims = slices.Clone(base.Dims)
			a.Dims[i].Centre += side * c.Prior.Dims[i].SD()
			q.Entrants = append(q.Entrants, c.Result.entrant("", &a))
		}
	}
	typical := s.Typical(q)
	for i := range base.Dims {
		for _, v := range typical[1+2*i : 3+2*i] {
			name := base.Dims[i].Capacity
			switch a, b := math.IsNaN(v), math.IsNaN(typical[0]); {
			case a && b:
			case a != b:
				felt[name] = 1
			default:
				felt[name] = max(felt[name], math.Abs(math.Log(max(v, leastScore)/max(typical[0], leastScore))))
			}
		}
	}
}

// exact returns abilities without doubt, each capacity moved from its centre.
func exact(a *roomful.Abilities, move func(dim int) float64) *roomful.Abilities {
	out := &roomful.Abilities{Dims: make([]roomful.Dim, len(a.Dims)), MassKg: a.MassKg}
	for i := range a.Dims {
		out.Dims[i] = roomful.Dim{Capacity: a.Dims[i].Capacity, Centre: a.Dims[i].Centre + move(i)}
	}
	return out
}
