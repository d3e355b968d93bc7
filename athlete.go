package roomful

import (
	"slices"
	"strconv"
)

// Division chooses the figure of every pair in a sheet. It is a choice of
// prescription, not of sex.
type Division uint8

// The divisions: the first or the second figure of a pair. AnyDivision is a
// person who has not chosen; they get the second, lighter figure.
const (
	AnyDivision Division = iota
	DivisionA
	DivisionB
)

// String returns "a", "b" or "".
func (d Division) String() string { return [...]string{"", "a", "b"}[d] }

// index returns which of n figures holds for the division.
func (d Division) index(n int) int {
	if d == DivisionA || n < 2 {
		return 0
	}
	return 1
}

// Athlete is a person who trains: what they told, not what is computed.
type Athlete struct {
	ID       string // stable; random streams are keyed by it
	Name     string
	Division Division
	Born     Date     // month 0 when only the year is known; zero when unknown
	MassKg   float64  // 0 when unknown
	HeightCm float64  // 0 when unknown
	Months   *float64 // of training; nil when unknown
	Unit     MassUnit // what they think in
	// Known holds what the person brought along, by capacity, in its unit.
	Known  []Known
	Skills []SkillLevel
	Limits []Limit
	// Home is what they own; nil when not told, empty when they own nothing.
	Home *Kit
	Like string // name of a person to borrow a prior from
	// Unlisted is set when they want to be left out of what others see of scores.
	Unlisted bool
	// DropIn is set for who came in for one class and is no member yet.
	DropIn bool
}

// adult is the age from which somebody is ranked beside others: children are not.
const adult = 18

// Listed reports whether others may see on a day what the person has scored. Whoever
// asked to be left out is, and so is a child; who has not told their age is taken for an
// adult.
func (a Athlete) Listed(on Date) bool {
	years, known := a.Age(on)
	return !a.Unlisted && !(known && years < adult)
}

// Known is one measured or reported figure: a lift's 1RM in kg, a test's
// repetitions, a time in seconds.
type Known struct {
	Test  Test
	Value float64
}

// Test names a figure a person may bring along; the word is the column's.
type Test string

// The tests, by the columns of a people file.
const (
	TestSquat        Test = "squat_kg"
	TestDeadlift     Test = "deadlift_kg"
	TestBench        Test = "bench_kg"
	TestPress        Test = "press_kg"
	TestClean        Test = "clean_kg"
	TestSnatch       Test = "snatch_kg"
	TestPullUps      Test = "pullups"
	TestPushUps      Test = "pushups_2min"
	TestSitUps       Test = "situps_2min"
	TestBurpees      Test = "burpees_3min"
	TestDoubleUnders Test = "double_unders"
	TestRow2k        Test = "row_2k"
	TestRun5k        Test = "run_5k"
	TestVO2max       Test = "vo2max"
)

// Measured returns what the person brought for a test.
func (a Athlete) Measured(t Test) (value float64, ok bool) {
	for _, k := range a.Known {
		if k.Test == t {
			return k.Value, true
		}
	}
	return 0, false
}

// Level is how well a skill is held.
type Level uint8

// The levels of a skill. A skill listed without a level is solid.
const (
	UnknownLevel Level = iota
	NoSkill
	SomeSkill
	SolidSkill
)

// String returns the word a people file uses.
func (l Level) String() string { return [...]string{"", "none", "some", "solid"}[l] }

// SkillLevel is how well a person holds one movement.
type SkillLevel struct {
	Movement MovementID
	Level    Level
}

// Skill returns the person's level in a movement.
func (a Athlete) Skill(id MovementID) Level {
	for _, s := range a.Skills {
		if s.Movement == id {
			return s.Level
		}
	}
	return UnknownLevel
}

// Limit is something that restricts a person: an area, a state, or a stop.
type Limit struct {
	What string // one of [LimitWords]
	Pain int    // 0 to 10, -1 when not told
}

// LimitWords are the limits a person may have. "stop" is a red flag told.
var LimitWords = []string{"back", "shoulder", "elbow", "wrist", "neck", "hip", "knee", "ankle", "impact",
	"overhead", "grip", "inversion", "pregnant", "returning", "stop"}

// RefersOut reports whether the limit is beyond what a coach should work
// around: a red flag, or pain of 6 or more of 10 (common practice; thresholds
// differ and the strictest is used).
func (l Limit) RefersOut() bool { return l.What == "stop" || l.Pain >= 6 }

// Has reports whether the person told of a limit.
func (a Athlete) Has(what string) bool {
	return slices.ContainsFunc(a.Limits, func(l Limit) bool { return l.What == what })
}

// Age returns the person's age in years on a day; ok is false when unknown.
// With only a year of birth known, the birthday is taken to lie ahead, the
// more careful reading.
func (a Athlete) Age(on Date) (years int, ok bool) {
	if a.Born.Year == 0 || on.IsZero() {
		return 0, false
	}
	years = on.Year - a.Born.Year
	if a.Born.Month == 0 || on.Month < a.Born.Month || on.Month == a.Born.Month && on.Day < a.Born.Day {
		years--
	}
	return max(years, 0), true
}

// Own writes a mass in the person's own unit, to the half kilogram or pound.
func (a Athlete) Own(kg float64) string {
	m := Kg(kg).In(a.Unit)
	return strconv.FormatFloat(float64(int(m.Value*2+0.5))/2, 'f', -1, 64) + " " + a.Unit.String()
}
