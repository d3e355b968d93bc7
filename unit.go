package roomful

import (
	"math"
	"strconv"
)

// KgPerLb is the international avoirdupois pound, exact by definition.
const KgPerLb = 0.45359237

// MassUnit is the unit a mass was written in.
type MassUnit uint8

// The units of mass a sheet, a person or an implement may use.
const (
	Kilogram MassUnit = iota
	Pound
)

// String returns the unit's symbol.
func (u MassUnit) String() string {
	if u == Pound {
		return "lb"
	}
	return "kg"
}

// Mass is a mass in the unit it was written in. Kilograms are derived, so that
// 95 lb stays 95 lb on the board.
type Mass struct {
	Value float64
	Unit  MassUnit
}

// Kg returns a mass written in kilograms.
func Kg(v float64) Mass { return Mass{v, Kilogram} }

// Lb returns a mass written in pounds.
func Lb(v float64) Mass { return Mass{v, Pound} }

// Kg returns the mass in kilograms.
func (m Mass) Kg() float64 {
	if m.Unit == Pound {
		return m.Value * KgPerLb
	}
	return m.Value
}

// In returns the same mass written in unit u.
func (m Mass) In(u MassUnit) Mass {
	switch {
	case m.Unit == u:
		return m
	case u == Pound:
		return Lb(m.Value / KgPerLb)
	default:
		return Kg(m.Kg())
	}
}

// Near returns a mass that was worked out in kilograms as it stands on an implement
// in unit u: to half a pound, or to ten grams.
func (m Mass) Near(u MassUnit) Mass {
	if m = m.In(u); u == Pound {
		return Lb(math.Round(m.Value*2) / 2)
	}
	return Kg(math.Round(m.Value*100) / 100)
}

// String returns the mass as a coach writes it, "42.5 kg".
func (m Mass) String() string { return Figure(m.Value) + " " + m.Unit.String() }

// Length is a height in the unit it was written in.
type Length struct {
	Value float64
	Unit  Unit
}

// Cm returns the length in centimetres.
func (l Length) Cm() float64 { return l.Value * l.Unit.Size() * 100 }

// String returns the length as a coach writes it, "60 cm".
func (l Length) String() string { return Figure(l.Value) + " " + l.Unit.String() }

// Unit is what an amount or a height counts. The first four are base units, the ones that
// everything computes in; the others are kept because a coach wrote them.
type Unit uint8

// The units of amounts and heights.
const (
	Rep Unit = iota
	Metre
	Calorie
	Second
	Kilometre
	Mile
	Minute
	Yard
	Foot
	Inch
	Centimetre
)

// units gives each unit its symbol, its base unit and its size in that.
var units = [...]struct {
	symbol string
	base   Unit
	size   float64
}{
	Rep:        {"rep", Rep, 1},
	Metre:      {"m", Metre, 1},
	Calorie:    {"cal", Calorie, 1},
	Second:     {"s", Second, 1},
	Kilometre:  {"km", Metre, 1000},
	Mile:       {"mi", Metre, 1609.344},
	Minute:     {"min", Second, 60},
	Yard:       {"yd", Metre, 0.9144},
	Foot:       {"ft", Metre, 0.3048},
	Inch:       {"in", Metre, 0.0254},
	Centimetre: {"cm", Metre, 0.01},
}

// String returns the unit's symbol; for a base unit it is the word used in JSON.
func (u Unit) String() string { return units[u].symbol }

// Base returns the base unit that u measures: Rep, Metre, Calorie or Second.
func (u Unit) Base() Unit { return units[u].base }

// Size returns how many base units one u is.
func (u Unit) Size() float64 { return units[u].size }

// Figure writes a number as a person would: no exponent, no trailing zeros, at
// most three decimals.
func Figure(v float64) string {
	return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64)
}

// PlainKg is a load in kilograms as exact as anybody says it: to the smallest plate, and
// what comes from pounds to the tenth, 61.25 but 61.2 for 135 lb.
func PlainKg(kg float64) float64 {
	if quarters := math.Round(kg*4) / 4; math.Abs(kg-quarters) < 1e-6 {
		return quarters
	}
	return math.Round(kg*10) / 10
}

// Clock writes a number of seconds as m:ss, or h:mm:ss from an hour up,
// rounded to the second.
func Clock(seconds float64) string {
	s := int(math.Round(seconds))
	two := func(n int) string {
		if n < 10 {
			return "0" + strconv.Itoa(n)
		}
		return strconv.Itoa(n)
	}
	if s >= 3600 {
		return strconv.Itoa(s/3600) + ":" + two(s/60%60) + ":" + two(s%60)
	}
	return strconv.Itoa(s/60) + ":" + two(s%60)
}
