package desk

import "roomful"

// Earlier is what somebody scored before today on sheets with the same piece, and what is
// believed of them now; nil where that is no more than they told.
func (g *Gym) Earlier(sheet roomful.Session, who roomful.Athlete) (roomful.Record, *roomful.Abilities, error) {
	return g.earlier(sheet, who, g.Today)
}

// earlier is the same before a day.
func (g *Gym) earlier(sheet roomful.Session, who roomful.Athlete, on roomful.Date) (roomful.Record, *roomful.Abilities, error) {
	all, err := g.past(sheet, []roomful.Athlete{who}, on, 0)
	if err != nil {
		return nil, nil, err
	}
	for i := range all {
		if all[i].Title == sheet.Title {
			all[i].Again = sheet.Again // what is called the same repeats the same
		}
	}
	learnt, err := g.learnt(who.ID, 0)
	if err != nil || learnt == nil {
		return all, nil, err
	}
	return all, g.Believe(who, g.all, learnt, g.Today), nil
}
