package day

import (
	"roomful"
	"roomful/version"
)

// Care says how far somebody is held back on a day, whatever is on the sheet.
func (d *Day) Care(a roomful.Athlete, on roomful.Date) version.Care {
	return version.CareFor(a, on, d.Gym.Cautions)
}
