package page

// Classes is a week of the timetable.
type Classes struct {
	May           bool   // write classes down
	Week          string // in words
	Before, After string // the addresses of the weeks beside it
	Now           string // of the week that is on; empty when this is it
	Days          []ClassDay
	Empty         bool // no class on any day
	New           ClassForm
}

// ClassDay is a day of it.
type ClassDay struct {
	Name    string
	Today   bool
	Classes []ClassRow
}

// ClassRow is a class as a line.
type ClassRow struct {
	ID         string
	Start, End string
	Minutes    int
	Sheet      string // its name in addresses; empty while there is none to see
	Title      string
	Count      string // who comes, as numbers in words
	Own        string // one's own place in words; empty without one
	Ask        string // the word on the button that asks for a place; empty when there is none to ask for
	Leave      string // the word on the button that gives it back
	From       string // the first day of the page it stands on
	CalledOff  bool
	Open       bool // it has a page of its own to be looked at
}

// ClassForm is what a coach says of a class.
type ClassForm struct {
	ID                                   string // made when the form is drawn
	Date, Start, Minutes, Capacity, Plan Input
	Weeks                                Input
	Was                                  []Field // as it was when the form was drawn
	Sheets                               []Choice
	Shown                                bool // it has something to say: to be open
}

// Class is one class with who comes, as coaches see it.
type Class struct {
	Row     ClassRow
	Day     string
	Week    string // the address of its week
	Begun   bool   // it can be said who did not come
	In      []ClassPlace
	Waiting []ClassPlace
	Gone    []ClassPlace // who gave the place back, or did not come
	Add     Input
	Asked   []Choice // people whom the name that was typed could mean
	People  []Choice
	Change  ClassForm
}

// ClassPlace is somebody who asked for a place.
type ClassPlace struct {
	Person, Name string
	State        string // in words; empty for who is in
}
