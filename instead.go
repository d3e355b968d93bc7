package roomful

// StandIn is another movement in the place of one, resolved for one person: a
// [Swap] with its amount and a load that exists.
type StandIn struct {
	Choice
	Basis     Basis
	Neighbour string // what changes when the pattern is not kept; empty when it is
	// Possible says that the person has the kit and the skill for it and that none
	// of their limits rules it out; when it is not, Why says what is in the way and
	// there is no amount.
	Possible bool
}

// Basis is what the amount of another movement rests on.
type Basis string

// The bases of an amount.
const (
	BySheet     Basis = "sheet"     // the sheet states it
	ByGym       Basis = "gym"       // so many for one, by the gym's settings
	ByCatalogue Basis = "catalogue" // so many for one, by the catalogue
	ByTime      Basis = "time"      // the same time for this person
	ByCount     Basis = "count"     // times so near that the count stays
	ByCalories  Basis = "calories"  // what the machines show for the same work
	ByLostLoad  Basis = "lost load" // more of it for a load that is taken away
	BySet       Basis = "set"       // a usual set in the place of a heavier one
)
