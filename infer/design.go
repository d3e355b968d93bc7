package infer

import (
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distmv"
	"gonum.org/v1/gonum/stat/distuv"
	"gonum.org/v1/gonum/stat/samplemv"

	"roomful"
)

// design returns the points that an emulator is made from: people as they are
// believed to be and somewhat beyond, taken in turn from the cases.
func (e *Emulator) design(n int, seed uint64) []point { return e.draw(n, seed, stretch) }

// draw returns people like those of the cases, their spread stretched. The
// factors behind the inputs follow a scrambled Halton sequence (Owen 2017,
// arXiv 1706.02808), the others plain random numbers.
func (e *Emulator) draw(n int, seed uint64, stretch float64) []point {
	main := e.factors()
	source := rand.NewPCG(seed, 0x1f5)
	u := mat.NewDense(n, max(1, len(main)), nil)
	samplemv.Halton{Kind: samplemv.Owen, Q: distmv.NewUnitUniform(max(1, len(main)), nil), Src: source}.Sample(u)
	random := rand.New(source)
	points := make([]point, n)
	for i := range points {
		c := e.cases[i*len(e.cases)/n]
		if len(e.cases) < n {
			c = e.cases[i%len(e.cases)]
		}
		z := make([]float64, c.Prior.Factors)
		for f := range z {
			z[f] = stretch * random.NormFloat64()
		}
		for j, f := range main {
			if f < len(z) {
				z[f] = stretch * distuv.UnitNormal.Quantile(min(max(u.At(i, j), 1e-4), 1-1e-4))
			}
		}
		points[i] = point{result: c.Result, abilities: exact(c.Prior, func(dim int) float64 { return along(c.Prior.Dims[dim].Loads, z) })}
	}
	return points
}

// along returns a weighted sum of factors.
func along(loads []roomful.FactorLoad, z []float64) float64 {
	var v float64
	for _, l := range loads {
		v += l.SD * z[l.Factor]
	}
	return v
}

// factors returns the factors that the inputs of the first case's person load on,
// ascending.
func (e *Emulator) factors() []int {
	var out []int
	a := e.cases[0].Prior
	for _, c := range e.inputs.capacities {
		if i := a.Index(c); i >= 0 {
			for _, l := range a.Dims[i].Loads {
				out = append(out, l.Factor)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}
