package infer

import "math"

// The shapes tried, as shares of the values' variance, and the widths of bumps as
// shares of how far points lie apart. The likeliest is kept.
var (
	parabolas = []float64{0.002, 0.05}
	bumps     = []float64{0.001, 0.03, 0.2}
	widths    = []float64{0.4, 0.75, 1.5}
	extras    = []float64{1e-6, 0.003, 0.02, 0.1}
)

// leastWeight is how much closer together, at the least, an input brings points
// than the one that matters most.
const leastWeight = 0.2

// newSurface fits values at points, each value with its noise variance. Flat
// surfaces have planes alone.
func newSurface(points [][]float64, values, noise []float64, flat bool) *surface {
	mean, variance := meanVariance(values)
	s := &surface{mean: mean}
	s.standardise(points)
	f := fit{surface: s, noise: noise, spread: max(variance, 1e-8), best: math.Inf(-1)}
	for _, v := range values {
		f.gaps = append(f.gaps, v-mean)
	}
	f.pair()
	apart := math.Sqrt(float64(len(s.middle)))
	s.shape = shape{constant: f.spread, plane: f.spread, extra: extras[2] * f.spread, width: apart}
	extra := func(k *shape, share float64) { k.extra = share * f.spread }
	if flat {
		f.vary(extras, extra)
	} else {
		s.shape.parabola, s.shape.bump = parabolas[0]*f.spread, bumps[0]*f.spread
		f.try(s.shape)
		f.weigh()
		f.vary(extras, extra) // one after the other: nearly as good as all together, and much sooner
		for _, w := range widths {
			f.vary(bumps[1:], func(k *shape, share float64) { k.width, k.bump = w*apart, share*f.spread })
		}
		f.vary(parabolas[1:], func(k *shape, share float64) { k.parabola = share * f.spread })
		f.vary(extras, extra)
	}
	s.misfit = math.Sqrt(s.shape.extra)
	s.gather()
	return s
}

// fit is a search for the likeliest shape of a surface.
type fit struct {
	*surface
	gaps, noise []float64 // of the values from their mean, and their noise variance
	spread      float64   // variance of the values
	best        float64   // the logarithm of the likelihood so far
	pairs       []pair    // of points, the lower half row by row
}

// pair is how two points lie to each other: the product of their inputs, and the
// square of their distance.
type pair struct{ along, apart float64 }

// pair lays every point beside those before it and itself.
func (f *fit) pair() {
	f.pairs = f.pairs[:0]
	for i, a := range f.points {
		for _, b := range f.points[:i+1] {
			var p pair
			for j := range a {
				p.along += a[j] * b[j]
				p.apart += (a[j] - b[j]) * (a[j] - b[j])
			}
			f.pairs = append(f.pairs, p)
		}
	}
}

// kernel returns how alike two points' values are.
func (k *shape) kernel(p pair) float64 {
	return k.constant + k.plane*p.along + k.parabola*p.along*p.along + k.bump*k.near(p.apart)
}

// solve returns the points' weights under a shape, and the logarithm of the
// values' likelihood but for a constant.
func (f *fit) solve(k shape) (weight []float64, likelihood float64, ok bool) {
	cov := matrix(len(f.gaps))
	at := 0
	for i := range cov {
		for j := range i + 1 {
			cov[i][j] = k.kernel(f.pairs[at])
			at++
		}
		cov[i][i] += f.noise[i] + k.extra
	}
	l, ok := root(cov)
	if !ok {
		return nil, 0, false
	}
	weight = solve(l, f.gaps)
	likelihood = -dot(f.gaps, weight) / 2
	for i := range l {
		likelihood -= math.Log(l[i][i])
	}
	return weight, likelihood, true
}

// try keeps a shape when it is likelier than what there is.
func (f *fit) try(k shape) {
	if w, likelihood, ok := f.solve(k); ok && likelihood > f.best {
		f.best, f.shape, f.weight = likelihood, k, w
	}
}

// vary tries changes of the likeliest shape so far.
func (f *fit) vary(over []float64, change func(*shape, float64)) {
	for _, share := range over {
		k := f.shape
		if change(&k, share); k != f.shape || math.IsInf(f.best, -1) {
			f.try(k)
		}
	}
}

// weigh moves points together along inputs that matter little, as the surface so far
// has it: a bump across all inputs alike would take those for as near or as far as
// the ones that matter (automatic relevance: Rasmussen and Williams 2006, 5.1).
func (f *fit) weigh() {
	f.gather()
	slopes := make([]float64, len(f.middle))
	for j := range slopes {
		slopes[j] = math.Abs(f.plane[j])
		for _, bend := range f.parabola[j] {
			slopes[j] += math.Abs(bend) / 2
		}
	}
	var most float64
	for _, v := range slopes {
		most = max(most, v)
	}
	for j, v := range slopes {
		by := 1.0
		if most > 0 {
			by = max(leastWeight, math.Sqrt(v/most))
		}
		f.scale[j] /= by
		for _, p := range f.points {
			p[j] *= by
		}
	}
	f.pair()
	f.best = math.Inf(-1)
}
