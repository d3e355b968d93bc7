package settle

import (
	"math"

	"roomful"
	"roomful/notation/internal/canon"
	"roomful/notation/internal/phrase"
	"roomful/notation/internal/vocab"
)

// baseSteps turns the steps of "1-2-3 km run" into metres: a step counts every
// movement in its base unit. Several movements in units of different sizes
// cannot share one.
func (p *Draft) baseSteps(pt *Part) {
	f := &pt.Facts
	if len(f.Ladder.Steps) == 0 {
		return
	}
	size, mixed, unit := 0.0, false, roomful.Rep
	for i := range pt.Round {
		d := &pt.Round[i]
		if d.Amount.Stated() || d.Movement == roomful.Rest {
			continue
		}
		p.stepsOf(pt, d)
		mixed = mixed || size != 0 && size != d.Amount.Unit.Size()
		size, unit = d.Amount.Unit.Size(), d.Amount.Unit.Base()
	}
	switch {
	case size == 0 || size == 1 && !mixed:
		return
	case mixed || size != math.Trunc(size):
		p.Fault(f.LadderAt, "the steps of this ladder count in no single unit", "write distances in metres and times in seconds, or write the rounds out")
		return
	}
	steps := make([]int, len(f.Ladder.Steps))
	for i, n := range f.Ladder.Steps {
		steps[i] = n * int(size)
	}
	f.Ladder.Steps = steps
	for i := range pt.Round {
		if d := &pt.Round[i]; !d.Amount.Stated() && d.Movement != roomful.Rest {
			d.Amount.Unit = d.Amount.Unit.Base()
		}
	}
	p.Hint(f.LadderAt, "the steps are kept as "+canon.Steps(roomful.Ladder{Steps: steps})+" "+unit.String(), "write them in metres or seconds to say so")
}

// stepsOf says what the steps of a movement count that is not done in
// repetitions, where the sheet does not: "21-15-9 row".
func (p *Draft) stepsOf(pt *Part, d *phrase.Element) {
	if d.Move == nil || d.Amount.Unit != roomful.Rep || vocab.Counts(d.Move, roomful.Rep) {
		return
	}
	unit := roomful.Second
	switch first := pt.Facts.Ladder.Steps[0]; {
	case first >= 100 && vocab.Counts(d.Move, roomful.Metre):
		unit = roomful.Metre
	case first < 100 && vocab.Counts(d.Move, roomful.Calorie):
		unit = roomful.Calorie
	case !vocab.Counts(d.Move, roomful.Second):
		p.Fault(d.NameOrPlace(), "what the steps of "+d.Move.Name+" count is not said", d.Move.Name+" is counted in "+vocab.UnitList(d.Move)+": add the unit")
		return
	}
	d.Amount.Unit = unit
	p.Warn(d.NameOrPlace(), d.Move.Name+" has no unit: its steps are read as "+vocab.UnitPlural(unit), "add the unit, such as "+unit.String()+" "+d.Move.Name)
}
