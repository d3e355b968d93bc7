package catalogue

import (
	"slices"

	"roomful"
)

// stressOf lists the stresses behind each reason that is about a body. What is
// listed for pregnancy is what coaches commonly leave out; the person's own
// clinician decides (ACOG Committee Opinion 804, 2020).
var stressOf = map[roomful.Reason][]roomful.Stress{
	roomful.ForBack:     {roomful.StressSpine},
	roomful.ForShoulder: {roomful.StressShoulder, roomful.StressOverhead},
	roomful.ForWrist:    {roomful.StressWrist},
	roomful.ForKnee:     {roomful.StressKnee},
	roomful.ForImpact:   {roomful.StressImpact},
	roomful.ForPregnancy: {roomful.StressBelly, roomful.StressSupine, roomful.StressFall, roomful.StressImpact,
		roomful.StressInversion},
}

// lowRoomM is the height in metres that any room has; what fits under it needs
// no swap for a low ceiling.
const lowRoomM = 2.1

// Raises reports whether a movement may have to be swapped for a reason: it
// takes kit, wants height, makes noise, has to be learnt, or loads what is sore.
// A movement that does not raise a reason needs no swap for it.
func Raises(m *roomful.Movement, r roomful.Reason) bool {
	switch r {
	case roomful.ForNoKit:
		return m.Implement != roomful.NoImplement || len(m.Needs) > 0
	case roomful.ForNoMachine:
		return powered(m)
	case roomful.ForCeiling:
		return m.Space.CeilingM > lowRoomM
	case roomful.ForNoise:
		return m.Noisy
	case roomful.ForSkill:
		return m.Skill.Needed
	}
	return slices.ContainsFunc(stressOf[r], m.Loads)
}
