package version

import (
	"cmp"
	"maps"
	"slices"

	"roomful"
	"roomful/version/internal/piece"
	"roomful/version/internal/rung"
)

// gatherForms collects, line by line, the forms that an option could ask for:
// first what people without the skill, the strength or the kit need, the most
// needed first, then what the sheet and the catalogue put next.
func (c *class) gatherForms(slow bool) {
	const most = 3
	for li := range c.lines {
		l := &c.lines[li]
		needed, forms := map[roomful.MovementID]int{}, map[roomful.MovementID]piece.Form{}
		for _, p := range c.going {
			f := c.fit(p, li, rung.Plain)
			if f.form.Movement == nil || f.form.Movement == l.Movement || f.stuck {
				continue
			}
			if w := f.why.form; w == bySkill || w == byStrength || w == byKit {
				needed[f.form.Movement.ID]++
				forms[f.form.Movement.ID] = f.form
			}
		}
		ids := slices.Collect(maps.Keys(needed))
		slices.SortFunc(ids, func(a, b roomful.MovementID) int {
			return cmp.Or(cmp.Compare(needed[b], needed[a]), cmp.Compare(a, b))
		})
		for _, id := range ids[:min(len(ids), 2)] {
			l.Add(forms[id])
		}
		if slow && l.Movement != nil && (len(ids) > 0 || l.Movement.Skill.Needed || !l.Element.Amount.Stated()) {
			c.addNext(l)
		}
		l.Forms = l.Forms[:min(len(l.Forms), most)]
	}
}

// addNext adds what the sheet, or else the catalogue, puts next to a line.
func (c *class) addNext(l *piece.Line) {
	if len(l.Instead) > 0 {
		l.Add(l.Instead[0])
	} else if len(l.Movement.Easier) > 0 {
		if m := c.Lexicon.Movement(l.Movement.Easier[0]); m != nil {
			l.Add(l.Easier(l.Movement, m))
		}
	}
}
