package room

import (
	"math/big"
	"strconv"

	"roomful"
)

// ruler measures the masses of a question in the largest grain of which each is
// a whole number, so that sums of kilograms and pounds are exact.
type ruler struct {
	grain *big.Rat // kg
	most  int64    // grains that no bar exceeds
}

// pound is the international avoirdupois pound in kg, exact by definition.
var pound = big.NewRat(45359237, 100000000)

// decimals is how finely figures are read: a millionth of a gram.
const decimals = 9

// decimal is a figure as it was written.
func decimal(v float64) *big.Rat {
	r, ok := new(big.Rat).SetString(strconv.FormatFloat(v, 'f', decimals, 64))
	if !ok {
		return new(big.Rat)
	}
	return r
}

// exact is a mass in kg.
func exact(m roomful.Mass) *big.Rat {
	r := decimal(m.Value)
	if m.Unit == roomful.Pound {
		r.Mul(r, pound)
	}
	return r
}

// newRuler finds the grain for every mass of a question.
func newRuler(q *roomful.BarQuestion) (ruler, error) {
	all := []*big.Rat{exact(q.Collars), exact(q.MostUnder)}
	for _, p := range q.Plates {
		all = append(all, exact(p.Mass))
	}
	top := new(big.Rat)
	for i := range q.Wanted {
		w := &q.Wanted[i]
		for _, m := range append([]roomful.Mass{w.Bar, w.Target, w.Ceiling}, w.Previous...) {
			all = append(all, exact(m))
			if r := all[len(all)-1]; r.Cmp(top) > 0 {
				top = r
			}
		}
	}
	r := ruler{grain: common(all)}
	// Twice the heaviest target and a bar is further off than a bare one.
	most, ok := whole(top.Quo(top, r.grain))
	if r.most = 4 * most; !ok {
		return r, &roomful.Error{Summary: "the masses are written too finely to be added up exactly", Hint: "round them to a gram or to a hundredth of a pound"}
	}
	return r, nil
}

// grains measures a mass that the ruler was made for.
func (r ruler) grains(m roomful.Mass) int64 {
	n, _ := whole(new(big.Rat).Quo(exact(m), r.grain))
	return n
}

// mass turns grains into a mass, as near as can be written.
func (r ruler) mass(grains int64, u roomful.MassUnit) roomful.Mass {
	kg := new(big.Rat).Mul(new(big.Rat).SetInt64(grains), r.grain)
	if u == roomful.Pound {
		kg.Quo(kg, pound)
	}
	v, _ := kg.Float64()
	return roomful.Mass{Value: v, Unit: u}
}

// common returns the largest number of which all are whole multiples; 1 when
// all are 0.
func common(all []*big.Rat) *big.Rat {
	denominator := big.NewInt(1)
	for _, r := range all {
		g := new(big.Int).GCD(nil, nil, denominator, r.Denom())
		denominator.Mul(denominator, new(big.Int).Quo(r.Denom(), g))
	}
	divisor := new(big.Int)
	for _, r := range all {
		n := new(big.Int).Mul(r.Num(), new(big.Int).Quo(denominator, r.Denom()))
		divisor.GCD(nil, nil, divisor, n)
	}
	if divisor.Sign() == 0 {
		return big.NewRat(1, 1)
	}
	return new(big.Rat).SetFrac(divisor, denominator)
}

// mostWhole bounds whole numbers, so that products of a few stay within 64 bits.
const mostWhole = 1 << 52

// whole rounds a number, and reports whether it is of a size that can be
// reckoned with.
func whole(r *big.Rat) (int64, bool) {
	twice := new(big.Int).Mul(r.Num(), big.NewInt(2))
	n := new(big.Int).Quo(twice.Add(twice, r.Denom()), new(big.Int).Mul(r.Denom(), big.NewInt(2)))
	return n.Int64(), n.IsInt64() && n.Int64() <= mostWhole
}
