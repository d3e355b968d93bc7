package page

import (
	"html/template"
	"slices"
)

// Scores is what was scored on a day, and where a coach enters it.
type Scores struct {
	Name, Title, When string
	Class, ClassName  string // of the people shown first; empty for everybody
	Classes           []Choice
	May               bool // enter for others
	Entry             ScoreEntry
	After             []ScoreAfter
	Boards            []ScoreBoard
	More, Fewer       string // the addresses of the pages of the board beside this one
	Latest            []ScoreLine
	Older, Newest     string // the addresses of the pages of the latest beside this one
	Trouble           string // why there is no board
	None              bool   // no score yet
}

// ScoreEntry is many scores as a coach types them.
type ScoreEntry struct {
	Batch string // made when the form is drawn, so that it is kept once however often it is sent
	Text  string
	Wrong string
	Rows  []ScoreRow
	Lines []ScoreHeard // as it was read; none until it was
	Ready int          // how many can be kept
	Open  int          // how many ask something first
	Kept  bool         // what was typed last is kept
}

// ScoreRow is a field for one person of the class.
type ScoreRow struct {
	Person, Name, Text string
}

// ScoreHeard is a line as it was understood.
type ScoreHeard struct {
	N       int
	Name    string // whose it is, or as it was typed
	Words   string // what it was read as
	Private string // for the person and coaches
	Ask     string // what is to be settled
	Fixes   []Choice
	Has     string // a score that they have already
}

// ScoreAfter is what came of a piece, as a coach reads it when the class is over.
type ScoreAfter struct {
	Piece   string // its name where there are several
	Head    string
	Far     []ScoreFar
	Ask     []ScoreFar
	Picture template.HTML
}

// ScoreFar is somebody who ended far from what was meant, and likely why.
type ScoreFar struct {
	Name, Score, Why, Private string
}

// ScoreBoard is a board of one piece.
type ScoreBoard struct {
	Piece   string // its name where there are several
	Written []ScorePlace
	Changed []ScorePlace
	Without []ScorePlace
}

// Unplaced reports whether somebody stands on a side of the board without a place.
func (b ScoreBoard) Unplaced() bool {
	return slices.ContainsFunc(slices.Concat(b.Written, b.Changed), func(p ScorePlace) bool { return p.Place == "" })
}

// ScorePlace is a line of a board.
type ScorePlace struct {
	Place     string // "3", "3="; empty for who is not ranked
	Name      string
	Score     string
	Otherwise string // what was changed
	Own       bool   // the visitor's
}

// ScoreLine is a score as it came.
type ScoreLine struct {
	ID, Name, Score string
	Text            string // as it was typed; empty for who may not read it
	Private         string
	Change          string // the address at which it is corrected; empty for who may not
}

// Score is one score, to be corrected or taken back.
type Score struct {
	Sheet, Title, When string
	ID, New            string // of this one, and of the one that takes its place
	Name, Words        string
	Text               Input
}
