package study

import (
	"context"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Seeded is the study of one seed: where the model is true, where it is not, and by
// each of the further truths.
type Seeded struct {
	Seed         uint64
	Plain, Other Recovered
	Further      []Recovered
}

// RecoverSeed studies one seed.
func RecoverSeed(ctx context.Context, m Model) (out Seeded, err error) {
	out.Seed = m.Seed
	r := Recovery{Model: m, Lengths: Lengths}
	if out.Plain, err = r.Run(ctx); err != nil {
		return out, err
	}
	r.Truth = Perturbed(m.Constants)
	if out.Other, err = r.Run(ctx); err != nil {
		return out, err
	}
	for _, f := range Further {
		r.Truth = f.Of(m.Constants)
		got, err := r.Run(ctx)
		if err != nil {
			return out, err
		}
		out.Further = append(out.Further, got)
	}
	return out, nil
}

// pool puts the people of several studies together.
func pool(all []Recovered) (out Recovered) {
	for _, r := range all {
		out.People += r.People
		out.Results += r.Results
		out.Left += r.Left
		out.Refused = append(out.Refused, r.Refused...)
		if r.Forecasts > 0 {
			out.Forecasts += r.Forecasts
			by := float64(r.Forecasts) / float64(out.Forecasts)
			out.CRPS += by * (r.CRPS - out.CRPS)
			out.Baseline += by * (r.Baseline - out.Baseline)
		}
		if out.Cells == nil {
			out.Cells = make([]Cell, len(r.Cells))
		}
		for i, c := range r.Cells {
			out.Cells[i].join(c)
		}
	}
	return out
}

// join adds other people to a cell.
func (c *Cell) join(d Cell) {
	c.Capacity, c.Length = d.Capacity, d.Length
	c.Inside += d.Inside
	if c.Of += d.Of; c.Of > 0 {
		c.Narrowed += (d.Narrowed - c.Narrowed) * float64(d.Of) / float64(c.Of)
	}
	for i, n := range d.Ranks {
		c.Ranks[i] += n
	}
}

// byChance is how many of some cells lie beyond three standard errors by chance when
// every interval keeps its promise: the tails of a binomial distribution.
func byChance(cells []Cell) (n float64) {
	for _, c := range cells {
		b := distuv.Binomial{N: float64(c.Of), P: nominal}
		mean, far := nominal*float64(c.Of), mostErrors*math.Sqrt(nominal*(1-nominal)*float64(c.Of))
		n += b.CDF(math.Ceil(mean-far)-1) + 1 - b.CDF(math.Floor(mean+far))
	}
	return n
}

// chanceShare is how often a study whose every interval keeps its promise may fail the
// gate of cells.
const chanceShare = 0.05

// allowed is the most cells beyond three standard errors that are not too many when so
// many are expected by chance (Poisson's distribution, as for rare events).
func allowed(expected float64) int {
	n := 0
	for 1-(distuv.Poisson{Lambda: expected}).CDF(float64(n)) > chanceShare {
		n++
	}
	return n
}
