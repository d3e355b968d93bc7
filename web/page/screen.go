package page

// Screen is today for the display in the room, read from across it.
type Screen struct {
	Title   string // of the day; empty when nothing is written for it
	Class   string // "17:30", empty without one
	What    string // how it goes, and what is meant
	Options []ScreenOption
	Written []string // the lines as they are written, where there are no options yet
	Classes []string // of today, in words
	Close   int      // how close the letters have to stand: 0 for large ones, 1, 2
	Here    string   // the address that it is asked for again at
}

// ScreenOption is an option with who is on it.
type ScreenOption struct {
	Shape  int
	Name   string
	Lines  []string // of the first option all of them, of others what is otherwise
	People []string // by first name
	More   int      // people there was no place for
}
