package version

import (
	"slices"

	"roomful"
)

// counts says how a piece is scored for one person and with what it may be
// compared: what is done at home stands apart unless it is as written.
func (d *days) counts(p roomful.Part, v *roomful.Version) *roomful.Counts {
	room := roomful.KindOf(p, d.Lexicon)
	c := &roomful.Counts{Kind: d.kindOf(p, v, room), Comparable: v.Dose.Whole()}
	for _, choice := range v.Choices {
		c.Comparable = c.Comparable && !choice.Changed
	}
	switch {
	case c.Kind != room:
		c.Say = counted[c.Kind] + ": your own kind, not comparable with the room"
	case c.Comparable:
		c.Say = counted[c.Kind] + ", as in the room"
	case d.Home && c.Kind == roomful.RepsScore:
		c.Say = "repetitions of your own, not comparable with the room"
	case d.Home:
		c.Say = counted[c.Kind] + ", as in the room. Kept apart: the work is another"
	default:
		c.Say = counted[c.Kind] + ", with what you changed"
	}
	return c
}

// counted are the words for what a score counts.
var counted = map[roomful.ScoreKind]string{
	roomful.RoundsScore: "rounds", roomful.RepsScore: "repetitions", roomful.TimeScore: "time",
	roomful.LoadScore: "load", roomful.DistanceScore: "metres", roomful.HoldScore: "seconds held",
}

// kindOf is what the piece counts as this person does it: metres where a run
// stands for calories, repetitions where nothing is lifted in sets.
func (d *days) kindOf(p roomful.Part, v *roomful.Version, room roomful.ScoreKind) roomful.ScoreKind {
	if room == roomful.LoadScore {
		if !slices.ContainsFunc(v.Choices, func(c roomful.Choice) bool {
			m := d.Lexicon.Movement(c.Movement)
			return m == nil || m.TakesLoad()
		}) {
			return roomful.RepsScore
		}
		return room
	}
	done := p
	done.Round = slices.Clone(p.Round)
	for i := range done.Round {
		if at := len(p.Once) + i; at < len(v.Choices) {
			t := v.Choices[at].Task
			done.Round[i].Movement, done.Round[i].Amount.Unit = t.Movement, t.Unit
		}
	}
	return roomful.KindOf(done, d.Lexicon)
}
