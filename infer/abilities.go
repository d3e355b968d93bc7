package infer

import (
	"cmp"
	"math"
	"slices"

	"roomful"
)

// abilities returns what is believed today. Old factors give way to fresh
// standard normal ones of the same names through the Cholesky factor of their
// covariance; the steps of the walk, which belong to the past, are dropped.
func (p *posterior) abilities() *roomful.Abilities {
	out := *p.prior
	out.Dims = slices.Clone(p.prior.Dims)
	if len(p.factors) == 0 {
		return &out
	}
	lower, ok := root(p.spread[:len(p.factors)])
	if !ok {
		return &out
	}
	for i := range out.Dims {
		p.revise(i, &out.Dims[i], lower)
	}
	return &out
}

// revise moves one capacity to what is believed of it now.
func (p *posterior) revise(i int, d *roomful.Dim, lower [][]float64) {
	row := p.row(i)[:len(p.factors)]
	if norm(row) == 0 {
		return
	}
	var kept []roomful.FactorLoad
	for _, l := range d.Loads {
		if _, touched := slices.BinarySearch(p.factors, l.Factor); !touched {
			kept = append(kept, l)
		}
	}
	p.credit(d, row)
	d.Centre += dot(row, p.mean[:len(row)])
	for j := range row {
		var sd float64
		for k := j; k < len(row); k++ { // Lᵀ times the row
			sd += lower[k][j] * row[k]
		}
		if math.Abs(sd) > 1e-7 {
			kept = append(kept, roomful.FactorLoad{Factor: p.factors[j], SD: sd})
		}
	}
	d.Loads = kept
}

// A result is named as informing a capacity when by itself it would take so
// much of the capacity's variance away; the strongest few are named.
const (
	informs   = 0.05
	mostNamed = 3
)

// credit names on a capacity the results that told most about it; row are the
// capacity's loads beforehand.
func (p *posterior) credit(d *roomful.Dim, row []float64) {
	own := d.SD() * d.SD()
	share := map[string]float64{}
	var names []string
	for _, t := range p.told {
		cov := dot(row, t.row[:len(row)])
		took := cov * cov * t.weight / (1 + t.weight*dot(t.row, t.row)) / own
		if took < informs {
			continue
		}
		if share[t.label] == 0 {
			names = append(names, t.label)
		}
		share[t.label] = max(share[t.label], took)
	}
	slices.SortFunc(names, func(a, b string) int {
		return cmp.Or(cmp.Compare(share[b], share[a]), cmp.Compare(a, b))
	})
	d.Informed = append(slices.Clone(d.Informed), names[:min(len(names), mostNamed)]...)
}
