package page

// MyScore is how somebody says how it went.
type MyScore struct {
	Sheet    string // its name, in addresses
	Class    string // the class the page is of, to come back to
	ID       string // of the score to come, made here so that it is kept once
	Instead  string // the id of the score that this one takes the place of
	Text     string
	Wrong    string // what is wrong with it
	Hint     string // what may be typed, for this day
	Reading  *MyReading
	Kept     []MyKept
	Sent     bool // what was sent is shown
	Optional bool // a score is there already
	Answered bool // the field comes with a reading, since an answer completed it
}

// MyReading is what a text is read as, before it is kept.
type MyReading struct {
	Lines   []MyRead
	Private string // only they and their coach see it
	Unread  string // what nothing was made of
	Ask     string // what cannot be told from it
	Answers []string
	Better  []string // beside the last time, a sentence for each piece
	Nothing string   // why nothing was read
	Sheet   string   // its name, in addresses
	Said    *MyScore // the field with what an answer completed; nil for as it was typed
}

// MyRead is what was read for one piece.
type MyRead struct {
	Piece   string // by name where a day has several
	Score   string
	Changes string // in words; empty for as nothing was said
}

// MyKept is a score that is kept.
type MyKept struct {
	ID, Text string
	Reading  MyReading
	Beat     []string // how it stands beside the last time, and the next number to beat
}

// MyNotes is what was said under a day.
type MyNotes struct {
	Sheet, Class string
	ID           string // of the note to come
	Text         string
	Private      bool
	Wrong        string
	Threads      []MyThread
	May          bool // say something
	Sent         bool
}

// MyThread is a note with what was answered.
type MyThread struct {
	MyNote
	Answers []MyNote
}

// MyNote is one thing somebody said.
type MyNote struct {
	By, When, Text string
	Private        bool // for whose it is and their coaches
}

// MyNoteLook says who will read a note.
type MyNoteLook struct {
	Private bool   // for its writer and coaches
	Body    bool   // since it speaks of the body
	Unsure  bool   // since some words are not known, unless the writer says that they are harmless
	Open    bool   // which they have said
	Words   string // of either sort
}
