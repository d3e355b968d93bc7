package study

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"roomful/sim"
)

// none is the study left out when none is.
const none = -1

// How far, in judged SDs, the first differences and the later ones reach, and
// how far a constant may go at most.
const wide, narrow, farthest = 0.5, 0.25, 3.0

// fitter searches for constants that suit some studies.
type fitter struct {
	bench   *bench  // at the defaults
	studies []Study // all findings have a rule
	owner   []int   // the study of each finding
	weight  []float64
	origin  point      // the defaults
	slopes  *mat.Dense // there
	all     point      // the refit with every study
}

// point is a set of constants and what came of it.
type point struct {
	x        []float64 // judged SDs from the defaults, by constant
	report   Report
	residual []float64
}

// start looks at the defaults.
func (f *fitter) start() error {
	for i, s := range f.studies {
		for range s.Findings {
			f.owner = append(f.owner, i)
			f.weight = append(f.weight, 1/math.Sqrt(float64(len(s.Findings))))
		}
	}
	var err error
	if f.origin, err = f.look(make([]float64, len(Free))); err != nil {
		return err
	}
	f.slopes, err = f.differences(f.origin, wide)
	return err
}

// base is a constant's default.
func (f *fitter) base(c Freedom) float64 {
	for _, k := range sim.Table() {
		if k.Name == c.Constant {
			return k.Value(&f.bench.Constants)
		}
	}
	return math.NaN()
}

// look compares the studies by the constants at x.
func (f *fitter) look(x []float64) (point, error) {
	constants := f.bench.Constants
	for k, c := range Free {
		if err := constants.Set(c.Constant, c.from(f.base(c), x[k])); err != nil {
			return point{}, err
		}
	}
	p := point{x: x, report: f.bench.with(constants).compare(f.studies)}
	for n, row := range p.report.Rows {
		p.residual = append(p.residual, f.weight[n]*bent(row.Z))
	}
	return p, f.bench.ctx.Err()
}

// bent returns a number whose square is z² up to 2 and grows straight from
// there, so that one figure far off does not rule the rest. No figure counts as
// one far off.
func bent(z float64) float64 {
	switch a := math.Abs(z); {
	case math.IsNaN(z):
		return 4
	case a > 2:
		return math.Copysign(math.Sqrt(4*a-4), z)
	}
	return z
}

// differences returns how each residual changes with each constant at a point.
func (f *fitter) differences(p point, reach float64) (*mat.Dense, error) {
	d := mat.NewDense(len(p.residual), len(Free), nil)
	for k := range Free {
		x := append([]float64(nil), p.x...)
		x[k] += reach
		q, err := f.look(x)
		if err != nil {
			return nil, err
		}
		for n := range q.residual {
			d.Set(n, k, (q.residual[n]-p.residual[n])/reach)
		}
	}
	return d, nil
}

// bears reports whether any constant moves a figure of study i.
func (f *fitter) bears(i int) bool {
	for n, owner := range f.owner {
		for k := range Free {
			if owner == i && f.slopes.At(n, k) != 0 {
				return true
			}
		}
	}
	return false
}

// pull is the weight of the defaults: that of a study with a finding for each
// constant.
func pull() float64 { return 1 / float64(len(Free)) }

// loss is what the search makes small.
func (f *fitter) loss(p point, leftOut int) float64 {
	var sum float64
	for n, r := range p.residual {
		if f.owner[n] != leftOut {
			sum += r * r
		}
	}
	for _, x := range p.x {
		sum += pull() * x * x
	}
	return sum
}

// search refits from the defaults without a study.
func (f *fitter) search(leftOut, steps int) (point, error) {
	at, slopes := f.origin, f.slopes
	for s := range steps {
		if s > 0 {
			var err error
			if slopes, err = f.differences(at, narrow); err != nil {
				return at, err
			}
		}
		next, err := f.descend(at, slopes, leftOut)
		if err != nil {
			return at, err
		}
		if !(f.loss(next, leftOut) < f.loss(at, leftOut)) {
			break
		}
		at = next
	}
	return at, nil
}

// descend takes the longest of a few shares of the step that makes the loss
// smaller, or the last of them.
func (f *fitter) descend(at point, slopes *mat.Dense, leftOut int) (next point, err error) {
	step, err := f.step(at, slopes, leftOut)
	if err != nil {
		return at, err
	}
	for _, share := range []float64{1, 0.5, 0.25} {
		x := make([]float64, len(at.x))
		for k := range x {
			x[k] = max(-farthest, min(farthest, at.x[k]+share*step.AtVec(k)))
		}
		if next, err = f.look(x); err != nil || f.loss(next, leftOut) < f.loss(at, leftOut) {
			break
		}
	}
	return next, err
}

// step solves (SᵀS + pull·1)·step = −Sᵀr − pull·x.
func (f *fitter) step(at point, slopes *mat.Dense, leftOut int) (*mat.VecDense, error) {
	used := mat.DenseCopyOf(slopes)
	residual := mat.NewVecDense(len(at.residual), append([]float64(nil), at.residual...))
	for n, owner := range f.owner {
		if owner == leftOut {
			used.SetRow(n, make([]float64, len(Free)))
			residual.SetVec(n, 0)
		}
	}
	var left mat.Dense
	var right, step mat.VecDense
	left.Mul(used.T(), used)
	right.MulVec(used.T(), residual)
	for k := range Free {
		left.Set(k, k, left.At(k, k)+pull())
		right.SetVec(k, -right.AtVec(k)-pull()*at.x[k])
	}
	err := step.SolveVec(&left, &right)
	return &step, err
}
