package prior

import (
	"math"
	"slices"

	"roomful"
)

// reading is one observation: a weighted sum of capacities, on their own
// scales, and of factors.
type reading struct {
	label   string
	terms   []term
	factors []roomful.FactorLoad
	value   float64
	noise   float64 // sd; 0 takes the value at its word
	// keep is the spread that the one capacity of a reading without noise has
	// afterwards: its measurement error.
	keep float64
}

// term is a capacity's position among the dims and its weight in a reading.
type term struct {
	dim    int
	weight float64
}

// informs is the correlation of a capacity with a reading from which on the
// reading counts as what the capacity's centre came from.
const informs = 0.75

// condition changes abilities to what is believed after the readings. With
// independent standard normal factors z, a reading is y = h·z + noise; the
// posterior of z is normal with mean Hᵀ S⁻¹ r and covariance I − Hᵀ S⁻¹ H,
// S = H Hᵀ + R. Its Cholesky factor L turns a capacity's loads into Lᵀ loads on
// fresh standard normal factors. Only factors that a reading touches change.
func condition(ab *roomful.Abilities, rs []reading) {
	if len(rs) == 0 {
		return
	}
	p := newPosterior(ab, rs)
	for i := range ab.Dims {
		p.revise(&ab.Dims[i])
	}
	for _, r := range rs {
		if r.noise == 0 {
			d := &ab.Dims[r.terms[0].dim]
			d.Loads = append(d.Loads, roomful.FactorLoad{Factor: sharedFactors + r.terms[0].dim, SD: r.keep})
		}
	}
}

// posterior is what readings say about the factors they touch.
type posterior struct {
	readings []reading
	factors  []int       // the touched factors, ascending
	rows     [][]float64 // H, one row a reading, over the touched factors
	gap      []float64   // r, observed less expected
	inverse  [][]float64 // S⁻¹
	norms    []float64   // sd of each reading before noise
	shift    []float64   // posterior mean of the factors
	lower    [][]float64 // L
}

func newPosterior(ab *roomful.Abilities, rs []reading) *posterior {
	p := &posterior{readings: rs}
	for _, r := range rs {
		r.eachLoad(ab, func(l roomful.FactorLoad, _ float64) { p.factors = append(p.factors, l.Factor) })
	}
	slices.Sort(p.factors)
	p.factors = slices.Compact(p.factors)
	p.observe(ab)
	p.solve()
	return p
}

// eachLoad calls do for every load a reading has on the factors.
func (r reading) eachLoad(ab *roomful.Abilities, do func(l roomful.FactorLoad, weight float64)) {
	for _, t := range r.terms {
		for _, l := range ab.Dims[t.dim].Loads {
			do(l, t.weight)
		}
	}
	for _, l := range r.factors {
		do(l, 1)
	}
}

// observe fills in H, r and S⁻¹.
func (p *posterior) observe(ab *roomful.Abilities) {
	n := len(p.readings)
	p.rows, p.gap, p.norms = matrix(n, len(p.factors)), make([]float64, n), make([]float64, n)
	for i, r := range p.readings {
		p.gap[i] = r.value
		for _, t := range r.terms {
			p.gap[i] -= t.weight * ab.Dims[t.dim].Centre
		}
		r.eachLoad(ab, func(l roomful.FactorLoad, weight float64) {
			j, _ := slices.BinarySearch(p.factors, l.Factor)
			p.rows[i][j] += weight * l.SD
		})
	}
	s := matrix(n, n)
	for i := range s {
		for j := range s {
			s[i][j] = dot(p.rows[i], p.rows[j])
		}
		p.norms[i] = math.Sqrt(s[i][i])
		s[i][i] += p.readings[i].noise*p.readings[i].noise + 1e-12
	}
	p.inverse = invert(s)
}

// solve fills in the posterior mean and the Cholesky factor of its covariance.
func (p *posterior) solve() {
	n, k := len(p.factors), len(p.readings)
	gain := matrix(k, n) // S⁻¹ H
	for i := range k {
		for j := range k {
			axpy(p.inverse[i][j], p.rows[j], gain[i])
		}
	}
	p.shift = make([]float64, n)
	cov := matrix(n, n)
	for i := range n {
		cov[i][i] = 1
	}
	for r := range k {
		axpy(p.gap[r], gain[r], p.shift)
		for i, h := range p.rows[r] {
			if h != 0 {
				axpy(-h, gain[r], cov[i])
			}
		}
	}
	p.lower = cholesky(cov)
}

// revise moves one capacity to its posterior.
func (p *posterior) revise(d *roomful.Dim) {
	var kept, touched []roomful.FactorLoad // the latter by place among p.factors
	for _, l := range d.Loads {
		if at, ok := slices.BinarySearch(p.factors, l.Factor); ok {
			touched = append(touched, roomful.FactorLoad{Factor: at, SD: l.SD})
		} else {
			kept = append(kept, l)
		}
	}
	if len(touched) == 0 {
		return
	}
	p.credit(d, touched)
	load := make([]float64, len(p.factors)) // Lᵀ h
	for _, h := range touched {
		d.Centre += h.SD * p.shift[h.Factor]
		axpy(h.SD, p.lower[h.Factor][:h.Factor+1], load)
	}
	for j, sd := range load {
		if math.Abs(sd) > 1e-7 {
			kept = append(kept, roomful.FactorLoad{Factor: p.factors[j], SD: sd})
		}
	}
	d.Loads = kept
}

// credit notes on a capacity the readings it goes along with closely; touched
// are its loads before.
func (p *posterior) credit(d *roomful.Dim, touched []roomful.FactorLoad) {
	sd := d.SD()
	for i, row := range p.rows {
		var c float64
		for _, h := range touched {
			c += h.SD * row[h.Factor]
		}
		if math.Abs(c) >= informs*sd*p.norms[i] {
			d.Informed = append(d.Informed, p.readings[i].label)
		}
	}
}
