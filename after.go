package roomful

// After is what a coach reads when the class is over: what was meant beside what
// came of it.
type After struct {
	Piece  Part
	Effort Effort
	Kind   ScoreKind
	// Scored is how many have a score that can be read, and Within how many of them
	// ended in the window.
	Scored, Within int
	Middle         float64 // the median score, in the unit of the scores; NaN for none
	Far            []FarOff
	Open           []Entry // that a question is open about
}

// FarOff is somebody who ended far from what was meant, and likely why.
type FarOff struct {
	Entry
	Off     float64 // how far outside the window, as a share of its nearer end; below nought is too little done
	Why     string  // may be shown to anybody
	Private string  // for the person and coaches
}
