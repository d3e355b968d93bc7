package roomful

// MovementID is the trade's singular name in kebab-case, "front-squat". An id
// is never reused; a renamed movement keeps its old name among Also.
type MovementID string

// Movement is everything the program knows about one movement. Package
// catalogue holds the values; letters such as N and f are those of doc/model.md.
type Movement struct {
	ID     MovementID
	Name   string   // singular, "front squat"
	Plural string   // "front squats"
	Also   []string // short forms, other names and common misspellings
	Family string   // the data file it stands in: "squat", "machine"

	Patterns []Pattern // what the body does, the leading one first
	Modality Modality
	Stress   []Stress // what it loads, beyond the pattern

	Implement Implement // what is held or ridden
	Pair      bool      // usually one in each hand: two of the implement, and loads are of each
	Needs     []string  // other kit by the words of [Kit]: "pull-up-bar", "box", "rings"
	Space     Space
	Noisy     bool   // bangs, drops or lands hard enough for neighbours to mind
	Units     []Unit // base units an amount may be given in, the usual one first
	// StrideM is how far one repetition goes, in metres, for movements counted in
	// repetitions that may also be asked for by distance; 0 for all others.
	StrideM float64

	Travel Travel // mechanical work of one repetition
	Pace   Pace
	Bound  *Bound   // nil when local strength never limits it
	Demand []Demand // which muscle groups a repetition tires
	Skill  Skill

	Standard string   // what counts, to be seen from outside
	Cues     []string // what to say before
	Faults   []string // what to look for
	Easier   []MovementID
	Swaps    []Swap
}

// Several is what is done of it as one names it: "push presses", and "row" or "plank" of what
// nobody counts.
func (m *Movement) Several() string {
	if len(m.Units) > 0 && m.Units[0] == Rep {
		return m.Plural
	}
	return m.Name
}

// For names what others are done for: "for push presses", "for the row".
func (m *Movement) For() string {
	if m.Several() == m.Name {
		return "for the " + m.Name
	}
	return "for " + m.Several()
}

// Pattern is what the body does in a movement. Swaps keep it or name the
// neighbour they go to.
type Pattern string

// The patterns a coach keeps a tally on.
const (
	Squat          Pattern = "squat"
	Hinge          Pattern = "hinge"
	SingleLeg      Pattern = "single-leg"
	PushHorizontal Pattern = "push-horizontal"
	PushVertical   Pattern = "push-vertical"
	PullHorizontal Pattern = "pull-horizontal"
	PullVertical   Pattern = "pull-vertical"
	Carry          Pattern = "carry"
	Jump           Pattern = "jump"
	Core           Pattern = "core"
	Cyclic         Pattern = "cyclic"
	Invert         Pattern = "invert"
	Mobilise       Pattern = "mobilise"
)

// Modality is the coarse kind of work.
type Modality string

// The modalities. A body movement may carry a vest or be helped by a band.
const (
	Machine  Modality = "machine" // an ergometer: row, ski, bike, fan-bike
	Running  Modality = "foot"    // running and walking over a distance
	Body     Modality = "body"
	Loaded   Modality = "loaded"
	Hold     Modality = "hold"  // timed, still
	Carrying Modality = "carry" // timed or over a distance, loaded
	Pause    Modality = "rest"
	Easy     Modality = "mobility" // warm-up and mobility work nobody tires from
)

// Stress is a thing a movement loads that a limit may forbid.
type Stress string

// What movements load.
const (
	StressGrip      Stress = "grip"
	StressOverhead  Stress = "overhead"
	StressImpact    Stress = "impact"
	StressEccentric Stress = "eccentric"
	StressInversion Stress = "inversion"
	StressShoulder  Stress = "shoulder"
	StressElbow     Stress = "elbow"
	StressWrist     Stress = "wrist"
	StressNeck      Stress = "neck"
	StressHip       Stress = "hip"
	StressKnee      Stress = "knee"
	StressAnkle     Stress = "ankle"
	StressSpine     Stress = "spine" // flexed or compressed under load: the back
	StressBelly     Stress = "belly" // lying on it, contact, or high pressure in it
	StressSupine    Stress = "supine"
	StressFall      Stress = "fall"
)

// Implement is what is held or ridden; its word is also the key in a kit.
type Implement string

// The implements.
const (
	NoImplement Implement = ""
	Barbell     Implement = "barbell"
	Dumbbell    Implement = "dumbbell"
	Kettlebell  Implement = "kettlebell"
	Ball        Implement = "ball"
	Plate       Implement = "plate"
	Vest        Implement = "vest"
	Sled        Implement = "sled"
	RowMachine  Implement = "row"
	SkiMachine  Implement = "ski"
	Bike        Implement = "bike"
	FanBike     Implement = "fan-bike"
)

// Space is the room a movement needs.
type Space struct {
	CeilingM float64 // height needed above the floor in metres, 0 when any room does
	LengthM  float64 // length of lane in metres, 0 when done on the spot
}

// Travel gives the mechanical work of one repetition (of one metre, for carries;
// of one second, for holds), without its loads.
type Travel struct {
	LoadTravelM float64 // how far the load is lifted, in metres
	BodyTravelM float64 // how far the body's mass is lifted, in metres
	OverHeight  bool    // the body also rises by the element's box height
	JoulesPerKg float64 // further metabolic energy, J per kg of body mass
	Dropped     bool    // the load is let go at the top rather than lowered
	UsualHeight float64 // of box or target in cm when the sheet does not say, per division a
	UsualHigher float64 // and per division b; 0 when the same
}

// Pace gives the time of one repetition; for machines and running it is nil
// and power decides.
type Pace struct {
	Skilled  float64 // seconds per unloaded, unhurried-by-fatigue repetition of a skilled person (T0)
	Ordinary float64 // seconds per repetition an ordinary member takes in a piece
}

// Bound says what bounds the repetitions that can be done fresh. Exactly
// one of Lift and Own is set.
type Bound struct {
	// Lift is the reference lift whose 1RM bounds a loaded movement. Share is
	// this movement's 1RM, summed over its implements, as a share of the lift's.
	Lift Lift
	// Own is the movement whose own unbroken maximum bounds this one; it may be
	// the movement itself. Share is the part of body mass moved here over the
	// part moved there.
	Own   MovementID
	Share float64
	// Multiple makes the load count as more than it weighs, for movements whose
	// speed matters (m of doc/model.md, rule 4). 0 is 1.
	Multiple float64
	// Curve is K_l of doc/model.md, rule 4: repetitions possible fall with load along
	// N = 1 + Curve·eta·(1/f − 1).
	Curve float64
	// Most is the usual unbroken maximum of somebody of division a and b who has
	// just begun, when this movement is its own reference, in repetitions (seconds
	// for holds). Growth is the natural logarithm of what full training multiplies
	// it by.
	Most, Growth [2]float64
	LogSD        float64 // spread of the unbroken maximum between people
}

// Lift names a reference lift: one whose one-repetition maximum is known or
// estimated for everybody.
type Lift string

// The reference lifts.
const (
	BackSquat    Lift = "back-squat"
	FrontSquat   Lift = "front-squat"
	Deadlift     Lift = "deadlift"
	BenchPress   Lift = "bench-press"
	Press        Lift = "press"
	PushPress    Lift = "push-press"
	Clean        Lift = "clean"
	CleanAndJerk Lift = "clean-and-jerk"
	Snatch       Lift = "snatch"
	Thruster     Lift = "thruster"
)

// Lifts lists the reference lifts.
var Lifts = []Lift{BackSquat, FrontSquat, Deadlift, BenchPress, Press, PushPress, Clean, CleanAndJerk, Snatch, Thruster}

// Muscles is a group that tires together.
type Muscles uint8

// The muscle groups of local fatigue.
const (
	Pull Muscles = iota
	Push
	Squats
	Hinges
	Trunk
	Calf
	MuscleGroups // how many there are
)

// String returns the group's word.
func (m Muscles) String() string {
	return [...]string{"pull", "push", "squat", "hinge", "trunk", "calf"}[m]
}

// Demand is how much of a repetition's effort falls on a muscle group, from 0
// to 1; the limiting group has 1.
type Demand struct {
	Muscles Muscles
	Weight  float64
}

// Skill says what a movement asks beyond strength.
type Skill struct {
	Needed bool // it has to be learnt: a person without it needs another form
	Trips  bool // an attempt can fail and be repeated, as with a rope
}

// Reason is why a person may need another movement.
type Reason string

// The reasons to swap.
const (
	ForNoKit     Reason = "no-kit"
	ForNoMachine Reason = "no-machine"
	ForCeiling   Reason = "low-ceiling"
	ForNoise     Reason = "noise"
	ForBack      Reason = "back"
	ForShoulder  Reason = "shoulder"
	ForWrist     Reason = "wrist"
	ForKnee      Reason = "knee"
	ForImpact    Reason = "impact"
	ForPregnancy Reason = "pregnancy"
	ForSkill     Reason = "skill"
)

// Reasons lists every reason to swap.
var Reasons = []Reason{ForNoKit, ForNoMachine, ForCeiling, ForNoise, ForBack, ForShoulder, ForWrist, ForKnee, ForImpact, ForPregnancy, ForSkill}

// Swap is another movement often chosen for a reason, better ones first.
type Swap struct {
	To  MovementID
	For []Reason
	// Ratio converts amounts: so many of To for one of the movement. 0 means
	// the same time for this person, which is the default.
	Ratio float64
	// Neighbour says in words what changes when the pattern is not kept, "push
	// becomes core"; empty when it is kept.
	Neighbour string
}

// Is reports whether p is among the movement's patterns.
func (m *Movement) Is(p Pattern) bool {
	for _, q := range m.Patterns {
		if q == p {
			return true
		}
	}
	return false
}

// Loads reports whether the movement puts s under load.
func (m *Movement) Loads(s Stress) bool {
	for _, t := range m.Stress {
		if t == s {
			return true
		}
	}
	return false
}

// TakesLoad reports whether a load belongs to the movement.
func (m *Movement) TakesLoad() bool {
	switch m.Implement {
	case Barbell, Dumbbell, Kettlebell, Ball, Plate, Sled, Vest:
		return true
	}
	return false
}

// SwapsFor returns the swaps given for a reason, in order.
func (m *Movement) SwapsFor(r Reason) []Swap {
	var out []Swap
	for _, s := range m.Swaps {
		for _, f := range s.For {
			if f == r {
				out = append(out, s)
				break
			}
		}
	}
	return out
}
