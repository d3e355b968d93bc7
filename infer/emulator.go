package infer

import (
	"context"
	"math"
	"runtime"
	"strconv"
	"sync"
	"sync/atomic"

	"roomful"
)

// Case is somebody's result with what was believed of them before it.
type Case struct {
	Prior  *roomful.Abilities
	Result *Result
}

// Emulator stands in for the forecaster on one structure of piece: the mean
// and the spread of the logarithm of the score, by ability, load and body mass.
type Emulator struct {
	by     Simulator
	inputs inputs
	mean   *surface
	spread *surface // of the logarithm of the variance within a person
	fade   *surface // how much longer the last rounds take than the first; nil when no result tells its rounds
	cases  []Case   // that it is made from; nil once it is
	reach  reach
}

// Simulator is how the forecaster is run.
type Simulator struct {
	roomful.Forecaster
	Seed    uint64
	Workers int // 0 means as many as there are processors
	// Progress, when set, is called now and then with the share of emulators made,
	// from several goroutines.
	Progress func(share float64)
}

// workers is how many goroutines may run.
func (s Simulator) workers() int {
	if s.Workers > 0 {
		return s.Workers
	}
	return runtime.GOMAXPROCS(0)
}

// emulate makes the emulator of a structure, from so many points, for the people and
// loads of the cases, which share one structure. It is refused when too few of the
// people can do all of it.
func (s Simulator) emulate(ctx context.Context, cases []Case, points int) (*Emulator, error) {
	e := &Emulator{by: s, cases: cases, inputs: s.inputsOf(cases)}
	for _, c := range cases {
		e.reach.take(c)
	}
	scores, err := s.simulate(ctx, e.design(points, s.Seed), runsOf, s.Seed)
	if err != nil {
		return nil, err
	}
	var x [][]float64
	var mean, noise, spread, doubt []float64
	for _, p := range scores {
		if p.ok {
			x = append(x, e.full(p))
			mean, noise = append(mean, p.mean), append(noise, p.variance/float64(p.runs))
			// The logarithm of a sample's variance is this much low, and this uncertain.
			spread = append(spread, math.Log(p.variance)+1/float64(p.runs-1))
			doubt = append(doubt, 2/float64(p.runs-1))
		}
	}
	if len(x) < leastPoints {
		return nil, &roomful.Error{
			Summary: "learning from " + cases[0].Result.label() + ": few people like these could do all of it",
			Hint:    "log which element could not be done instead of a score",
		}
	}
	e.fade = e.fading(scores)
	e.mean, e.spread = newSurface(x, mean, noise, false), newSurface(x, spread, doubt, true)
	return e, nil
}

// Check returns the emulator's mean absolute error of the log-score at fresh
// people, and whether that is little enough to use it: beside one score's own luck,
// or at all. What it is off counts as noise from then on.
func (s Simulator) Check(ctx context.Context, e *Emulator) (off float64, ok bool, err error) {
	scores, err := s.simulate(ctx, e.draw(freshPoints, s.Seed+1, 1), freshRuns, s.Seed+1)
	luck, n := 0.0, 0
	for _, p := range scores {
		if p.ok {
			off += math.Abs(e.mean.at(e.full(p)) - p.mean)
			luck += math.Sqrt(p.variance)
			n++
		}
	}
	off, luck = off/float64(max(n, 1)), luck/float64(max(n, 1))
	e.mean.misfit = max(e.mean.misfit, off*sdOfAbs)
	return off, n > 0 && off <= max(rejectOver, min(rejectShare*luck, rejectEver)), err
}

// full returns the full inputs at a point.
func (e *Emulator) full(p point) []float64 {
	return e.inputs.full(e.by, doing(Case{p.abilities, p.result}), e.inputs.of(p.abilities, p.result))
}

// at returns the mean and the spread of the log-score at inputs.
func (e *Emulator) at(d deed, x []float64) (mean, sd float64) {
	full := e.inputs.full(e.by, d, x)
	within := math.Exp(e.spread.at(full))
	return e.mean.at(full), max(leastSD, math.Sqrt(within+e.mean.misfit*e.mean.misfit))
}

// point is somebody's result at exact abilities.
type point struct {
	abilities *roomful.Abilities
	result    *Result
	mean      float64 // of the logarithm of the score
	variance  float64
	runs      int
	ok        bool    // everything could be done, every time
	fade      float64 // NaN when there are no two rounds
}

// simulate runs the forecaster at every point. Each has its own random numbers:
// with common ones the effect of a gym would be the same at all of them and
// not average out.
func (s Simulator) simulate(ctx context.Context, points []point, runs int, seed uint64) ([]point, error) {
	var next atomic.Int64
	var wg sync.WaitGroup
	failed := make([]error, len(points))
	for range s.workers() {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(points); i = int(next.Add(1)) - 1 {
				failed[i] = s.run(ctx, &points[i], runs, seed+uint64(i)*7919)
			}
		})
	}
	wg.Wait()
	for _, err := range failed {
		if err != nil {
			return nil, err
		}
	}
	return points, ctx.Err()
}

// run lets a point's person do their piece.
func (s Simulator) run(ctx context.Context, p *point, runs int, seed uint64) error {
	f, err := s.Forecast(ctx, roomful.ForecastRequest{
		Piece: p.result.capless(), Lead: p.result.Before, Runs: runs, Seed: seed, Workers: 1,
		Entrants: []roomful.Entrant{p.result.entrant(strconv.FormatUint(seed, 36), p.abilities)},
	})
	if err != nil {
		return err
	}
	a := &f.Athletes[0]
	var logs []float64
	for _, v := range a.Scores {
		if !math.IsNaN(v) {
			logs = append(logs, math.Log(max(v, leastScore)))
		}
	}
	var rounds []float64
	for _, r := range a.Rounds {
		rounds = append(rounds, r.Seconds)
	}
	p.fade = fadeOf(rounds)
	p.runs = len(logs)
	if p.ok = a.Cannot == 0 && p.runs > 2; p.ok {
		p.mean, p.variance = meanVariance(logs)
		p.variance = max(p.variance, leastSD*leastSD/4)
	}
	return nil
}
