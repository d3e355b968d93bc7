package page

import "html/template"

// MyChoices is what somebody would do on each option of a day.
type MyChoices struct {
	DayHead
	Person, Query string
	Whose         string // the name of somebody else, when a coach looks; empty for oneself
	Word          string // the coach's word that stands in the way of choosing
	Set           bool   // something was chosen, and can be undone
	Beneath       string // whose word holds again then; empty for what was found
	Stop          string
	Wrong         string // why what was chosen just now was not taken
	Choices       []MyChoice
}

// MyChoice is one option as they would do it.
type MyChoice struct {
	Shape    int
	Name     string
	Now      bool // they stand on it
	Proposed bool // it is the one that was found for them
	Lines    []string
	Expect   string // where it would end beside the aim, in words
	Not      string // why it is not theirs today; empty when it is
	May      bool   // they can take it
}

// MyLoad is the answer to "how heavy?" in one line of a day.
type MyLoad struct {
	DayHead
	Person, Query, Whose string
	Class                string // that the page is of; empty for none
	Of                   string // what is lifted
	Movement             string // its id
	Others               []MyOther
	Load, Other          string
	Band                 string
	Bar                  template.HTML
	BarSays              string
	Proof, Why, Private  string
	Ramp                 *MyRamp
	Differs              string // that the day has another load, and why
	Found                string // when to stop adding, where there is no load to aim at
	None                 string // why there is no load to tell
	Sure                 string // how sure it is, in words
	Surer                string // what would make it surer
	Rests                []string
	Last                 string // what they lifted the last time, and how it went
	Caution              []string
	Stop                 string
	Set, Wrong           string // the set that they remember, and what is wrong with it
}

// MyOther is another line that may be asked about.
type MyOther struct {
	Name, Path string
	Here       bool
}

// MySore is what somebody says who hurts, step by step.
type MySore struct {
	DayHead
	Person, Class, Query, Whose string
	Home                        bool   // they are at home today
	ID                          string // of what is written down; made when the form is drawn
	Areas                       []MyPick
	Pains                       []MyPick
	Lines                       []MyPick // of the day; the first is whatever loads the place
	Where, Pain, Line           string   // as they were told
	Wrong                       string
	Step                        string // "where", "ask", "ways", "stop" or "on"
	Ask                         []MyFlag
	Stop                        string
	Unwritten                   bool     // it could not be written down
	Again                       string   // where the same is sent again then
	Flags                       []string // that were answered with yes
	Say                         string   // to them
	Urgent                      bool
	Card                        []string // the gym's, when it is urgent
	Ways                        []MyWay
	Note                        string
	Caution                     []string
}

// MyPick is one thing to choose from.
type MyPick struct {
	Value, Name string
	Here        bool
}

// MyFlag is a question whose yes ends it.
type MyFlag struct{ ID, Ask string }

// MyWay is one way to go on.
type MyWay struct {
	N       int
	Say     string
	Why     string
	Private string
	Also    []string // what else changes
}
