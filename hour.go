package roomful

import "time"

// Hour is a class minute by minute, from the first word to the last plate on its
// rack.
type Hour struct {
	Length  time.Duration // of the class
	Amber   time.Duration // planned beyond this it is tight
	Red     time.Duration // and beyond this it runs over
	Lines   []HourLine    // without gaps, from 0
	Heats   []Heat        // of the pieces done in more than one
	Waves   []Wave        // of the pieces that people start one after the other
	Places  []PieceUse    // shared places that run short
	Short   []Shortage    // what the room has too little of, whatever the arrangement
	Fixes   []Fix         // what would help, the cheapest first
	Changes []Fix         // what a change on the day has people do; in the lines already
	Dropped []string      // what a late class leaves out, in the order of leaving
	NoMore  bool          // nothing more of a late class can be left out, and it still ends late
}

// HourKind says what a line of the hour is for.
type HourKind uint8

// The kinds of line. Work is the time of a scored piece.
const (
	HourBriefing HourKind = iota
	HourWarmUp
	HourRamp
	HourSetUp
	HourWork
	HourChange
	HourScores
	HourMobility
	HourReset
)

// String returns a word for the kind.
func (k HourKind) String() string {
	return [...]string{"briefing", "warm-up", "ramp", "set-up", "work", "change", "scores", "mobility", "reset"}[k]
}

// HourLine is a stretch of the hour.
type HourLine struct {
	Start, End time.Duration // from the start of the class
	Kind       HourKind
	Part       string // of the sheet, "main b"; empty for what no part asks for
	Heat       int    // from 1; 0 when everybody is in it
	What       string // to read out: "ramp: deadlift to working load"
	From       string // where the length comes from: "the sheet", "setting briefing", "forecast"
}

// Length returns how long the line lasts.
func (l HourLine) Length() time.Duration { return l.End - l.Start }

// Ends returns when the last line ends.
func (h *Hour) Ends() time.Duration {
	if len(h.Lines) == 0 {
		return 0
	}
	return h.Lines[len(h.Lines)-1].End
}

// Verdict says in a word whether an hour fits; it speaks of minutes alone.
type Verdict string

// The verdicts: with minutes to spare, with none, and not.
const (
	Fits  Verdict = "fits"
	Tight Verdict = "tight"
	Over  Verdict = "over"
)

// Verdict says whether the hour is over in time.
func (h *Hour) Verdict() Verdict {
	switch end := h.Ends(); {
	case end > h.Red:
		return Over
	case end > h.Amber:
		return Tight
	}
	return Fits
}

// Fits reports whether the hour is over in time, tightly or not.
func (h *Hour) Fits() bool { return h.Verdict() != Over }

// Heat is a part of the class that does a piece on its own.
type Heat struct {
	Part   string
	N      int           // from 1
	Start  time.Duration // from the start of the class
	People []string      // ids
}

// Wave is a part of the class that starts a piece later than the others, and ends
// as much later.
type Wave struct {
	Part   string
	Heat   int           // from 1; 0 when everybody is in it
	N      int           // from 1, in every heat anew
	After  time.Duration // the first
	People []string      // ids
}

// PieceUse is how a shared place is used in a piece.
type PieceUse struct {
	Part string
	PlaceForecast
	// Load is what everybody would spend at the places if nobody waited, over how long
	// there are places: above 1 somebody waits, in whatever order they start.
	Load float64
}

// Shortage is something the room has too little of.
type Shortage struct {
	Part       string
	What       string // "row", "kettlebell 24 kg", "20 kg disc"
	Have, Need int
}

// Fix is a remedy with its cost.
type Fix struct {
	What    string        // in a few words: "two waves, 2:00 apart"
	Part    string        // the piece it changes; empty for the hour as a whole
	Costs   time.Duration // to the clock; below 0 when it gives time back
	Wait    time.Duration // what each person waits for places then, on average
	Touches []string      // names of those who do something else because of it
	Say     string        // the words for the room
	Why     string        // what it is for
}
