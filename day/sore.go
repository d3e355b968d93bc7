package day

import (
	"context"
	"slices"

	"roomful"
	"roomful/version"
)

// fewestRuns forecasts a version that nobody asks the forecast of. The choice of
// versions does not depend on it.
const fewestRuns = 1

// Relief is the answer to a complaint about a piece.
type Relief struct {
	Piece roomful.Part
	roomful.Relief
}

// Refer ends it for somebody with a red flag, or with pain that is too much, on any day and
// without one; false when nothing stops them.
func (d *Day) Refer(who roomful.Athlete, on roomful.Date, c roomful.Complaint) (Relief, bool) {
	out, stops := version.Refer(who, on, d.Gym, c)
	return Relief{Relief: out}, stops
}

// Relieve answers somebody among the people of a question who says that something
// hurts, from the version that they have among everybody, or with what they have at home.
// What stops them stops them whatever the sheet says.
func (d *Day) Relieve(ctx context.Context, q Question, home bool, who roomful.Athlete, c roomful.Complaint) (Relief, error) {
	of, err := d.class(q)
	if err != nil {
		return Relief{}, err
	}
	if out, stops := d.Refer(who, of.on, c); stops {
		out.Piece = of.piece
		return out, nil
	}
	of.Runs = fewestRuns
	r := d.versionRequest(ctx, &of, home)
	l, err := version.Propose(ctx, r)
	if err != nil {
		return Relief{}, err
	}
	if err := d.byHand(ctx, of, &l); err != nil { // what was set is what is made gentler
		return Relief{}, err
	}
	i := slices.IndexFunc(l.Versions, func(v roomful.Version) bool { return v.Athlete == who.ID })
	if i < 0 {
		return Relief{}, &roomful.Error{Summary: who.Name + " is not among the people", Hint: "add them to the file of people"}
	}
	got, err := version.Relieve(version.SoreQuestion{Request: r, Version: l.Versions[i], Complaint: c})
	return Relief{of.piece, got}, err
}
