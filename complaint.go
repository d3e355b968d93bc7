package roomful

import (
	"fmt"
	"slices"
	"strings"
	"time"
)

// Complaint is what somebody says before or during a piece: where it hurts and
// how much.
type Complaint struct {
	Area string // one of [Areas]
	Pain *int   // 0 to 10; nil when it was not asked
	// Flags are the ids of the [RedFlags] that were answered with yes.
	Flags []string
	// Of is the element that hurts, as written or as the person does it; empty for
	// whatever loads the area.
	Of MovementID
	At time.Duration // on the piece's clock, 0 before it begins
}

// Areas are where it may hurt. Each is one of the [LimitWords].
var Areas = []string{"back", "shoulder", "elbow", "wrist", "neck", "hip", "knee", "ankle"}

// MostPain is the top of the scale of pain.
const MostPain = 10

// Check refuses a complaint that cannot be answered. A red flag answers for
// itself, so it needs neither area nor figure.
func (c Complaint) Check() error {
	if !slices.Contains(Areas, c.Area) && (c.Area != "" || len(c.Flags) == 0) {
		return &Error{Summary: fmt.Sprintf("no area is called %q", c.Area), Hint: "the areas are " + strings.Join(Areas, ", ")}
	}
	for _, id := range c.Flags {
		if _, ok := FlagByID(id); !ok {
			return &Error{Summary: fmt.Sprintf("no question is called %q", id), Hint: "the questions are " + strings.Join(flagIDs(), ", ")}
		}
	}
	const ask = "ask them for a number from 0, nothing, to 10, the worst there is"
	switch {
	case len(c.Flags) > 0:
	case c.Pain == nil:
		return &Error{Summary: "how much it hurts is not said", Hint: ask}
	case *c.Pain < 0 || *c.Pain > MostPain:
		return &Error{Summary: fmt.Sprintf("pain of %d is not on the scale", *c.Pain), Hint: ask}
	}
	return nil
}

// Limit is the complaint as a limit for today.
func (c Complaint) Limit() Limit {
	l := Limit{What: c.Area, Pain: -1}
	if c.Pain != nil {
		l.Pain = *c.Pain
	}
	return l
}

// Relief answers a complaint: stop and refer, go on, or three things to do
// instead. It diagnoses nothing.
type Relief struct {
	Athlete, Name string
	Complaint     Complaint
	// Stop tells the coach to end it here and whom to send for; empty when they may
	// go on. Urgent is a matter of minutes.
	Stop   string
	Urgent bool
	Card   *Emergency // the gym's, when it is urgent; nil when it has none
	Say    string     // to the person, when they stop or go on as they are
	Ask    []RedFlag  // to be asked before anything else is done
	Note   string     // for the coach; empty when there is nothing to add
	// Remedies are in order, the first to be tried first; none when they stop or go
	// on as they are.
	Remedies []Remedy
	// Version is what the person does from now on when they take the first remedy.
	Version  Version
	Cautions []string
}

// Remedy is one way to go on.
type Remedy struct {
	Choice
	For     MovementID // what it takes the place of
	Say     string     // to the person; anybody may hear it
	Also    []Choice   // other elements that change beside it
	Segment Segment    // what is noted when it is taken
}
