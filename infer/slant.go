package infer

import (
	"math"
	"slices"
)

// slant is how a log-posterior of the coordinates falls away, as a parabola: its
// push, which is the slope at nought, and its curvature.
type slant struct {
	push      []float64
	curvature [][]float64 // negative second derivative; the lower half
	told      []told
}

func newSlant(size int) *slant { return &slant{push: make([]float64, size), curvature: matrix(size)} }

// clone returns a copy that can be added to.
func (s *slant) clone() *slant {
	out := newSlant(len(s.push))
	copy(out.push, s.push)
	for i, row := range s.curvature {
		copy(out.curvature[i], row)
	}
	out.told = slices.Clone(s.told)
	return out
}

// blend keeps a share of the slant and takes the rest from an earlier one.
func (s *slant) blend(earlier *slant, share float64) {
	for i := range s.push {
		s.push[i] += (1 - share) * (earlier.push[i] - s.push[i])
		for j := range s.curvature[i][:i+1] {
			s.curvature[i][j] += (1 - share) * (earlier.curvature[i][j] - s.curvature[i][j])
		}
	}
}

// add adds what pulls a straight line of the coordinates that is at a value now.
func (s *slant) add(t told, at float64, by pull) {
	t.push, t.weight = by.force+by.weight*at, by.weight
	addTo(s.push, t.push, t.row)
	for i, v := range t.row {
		if v != 0 {
			addTo(s.curvature[i], t.weight*v, t.row[:i+1])
		}
	}
	s.told = append(s.told, t)
}

// above adds that a value, a straight line of the coordinates, is but for noise
// above nought.
func (p *posterior) above(s *slant, label string, row []float64, value, noise float64) {
	at := dot(row, p.mean)
	s.add(told{label: label, row: row, bound: true, offset: value - at, noise: noise}, at, above(value, noise))
}

// scores returns what the scores that are no bounds say, as far as a round takes
// them from what stood in for them before.
func (p *posterior) scores(r round) *slant {
	s := newSlant(p.size())
	for i := range p.all {
		ev := &p.all[i]
		if ev.emulator == nil {
			continue
		}
		if ev.emulator.fade != nil && !math.IsNaN(ev.fade) {
			l := p.lay(ev, ev.emulator.fadeAt)
			l.sd = math.Sqrt(l.sd*l.sd + l.missed)
			ev.fadeSeen = p.read(s, l, reading{ev.label, ev.fade, ev.fadeSeen}, r)
		}
		if !ev.capped {
			ev.scoreSeen = p.read(s, p.layScore(ev), reading{ev.label, ev.observed, ev.scoreSeen}, r)
		}
	}
	return s
}

// bounds adds what was found to be more or less than could be seen, and what is
// believed of the coordinates beforehand.
func (p *posterior) bounds(s *slant) {
	for i := range p.mean {
		s.curvature[i][i]++
	}
	for i := range p.all {
		ev := &p.all[i]
		if ev.emulator != nil && ev.capped {
			l := p.layScore(ev)
			p.above(s, ev.label, l.row, l.mean-ev.observed, l.sd)
		}
		for k := range ev.margins {
			p.bound(s, ev, &ev.margins[k])
		}
	}
}

// laid is a line that is laid on the coordinates.
type laid struct {
	line
	ground
	rows     [][]float64 // of the inputs that are capacities
	row      []float64   // of the line
	variance float64     // of the line as believed
}

// lay lays a line through what an emulator says of a result, over all that is
// believed of its inputs.
func (p *posterior) lay(ev *evidence, of func(deed, []float64) (mean, sd float64)) *laid {
	l := &laid{ground: ground{of: of, deed: ev.deed, x: slices.Clone(ev.inputs)}, row: make([]float64, p.size())}
	for j, d := range ev.dims {
		if d >= 0 {
			row := make([]float64, p.size())
			p.addAt(row, 1, d, ev.weeks)
			l.x[j] += dot(row, p.mean)
			l.moved, l.rows = append(l.moved, j), append(l.rows, row)
		}
	}
	l.axes = p.axes(l.rows)
	l.line = l.straight()
	for i, row := range l.rows {
		addTo(l.row, l.slope[i], row)
	}
	l.variance = dot(l.along, l.along)
	return l
}

// layScore lays a line through a score, whose noise holds what is wrong every time.
func (p *posterior) layScore(ev *evidence) *laid {
	l := p.lay(ev, ev.emulator.at)
	misfit := ev.emulator.mean.misfit
	always := l.missed + ModelError*ModelError + misfit*misfit
	l.sd = math.Sqrt(l.sd*l.sd - misfit*misfit + ev.shared*always)
	return l
}

// axes returns the root of the covariance of straight lines of the coordinates.
func (p *posterior) axes(rows [][]float64) [][]float64 {
	cov, reach := matrix(len(rows)), make([]float64, p.size())
	for i, row := range rows {
		clear(reach)
		for k, v := range row {
			if v != 0 {
				addTo(reach, v, p.spread[k])
			}
		}
		for j := range i + 1 {
			cov[i][j] = dot(reach, rows[j])
		}
		cov[i][i] += 1e-10 // a capacity known for certain
	}
	axes, ok := root(cov)
	if !ok { // it has one but for rounding: each by itself
		axes = matrix(len(rows))
		for i := range axes {
			axes[i][i] = math.Sqrt(math.Abs(cov[i][i]))
		}
	}
	return axes
}

// reading is a value that was read, and what stood in for it so far.
type reading struct {
	label    string
	observed float64
	seen     standIn
}

// read adds a reading through its line and returns what stands in for it now. A slope
// that turns pulls more one way than the other: the mean over belief of slope times
// what is missed holds, besides the product of their means, how they go together.
func (p *posterior) read(s *slant, l *laid, in reading, r round) standIn {
	now := in.seen.renew(in.observed, l.sd, l.mean, l.variance)
	if in.seen != (standIn{}) {
		now = in.seen.toward(now, r.share)
	}
	s.add(told{label: in.label, row: l.row}, dot(l.row, p.mean), pull{now.push - now.weight*l.mean, now.weight})
	if r.turning {
		for i, v := range l.turn(&l.line) {
			addTo(s.push, -now.weight*v, l.rows[i])
		}
	}
	return now
}

// bound adds that an element could, or could not, be done.
func (p *posterior) bound(s *slant, ev *evidence, m *margin) {
	side := 1.0
	if m.cannot {
		side = -1
	}
	row := make([]float64, p.size())
	for _, sl := range m.slopes {
		p.addAt(row, side*sl.by, sl.dim, ev.weeks)
	}
	p.above(s, ev.label, row, side*m.centre+dot(row, p.mean), edge)
}
