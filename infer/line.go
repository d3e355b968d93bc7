package infer

import (
	"math"
	"slices"
)

// line is a straight line through a log-score: its value in the middle, its
// slope by each input that is a capacity, and the noise around it. What the line
// misses is of the same size and sign whenever somebody does the piece again.
type line struct {
	mean, sd float64
	missed   float64 // variance of what bends away from the line
	slope    []float64

	// By each axis of the ground that it was fitted on: its slope, and the values at
	// either end and in the middle.
	along  []float64
	ends   [][2]float64
	middle float64
}

// ground is where a line is fitted: inputs as they are believed to be. What is
// fitted is of an emulator: its log-score, or its fade.
type ground struct {
	of    func(deed, []float64) (mean, sd float64)
	deed  deed
	x     []float64   // the inputs in the middle
	moved []int       // the inputs that are capacities
	axes  [][]float64 // the root of their covariance, lower: steps of one spread
}

// at returns what is fitted so many spreads along each axis.
func (g *ground) at(steps []float64) (mean, sd float64) {
	x := slices.Clone(g.x)
	for i, j := range g.moved {
		x[j] += dot(g.axes[i][:i+1], steps)
	}
	return g.of(g.deed, x)
}

// axisEnd is where an axis is tried, in spreads: the outer points of the Gauss-Hermite
// rule of three (Abramowitz and Stegun 1964, 25.4.46), whose outer weights are a sixth.
const axisEnd = 1.7320508075688772

// straight returns the straight line that fits best over the ground: its slope is
// the mean slope there, and its value the mean value.
func (g *ground) straight() line {
	steps := make([]float64, len(g.moved))
	mean, sd := g.at(steps)
	l := line{mean: mean, middle: mean}
	within := sd * sd
	for axis := range steps {
		var end, noise [2]float64
		for side, way := range []float64{axisEnd, -axisEnd} {
			steps[axis] = way
			end[side], noise[side] = g.at(steps)
		}
		steps[axis] = 0
		bend := l.bend(end)
		l.mean += bend / 2
		l.missed += bend * bend / 2
		within += (noise[0]*noise[0] + noise[1]*noise[1] - 2*sd*sd) / 6
		l.along, l.ends = append(l.along, (end[0]-end[1])/(2*axisEnd)), append(l.ends, end)
	}
	l.sd = math.Sqrt(max(within, leastSD*leastSD))
	l.slope = backward(g.axes, slices.Clone(l.along))
	return l
}

// bend returns the second derivative along an axis of which the ends are known.
func (l *line) bend(end [2]float64) float64 {
	return (end[0] + end[1] - 2*l.middle) / (axisEnd * axisEnd)
}

// mostTurn is how much of itself a slope may turn by in one spread: a score does not
// fall with ability, and a slope that turned faster would soon point the other way.
const mostTurn = 0.5

// turn returns how the slope by each moved input changes where the score is one
// unit higher in the way that the line leans: along it, and aside. It is nil where
// the line is flat.
func (g *ground) turn(l *line) []float64 {
	lean := norm(l.along)
	if lean < 1e-9 {
		return nil
	}
	const reach = 1.5 // spreads along the line
	steps := make([]float64, len(l.along))
	at := func(way, aside float64, axis int) float64 {
		for j, v := range l.along {
			steps[j] = way * reach * v / lean
		}
		steps[axis] += aside * axisEnd
		v, _ := g.at(steps)
		return v
	}
	up, down := at(1, 0, 0), at(-1, 0, 0)
	turn := make([]float64, len(l.along))
	for j := range turn {
		both := at(1, 1, j) + at(-1, -1, j) - up - down - l.ends[j][0] - l.ends[j][1] + 2*l.middle
		turn[j] = both / (2 * reach * axisEnd)
	}
	by := lean
	if most := mostTurn * lean; norm(turn) > most {
		by *= most / norm(turn)
	}
	for j := range turn {
		turn[j] *= by
	}
	return backward(g.axes, turn)
}
