package roomful

import (
	"slices"
	"strings"
	"time"
)

// Gym holds the settings of one gym: everything that a head coach may like
// otherwise than another. The zero value is not useful; start from
// [DefaultGym]. [Settings] describes each field that a file may set.
type Gym struct {
	Name string
	Zone Zone
	Unit MassUnit
	// SmallestPair is the mass by which a bar's load can be stepped when no kit
	// is given: one plate on each side.
	SmallestPair Mass
	CapPolicy    CapPolicy
	Ratios       Ratios
	Hour         HourTimes
	Weeks        WeekRules
	Cautions     HouseCautions
	Emergency    Emergency
	// Own lists the keys of the settings that the gym has said itself, in the
	// order of [Settings]; all others are the usual ones.
	Own []string
}

// Owns reports whether the gym has said a setting itself.
func (g Gym) Owns(key string) bool { return slices.Contains(g.Own, key) }

// Zone is the IANA time zone a gym's clock is in, "Europe/London"; empty when
// not said.
type Zone string

// CapPolicy is what it means for a score that the cap came first.
type CapPolicy string

// The three policies in use.
const (
	CapCounts  CapPolicy = "repetitions done" // the score is what was done by then
	CapNoScore CapPolicy = "no score"         // the version was too much that day
	CapFinish  CapPolicy = "finish anyway"    // the clock runs on for them
)

// CapPolicies lists the policies, the usual one first.
var CapPolicies = []CapPolicy{CapCounts, CapNoScore, CapFinish}

// HourTimes is how long the things of a class take that are not work.
type HourTimes struct {
	Length       time.Duration // of a class whose sheet does not say
	Amber        time.Duration // planned minutes beyond which such a class is tight
	Red          time.Duration // and beyond which it will run over
	Briefing     time.Duration // before anything else
	BriefingHeld int           // elements that the briefing has time for
	Taught       time.Duration // for each further element
	PartBriefing time.Duration // before each further scored part
	WarmUp       time.Duration // general warm-up of a sheet without its own
	RampSet      time.Duration // one set of a ramp
	RampRest     time.Duration // between two of them
	Practice     time.Duration // half a round of every movement, slowly
	BarSetUp     time.Duration // finding and loading a bar
	BarStrip     time.Duration // and putting it away
	Changeover   time.Duration // between parts
	HeatChange   time.Duration // between heats
	Scores       time.Duration
	Mobility     time.Duration // of a sheet without its own
	Reset        time.Duration // the room as it was found
}

// Bounds returns the planned lengths beyond which a class is tight and runs over:
// for a class of another length than usual in proportion.
func (t HourTimes) Bounds(class time.Duration) (amber, red time.Duration) {
	if t.Length <= 0 {
		return class, class
	}
	scaled := func(d time.Duration) time.Duration {
		return time.Duration(float64(d) / float64(t.Length) * float64(class)).Round(time.Second)
	}
	return scaled(t.Amber), scaled(t.Red)
}

// WeekRules is what a plan of weeks is held to.
type WeekRules struct {
	HeavyGap      time.Duration // from one heavy day of a pattern to the next
	MainLiftGap   time.Duration // and of the same main lift
	MovementGap   time.Duration // before a movement comes back, planned steps apart
	ImpactDays    int           // at most so many with jumping, rope or running in a row
	GripDays      int           // and with much grip
	OverheadDays  int           // with much hanging or overhead, at most so many
	OverheadSpan  int           // within so many days
	NewEccentric  float64       // percent by which lowering may grow over the last four weeks
	RetestSoonest int           // weeks before a benchmark comes back
	RetestLatest  int
	Cycle         int // weeks of a cycle, its easy week included
	Windows       WeekWindows
}

// WeekWindows is how the days of a week are spread over the lengths of piece.
type WeekWindows struct{ Heavy, Under5, From5To10, From10To20, Over20 Span }

// Span is a least and a most, both allowed.
type Span struct{ Least, Most int }

// HouseCautions are the gym's own words beside the program's cautions. They
// never take away where to seek help, nor that local rules and licensed
// practice come first: a caution with a red flag can only be added to.
type HouseCautions struct {
	Add     CautionWords     // said after ours
	Replace OpenCautionWords // said in place of ours
}

// CautionWords is a text for each caution; empty ones say nothing.
type CautionWords struct {
	Stop, Pain, Muscle, Pregnant, Youth, Alone string
	OpenCautionWords
}

// OpenCautionWords is a text for each caution without a red flag.
type OpenCautionWords struct{ Returning, New, Shared string }

// Emergency is the card that everybody finds at a glance.
type Emergency struct {
	Address       string // as told to an ambulance
	Number        string // to call
	Calls         string // who does
	Fetches       string // who brings the defibrillator
	Defibrillator string // where it hangs
	Meets         string // who meets the ambulance, and where
	Stop          string // said after [StopSigns]
}

// StopSigns is when to stop a class for somebody and call (common practice, no
// source). A gym adds to it and takes nothing away.
const StopSigns = "Stop and call for chest pain or pressure, fainting, breath that does not come back, dizziness, confusion or staggering, " +
	"hot skin without sweat, vomiting again and again, or a heart that races or stumbles."

// StopRule is when to stop and call, with the gym's own words.
func (e Emergency) StopRule() string { return strings.TrimSpace(StopSigns + " " + e.Stop) }
