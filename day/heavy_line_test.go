package day_test

import (
	"testing"

	"roomful"
)

// TestHeavyOf: which line a question without one is about, and what is said where
// there is no load, or none to aim at.
func TestHeavyOf(t *testing.T) {
	t.Parallel()
	g := open(t)
	const head = "Umbrella\n2027-03-01, 60 min\n\n"
	for _, c := range []struct {
		sheet, piece, of string // of is the line asked about
		want             roomful.MovementID
		none             string
		found            bool
		implements       int
	}{
		{sheet: "main: 3 rounds for time\n  10 pull-ups\n  20 air squats\n", none: "no load in this piece: pull-ups, air squats"},
		{sheet: "main: 3 rounds for time\n  5 burpees\n  10 deadlifts 60/40 kg\n", of: "burpee", want: "burpee", none: "no load in burpees"},
		{sheet: "main: 3 rounds for time\n  10 dumbbell thrusters 2x15/10 kg\n  10 pull-ups\n", want: "dumbbell-thruster", implements: 2},
		{sheet: "main: 3 rounds for time\n  10 kettlebell swings 24/16 kg\n  10 deadlifts 60/40 kg\n", want: "deadlift"},
		{sheet: "ramp: front squat to working load, 8 min\nstrength: build to a heavy 3, 12 min\n  front squats\nmain: 3 rounds for time\n  10 deadlifts 60/40 kg\n", want: "front-squat", found: true},
		{sheet: "strength: build to a heavy 3, 12 min\n  front squats\nmain: 3 rounds for time\n  10 deadlifts 60/40 kg\n", of: "front-squat", want: "front-squat", found: true},
		{sheet: "strength: 5 x 5 @ 75 %\n  front squats\nmain: 3 rounds for time\n  10 deadlifts 60/40 kg\n", piece: "strength", want: "front-squat"},
	} {
		who := tilde()
		who.Known = []roomful.Known{{Test: roomful.TestSquat, Value: 70}, {Test: roomful.TestDeadlift, Value: 85}}
		q := g.asking(t, head+c.sheet, who)
		q.Question.Piece, q.Movement = c.piece, roomful.MovementID(c.of)
		o := g.heavy(t, q)
		if o.None != c.none || o.Found != c.found || c.none == "" && o.Movement != c.want || c.implements > 0 && o.Implements != c.implements {
			t.Errorf("%s: %s, none %q, found %v, %d held; want %+v", c.sheet, o.Movement, o.None, o.Found, o.Implements, c)
		}
		if c.found && (o.BuildUp == nil || len(o.BuildUp.Sets) == 0 || o.StopRule == "" || o.Load.Value > 0) {
			t.Errorf("%s: built up without sets or a rule: %+v", c.sheet, o.OwnLoad)
		}
	}
}
