package infer

import (
	"math"
	"slices"

	"roomful"
)

// posterior is what all results say about the factors they touch. Its
// coordinates are those factors, then the steps of the walk of oxygen supply
// from today back to the oldest result; all are standard normal beforehand.
type posterior struct {
	prior   *roomful.Abilities
	all     []evidence
	factors []int // the touched ones, ascending
	weeks   []int // before today, ascending: where the walk has steps
	rows    map[int][]float64
	mean    []float64
	spread  [][]float64 // the covariance
	told    []told      // what each result said of this belief
}

// told is a straight line of the coordinates and how strongly it was pulled.
type told struct {
	label  string
	row    []float64
	weight float64
	push   float64 // it stands for exp(push x - weight x²/2), x the line
	// A bound says that offset and the line together are, but for noise, above nought.
	bound         bool
	offset, noise float64
}

func newPosterior(prior *roomful.Abilities, all []evidence) *posterior {
	p := &posterior{prior: prior, all: all, rows: map[int][]float64{}}
	var dims []int
	for _, ev := range all {
		p.weeks = append(p.weeks, ev.weeks)
		for _, d := range ev.dims {
			if d >= 0 {
				dims = append(dims, d)
			}
		}
		for _, m := range ev.margins {
			for _, s := range m.slopes {
				dims = append(dims, s.dim)
			}
		}
	}
	p.weeks = slices.DeleteFunc(sorted(p.weeks), func(w int) bool { return w == 0 })
	for _, d := range sorted(dims) {
		for _, l := range prior.Dims[d].Loads {
			p.factors = append(p.factors, l.Factor)
		}
	}
	p.factors = sorted(p.factors)
	for _, d := range sorted(dims) {
		p.rows[d] = p.row(d)
	}
	if len(p.factors) > 0 {
		p.believe()
	}
	return p
}

// size returns how many coordinates there are.
func (p *posterior) size() int { return len(p.factors) + len(p.weeks) }

// row returns the loads of a dim on the coordinates as they are today.
func (p *posterior) row(dim int) []float64 {
	row := make([]float64, p.size())
	for _, l := range p.prior.Dims[dim].Loads {
		if j, ok := slices.BinarySearch(p.factors, l.Factor); ok {
			row[j] += l.SD
		}
	}
	return row
}

// addAt adds a multiple of a dim's loads, as they were some weeks ago, to a row.
func (p *posterior) addAt(row []float64, by float64, dim, weeks int) {
	addTo(row, by, p.rows[dim])
	if p.prior.Dims[dim].Capacity != roomful.CapVO2max {
		return
	}
	last := 0
	for k, w := range p.weeks {
		if w > weeks {
			break
		}
		row[len(p.factors)+k] += by * OxygenWalk * math.Sqrt(float64(w-last))
		last = w
	}
}

// round is how belief is made anew once.
type round struct {
	share   float64 // of what scores say that is new; the rest is of the round before
	turning bool    // whether the slopes of lines turn
}

// rounds are how often belief is made anew. Where a score bends sharply whole steps
// swing from one side to the other. Slopes turn once belief is narrow: across all that
// is believed beforehand they turn too far to be one figure (judgement, tried on
// simulated people: doc/inference-calibration.md).
var rounds = []round{{share: 1}, {share: 0.7}, {share: 0.7}, {share: 0.7, turning: true}, {share: 0.7, turning: true}}

// believe starts from the prior. Each score is made straight over the whole of
// what is believed and the straight problem solved, which is belief for the next
// round (iterated posterior linearisation: García-Fernández et al. 2015, IEEE
// Trans Signal Process 63:5561-5573). A slope at a single point would not see
// how a score flattens out beside it, and leave belief too narrow.
//
// The mean of what is left is where the mean slope of the log-posterior over belief is
// nought (variational approximation: Opper and Archambeau 2009, Neural Comput
// 21:786-792), which holds how slopes turn.
func (p *posterior) believe() {
	p.mean, p.spread = make([]float64, p.size()), matrix(p.size())
	for i := range p.spread {
		p.spread[i][i] = 1
	}
	var before *slant
	for _, r := range rounds {
		scores := p.scores(r)
		if before != nil {
			scores.blend(before, r.share)
		}
		before = scores
		all := scores.clone()
		p.bounds(all)
		l, ok := root(all.curvature) // the identity and squares: always
		if !ok {
			return
		}
		p.mean, p.spread, p.told = solve(l, all.push), inverse(l), all.told
		p.settle()
	}
}
