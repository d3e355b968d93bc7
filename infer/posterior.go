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
	mode    []float64
	spread  [][]float64 // the covariance
	told    []told      // what each result said at the mode
}

// told is a straight line of the coordinates and how strongly it was pulled.
type told struct {
	label         string
	row           []float64
	force, weight float64
	// A bound says that offset and the line together are, but for noise, above
	// nought.
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
		p.climb()
		p.settle()
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

// The climb ends after so many steps or when one is this short.
const (
	mostSteps = 40
	shortStep = 1e-6
	longStep  = 2.5
)

// climb finds the most likely coordinates and the curvature there. Each step
// solves the straight problem that touches the curved one (Newton's method with
// the outer product of slopes as curvature); one that leads down is halved.
func (p *posterior) climb() {
	n := p.size()
	p.mode = make([]float64, n)
	from := p.lean(p.mode)
	for range mostSteps {
		step := from.step()
		if size := norm(step); size < shortStep {
			break
		} else if size > longStep {
			scale(step, longStep/size)
		}
		moved := false
		for range 8 {
			to := slices.Clone(p.mode)
			addTo(to, 1, step)
			if there := p.lean(to); there.height >= from.height-1e-9 {
				moved = norm(step) >= shortStep
				p.mode, from = to, there
				break
			}
			scale(step, 0.5)
		}
		if !moved {
			break
		}
	}
	p.told = from.told
	if l, ok := root(from.curvature); ok { // the identity and squares: always
		p.spread = inverse(l)
	}
}

// slant is the log-posterior around coordinates.
type slant struct {
	height    float64
	gradient  []float64
	curvature [][]float64 // negative second derivative
	told      []told
}

// lean returns the log-posterior around coordinates.
func (p *posterior) lean(z []float64) *slant {
	s := &slant{height: -dot(z, z) / 2, gradient: make([]float64, len(z)), curvature: matrix(len(z))}
	for i := range z {
		s.gradient[i] = -z[i]
		s.curvature[i][i] = 1
	}
	for i := range p.all {
		ev := &p.all[i]
		if ev.emulator != nil {
			p.weigh(s, ev, z)
		}
		for k := range ev.margins {
			p.bound(s, ev, &ev.margins[k], z)
		}
	}
	return s
}

// weigh adds a score.
func (p *posterior) weigh(s *slant, ev *evidence, z []float64) {
	x := slices.Clone(ev.inputs)
	row := make([]float64, len(z))
	for j, d := range ev.dims {
		if d >= 0 {
			clear(row)
			p.addAt(row, 1, d, ev.weeks)
			x[j] += dot(row, z)
		}
	}
	mean, sd, slopes := ev.emulator.at(ev.deed, x)
	clear(row)
	for j, d := range ev.dims {
		if d >= 0 {
			p.addAt(row, slopes[j], d, ev.weeks)
		}
	}
	if ev.capped {
		s.above(ev.label, row, mean-ev.observed, sd, z)
	} else {
		s.add(told{label: ev.label, row: row}, near(ev.observed-mean, sd))
	}
}

// bound adds that an element could, or could not, be done.
func (p *posterior) bound(s *slant, ev *evidence, m *margin, z []float64) {
	row := make([]float64, len(z))
	for _, sl := range m.slopes {
		p.addAt(row, sl.by, sl.dim, ev.weeks)
	}
	value := m.centre + dot(row, z)
	if m.cannot {
		value = -value
		scale(row, -1)
	}
	s.above(ev.label, row, value, edge, z)
}

// above adds that a value, a straight line of the coordinates around z, is but
// for noise above nought.
func (s *slant) above(label string, row []float64, value, noise float64, z []float64) {
	s.add(told{label: label, row: row, bound: true, offset: value - dot(row, z), noise: noise}, above(value, noise))
}

// add adds what pulls a straight line of the coordinates.
func (s *slant) add(t told, by pull) {
	s.height += by.likelihood
	addTo(s.gradient, by.force, t.row)
	t.force, t.weight = by.force, by.weight
	for i, v := range t.row {
		if v != 0 {
			addTo(s.curvature[i], by.weight*v, t.row[:i+1])
		}
	}
	s.told = append(s.told, t)
}

// step returns the step to the top of the parabola that touches here.
func (s *slant) step() []float64 {
	l, ok := root(s.curvature)
	if !ok {
		return make([]float64, len(s.gradient))
	}
	return solve(l, s.gradient)
}
