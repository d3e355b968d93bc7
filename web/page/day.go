package page

import "html/template"

// DayHead is what every page of a day begins with.
type DayHead struct {
	Name  string // of the sheet, in addresses
	Title string
	When  string // in words
}

// Day is a day as those see it who write it.
type Day struct {
	DayHead
	Query   string // "?class=..." of the class that is looked at; empty for everybody
	Past    bool   // the day is over
	Given   bool   // it stands as it was published
	Kept    string // the field whose words have arrived, as data-kept has it; empty for none
	Classes []DayClass
	NoClass bool // no class has the sheet yet
	Edition DayEdition
	Sheet   DaySheet
	Fold    bool // the sheet is folded up: on a phone, while nothing in it is to be mended
	Work    DayWork
	Notes   *DayNotes
}

// DayClass is a class of the day, or everybody who comes.
type DayClass struct {
	Path, Words string
	Here        bool
}

// DayEdition is what members see.
type DayEdition struct {
	Says    string // "Members see it as it stands.", in a sentence
	Publish string // the word on the button; empty when there is nothing to publish
}

// DaySheet is the editor.
type DaySheet struct {
	Name     string // empty for a sheet that is new
	Query    string
	Text     string
	Revision int64
	Said     DaySaid
	Who      string // who saved it last, and when
	Earlier  bool   // there are revisions before this one
	Wrong    string // why it was not saved
}

// DaySaid is what there is to say about a text.
type DaySaid struct {
	Sums  string // in a sentence: "Nothing to mend."
	Lines []DayRemark
	Tidy  string // the text in its canonical form; empty when it is so, or cannot be
}

// DayRemark is something to say about a place in a sheet. Columns count from 1 in letters,
// and the end lies behind the last.
type DayRemark struct {
	Line, Column, EndLine, EndColumn int
	Grade                            string // look or soft
	Says                             string // what is wrong, in a sentence
	Meanwhile                        string // what was understood
	Next                             string // what to do
	Mends                            []DayMend
	Text                             string // of the line, shortened
}

// DayMend puts something in the place of what a remark is about.
type DayMend struct {
	At  string // the place: line, column, end line and end column
	Put string
}

// DayWork is what was worked out of a day.
type DayWork struct {
	Name, Query string // for links
	Revision    int64  // of the text that it is of
	Draft       bool   // of what is typed and not saved
	Later       bool   // the hour and what is short follow
	As          string // as it was saved, in a sentence
	Of          string // of what, when it is not of what stands there, in a sentence
	Not         string // why nothing is worked out
	Next        string // and what to do
	Verdicts    []DayVerdict
	Ribbon      template.HTML
	RibbonSays  string     // the same in words: a short stretch has no room for its own
	Pieces      []DayClass // the pieces of the day when there are several
	Options     []DayOption
	Needs       []DayNeed
	Unknown     []DayNeed
	Stopped     []DayNeed
	Otherwise   []DayNeed // who would do otherwise of a published day by what is known now
	Looking     bool      // who would follows
	Room        DayRoom
	Strips      template.HTML
	Phone       bool        // what a coach looks up later is folded up
	Opened      *DayVersion // whose version stands open; nil for nobody's
}

// DayVerdict is a verdict at a glance, with its figure.
type DayVerdict struct {
	Says, Figure string
	Grade        string // look or stop; empty when all is well
	To           string // the part that says more
}

// DayOption is an option that the coach briefs.
type DayOption struct {
	Shape  int // from 0
	Name   string
	Lines  []DayLine
	People []DayPerson
}

// DayLine is a line of an option: how much, and of what.
type DayLine struct{ Amount, Words string }

// DayPerson is somebody on an option.
type DayPerson struct {
	ID, Name string
	Load     string // in their own unit first
	Other    string // the same in the unit of the implement
	Marks    []string
}

// DayNeed is somebody the coach should see, and why.
type DayNeed struct {
	ID, Name string
	Why      []string
}

// DayRoom is the room, the plates and the hour.
type DayRoom struct {
	Short  []DayShort
	Fixes  []DayFix
	Bars   []DayBar
	Ask    string // what is not done on the bars without asking
	Lines  []DayHour
	Heats  []DayHeat
	Untold bool // nobody has said what the gym owns
}

// DayShort is something there is less of than people.
type DayShort struct {
	What, Says string
	Look       bool
}

// DayFix is a remedy with its cost and the words to say.
type DayFix struct{ What, Costs, Why, Say string }

// DayBar is what stands on a bar, and whose it is.
type DayBar struct {
	Load, Discs string // on each side
	Who         string
}

// DayHour is a line of the hour.
type DayHour struct{ At, Length, What, From string }

// DayHeat is who starts when.
type DayHeat struct{ Name, Who string }

// DayNotes is what was said under a day.
type DayNotes struct {
	Name  string // of the sheet
	Query string
	All   []DayNote
}

// DayNote is a note with its answers, and the form for another.
type DayNote struct {
	ID, Name, When, Text string
	Private              bool
	Answers              []DayNote
	NewID, Typed, Wrong  string // of the form
}

// DayVersion is somebody's version, open before the coach.
type DayVersion struct {
	Name, Query string // for links
	ID, Who     string
	Shape       int // of the option they stand on
	Option      string
	Sure        string // how much is known, and how it will go
	Word        *DayWord
	WorkedOut   string // what would have been proposed instead of what a coach set
	Dose        string
	DoseBy      string // the private reason for it
	Lines       []DayDone
	Proof       string
	Strip       template.HTML
	Cautions    []string
	Stop        string
	Others      []DayOther
	Reason      string // as it was typed
	Wrong       string // why it was not taken
}

// DayWord is what was set by hand, and by whom.
type DayWord struct{ Says, Reason string }

// DayDone is a line of a version.
type DayDone struct {
	N           int
	Amount      string
	Words       string
	Load, Other string
	Band        string
	Why         string
	Private     string
	Bar         template.HTML
	BarSays     string
	Typed       string // the line as it would be written in a sheet, or as it was typed
	Wrong       string
}

// DayOther is another option that somebody could stand on.
type DayOther struct {
	Shape int
	Name  string // as it is sent
	Words string
	Not   string // why it is not theirs; a coach may give it all the same
	Load  string
}

// DayCheck is what there is to say about a text that is being written.
type DayCheck struct{ DaySaid }

// DayDraft is a day worked out from a text that is not saved.
type DayDraft struct{ DayWork }

// NewSheet begins a sheet.
type NewSheet struct {
	ID      string // that it will have
	Sheet   DaySheet
	Earlier []SheetRow // to be done again
	Again   string     // the name of the one that it does again
}
