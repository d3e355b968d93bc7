package infer

import (
	"math"
	"slices"
)

// slant is how the log-posterior of the coordinates falls away from what is
// believed.
type slant struct {
	at        []float64 // the mean
	gradient  []float64
	curvature [][]float64 // negative second derivative; the lower half
	told      []told
}

// lean returns the log-posterior around what is believed.
func (p *posterior) lean() *slant {
	s := &slant{at: slices.Clone(p.mean), gradient: make([]float64, len(p.mean)), curvature: matrix(len(p.mean))}
	for i, z := range p.mean {
		s.gradient[i] = -z
		s.curvature[i][i] = 1
	}
	for i := range p.all {
		ev := &p.all[i]
		if ev.emulator != nil {
			p.score(s, ev)
		}
		for k := range ev.margins {
			p.bound(s, ev, &ev.margins[k])
		}
	}
	return s
}

// score adds a result's score.
func (p *posterior) score(s *slant, ev *evidence) {
	x := slices.Clone(ev.inputs)
	var moved []int
	var rows [][]float64
	for j, d := range ev.dims {
		if d >= 0 {
			row := make([]float64, len(s.at))
			p.addAt(row, 1, d, ev.weeks)
			x[j] += dot(row, s.at)
			moved, rows = append(moved, j), append(rows, row)
		}
	}
	around := p.around(rows)
	lead := func(l line) []float64 {
		row := make([]float64, len(s.at))
		for i := range rows {
			addTo(row, l.slope[i], rows[i])
		}
		return row
	}
	if ev.emulator.fade != nil && !math.IsNaN(ev.fade) {
		l := straight(ev.emulator.fadeAt, ev.deed, x, moved, around)
		s.add(told{label: ev.label, row: lead(l)}, near(ev.fade-l.mean, math.Sqrt(l.sd*l.sd+l.missed)))
	}
	l := straight(ev.emulator.at, ev.deed, x, moved, around)
	row := lead(l)
	misfit := ev.emulator.mean.misfit
	always := l.missed + ModelError*ModelError + misfit*misfit
	l.sd = math.Sqrt(l.sd*l.sd - misfit*misfit + ev.shared*always)
	if ev.capped {
		s.above(ev.label, row, l.mean-ev.observed, l.sd)
	} else {
		s.add(told{label: ev.label, row: row}, near(ev.observed-l.mean, l.sd))
	}
}

// around returns the covariance of straight lines of the coordinates.
func (p *posterior) around(rows [][]float64) [][]float64 {
	out, reach := matrix(len(rows)), make([]float64, len(p.spread))
	for i, row := range rows {
		clear(reach)
		for k, v := range row {
			if v != 0 {
				addTo(reach, v, p.spread[k])
			}
		}
		for j := range i + 1 {
			out[i][j] = dot(reach, rows[j])
		}
	}
	return out
}

// bound adds that an element could, or could not, be done.
func (p *posterior) bound(s *slant, ev *evidence, m *margin) {
	side := 1.0
	if m.cannot {
		side = -1
	}
	row := make([]float64, len(s.at))
	for _, sl := range m.slopes {
		p.addAt(row, side*sl.by, sl.dim, ev.weeks)
	}
	s.above(ev.label, row, side*m.centre+dot(row, s.at), edge)
}

// above adds that a value, a straight line of the coordinates, is but for noise
// above nought.
func (s *slant) above(label string, row []float64, value, noise float64) {
	along, by := dot(row, s.at), above(value, noise)
	s.add(told{label: label, row: row, bound: true, offset: value - along, noise: noise, push: by.force + by.weight*along}, by)
}

// add adds what pulls a straight line of the coordinates.
func (s *slant) add(t told, by pull) {
	t.weight = by.weight
	addTo(s.gradient, by.force, t.row)
	for i, v := range t.row {
		if v != 0 {
			addTo(s.curvature[i], by.weight*v, t.row[:i+1])
		}
	}
	s.told = append(s.told, t)
}
