package page

import "html/template"

// Record is what somebody scored, the latest first, piece by piece.
type Record struct {
	Person, Name string
	Own          bool // it is the reader's
	Pieces       []RecordPiece
	Older        string         // where the page behind this one is; empty on the last
	Later        bool           // this is not the first page
	Taught       []RecordLesson // what their scores have taught
	Abilities    string         // where a coach sees figures; empty for members
}

// RecordPiece is a sheet, or one that was done again, with their scores on it.
type RecordPiece struct {
	Title string
	Path  string // of the day
	Tries []RecordTry
	Story string // how it went from time to time; empty for what was done once
	Times string // how often, in words
}

// RecordTry is one score.
type RecordTry struct {
	When, Score, Changed string
	Piece                string // by name where it is not the main one
	Private              string
	Ask                  string // what cannot be told from it
}

// RecordLesson is what one score has taught.
type RecordLesson struct {
	From string // the score
	Of   string // what it told about, in words
}

// Story is how one sheet went for somebody from time to time.
type Story struct {
	Person, Name, Title string
	Own                 bool
	Pieces              []StoryPiece
}

// StoryPiece is one piece of it.
type StoryPiece struct {
	Name    string // where there are several
	Beat    string // the number to beat the next time
	Picture template.HTML
	Says    []StoryLine // each time beside the one before, the latest first
}

// StoryLine is one time beside the one before.
type StoryLine struct{ When, Score, Changed, Says string }

// StoryPart is a story within the record.
type StoryPart struct{ Story Story }
