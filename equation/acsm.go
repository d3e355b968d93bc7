package equation

// The metabolic equations of the American College of Sports Medicine, ACSM's
// Guidelines for Exercise Testing and Prescription, 10th edition, table 6.3,
// restated by B. Bushman 2020, ACSM's Health & Fitness Journal 24(3):6-10.
//
// They are for steady work that oxygen pays for, in adults, and predict one
// person's uptake with a standard error of about 7 %; they read high in the
// first minutes and in very fit people. Each function gives the range of its
// equation. Error and ranges are from memory.
const (
	// RestOxygen is one MET: what a body uses at rest, in mL/kg/min.
	RestOxygen = 3.5
	// JoulesPerMLOxygen is the energy freed by one mL of oxygen, 5 kcal a litre.
	JoulesPerMLOxygen = 20.9
	// KcalPerLitreOxygen is the same in the unit of the guidelines.
	KcalPerLitreOxygen = 5.0
	// KgMetresPerMinute is how many kg·m/min make one watt, 60 s / 9.81 m/s²
	// rounded as the guidelines round it.
	KgMetresPerMinute = 6.12

	walkFlat, walkRise = 0.1, 1.8 // mL/kg per m along, per m up
	runFlat, runRise   = 0.2, 0.9
	cycleFree          = 3.5 // mL/kg/min to turn unloaded pedals
	cycleWork          = 1.8 // mL per kg·m
	armWork            = 3.0
	stepFlat           = 0.2        // mL/kg per step
	stepRise           = 1.33 * 1.8 // mL/kg per m up and down again
)

// WalkOxygen returns the gross oxygen uptake of walking, for 50-100 m/min and
// a grade as a fraction.
func WalkOxygen(mPerMin, grade float64) (oxygen float64) {
	return RestOxygen + mPerMin*(walkFlat+walkRise*grade)
}

// WalkSpeed is the inverse of [WalkOxygen].
func WalkSpeed(oxygen, grade float64) (mPerMin float64) {
	return (oxygen - RestOxygen) / (walkFlat + walkRise*grade)
}

// RunOxygen returns the gross oxygen uptake of running, from 134 m/min up, or
// slower when it is a true jog; the grade is a fraction.
func RunOxygen(mPerMin, grade float64) (oxygen float64) {
	return RestOxygen + mPerMin*(runFlat+runRise*grade)
}

// RunSpeed is the inverse of [RunOxygen].
func RunSpeed(oxygen, grade float64) (mPerMin float64) {
	return (oxygen - RestOxygen) / (runFlat + runRise*grade)
}

// CycleOxygen returns the gross oxygen uptake of pedalling, for 50-200 W.
func CycleOxygen(watts, massKg float64) (oxygen float64) {
	return RestOxygen + cycleFree + cycleWork*watts*KgMetresPerMinute/massKg
}

// CyclePower is the inverse of [CycleOxygen].
func CyclePower(oxygen, massKg float64) (watts float64) {
	return (oxygen - RestOxygen - cycleFree) * massKg / (cycleWork * KgMetresPerMinute)
}

// ArmCycleOxygen returns the gross oxygen uptake of turning cranks with the
// arms, for 25-125 W. The equation is from memory.
func ArmCycleOxygen(watts, massKg float64) (oxygen float64) {
	return RestOxygen + armWork*watts*KgMetresPerMinute/massKg
}

// ArmCyclePower is the inverse of [ArmCycleOxygen].
func ArmCyclePower(oxygen, massKg float64) (watts float64) {
	return (oxygen - RestOxygen) * massKg / (armWork * KgMetresPerMinute)
}

// StepOxygen returns the gross oxygen uptake of stepping up and down, for 12-30
// steps a minute and heights of 0.04-0.40 m.
func StepOxygen(stepsPerMin, heightM float64) (oxygen float64) {
	return RestOxygen + stepsPerMin*(stepFlat+stepRise*heightM)
}

// StepRate is the inverse of [StepOxygen].
func StepRate(oxygen, heightM float64) (stepsPerMin float64) {
	return (oxygen - RestOxygen) / (stepFlat + stepRise*heightM)
}

// METs returns an oxygen uptake as a multiple of rest.
func METs(oxygen float64) float64 { return oxygen / RestOxygen }

// METOxygen returns the oxygen uptake of a number of METs.
func METOxygen(mets float64) (oxygen float64) { return mets * RestOxygen }

// KcalPerMinute returns the energy that an oxygen uptake frees in a body.
func KcalPerMinute(oxygen, massKg float64) float64 {
	return oxygen * massKg / 1000 * KcalPerLitreOxygen
}

// OxygenWattsPerKg returns the metabolic power of an oxygen uptake per kg of
// body mass. With a net uptake the power is net.
func OxygenWattsPerKg(oxygen float64) float64 { return oxygen * JoulesPerMLOxygen / 60 }

// WattsPerKgOxygen is the inverse of [OxygenWattsPerKg].
func WattsPerKgOxygen(wattsPerKg float64) (oxygen float64) {
	return wattsPerKg * 60 / JoulesPerMLOxygen
}
