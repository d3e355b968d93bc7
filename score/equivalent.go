package score

import (
	"cmp"
	"context"
	"math"
	"slices"

	"roomful"
)

// A run stands for the person of the earlier day as far as it comes near the score
// of that day. How near is near is a share of how far runs lie apart, and never less
// than a watch is worth.
const (
	nearShare = 0.15
	leastNear = 0.005
	fewest    = 12 // runs that must count for there to be an answer
	leastOf   = 0.02
	farthest  = 4 // sd of the runs beyond which a score is of somebody else
)

// equivalent simulates both versions with the same random numbers: run for run the
// same person on the same day. Runs that come near the earlier score say what that
// person would have scored on the later work; a straight line through them takes out
// how far each is from it (regression adjustment: Beaumont, Zhang and Balding 2002,
// Genetics 162:2025-2035).
func (c Comparer) equivalent(ctx context.Context, who *roomful.Abilities, out *roomful.Comparison) error {
	first, err := c.simulate(ctx, who, out.Earlier)
	if err != nil {
		return err
	}
	second, err := c.simulate(ctx, who, out.Later)
	if err != nil {
		return err
	}
	pairs := paired(first, second)
	target := math.Log(max(out.Earlier.Done.Score, leastOf))
	pulled, weights := conditioned(pairs, target, capped(out.Earlier))
	if effective(weights) < fewest {
		return nil
	}
	q := weighed(pulled, weights)
	for _, v := range []*float64{&q.P05, &q.P50, &q.P95} {
		*v = math.Exp(*v)
	}
	out.Equivalent = &q
	sign, score := better(out.Later.Reading.Kind), math.Log(max(out.Later.Done.Score, leastOf))
	var over, all float64
	for i, w := range weights {
		all += w
		switch gap := (score - pulled[i]) * sign; {
		case gap > 0:
			over += w
		case gap == 0:
			over += w / 2
		}
	}
	out.Improved = over / all
	if capped(out.Later) && out.Improved > tieBelow { // it took longer than the cap, and nobody knows how long
		out.Improved = math.NaN()
	}
	return nil
}

// capped reports whether an attempt ended at the cap, so that all that is known is
// that it would have taken longer.
func capped(e roomful.Entry) bool { return e.Done.Capped && e.Reading.Kind == roomful.TimeScore }

// simulate has a person do what an entry says, run for run with the same draws.
func (c Comparer) simulate(ctx context.Context, who *roomful.Abilities, e roomful.Entry) ([]float64, error) {
	f, err := c.Forecaster.Forecast(ctx, c.request(who, e))
	if err != nil {
		return nil, err
	}
	return f.Athletes[0].Scores, nil
}

// request is an entry done by one person. The cap is off: who would have taken longer
// is not to look as fast as the cap.
func (c Comparer) request(who *roomful.Abilities, e roomful.Entry) roomful.ForecastRequest {
	piece := e.Done.Piece
	if f, ok := piece.Format.(roomful.ForTime); ok {
		f.Cap = 0
		piece.Format = f
	}
	piece.Team = roomful.Team{}
	runs := c.Runs
	if runs <= 0 {
		runs = UsualRuns
	}
	return roomful.ForecastRequest{Piece: piece, Lead: e.Done.Before, Runs: runs, Seed: c.Seed, Workers: c.Workers,
		Entrants: []roomful.Entrant{{ID: e.Athlete, Name: e.Name, Abilities: who, Work: e.Done.Work, Lead: e.Done.Lead, Dose: e.Done.Dose, Segments: e.Done.Segments}}}
}

// pair is the logarithm of one run's scores on both versions.
type pair struct{ first, second float64 }

// paired keeps the runs that both versions finished.
func paired(first, second []float64) []pair {
	var out []pair
	for i := range min(len(first), len(second)) {
		if a, b := first[i], second[i]; !math.IsNaN(a) && !math.IsNaN(b) && !math.IsInf(a, 0) && !math.IsInf(b, 0) {
			out = append(out, pair{math.Log(max(a, leastOf)), math.Log(max(b, leastOf))})
		}
	}
	return out
}

// conditioned returns each run's second score pulled to the first one asked for, with
// what the run counts.
func conditioned(pairs []pair, target float64, atLeast bool) (values, weights []float64) {
	if len(pairs) == 0 {
		return nil, nil
	}
	var mean, square float64
	for _, p := range pairs {
		mean += p.first / float64(len(pairs))
	}
	for _, p := range pairs {
		square += (p.first - mean) * (p.first - mean) / float64(len(pairs))
	}
	width := max(nearShare*math.Sqrt(square), leastNear)
	values, weights = make([]float64, len(pairs)), make([]float64, len(pairs))
	for i, p := range pairs {
		switch z := (p.first - target) / width; {
		case atLeast && z >= 0:
			weights[i] = 1
		case atLeast:
		default:
			weights[i] = math.Exp(-z * z / 2)
		}
		values[i] = p.second
	}
	if atLeast {
		return values, weights
	}
	if effective(weights) < fewest { // outside most runs: all count, by the line through them
		if len(pairs) < fewest || math.Abs(target-mean) > farthest*math.Sqrt(square) {
			return values, make([]float64, len(pairs))
		}
		for i := range weights {
			weights[i] = 1
		}
	}
	slope := slopeOf(pairs, weights)
	for i, p := range pairs {
		values[i] += slope * (target - p.first)
	}
	return values, weights
}

// slopeOf is the weighted slope of the second scores over the first.
func slopeOf(pairs []pair, weights []float64) float64 {
	var w, x, y, xx, xy float64
	for i, p := range pairs {
		w += weights[i]
		x += weights[i] * p.first
		y += weights[i] * p.second
	}
	for i, p := range pairs {
		dx := p.first - x/w
		xx += weights[i] * dx * dx
		xy += weights[i] * dx * (p.second - y/w)
	}
	if xx < 1e-12 {
		return 0
	}
	return xy / xx
}

// effective is how many runs the weights are worth (Kish 1965).
func effective(weights []float64) float64 {
	var sum, squares float64
	for _, w := range weights {
		sum += w
		squares += w * w
	}
	if squares == 0 {
		return 0
	}
	return sum * sum / squares
}

// weighed returns the middle and the middle nine tenths of weighted values.
func weighed(values, weights []float64) roomful.Quantiles {
	order := make([]int, len(values))
	all := 0.0
	for i := range order {
		order[i] = i
		all += weights[i]
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(values[a], values[b]) })
	at := func(share float64) float64 {
		sum := 0.0
		for _, i := range order {
			if sum += weights[i]; sum >= share*all {
				return values[i]
			}
		}
		return values[order[len(order)-1]]
	}
	return roomful.Quantiles{P05: at(0.05), P50: at(0.5), P95: at(0.95)}
}
