package page

import "html/template"

// MyDay is a day as somebody sees it who trains on it: one thumb, one scroll.
type MyDay struct {
	DayHead
	Person  string   // their id, in addresses; empty for who trains nowhere
	Query   string   // of the class that the page is of, "?class=…"; empty for none
	What    []string // what it is, in sentences
	About   string   // the story of the theme
	Place   *MyPlace // nil when no class has this sheet
	Home    bool     // this is the day at home
	AskKit  *MyKit   // not nil when it is not known what they have at home
	Stop    string   // not empty when they do not train today: what to do instead
	Beats   []MyBeat
	Option  *MyOption
	Parts   []MyPart
	Caution []string
	Wait    string // why nothing is worked out, with the next step
	Written string // the sheet as it stands, when nothing is worked out
	Score   *MyScore
	Notes   *MyNotes
}

// MyPlace is where somebody stands in the classes of a day.
type MyPlace struct {
	Says   string
	Class  string    // the id of the class that they may give back; empty for none
	Give   string    // the word for that
	Offers []MyOffer // the classes they can ask for a place in
}

// MyOffer is a class with room, or one to wait for.
type MyOffer struct{ Class, Says string }

// MyKit asks what somebody has at home.
type MyKit struct {
	Said  string // as it was told, or typed just now
	Wrong string // what is wrong with it
}

// MyBeat is what to match or beat.
type MyBeat struct {
	Piece   string // by name where a day has several
	Target  string // "Match 5 rounds + 20."
	When    string // in words
	Score   string
	Changed string // what was otherwise then; empty for nothing
	Says    string // how today's version stands beside it
	Splits  []MySplit
}

// MySplit is when something should be done on the clock of a piece.
type MySplit struct{ What, At string }

// MyOption is the option somebody stands on.
type MyOption struct {
	Shape int // from 0
	Name  string
	Says  string // beside the name: with something of their own, as written
	Word  string // the coach's, when the coach has set it
	Sure  string // how much is known behind it, in words
}

// MyPart is one part of a day as they do it.
type MyPart struct {
	Name   string // "Warm-up"
	Long   string // "8 min"
	Head   string // what it is, in words
	Piece  bool   // it is scored, and stands open
	Dose   string // how much of it they do, when not all
	DoseBy string // the private reason for that
	Groups []MyGroup
	Drills []MyRound
	Ramp   *MyRamp
	Proof  string
	Counts string // how it is scored and with what it may be compared
	Note   string
}

// MyGroup is lines that belong together.
type MyGroup struct {
	Name  string // "Once", "Each round"; empty for the only ones
	Lines []MyLine
}

// MyLine is one line of a piece.
type MyLine struct {
	Amount  string // "8", "600 m", "21-15-9"
	Name    string
	Load    string // in their unit
	Other   string // in the unit of the implement, when that is another
	Why     string
	Private string        // for them and their coach
	Bar     template.HTML // the bar drawn, with plates on each side
	BarSays string        // the same in words
	Band    string        // which loads would do
	Counts  []string      // what counts as one
	Cues    []string
	Easier  []string
	Heavy   string // where "how heavy?" is answered; empty when there is no load
}

// MyRound is a round of a warm-up.
type MyRound struct {
	Name   string // "Round 1"; empty for the only one
	Drills []MyDrill
	Same   bool // the same again
}

// MyDrill is one timed line of a warm-up.
type MyDrill struct{ At, Name, Long, Why, Private string }

// MyRamp is the sets of a ramp.
type MyRamp struct {
	Of   string // the movement
	Sets []MySet
	Then string
	Says string
}

// MySet is one set of it.
type MySet struct{ Reps, Load, Plates string }
