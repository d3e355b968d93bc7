package day

import "roomful"

// lately is for how many days a load that went as meant goes on counting as one that
// would do: a cycle of twelve weeks (common practice, no source).
const lately = 84

// alike is how much heavier a load may be and still count as the same: 53 lb is 24 kg.
const alike = 1.01

// proven widens everybody's bands to the loads that went as meant, or too easily, when
// they last did the piece.
func (d *Day) proven(c class, v *Versions) {
	for i, one := range v.Versions {
		if one.ByHand {
			continue
		}
		for n := range one.Choices {
			line := c.piece.All()[n].Movement
			if one.Choices[n].Movement != line || one.Choices[n].High.Value == 0 || len(one.Cautions) > 0 {
				continue
			}
			l := loading{Day: d, LoadQuestion: LoadQuestion{Question: c.Question, Who: c.People[i], Movement: line}, on: c.on, piece: c.piece, effort: v.Effort}
			l.past = l.telling()
			l.before = l.last()
			l.widen(&one.Choices[n])
		}
	}
}

// widen stretches a band to the load of last time, where that was noted, not long ago
// and not too hard.
func (l *loading) widen(c *roomful.Choice) {
	t := l.before
	if t == nil || !t.Noted || t.Off < 0 || t.On.IsZero() || l.on.IsZero() {
		return
	}
	if l.on.Days(t.On) <= lately && t.Load.Kg() > c.High.Kg()*alike {
		c.High = t.Load.In(c.High.Unit)
	}
}
