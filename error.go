package roomful

import "errors"

// Error is a refusal that a person will read. Summary says what was being done
// and to what, in lowercase; Hint is one line with the next step.
type Error struct {
	Summary string
	Hint    string
}

// Error implements error.
func (e *Error) Error() string { return e.Summary }

// HintOf returns the hint of the first [Error] in err's chain, or "".
func HintOf(err error) string {
	var e *Error
	if errors.As(err, &e) {
		return e.Hint
	}
	return ""
}

// Severity grades a diagnostic.
type Severity uint8

// The severities. Only a Fault makes a sheet unusable as it stands.
const (
	Hint Severity = iota
	Warning
	Fault
)

// String returns the word used in JSON.
func (s Severity) String() string { return [...]string{"hint", "warning", "error"}[s] }

// Position is a place in a text. Both count from 1, columns in characters.
type Position struct{ Line, Column int }

// Range is a stretch of text; End is the position just after its last
// character.
type Range struct{ Start, End Position }

// Diagnostic is something to say about a place in a sheet.
type Diagnostic struct {
	Severity Severity
	Range    Range
	Summary  string // what is wrong, lowercase, one line
	Detail   string // what was understood meanwhile, or why it matters
	Hint     string // the next step
}
