package roomful

import "time"

// Itinerary is everything one person does on a day, in the order of the sheet.
type Itinerary struct {
	Athlete string // id
	Name    string
	Stages  []Stage // none for somebody who is referred out
}

// Stage is one part of the day as a person does it. Which fields are set
// depends on the part: drills in a warm-up or mobility, a build-up before
// something heavy, a version and how it counts in a piece.
type Stage struct {
	Part    string // as the sheet calls it, "main b"; "ramp" too where the sheet has none
	Kind    PartKind
	Length  time.Duration // 0 when it depends on the person
	Drills  []Drill
	BuildUp *BuildUp
	Version *Version
	Counts  *Counts
	Note    string // what does not fit, what to do instead; may be shown to anybody
}

// Drill is one timed line of a warm-up or of mobility.
type Drill struct {
	From   time.Duration // from the start of the part
	Length time.Duration
	Round  int // from 1
	// Choice is what is done; an amount of 0 is as much as the time allows, easily.
	Choice
	Words string // the name as typed, where the movement is not known
	Rest  bool   // between lines or rounds
	Say   string // how, as the sheet says: "easy", "a side"
}

// BuildUp is the sets of a ramp: from next to nothing to the person's own load.
type BuildUp struct {
	Movement MovementID
	Sets     []BuildSet // never lighter than the one before
	Length   time.Duration
	// Then is what the sets lead to when it is not one of them: the first working
	// set of strength.
	Then string
	Say  string // what decides on the way; empty when nothing special does
}

// BuildSet is one set of a build-up.
type BuildSet struct {
	Reps       int
	Load       Mass     // per implement; 0 is without a weight
	Implements int      // how many are held; 0 counts as 1
	Plates     SideLoad // what is on the bar; no bar for other implements
	Proof      bool     // the set that shows that the load is right
	Work       time.Duration
	Rest       time.Duration // until the next set, changing plates included
}

// Counts is how a piece is scored for one person, and with what it may be
// compared.
type Counts struct {
	Kind       ScoreKind
	Comparable bool // with the scores of those who do what is written
	Say        string
}

// Changed reports whether any drill of the stage differs from what is written
// for the person's division.
func (s Stage) Changed() bool {
	for _, d := range s.Drills {
		if d.Choice.Changed {
			return true
		}
	}
	return false
}
