package infer

import "math"

// surface is a smooth function through noisy values: a Gaussian process whose
// kernel adds a constant, planes, parabolas and, for what they leave, bumps (Rasmussen and Williams 2006, chapters 2 and 5).
type surface struct {
	middle, scale []float64   // inputs are reckoned from their mean in their spread, and by how much they matter
	points        [][]float64 // so reckoned
	weight        []float64   // of the points
	mean          float64     // of the values
	shape         shape
	// The parts of the kernel but bumps, summed over the points.
	constant float64
	plane    []float64
	parabola [][]float64
	squares  []float64 // of the points' distances from the middle
	misfit   float64   // sd of what the surface cannot follow, beyond the values' noise
}

// shape is a kernel: variances of its parts, in the values' unit squared.
type shape struct {
	constant, plane, parabola, bump float64
	width                           float64 // of a bump, in spreads of an input
	extra                           float64 // added to the values' noise
}

// standardise keeps the points, reckoned from their mean in their spread.
func (s *surface) standardise(points [][]float64) {
	d := len(points[0])
	s.middle, s.scale = make([]float64, d), make([]float64, d)
	column := make([]float64, len(points))
	for j := range d {
		for i := range points {
			column[i] = points[i][j]
		}
		mean, variance := meanVariance(column)
		if s.middle[j], s.scale[j] = mean, math.Sqrt(variance); s.scale[j] < 1e-12 {
			s.scale[j] = 1
		}
	}
	for _, p := range points {
		s.points = append(s.points, s.reckon(p, make([]float64, d)))
	}
}

// reckon puts inputs on the points' scale.
func (s *surface) reckon(x, into []float64) []float64 {
	for j := range into {
		into[j] = (x[j] - s.middle[j]) / s.scale[j]
	}
	return into
}

// near returns how alike bumps are at a squared distance: wide and narrow ones
// mixed, which a division reckons faster than a power (the rational quadratic).
func (k *shape) near(apart float64) float64 { return 1 / (1 + apart/(2*k.width*k.width)) }

// gather sums the parts of the kernel that can be summed beforehand.
func (s *surface) gather() {
	s.constant, s.squares = 0, nil
	s.plane, s.parabola = make([]float64, len(s.middle)), matrix(len(s.middle))
	for i, w := range s.weight {
		p := s.points[i]
		s.constant += w * s.shape.constant
		addTo(s.plane, w*s.shape.plane, p)
		for j, v := range p {
			addTo(s.parabola[j], w*s.shape.parabola*v, p)
		}
		s.squares = append(s.squares, dot(p, p))
	}
}

// at returns the surface's value.
func (s *surface) at(x []float64) float64 {
	u := s.reckon(x, make([]float64, len(s.middle)))
	v := s.mean + s.constant + dot(s.plane, u)
	if s.shape.parabola > 0 {
		for j, row := range s.parabola {
			v += u[j] * dot(row, u)
		}
	}
	if s.shape.bump > 0 {
		square := dot(u, u)
		for i, w := range s.weight {
			v += w * s.shape.bump * s.shape.near(square+s.squares[i]-2*dot(s.points[i], u))
		}
	}
	return v
}
