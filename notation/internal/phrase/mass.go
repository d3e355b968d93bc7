package phrase

import (
	"roomful"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// sheetMass is what a sheet says about the unit of its loads.
type sheetMass struct {
	kg, lb  bool             // which units it has anywhere
	last    roomful.MassUnit // of the load read last
	written bool             // that unit was written
	assumed bool             // that unit was taken from a usual pair
}

// Masses notes which units of mass a sheet has, so that a load without one
// can be read like the others wherever they stand.
func (p *Context) Masses(lines []scan.Line) {
	for i := range lines {
		for j, t := range lines[i].Tokens {
			if t.Kind != scan.Word && t.Text != "#" || j == 0 || lines[i].Tokens[j-1].Kind != scan.Number {
				continue
			}
			if u := vocab.UnitWords[t.Text]; u.Class == vocab.Massed {
				p.mass.kg = p.mass.kg || u.Mass == roomful.Kilogram
				p.mass.lb = p.mass.lb || u.Mass == roomful.Pound
			}
		}
	}
}

// loadWithoutUnit reads "95/65" after a loaded movement: in the unit of the
// sheet's other loads, else by what the pair usually is.
func (r *Reading) loadWithoutUnit(d *Element, q *Figures) {
	text := diag.Quote(r.textOf(q))
	usual, known := vocab.UsualPair(d.Move, q.By[:q.N])
	unit, mass := roomful.Kilogram, &r.mass
	switch {
	case mass.kg != mass.lb:
		if mass.lb {
			unit = roomful.Pound
		}
		hint := "add kg or lb"
		if known && usual != unit {
			hint = "that is a usual pair in " + usual.String() + ": add the unit that is meant"
		}
		r.Warn(q.at, text+" has no unit: read as "+unit.String()+", like the other loads", hint)
	case known:
		unit = usual
		other := roomful.Pound
		if unit == roomful.Pound {
			other = roomful.Kilogram
		}
		r.Hint(q.at, text+" has no unit: read as "+unit.String()+", where it is a usual pair", "add "+unit.String()+" to say so, or "+other.String()+" if that is meant")
	default:
		if mass.written || mass.assumed {
			unit = mass.last
		}
		r.Warn(q.at, text+" has no unit: read as "+unit.String(), "add kg or lb")
	}
	before := *mass
	q.Unit = vocab.MeasureUnit{Class: vocab.Massed, Mass: unit, Times: 1}
	r.assignMass(d, q)
	if *mass = before; known && !mass.written {
		mass.last, mass.assumed = unit, true
	}
}
