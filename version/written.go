package version

import (
	"roomful"
	"roomful/version/internal/rack"
	"roomful/version/internal/sheet"
)

// Question asks what a part says for one person.
type Question struct {
	Part      roomful.Part
	Effort    roomful.Effort
	Athlete   roomful.Athlete
	Abilities *roomful.Abilities
	// Kit restricts loads and heights to what is owned; nil leaves stated
	// masses as they are and rounds found ones to the gym's usual steps.
	Kit        *roomful.Kit
	Gym        roomful.Gym
	Lexicon    roomful.Lexicon
	Forecaster roomful.Forecaster
}

// AsWritten resolves a part as the sheet says for the person's division, in
// base units, with every load one that exists: a share of a maximum or of body
// mass is rounded to the nearest load, the lighter of two; a load found by a
// repetition test is rounded down. In ladders amounts stay 0. A movement the
// lexicon does not know keeps its figures. A load without a number of implements
// is of each when the movement is usually done with a pair.
func AsWritten(q Question) roomful.Work {
	r := &sheet.Reader{Part: q.Part, Effort: q.Effort, Athlete: q.Athlete, Abilities: q.Abilities, Lexicon: q.Lexicon, Forecaster: q.Forecaster,
		Stock: rack.New(q.Kit, q.Gym, q.Athlete.Division, sheet.MassUnit(q.Part, q.Gym))}
	return r.Work()
}
