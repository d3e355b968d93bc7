package roomful

// Attempt is what a person typed after a session: one reading for each scored
// piece that the text speaks of, in the order of the sheet.
type Attempt struct {
	Text     string // kept for ever, beside its readings
	Readings []Reading
}

// Logged is a score as somebody wrote it down, not yet read against its sheet.
type Logged struct {
	Athlete string // id
	On      Date   // zero when it does not say
	Sheet   string // the key of the sheet
	Piece   string // the part that the score is of; empty for the main one
	Text    string
	Line    int // where it stands in its file
}
