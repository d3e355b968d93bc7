package equation

import "math"

// Air-braked flywheel machines: the rowing machine, the ski machine and the
// flywheel bike. The fan slows with the cube of its speed; the monitor turns
// power into the speed of a boat with
//
//	P = 2.80 v³   P in W, v in m/s
//
// (A. Dudhia, The Physics of Ergometers, University of Oxford, derives the cube;
// 2.80 is the monitors' own calibration.) It holds for any power a person can
// make. The monitor's figure is repeatable to about 1 %; power measured at the
// handle is some 3 to 7 % higher (from memory).
const (
	flywheelDrag = 2.80 // W·s³/m³

	// BikeDistance is how many metres a flywheel bike shows for one metre of the
	// rowing machine at the same power. Secondary source, uncertain.
	BikeDistance = 2.0

	// A monitor's calories are four times the mechanical work and 300 an hour
	// for the body of a standard person; 0.8604 is 3600/4184 as the monitor
	// rounds it. Pages that print 4P + 300 leave out the conversion.
	calorieWork     = 4 * 0.8604 // kcal/h per W
	calorieStandard = 300.0      // kcal/h
)

// FlywheelPower returns the power that moves the monitor's boat at a speed.
func FlywheelPower(mPerS float64) (watts float64) {
	return flywheelDrag * mPerS * mPerS * mPerS
}

// FlywheelSpeed returns the monitor's speed at a power, the inverse of
// [FlywheelPower]. Below 0 W it is 0.
func FlywheelSpeed(watts float64) (mPerS float64) {
	return math.Cbrt(math.Max(watts, 0) / flywheelDrag)
}

// FlywheelSplit returns the monitor's time for 500 m at a power; infinite at
// 0 W.
func FlywheelSplit(watts float64) (seconds float64) {
	return 500 / FlywheelSpeed(watts)
}

// FlywheelSplitPower returns the power behind a time for 500 m.
func FlywheelSplitPower(seconds float64) (watts float64) {
	return FlywheelPower(500 / seconds)
}

// FlywheelCaloriesPerHour returns the rate at which the monitor counts
// calories. It is a display, not a measurement: see [CyclePower] for what a body
// uses. A test states how far the two part.
func FlywheelCaloriesPerHour(watts float64) (calPerHour float64) {
	return calorieWork*watts + calorieStandard
}

// FlywheelCaloriePower returns the power at which the monitor counts at a rate,
// the inverse of [FlywheelCaloriesPerHour]; 0 at 300 an hour or less, which the
// monitor counts for sitting still.
func FlywheelCaloriePower(calPerHour float64) (watts float64) {
	return math.Max(calPerHour-calorieStandard, 0) / calorieWork
}
