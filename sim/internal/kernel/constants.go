package kernel

// Constants are the fixed numbers of the model of one body. One value of each
// serves everybody; package sim lists where each comes from.
type Constants struct {
	TauFast, TauSlow       float64 // s, recovery of the two halves of the reserve
	LocalFast, LocalSlow   float64 // s, recovery of the two parts of local fatigue
	SlowGrowth, SlowAt     float64 // share of new fatigue that recovers slowly, per unit of fast fatigue there is, and the N at which it is reached
	OxygenRun, OxygenLift  float64 // s, time constants of oxygen uptake
	PhiRun, PhiMachine     float64 // share of maximal oxygen uptake sustained
	PhiLift                float64
	SlowLoad, SlowLocal    float64 // slowing of a repetition by load above half the maximum, by local fatigue squared
	SlowReserve            float64 // and by reserve spent
	Sprint                 float64 // s in which an empty rush would spend the whole reserve
	SpendTo                float64 // share of the reserve an all-out effort ends at
	RunReserve             float64 // share of the reserve that running can draw on
	MachineShare           float64 // share of the time left over which a machine bout spreads the reserve
	BreakBase, BreakLocal  float64 // log-hazard of a break per repetition: base, per unit of local fatigue
	BreakReserve           float64 // and per unit of reserve spent
	BreakSeconds           float64 // s, a break in a piece of five minutes
	BreakGrowth            float64 // power by which breaks lengthen with the piece
	BreakSpread, SetSpread float64 // log-sd of a break's length, of a set's tempo
	Fragment               float64 // smallest share of N worth resuming for
	TripFatigue            float64 // log-odds of a trip per unit of fatigue
	TripSeconds            float64 // s, to start again after a trip
	Transition             float64 // s, from one element to the next
	PaceCare               float64 // how much even pacing is given up in a piece of two minutes
}
