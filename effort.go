package roomful

// Effort is what a piece is meant to feel like. Everything that adapts a piece
// to a person keeps the effort and changes the rest.
type Effort struct {
	Low, High float64
	// Unit is what the window counts: "rounds", "minutes", "reps", "cal", "m",
	// "s" or "kg"; empty when no window is given.
	Unit    string
	Feel    string // "steady", "sprint": the coach's own word
	Fresh   []FreshRule
	Protect string // what must not be traded away: "pace", "load", "skill", or a movement
	// Proposed is true when the sheet said nothing and the program did.
	Proposed bool
}

// FreshRule asks that a movement's load, or the movement itself, be one that
// the person could do at least Reps times unbroken when fresh.
type FreshRule struct {
	Movement MovementID
	Reps     int
}

// Stated reports whether there is a window to aim at.
func (e Effort) Stated() bool { return e.Unit != "" }

// Counts reports whether the window counts what a kind of score does.
func (e Effort) Counts(k ScoreKind) bool {
	switch k {
	case RoundsScore:
		return e.Unit == "rounds"
	case RepsScore:
		return e.Unit == "reps" || e.Unit == "cal"
	case TimeScore, HoldScore:
		return e.Unit == "minutes" || e.Unit == "s"
	case LoadScore:
		return e.Unit == "kg"
	default:
		return e.Unit == "m"
	}
}

// Holds reports whether a score lies in the window. A window of whole things
// includes the last one's parts: 4-6 rounds means at least 4 and fewer than 7.
// Times in seconds are compared with a window in minutes.
func (e Effort) Holds(score float64) bool {
	low, high := e.Window()
	return score >= low && score < high
}

// Window returns the half-open interval of scores that meet the effort, in the
// unit that scores of its kind are kept in (seconds for minutes).
func (e Effort) Window() (low, high float64) {
	switch e.Unit {
	case "minutes":
		return e.Low * 60, e.High*60 + 1
	case "kg", "m", "s":
		return e.Low, e.High * (1 + 1e-9)
	default:
		return e.Low, e.High + 1
	}
}

// FreshFor returns the fresh rule for a movement, 0 when there is none.
func (e Effort) FreshFor(id MovementID) int {
	for _, f := range e.Fresh {
		if f.Movement == id {
			return f.Reps
		}
	}
	return 0
}
