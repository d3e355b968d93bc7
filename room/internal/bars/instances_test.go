package bars

import "math/rand/v2"

// A room is a way to make up problems: discs, and how the targets fall.
type room struct {
	name   string
	masses []int64 // of discs, largest first
	unit   int64   // what targets are multiples of
	bars   []int64
	low    int64 // targets
	high   int64
}

// Grains of 10 micrograms hold kilograms and pounds exactly, a pound being
// 45359237 of them by definition.
const (
	kgGrains = 100_000_000
	lbGrains = 45_359_237
)

// In grains of 0.25 kg, and of 1 lb.
var (
	kilos  = room{name: "kg", masses: []int64{100, 80, 60, 40, 20, 10, 5}, unit: 2, bars: []int64{60, 80}, low: 100, high: 480}
	pounds = room{name: "lb", masses: []int64{90, 70, 50, 30, 20, 10, 5}, unit: 2, bars: []int64{70, 90}, low: 130, high: 630}
	mixed  = room{name: "mixed", unit: kgGrains / 2, bars: []int64{15 * kgGrains, 20 * kgGrains, 45 * lbGrains},
		masses: []int64{25 * kgGrains, 45 * lbGrains, 20 * kgGrains, 35 * lbGrains, 15 * kgGrains, 25 * lbGrains, 10 * kgGrains, 15 * lbGrains,
			5 * kgGrains, 10 * lbGrains, 5 * kgGrains / 2, 5 * lbGrains, 5 * kgGrains / 4, 5 * lbGrains / 2}, low: 30 * kgGrains, high: 120 * kgGrains}
)

// problem makes up a problem of n bars. Of each disc there are about so many as
// scarce times those that the bars would use if all were met.
func (r room) problem(n int, scarce float64, seed uint64) Problem {
	rng := rand.New(rand.NewPCG(seed, uint64(n)))
	p := Problem{Sleeve: 6}
	need := make([]float64, len(r.masses))
	for range n {
		b := Bar{Bare: r.bars[rng.IntN(len(r.bars))]}
		t := r.low + rng.Int64N((r.high-r.low)/r.unit)*r.unit
		b.Wants = []Want{{Target: t, Weight: 1 + rng.Int64N(3)}}
		b.Ceiling = t
		if rng.IntN(3) == 0 {
			b.Ceiling = t + 10*r.unit
		}
		p.Bars = append(p.Bars, b)
		side := float64(t-b.Bare) / 2
		for j, z := range r.masses {
			k := float64(int(side / float64(z)))
			side -= k * float64(z)
			need[j] += k
		}
	}
	for j, z := range r.masses {
		pairs := int(need[j]*scarce*(0.5+rng.Float64())) + rng.IntN(3)
		p.Sizes = append(p.Sizes, Size{Mass: z, Pairs: pairs})
	}
	return p
}
