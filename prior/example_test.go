package prior_test

import (
	"fmt"

	"roomful"
	"roomful/prior"
)

// Somebody tells a squat. It is taken at its word, moves the deadlift and
// narrows it, and leaves the oxygen uptake alone.
func ExampleOf() {
	months := 12.0
	wren := roomful.Athlete{Name: "Wren", Division: roomful.DivisionB, Born: roomful.Date{Year: 1997, Month: 5, Day: 9}, MassKg: 62, Months: &months}
	day := roomful.Date{Year: 2027, Month: 3, Day: 4}
	show := func() {
		ab := prior.Of(wren, few(), day)
		for _, c := range []roomful.Capacity{roomful.OneRM(roomful.BackSquat), roomful.OneRM(roomful.Deadlift), roomful.CapVO2max} {
			v, _ := ab.Median(c)
			fmt.Printf("%-14s %5.1f %s, log-sd %.3f\n", c, v, c.Unit(), ab.SD(c))
		}
	}
	show()
	wren.Known = []roomful.Known{{Test: roomful.TestSquat, Value: 80}}
	show()
	// Output:
	// 1rm back-squat  61.1 kg, log-sd 0.160
	// 1rm deadlift    74.5 kg, log-sd 0.160
	// vo2max          38.7 mL/kg/min, log-sd 0.150
	// 1rm back-squat  80.0 kg, log-sd 0.030
	// 1rm deadlift    92.5 kg, log-sd 0.096
	// vo2max          38.7 mL/kg/min, log-sd 0.150
}
