package roomful

// Tier says how far two attempts may be held against each other.
type Tier string

// The tiers, from the plainest down.
const (
	TierSame          Tier = "same"           // the same work: the difference says it all
	TierOneChange     Tier = "one-change"     // one thing was otherwise, and is named
	TierDifferent     Tier = "different-work" // only an interval can be given
	TierNotComparable Tier = "not-comparable" // and why
)

// Comparison lays an attempt beside an earlier one of the same person.
type Comparison struct {
	Earlier, Later Entry
	Tier           Tier
	// Changed are what was otherwise the second time, each in words that anybody may
	// read; for what cannot be compared, why.
	Changed []string
	// Difference is the later score less the earlier, in the unit of the scores; NaN
	// when they are of different things.
	Difference float64
	// AtLeast says that the difference is at least so much: one of the two met the cap.
	AtLeast bool
	// Equivalent is what the person of the earlier day would have scored on the later
	// work; nil when the work is the same or nothing can be said.
	Equivalent *Quantiles
	// Improved is the probability that the later attempt is the better one; NaN when
	// nothing can be said.
	Improved float64
	Sentence string // for the person
	Assumed  []string
	Beat     Target
}

// Target is the number to match or beat next time, with how it would go.
type Target struct {
	Match  float64 // the best so far on this work, in the unit of the scores; NaN for none
	Beat   float64 // the least that is better
	Text   string
	Splits []SplitTarget
}

// SplitTarget is when a round should be done, or a line of a piece of one round, on
// the clock of the piece.
type SplitTarget struct {
	Round    int        // from 1; 0 for a line
	Movement MovementID // of the line
	Seconds  float64
}
