package roomful

import "math"

// Capacity names one thing a person can do more or less of. The word is used
// in JSON.
type Capacity string

// The capacities that belong to the whole person. Values are medians on a log
// scale unless said otherwise.
const (
	CapVO2max  Capacity = "vo2max"  // maximal oxygen uptake, mL/kg/min
	CapReserve Capacity = "reserve" // work above the aerobic ceiling, metabolic J/kg
	CapSpeed   Capacity = "speed"   // multiplies the time of a repetition
	CapPacing  Capacity = "pacing"  // multiplies the pace chosen
	CapBreaks  Capacity = "breaks"  // added to the logarithm of the hazard of a break
	// CapRecovery multiplies how long muscles take to recover. Between people, and as
	// far as the model is unsure of everybody's.
	CapRecovery Capacity = "recovery"
)

// OneRM is the one-repetition maximum of a lift in kg.
func OneRM(l Lift) Capacity { return Capacity("1rm " + string(l)) }

// OwnMax is the unbroken maximum of a movement, in repetitions or seconds.
func OwnMax(m MovementID) Capacity { return Capacity("max " + string(m)) }

// Endurance multiplies the repetitions possible at a load. Ref is the lift or
// the movement that bounds the repetitions.
func Endurance(ref string) Capacity { return Capacity("endurance " + ref) }

// TripLogit is the log-odds of failing one attempt of a skill, on a plain
// scale.
func TripLogit(m MovementID) Capacity { return Capacity("trips " + string(m)) }

// Plain reports whether the capacity lives on a plain scale rather than on a
// logarithmic one.
func (c Capacity) Plain() bool {
	return c == CapBreaks || len(c) > 6 && c[:6] == "trips "
}

// Unit returns the unit of the capacity's value.
func (c Capacity) Unit() string {
	switch {
	case c == CapVO2max:
		return "mL/kg/min"
	case c == CapReserve:
		return "J/kg"
	case len(c) > 4 && c[:4] == "1rm ":
		return "kg"
	case len(c) > 4 && c[:4] == "max ":
		return "rep"
	case c.Plain():
		return "log-odds"
	}
	return "ratio"
}

// Abilities is what is believed of one person: a joint distribution over
// capacities. Each capacity is its centre plus a weighted sum of independent
// standard normal factors, on its own scale (see [Capacity.Plain]). Capacities
// that share factors are correlated.
type Abilities struct {
	Dims    []Dim
	Factors int // how many independent normal factors there are
	// Keys name the factors: a factor draws the same number in a run whatever other
	// factors there are. Without them its place is its name.
	Keys   []string
	MassKg float64 // body mass reckoned with, told or assumed
	// Assumed says in words what was not told and had to be filled in.
	Assumed []string
}

// Dim is one capacity of a person.
type Dim struct {
	Capacity Capacity
	Centre   float64 // mean of the logarithm, or of the plain value
	Loads    []FactorLoad
	Informed []string // what the centre came from; empty when a prior alone
}

// FactorLoad is how far one standard deviation of a factor moves a capacity.
type FactorLoad struct {
	Factor int
	SD     float64
}

// Index returns the position of a capacity among the dims, or -1.
func (a *Abilities) Index(c Capacity) int {
	for i := range a.Dims {
		if a.Dims[i].Capacity == c {
			return i
		}
	}
	return -1
}

// Median returns the central value of a capacity in its unit; ok is false when
// the person has no such dim.
func (a *Abilities) Median(c Capacity) (v float64, ok bool) {
	i := a.Index(c)
	if i < 0 {
		return 0, false
	}
	if c.Plain() {
		return a.Dims[i].Centre, true
	}
	return math.Exp(a.Dims[i].Centre), true
}

// SD returns the standard deviation of a capacity on its own scale, 0 when
// the person has no such dim.
func (a *Abilities) SD(c Capacity) float64 {
	i := a.Index(c)
	if i < 0 {
		return 0
	}
	return a.Dims[i].SD()
}

// SD returns the dim's standard deviation on its own scale.
func (d *Dim) SD() float64 {
	var v float64
	for _, l := range d.Loads {
		v += l.SD * l.SD
	}
	return math.Sqrt(v)
}
