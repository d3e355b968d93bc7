package prior

import (
	"math"

	"roomful"
)

// readSkills returns what solid skills say of training that was not told.
func readSkills(a roomful.Athlete, ab *roomful.Abilities, lex roomful.Lexicon) []reading {
	var rs []reading
	for _, s := range a.Skills {
		m := lex.Movement(s.Movement)
		if m == nil || a.Months != nil || s.Level != roomful.SolidSkill || !m.Skill.Needed {
			continue
		}
		rs = append(rs, reading{
			label:   "skill in " + m.Name,
			factors: []roomful.FactorLoad{{Factor: trainingFactor, SD: 1}},
			value:   skillTraining.one(), noise: skillTrainingNoise.one(),
		})
	}
	return rs
}

// holdSkills sets the maximum of each movement whose level was told and no
// figure. A skill is learnt: its level says nothing of other movements. None
// leaves less than one repetition, some a few, solid at least six; a solid
// skill stays as strong as the person otherwise is.
func holdSkills(a roomful.Athlete, ab *roomful.Abilities, lex roomful.Lexicon) {
	for _, s := range a.Skills {
		m, c := lex.Movement(s.Movement), roomful.OwnMax(s.Movement)
		holdTrips(a, ab, s, m)
		dim := ab.Index(c)
		if m == nil || dim < 0 || s.Level == roomful.UnknownLevel || measured(a, c) {
			continue
		}
		if m.Skill.Trips && s.Level != roomful.NoSkill {
			continue // trips say how well, the maximum how long the body lasts
		}
		level := math.Log(atLevel(s.Level, skillNone, skillSome, skillSolid))
		if m.Modality == roomful.Hold {
			level += math.Log(holdPerRep.one())
		}
		d := &ab.Dims[dim]
		d.Informed = append(d.Informed, "skill in "+m.Name)
		if s.Level == roomful.SolidSkill {
			d.Centre = max(d.Centre, level)
			continue
		}
		d.Centre = level
		d.Loads = []roomful.FactorLoad{{Factor: sharedFactors + dim, SD: skillNoise.one()}}
	}
}

// holdTrips sets how often a skill fails when its level was told and no figure:
// as the level says, and for a solid one no more often than the person would
// anyway.
func holdTrips(a roomful.Athlete, ab *roomful.Abilities, s roomful.SkillLevel, m *roomful.Movement) {
	c := roomful.TripLogit(s.Movement)
	dim := ab.Index(c)
	if m == nil || dim < 0 || s.Level == roomful.UnknownLevel || measured(a, c) {
		return
	}
	d := &ab.Dims[dim]
	level := atLevel(s.Level, tripNone, tripSome, tripSolid)
	if s.Level == roomful.SolidSkill {
		level = min(d.Centre, level)
	}
	d.Centre = level
	d.Loads = []roomful.FactorLoad{{Factor: sharedFactors + dim, SD: tripNoise.one()}}
	d.Informed = append(d.Informed, "skill in "+m.Name)
}

// atLevel returns the figure for a level that is told.
func atLevel(l roomful.Level, none, some, solid constant) float64 {
	switch l {
	case roomful.NoSkill:
		return none.one()
	case roomful.SomeSkill:
		return some.one()
	default:
		return solid.one()
	}
}
