package roomful

import (
	"fmt"
	"math"
)

// WantedBar is a bar that somebody is to lift.
type WantedBar struct {
	Name    string // of who lifts it, or of the bar
	Athlete string // the id of who lifts it, which tells people of one name apart; empty where the name does
	Bar     Mass   // the bare bar, collars apart; 0 takes one that suits from the rack
	Target  Mass
	Ceiling Mass // a load above this is never given; 0 is none
	// Weight is what a deviation of one unit counts, beside other bars. 0 counts
	// nothing.
	Weight   float64
	MayShare bool    // with somebody of similar load and height
	HeightCm float64 // of who lifts; 0 when not known
	// Previous is what is on one side now, innermost first, when the bar comes
	// from an earlier heat; nil when it is a new one.
	Previous []Mass
}

// mostBarKg is what no load of a bar exceeds.
const mostBarKg = 1000

// Check says why a wanted bar cannot be meant, or nil.
func (w WantedBar) Check() error {
	switch {
	case w.Name == "":
		return &Error{"a bar has no name", "name who lifts it"}
	case !fits(w.Target) || w.Target.Value == 0:
		return &Error{w.Name + ": a target is missing or cannot be right", "say the load in all, bar included, such as 62.5"}
	case !fits(w.Bar):
		return &Error{w.Name + ": this bar cannot be right", "say what the bare bar weighs, such as 20"}
	case !fits(w.Ceiling):
		return &Error{w.Name + ": this ceiling cannot be right", "say the load that is never to be exceeded, or leave it out"}
	case !(w.Weight >= 0 && w.Weight <= 1e6):
		return &Error{w.Name + ": this weight cannot be right", "say how much a deviation counts; 1 is usual"}
	case w.Ceiling.Value > 0 && w.Bar.Kg() > w.Ceiling.Kg():
		return &Error{fmt.Sprintf("%s: the bare bar of %s is above the ceiling of %s", w.Name, w.Bar, w.Ceiling), "take a lighter bar or raise the ceiling"}
	}
	return nil
}

// fits reports whether a mass is one that a bar could have.
func fits(m Mass) bool { return m.Value >= 0 && m.Kg() <= mostBarKg && !math.IsNaN(m.Value) }

// BarQuestion asks how to load bars from the discs there are.
type BarQuestion struct {
	Unit         MassUnit // of sums over bars
	Plates       []Stock  // single discs
	SleevePlates int      // how many discs one sleeve takes; 0 when nothing limits it
	Collars      Mass     // both collars of one bar
	// Rack is the bars there are; nil when everybody has their own.
	Rack   []Stock
	Wanted []WantedBar
	// MostUnder is how far a bar may fall below its target without asking; 0
	// when that is not limited.
	MostUnder Mass
}

// LoadedBar is a wanted bar with discs on it.
type LoadedBar struct {
	WantedBar
	Load    Mass   // in the unit of the target, bar and collars included
	PerSide []Mass // innermost first
	With    []string
	// Below and Above are the nearest loads that the kinds of disc there are
	// could make if none were short; 0 when there is none.
	Below, Above Mass
	Moved        int // discs to put on or take off on one side
}

// Lack is something there is too little of.
type Lack struct {
	What string // disc or bar
	Mass Mass
	Have int // single pieces
	Need int
	For  []string // the bars that would be nearer their target with it
}

// BarAnswer is how to load the bars.
type BarAnswer struct {
	Bars []LoadedBar // as wanted
	// Deviation is the sum of weight times deviation in the question's unit. With
	// these bars handed out and shared as they are here, no loading has less than
	// Bound, of those that leave as few bars as can be too far under.
	Deviation, Bound float64
	Proven           bool // no such loading has less
	Short            []Lack
	Questions        []string // what is not done without asking
	Moved            int      // discs to put on or take off in all
}

// discColours are the colours of discs by mass in kg (international
// weightlifting rules). Others have none: their label tells them.
var discColours = map[float64]string{
	25: "red", 20: "blue", 15: "yellow", 10: "green", 5: "white",
	2.5: "red", 2: "blue", 1.5: "yellow", 1: "green", 0.5: "white",
}

// DiscColour is the colour of a disc of this mass, "" when the rules give none.
func (m Mass) DiscColour() string {
	if m.Unit != Kilogram {
		return ""
	}
	return discColours[m.Value]
}
