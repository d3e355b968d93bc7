package version_test

import (
	"context"
	"math"
	"slices"
	"sync/atomic"
	"time"

	"roomful"
)

// toy is a forecaster whose rule can be followed by hand. A repetition takes
// its movement's ordinary pace, times 1 + 2(f − 0.4) for a load over 0.4 of the
// maximum, times 1 + r/(4N) for r repetitions when N can be done fresh. A
// machine or running covers a twelfth of VO2max in metres a second. Noise
// multiplies the whole by exp(0.08 z), z running through the same quantiles for
// everybody.
type toy struct {
	lex                       lexicon
	typical, forecasts, units *atomic.Int64 // entrants screened, calls, entrant-runs
}

func newToy() toy {
	return toy{lex: toyLexicon, typical: new(atomic.Int64), forecasts: new(atomic.Int64), units: new(atomic.Int64)}
}

func (y toy) Unbroken(a *roomful.Abilities, t roomful.Task) float64 {
	m := y.lex.Movement(t.Movement)
	if m == nil || m.Bound == nil {
		return 1000
	}
	if m.Bound.Lift == "" {
		n, ok := a.Median(roomful.OwnMax(m.Bound.Own))
		if !ok {
			n = 10
		}
		return n / m.Bound.Share
	}
	f := t.LoadKg() / y.max(a, m)
	if f <= 0 {
		return 1000
	}
	return 1 + 30*(1/f-1)
}

// max is the person's maximum of a loaded movement in kg, 60 when unknown.
func (y toy) max(a *roomful.Abilities, m *roomful.Movement) float64 {
	kg, ok := a.Median(roomful.OneRM(m.Bound.Lift))
	if !ok {
		kg = 60
	}
	return kg * m.Bound.Share
}

func (y toy) LoadFor(a *roomful.Abilities, t roomful.Task, reps float64) float64 {
	m := y.lex.Movement(t.Movement)
	if m == nil || m.Bound == nil || m.Bound.Lift == "" {
		return 0
	}
	return y.max(a, m) / (1 + (reps-1)/30)
}

// seconds is how long one task takes.
func (y toy) seconds(a *roomful.Abilities, t roomful.Task, count float64) float64 {
	m := y.lex.Movement(t.Movement)
	if t.Amount == 0 {
		t.Amount = count
	}
	switch {
	case t.Unit == roomful.Second || m == nil:
		return t.Amount
	case t.Unit == roomful.Metre:
		vo2, ok := a.Median(roomful.CapVO2max)
		if !ok {
			vo2 = 40
		}
		return t.Amount / (vo2 / 12)
	}
	n := y.Unbroken(a, t)
	if n < 1 {
		return math.NaN()
	}
	s := t.Amount * m.Pace.Ordinary * (1 + t.Amount/(4*n))
	if m.Bound != nil && m.Bound.Lift != "" {
		s *= 1 + 2*max(0, t.LoadKg()/y.max(a, m)-0.4)
	}
	return s
}

// score is the toy's score without noise, at a pace factor.
func (y toy) score(p roomful.Part, e roomful.Entrant, slower float64) float64 {
	var outside, round float64
	for _, t := range append(slices.Clone(e.Work.Once), e.Work.Last...) {
		outside += y.seconds(e.Abilities, t, 0)
	}
	for _, t := range e.Work.Round {
		round += y.seconds(e.Abilities, t, 15)
	}
	switch f := p.Format.(type) {
	case roomful.RoundsInTime:
		return max(f.Window.Seconds()-outside*slower, 0) / (round * slower)
	case roomful.ForTime:
		return (outside + round*float64(max(f.Rounds, 1))) * slower
	default:
		return 100
	}
}

func (y toy) Typical(q roomful.ForecastRequest) []float64 {
	y.typical.Add(int64(len(q.Entrants)))
	out := make([]float64, len(q.Entrants))
	for i, e := range q.Entrants {
		out[i] = y.score(q.Piece, e, 1)
	}
	return out
}

func (y toy) Forecast(ctx context.Context, q roomful.ForecastRequest) (roomful.Forecast, error) {
	if err := ctx.Err(); err != nil {
		return roomful.Forecast{}, err
	}
	y.forecasts.Add(1)
	y.units.Add(int64(len(q.Entrants) * q.Runs))
	out := roomful.Forecast{Kind: roomful.KindOf(q.Piece, y.lex)}
	for _, e := range q.Entrants {
		out.Athletes = append(out.Athletes, y.one(q, e))
	}
	return out, nil
}

// one forecasts one entrant over evenly spaced quantiles of the noise.
func (y toy) one(q roomful.ForecastRequest, e roomful.Entrant) roomful.AthleteForecast {
	mid := y.score(q.Piece, e, 1)
	f := roomful.AthleteForecast{Name: e.Name, Score: roomful.Quantiles{P05: mid, P50: mid, P95: mid}}
	if math.IsNaN(mid) {
		f.Cannot = 1
	}
	if q.Effort.Stated() {
		held := 0.0
		for r := range q.Runs {
			z := math.Sqrt2 * math.Erfinv(2*(float64(r)+0.5)/float64(q.Runs)-1)
			if q.Effort.Holds(y.score(q.Piece, e, math.Exp(0.08*z))) {
				held++
			}
		}
		held /= float64(max(q.Runs, 1))
		f.OnIntent = &held
	}
	return f
}

// lexicon is a handful of movements by id.
type lexicon map[roomful.MovementID]*roomful.Movement

func (l lexicon) Movement(id roomful.MovementID) *roomful.Movement { return l[id] }
func (l lexicon) Match([]string) (*roomful.Movement, int)          { return nil, 0 }
func (l lexicon) Suggest(string) []*roomful.Movement               { return nil }
func (l lexicon) All() []*roomful.Movement {
	var out []*roomful.Movement
	for _, m := range l {
		out = append(out, m)
	}
	slices.SortFunc(out, func(a, b *roomful.Movement) int {
		if a.ID < b.ID {
			return -1
		}
		return 1
	})
	return out
}

func lift(l roomful.Lift, share float64) *roomful.Bound { return &roomful.Bound{Lift: l, Share: share} }
func self(m roomful.MovementID, share float64) *roomful.Bound {
	return &roomful.Bound{Own: m, Share: share}
}

// toyLexicon keeps squat, hinge, pull, jump and steady work, each with a way
// out.
var toyLexicon = lexicons(
	&roomful.Movement{ID: "front-squat", Name: "front squat", Plural: "front squats", Patterns: []roomful.Pattern{roomful.Squat},
		Modality: roomful.Loaded, Stress: []roomful.Stress{roomful.StressSpine, roomful.StressKnee, roomful.StressWrist},
		Implement: roomful.Barbell, Pace: roomful.Pace{Ordinary: 3}, Bound: lift(roomful.FrontSquat, 1),
		Easier: []roomful.MovementID{"goblet-squat", "air-squat"},
		Swaps: []roomful.Swap{
			{To: "goblet-squat", For: []roomful.Reason{roomful.ForNoKit, roomful.ForWrist}, Ratio: 1},
			{To: "air-squat", For: []roomful.Reason{roomful.ForNoKit, roomful.ForBack}, Ratio: 1.5},
			{To: "bridge", For: []roomful.Reason{roomful.ForKnee}, Ratio: 1, Neighbour: "squat becomes hinge"}}},
	&roomful.Movement{ID: "goblet-squat", Name: "goblet squat", Plural: "goblet squats", Patterns: []roomful.Pattern{roomful.Squat},
		Modality: roomful.Loaded, Stress: []roomful.Stress{roomful.StressKnee}, Implement: roomful.Kettlebell,
		Pace: roomful.Pace{Ordinary: 2.8}, Bound: lift(roomful.FrontSquat, 0.6), Easier: []roomful.MovementID{"air-squat"},
		Swaps: []roomful.Swap{{To: "air-squat", For: []roomful.Reason{roomful.ForNoKit}, Ratio: 1.5}}},
	&roomful.Movement{ID: "dumbbell-front-squat", Name: "dumbbell front squat", Plural: "dumbbell front squats", Patterns: []roomful.Pattern{roomful.Squat},
		Modality: roomful.Loaded, Stress: []roomful.Stress{roomful.StressSpine, roomful.StressKnee}, Implement: roomful.Dumbbell, Pair: true,
		Pace: roomful.Pace{Ordinary: 3}, Bound: lift(roomful.FrontSquat, 0.68), Swaps: []roomful.Swap{{To: "dumbbell-goblet-squat", For: []roomful.Reason{roomful.ForNoKit}, Ratio: 1}}},
	&roomful.Movement{ID: "dumbbell-goblet-squat", Name: "dumbbell goblet squat", Plural: "dumbbell goblet squats", Patterns: []roomful.Pattern{roomful.Squat},
		Modality: roomful.Loaded, Stress: []roomful.Stress{roomful.StressKnee}, Implement: roomful.Dumbbell,
		Pace: roomful.Pace{Ordinary: 2.8}, Bound: lift(roomful.FrontSquat, 0.6)},
	&roomful.Movement{ID: "air-squat", Name: "air squat", Plural: "air squats", Patterns: []roomful.Pattern{roomful.Squat},
		Modality: roomful.Body, Stress: []roomful.Stress{roomful.StressKnee}, Pace: roomful.Pace{Ordinary: 1.8}},
	&roomful.Movement{ID: "bridge", Name: "bridge", Plural: "bridges", Patterns: []roomful.Pattern{roomful.Hinge},
		Modality: roomful.Body, Pace: roomful.Pace{Ordinary: 2}},
	&roomful.Movement{ID: "pull-up", Name: "pull-up", Plural: "pull-ups", Patterns: []roomful.Pattern{roomful.PullVertical},
		Modality: roomful.Body, Stress: []roomful.Stress{roomful.StressGrip, roomful.StressShoulder}, Needs: []string{"pull-up-bar"},
		Pace: roomful.Pace{Ordinary: 2}, Bound: self("pull-up", 1), Skill: roomful.Skill{Needed: true},
		Easier: []roomful.MovementID{"banded-pull-up", "ring-row"},
		Swaps:  []roomful.Swap{{To: "towel-row", For: []roomful.Reason{roomful.ForNoKit}, Ratio: 1}}},
	&roomful.Movement{ID: "banded-pull-up", Name: "banded pull-up", Plural: "banded pull-ups", Patterns: []roomful.Pattern{roomful.PullVertical},
		Modality: roomful.Body, Stress: []roomful.Stress{roomful.StressGrip, roomful.StressShoulder}, Needs: []string{"pull-up-bar", "band"},
		Pace: roomful.Pace{Ordinary: 2}, Bound: self("pull-up", 0.7)},
	&roomful.Movement{ID: "ring-row", Name: "ring row", Plural: "ring rows", Patterns: []roomful.Pattern{roomful.PullHorizontal},
		Modality: roomful.Body, Needs: []string{"rings"}, Pace: roomful.Pace{Ordinary: 2.2}},
	&roomful.Movement{ID: "towel-row", Name: "towel row", Plural: "towel rows", Patterns: []roomful.Pattern{roomful.PullHorizontal},
		Modality: roomful.Body, Pace: roomful.Pace{Ordinary: 2.2}},
	&roomful.Movement{ID: "kettlebell-swing", Name: "kettlebell swing", Plural: "kettlebell swings", Patterns: []roomful.Pattern{roomful.Hinge},
		Modality: roomful.Loaded, Stress: []roomful.Stress{roomful.StressSpine, roomful.StressGrip}, Implement: roomful.Kettlebell,
		Pace: roomful.Pace{Ordinary: 1.8}, Bound: lift(roomful.Deadlift, 0.5),
		Swaps: []roomful.Swap{{To: "dumbbell-swing", For: []roomful.Reason{roomful.ForNoKit}, Ratio: 1},
			{To: "bridge", For: []roomful.Reason{roomful.ForBack, roomful.ForNoKit, roomful.ForPregnancy}, Ratio: 1}}},
	&roomful.Movement{ID: "dumbbell-swing", Name: "dumbbell swing", Plural: "dumbbell swings", Patterns: []roomful.Pattern{roomful.Hinge},
		Modality: roomful.Loaded, Stress: []roomful.Stress{roomful.StressSpine, roomful.StressGrip}, Implement: roomful.Dumbbell,
		Pace: roomful.Pace{Ordinary: 1.8}, Bound: lift(roomful.Deadlift, 0.5)},
	&roomful.Movement{ID: "deadlift", Name: "deadlift", Plural: "deadlifts", Patterns: []roomful.Pattern{roomful.Hinge},
		Modality: roomful.Loaded, Stress: []roomful.Stress{roomful.StressSpine, roomful.StressGrip}, Implement: roomful.Barbell,
		Pace: roomful.Pace{Ordinary: 3}, Bound: lift(roomful.Deadlift, 1)},
	&roomful.Movement{ID: "box-jump", Name: "box jump", Plural: "box jumps", Patterns: []roomful.Pattern{roomful.Jump},
		Modality: roomful.Body, Stress: []roomful.Stress{roomful.StressImpact, roomful.StressFall, roomful.StressKnee}, Needs: []string{"box"}, Noisy: true,
		Travel: roomful.Travel{OverHeight: true, UsualHeight: 60, UsualHigher: 50}, Pace: roomful.Pace{Ordinary: 3},
		Swaps: []roomful.Swap{{To: "box-step-up", For: []roomful.Reason{roomful.ForImpact, roomful.ForPregnancy, roomful.ForNoise}, Neighbour: "jump becomes single leg"}}},
	&roomful.Movement{ID: "box-step-up", Name: "box step-up", Plural: "box step-ups", Patterns: []roomful.Pattern{roomful.SingleLeg},
		Modality: roomful.Body, Needs: []string{"box"}, Travel: roomful.Travel{OverHeight: true, UsualHeight: 60, UsualHigher: 50}, Pace: roomful.Pace{Ordinary: 3}},
	&roomful.Movement{ID: "row", Name: "row", Plural: "row", Patterns: []roomful.Pattern{roomful.Cyclic}, Modality: roomful.Machine,
		Stress: []roomful.Stress{roomful.StressSpine}, Implement: roomful.RowMachine, Units: []roomful.Unit{roomful.Metre, roomful.Calorie},
		Swaps: []roomful.Swap{{To: "bike", For: []roomful.Reason{roomful.ForBack, roomful.ForNoMachine}},
			{To: "run", For: []roomful.Reason{roomful.ForNoMachine}}, {To: "step-up", For: []roomful.Reason{roomful.ForNoMachine, roomful.ForNoKit}}}},
	&roomful.Movement{ID: "bike", Name: "bike", Plural: "bike", Patterns: []roomful.Pattern{roomful.Cyclic}, Modality: roomful.Machine,
		Implement: roomful.Bike, Units: []roomful.Unit{roomful.Metre, roomful.Calorie}},
	&roomful.Movement{ID: "run", Name: "run", Plural: "run", Patterns: []roomful.Pattern{roomful.Cyclic}, Modality: roomful.Running,
		Stress: []roomful.Stress{roomful.StressImpact}, Needs: []string{"lane"}, Units: []roomful.Unit{roomful.Metre}},
	&roomful.Movement{ID: "step-up", Name: "low step-up", Plural: "low step-ups", Patterns: []roomful.Pattern{roomful.Cyclic, roomful.SingleLeg},
		Modality: roomful.Body, Pace: roomful.Pace{Ordinary: 3}},
)

func lexicons(ms ...*roomful.Movement) lexicon {
	l := lexicon{roomful.Rest: {ID: roomful.Rest, Name: "rest", Plural: "rest", Modality: roomful.Pause, Units: []roomful.Unit{roomful.Second}}}
	for _, m := range ms {
		if m.Units == nil {
			m.Units = []roomful.Unit{roomful.Rep}
		}
		l[m.ID] = m
	}
	return l
}

// knows builds abilities from medians, all told, with a little spread.
func knows(medians map[roomful.Capacity]float64) *roomful.Abilities {
	a := &roomful.Abilities{MassKg: 75, Factors: 1}
	for c, v := range medians {
		a.Dims = append(a.Dims, roomful.Dim{Capacity: c, Centre: math.Log(v), Informed: []string{"told"},
			Loads: []roomful.FactorLoad{{Factor: 0, SD: 0.1}}})
	}
	slices.SortFunc(a.Dims, func(x, y roomful.Dim) int {
		if x.Capacity < y.Capacity {
			return -1
		}
		return 1
	})
	return a
}

// able is a person's abilities by the four that the toy reads.
func able(frontSquat, deadlift, pullUps, vo2 float64) *roomful.Abilities {
	return knows(map[roomful.Capacity]float64{roomful.OneRM(roomful.FrontSquat): frontSquat, roomful.OneRM(roomful.Deadlift): deadlift,
		roomful.OwnMax("pull-up"): pullUps, roomful.CapVO2max: vo2})
}

func reps(id roomful.MovementID, n float64, load roomful.Load) roomful.Element {
	return roomful.Element{Movement: id, Amount: roomful.Amount{By: []float64{n}, Unit: roomful.Rep}, Load: load}
}

func metres(id roomful.MovementID, n float64) roomful.Element {
	return roomful.Element{Movement: id, Amount: roomful.Amount{By: []float64{n}, Unit: roomful.Metre}}
}

// ledge is the piece most tests use: 14 minutes of 9 front squats, 12 pull-ups
// and 15 swings.
func ledge() roomful.Part {
	return roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.RoundsInTime{Window: 14 * time.Minute},
		Once: []roomful.Element{metres("bike", 1000)},
		Round: []roomful.Element{
			reps("front-squat", 9, roomful.Masses{roomful.Kg(60), roomful.Kg(42.5)}),
			reps("pull-up", 12, nil),
			reps("kettlebell-swing", 15, roomful.Masses{roomful.Kg(24), roomful.Kg(16)}),
		},
		Instead: []roomful.Instead{
			{Movement: "pull-up", Options: []roomful.Element{{Movement: "ring-row"}, {Movement: "banded-pull-up"}}},
			{Movement: "kettlebell-swing", Options: []roomful.Element{{Movement: "dumbbell-swing"}}},
		}}
}

// ledgeEffort is 5-7 rounds with a front squat one could do 12 times.
func ledgeEffort() roomful.Effort {
	return roomful.Effort{Low: 5, High: 7, Unit: "rounds", Feel: "steady", Protect: "pace",
		Fresh: []roomful.FreshRule{{Movement: "front-squat", Reps: 12}}}
}

func months(n float64) *float64 { return &n }
