package prior

import (
	"math"

	"roomful"
)

// readSkills returns what the levels of a person's skills say of trips, where
// an attempt can fail, or of training that was not told.
func readSkills(a roomful.Athlete, ab *roomful.Abilities, lex roomful.Lexicon) []reading {
	var rs []reading
	for _, s := range a.Skills {
		m := lex.Movement(s.Movement)
		if m == nil || s.Level == roomful.UnknownLevel {
			continue
		}
		r := reading{label: "skill in " + m.Name}
		trips := roomful.TripLogit(m.ID)
		switch dim := ab.Index(trips); {
		case dim >= 0 && !measured(a, trips):
			r.terms, r.noise = []term{{dim, 1}}, tripNoise.one()
			r.value = atLevel(s.Level, tripNone, tripSome, tripSolid)
		case dim < 0 && a.Months == nil && s.Level == roomful.SolidSkill && m.Skill.Needed:
			r.factors = []roomful.FactorLoad{{Factor: trainingFactor, SD: 1}}
			r.value, r.noise = skillTraining.one(), skillTrainingNoise.one()
		default:
			continue
		}
		rs = append(rs, r)
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
