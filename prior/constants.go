package prior

// Constant is one population figure: the value for divisions a and b, which is
// the same twice where one serves both, and where it comes from.
type Constant struct {
	Name     string
	Value    [2]float64
	Unit     string
	Source   string // a citation, or "judged"
	ChosenOn string // the data it was chosen on; "none" for a pure judgement
}

// constant is a row of [Population].
type constant int

// of returns the figure for a division, 0 for a and 1 for b.
func (c constant) of(division int) float64 { return Population[c].Value[division] }

// one returns a figure that serves both divisions.
func (c constant) one() float64 { return Population[c].Value[0] }

// The rows of the table. Their meanings stand beside the values.
const (
	oxygenMedian constant = iota
	oxygenPerYear
	oxygenTraining
	oxygenMass
	oxygenSD
	reserveMedian
	reserveSD
	speedUntrained
	speedSD
	pacingSD
	breaksSD
	recoverySD

	massReference
	massExponent
	squatShare
	squatTraining
	benchShare
	benchTraining
	deadliftPerSquat
	frontSquatPerSquat
	cleanPerSquat
	cleanUntrained
	cleanTraining
	cleanJerkPerClean
	snatchPerClean
	pressPerBench
	pushPressPerBench
	thrusterShare
	thrusterFront
	strengthSD
	strengthShared
	strengthFamily
	strengthYouth
	strengthDecline
	strengthDeclineLate

	ownPerStrength
	ownStrength
	ownEndurance
	ownAlone
	ownSD
	enduranceShared
	enduranceAlone

	tripLogit
	tripUntrained
	tripUnlearnt
	tripSD

	trainingMonths
	assumedMonths
	assumedMonthsSD
	assumedAge
	assumedAgeSD
	assumedMassSD

	liftNoise
	setNoise
	scoreNoise
	maximumNoise
	noneCounts
	oxygenNoise
	surpriseSDs
	trialNoise
	totalNoise
	totalTwoMinutes
	totalThreeMinutes
	windowFilled
	windowBend
	bestOverMean
	bestNoise
	skillNone
	skillSome
	skillSolid
	skillNoise
	holdPerRep
	tripNone
	tripSome
	tripSolid
	tripNoise
	skillTraining
	skillTrainingNoise

	supplyRun
	supplyMachine
	rowShare
	onsetSeconds
	reserveUse
	bodyCurve

	doubtSDs
)

// both is a figure that serves both divisions.
func both(v float64) [2]float64 { return [2]float64{v, v} }

// Population is the table of every figure this package computes with. g stands
// for training, 1 − exp(−months/12).
var Population = [...]Constant{
	oxygenMedian: {"VO2max at 25 years, untrained", [2]float64{47, 37.2}, "mL/kg/min",
		"Kaminsky 2015, Mayo Clin Proc 90:1515: 48.0 | 37.6 at 20-29 years in a whole population; Peterman 2020, Mayo Clin Proc 95:255: 49.5 | 40.6", "both medians, less their trained part"},
	oxygenPerYear: {"VO2max lost a year from 18 on", both(0.0115), "log",
		"Kaminsky 2015 (24.4 | 18.3 at 70-79 years) and Peterman 2020 (30.8 | 25.0)", "medians at 20-29 and 70-79 years"},
	oxygenTraining: {"VO2max gained by full training", both(0.12), "share of g",
		"reviews of training studies report 8-15 % (from memory)", "none"},
	oxygenMass: {"VO2max per kg by body mass", both(-0.25), "exponent",
		"judged, between allometry (−1/3 to −1/4) and the −0.48 that Myers 2017, Prog Cardiovasc Dis 60:21, implies at 80 kg (from memory)", "none"},
	oxygenSD: {"spread of VO2max", both(0.15), "log-sd",
		"judged: a whole population has 0.2 at one age and mass (Myers 2017, from memory); trained groups 0.1 (Thomas 2004)", "none"},
	reserveMedian: {"reserve above the aerobic ceiling", [2]float64{1150, 950}, "metabolic J/kg", "judged from oxygen deficits of 50-70 mL/kg", "none"},
	reserveSD:     {"spread of the reserve", both(0.20), "log-sd", "judged", "none"},
	speedUntrained: {"repetition time of the untrained", both(0.15), "log per 1 − g",
		"judged from skilled and ordinary times of the trade", "none"},
	speedSD:  {"spread of repetition time", both(0.08), "log-sd", "judged", "none"},
	pacingSD: {"pacing error", both(0.06), "log-sd", "a score's own noise is 5-6 %", "none"},
	breaksSD: {"spread of the wish to break", both(0.3), "log-hazard sd", "judged", "none"},
	recoverySD: {"spread of how long muscles take to recover", both(0.30), "log-sd",
		"judged: as unsure as a refit takes both time constants to be; pieces of 20 min and rests between sets ask for constants that differ by 1.4 to 1.7 times", "none"},

	massReference: {"body mass reckoned from, and assumed", [2]float64{80, 65}, "kg", "judged", "none"},
	massExponent: {"strength by body mass", both(0.67), "exponent",
		"allometry: cross-section against volume", "none"},
	squatShare: {"back squat over body mass, untrained", [2]float64{0.95, 0.72}, "share", "judged", "none"},
	squatTraining: {"back squat gained by full training", both(0.55), "share of g",
		"judged", "none"},
	benchShare: {"bench press over body mass, untrained", [2]float64{0.78, 0.42}, "share",
		"Cooper Institute 2002 norms, 20-29 years: fair 0.99 | 0.59, good 1.14 | 0.70", "the fair to good band after one to five years of training"},
	benchTraining:      {"bench press gained by full training", both(0.45), "share of g", "as above", "as above"},
	deadliftPerSquat:   {"deadlift over back squat", [2]float64{1.20, 1.22}, "ratio", "common practice, no source", "none"},
	frontSquatPerSquat: {"front squat over back squat", both(0.83), "ratio", "common practice, no source: 0.80-0.85", "none"},
	cleanPerSquat:      {"clean over back squat, skilled", both(0.74), "ratio", "Serafini 2018, J Strength Cond Res 32:3474 (from memory): clean and jerk 0.73-0.75 of the back squat in the best of an open field", "none"},
	cleanUntrained:     {"part of it that the untrained lift", both(0.80), "share", "judged", "none"},
	cleanTraining:      {"part gained by full training", both(0.20), "share of g", "judged", "none"},
	cleanJerkPerClean:  {"clean and jerk over clean", both(0.98), "ratio", "judged", "none"},
	snatchPerClean:     {"snatch over clean", both(0.77), "ratio", "common practice, no source: 0.75-0.80", "none"},
	pressPerBench:      {"press over bench press", [2]float64{0.62, 0.68}, "ratio", "common practice, no source", "none"},
	pushPressPerBench:  {"push press over bench press", [2]float64{0.85, 1.05}, "ratio", "judged", "the thruster's regression below"},
	thrusterShare: {"thruster over the mean of its two halves", [2]float64{0.93, 1.04}, "ratio",
		"Oliver-López 2025, doi 10.23736/S0022-4707.25.16660-7, gives it from the clean and jerk: 0.81 CJ + 10 kg | 0.63 CJ + 17.4 kg", "that regression, within its range"},
	thrusterFront:  {"front squat that leaves a press to follow", both(0.85), "share", "judged", "as above"},
	strengthSD:     {"spread of a one-repetition maximum", both(0.16), "log-sd", "judged", "none"},
	strengthShared: {"part of its variance that all lifts share", both(0.80), "share", "judged: correlation 0.8 between lifts", "none"},
	strengthFamily: {"part shared within squats, presses, pulls from the floor", both(0.10), "share", "judged: correlation 0.9 within a family", "none"},
	strengthYouth:  {"strength lacking a year below 18", both(0.07), "log", "judged", "none"},
	strengthDecline: {"strength lost a year from 30 on", both(0.009), "log",
		"Cooper Institute bench norms lose 1.1 % a year (from memory); people who train lose less", "none"},
	strengthDeclineLate: {"further loss a year from 60 on", both(0.006), "log", "judged", "none"},

	ownPerStrength: {"body-weight maximum by strength per body mass", both(2), "exponent",
		"slope of M(1 + (N − 1)/28) at N near 28 (Johnson 2009)", "none"},
	ownStrength: {"part of its spread on strength", both(0.75), "share of sd",
		"correlations between maxima 0.45-0.6 (Bianco 2015) and 0.70 (linnerud data); women benching 35 kg do 33 push-ups (Thomas 2004)", "those correlations"},
	ownEndurance:    {"part of its spread on endurance", both(0.25), "share of sd", "as above", "as above"},
	ownAlone:        {"part of its spread of its own", both(0.6), "share of sd", "as above", "as above"},
	ownSD:           {"spread of a maximum when the movement states none", both(0.35), "log-sd", "judged", "none"},
	enduranceShared: {"endurance shared by all movements", both(0.25), "log-sd", "Bianco 2015, doi 10.1186/s40064-015-1023-6: r 0.45-0.6", "that correlation"},
	enduranceAlone:  {"endurance of one movement", both(0.25), "log-sd", "as above", "as above"},

	tripLogit:     {"log-odds of a trip, trained", both(-3.5), "log-odds", "judged: runs of 30", "none"},
	tripUntrained: {"the untrained trip more", both(2.2), "log-odds per 1 − g", "judged", "none"},
	tripUnlearnt:  {"a skill that needs no learning trips less", both(-1.0), "log-odds", "judged", "none"},
	tripSD:        {"spread of trips", both(0.6), "log-odds sd", "judged", "none"},

	trainingMonths:  {"training that closes two thirds of the gap", both(12), "months", "judged", "none"},
	assumedMonths:   {"training assumed", both(12), "months", "judged", "none"},
	assumedMonthsSD: {"its uncertainty", both(1.0), "log-sd", "judged", "none"},
	assumedAge:      {"age assumed", both(32), "years", "judged", "none"},
	assumedAgeSD:    {"its uncertainty", both(9), "years", "judged", "none"},
	assumedMassSD:   {"uncertainty of an assumed body mass", both(0.16), "log-sd", "national surveys of adults: 13 kg of 80 (from memory)", "none"},

	liftNoise:    {"error of a told one-repetition maximum", both(0.03), "log-sd", "judged: repeat tests differ by 2-4 %", "none"},
	setNoise:     {"error of a remembered set", both(0.05), "log-sd of its load", "judged: few remember their very best, and not every one was to the end", "none"},
	scoreNoise:   {"error of a set read off a score", both(0.10), "log-sd of its load", "judged: nobody counted how many more there were", "none"},
	maximumNoise: {"error of a told unbroken maximum", both(0.055), "log-sd", "a score's own noise is 5-6 %", "none"},
	noneCounts:   {"a told maximum of none counts as", both(0.5), "rep", "judged", "none"},
	oxygenNoise:  {"error of a told VO2max", both(0.03), "log-sd", "judged: laboratory repeats differ by 2-4 %; watches by more", "none"},
	surpriseSDs:  {"how far off a body-weight maximum still speaks of strength", both(1.5), "sd", "judged: what lies beyond is the movement's own", "none"},
	trialNoise:   {"error of a time trial's speed or power", both(0.03), "log-sd", "repeat time trials differ by 1-3 % (from memory)", "none"},
	totalNoise:   {"error of a total in a window", both(0.06), "log-sd", "a score's own noise is 5-6 %, and the relation's", "none"},
	totalTwoMinutes: {"repetitions in 2 min over the unbroken maximum, when the window is long enough", both(2.79), "ratio",
		"fitted to the model's own rules without noise", "push-ups and sit-ups, maxima of 4-110"},
	totalThreeMinutes: {"repetitions in 3 min over the unbroken maximum, likewise", both(2.95), "ratio",
		"fitted to the model's own rules without noise", "burpees, maxima of 6-65"},
	windowFilled: {"most that fits a window, over its length in skilled repetitions", both(1.15), "share", "fitted to the model's own rules without noise", "all three"},
	windowBend:   {"how sharply the one limit gives way to the other", both(1.04), "exponent", "fitted to the model's own rules without noise", "all three"},
	bestOverMean: {"best unbroken run over the mean run", both(25.0 / 12), "ratio", "the longest of four geometric runs, 1 + 1/2 + 1/3 + 1/4", "none"},
	bestNoise:    {"error of the log-odds from a best run", both(0.5), "log-odds sd", "spread of the longest of four geometric runs", "none"},
	skillNone:    {"maximum of a skill not held", both(0.5), "rep", "judged", "none"},
	skillSome:    {"maximum of a skill partly held", both(2.5), "rep", "judged", "none"},
	skillSolid:   {"least usual maximum of a solid skill", both(6), "rep", "judged", "none"},
	skillNoise:   {"spread of the first two", both(0.4), "log-sd", "judged", "none"},
	holdPerRep:   {"seconds of a hold that count as one repetition of these", both(5), "s/rep", "judged", "none"},
	tripNone:     {"log-odds of a trip, skill not held", both(2), "log-odds", "judged", "none"},
	tripSome:     {"log-odds of a trip, skill partly held", both(-2.0), "log-odds", "fitted: runs of 7 rested, fewer when tired", "eight rope bouts of people of low skill (Maté-Muñoz 2017)"},
	tripSolid:    {"log-odds of a trip, skill solid", both(-3.6), "log-odds", "judged: runs of 35", "none"},
	tripNoise:    {"error of these", both(0.5), "log-odds sd", "judged", "none"},
	skillTraining: {"a solid skill speaks for training", both(0.5), "sd of unknown training",
		"judged", "none"},
	skillTrainingNoise: {"error of this", both(1.0), "sd of unknown training", "judged", "none"},

	supplyRun:     {"share of VO2max kept up when running", both(0.95), "share", "as the model", "two miles (Thomas 2004)"},
	supplyMachine: {"share of VO2max kept up on machines", both(0.88), "share", "as the model", "none"},
	rowShare:      {"metabolic power that reaches the flywheel", both(0.19), "share", "as the model; published efficiencies 0.18-0.21", "none"},
	onsetSeconds:  {"time constant of oxygen uptake", both(25), "s", "as the model; textbook 20-35 s", "none"},
	reserveUse:    {"part of the reserve spent in a time trial", both(0.95), "share", "as the model", "none"},
	bodyCurve:     {"repetitions against load of body-weight movements", both(28), "rep", "as the model; Johnson 2009", "none"},

	doubtSDs: {"how far off the other figures one may lie before it is doubted", both(3.5), "sd", "judged", "none"},
}
