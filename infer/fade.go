package infer

import (
	"math"
	"slices"
)

// How far the fade of one day is from what somebody's rounds are in the middle of many
// runs, as an sd of a logarithm; and that of a point of an emulator, whose rounds are
// medians of few (judgement).
const (
	fadeSD      = 0.06
	fadePointSD = 0.02
)

// fadeOf is how much longer the later half of some rounds took than the earlier, as a
// logarithm: what a total does not tell of reserve and oxygen. NaN for fewer than two.
func fadeOf(seconds []float64) float64 {
	half := len(seconds) / 2
	if half == 0 || slices.ContainsFunc(seconds, func(s float64) bool { return !(s > 0) }) {
		return math.NaN()
	}
	first, _ := meanVariance(seconds[:half])
	last, _ := meanVariance(seconds[len(seconds)-half:])
	return math.Log(last / first)
}

// fading makes the surface of the fade, when some result of the cases tells its rounds.
func (e *Emulator) fading(points []point) *surface {
	if !slices.ContainsFunc(e.cases, func(c Case) bool { return !math.IsNaN(fadeOf(c.Result.Splits)) }) {
		return nil
	}
	var x [][]float64
	var fade, noise []float64
	for _, p := range points {
		if p.ok && !math.IsNaN(p.fade) {
			x = append(x, e.full(p))
			fade, noise = append(fade, p.fade), append(noise, fadePointSD*fadePointSD)
		}
	}
	if len(x) < leastPoints {
		return nil
	}
	return newSurface(x, fade, noise, false)
}

// fadeAt returns the mean and the spread of the fade at inputs.
func (e *Emulator) fadeAt(d deed, x []float64) (mean, sd float64) {
	return e.fade.at(e.inputs.full(e.by, d, x)), math.Hypot(fadeSD, e.fade.misfit)
}
