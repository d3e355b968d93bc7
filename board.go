package roomful

// Board is what people scored on one piece: who did it as written in places, and
// beside them, never below, who changed something.
type Board struct {
	Piece   Part
	Kind    ScoreKind
	Written []Placed
	Changed []Placed
	Without []Placed // no score, or one that a question is open about
}

// Placed is an attempt on a board.
type Placed struct {
	Entry
	With   []string // partners of the same score, by name
	Place  int      // from 1 on their side of the board; 0 for who is not ranked
	Tied   bool     // others share the place
	Capped bool
	// Equivalent is about what it would have been as written, in the unit of the
	// scores; NaN when nothing can be said.
	Equivalent float64
}
