package day

import (
	"slices"
	"strings"

	"roomful"
)

// Believed is what a day's question rests on, by id.
func (l Learnt) Believed() map[string]*roomful.Abilities {
	out := map[string]*roomful.Abilities{}
	for id, a := range l.Abilities {
		out[id] = believed(a, l.told[id])
	}
	return out
}

// Believe is what a day's question rests on of one person, of whom scores have shown
// something before.
func (d *Day) Believe(a roomful.Athlete, people []roomful.Athlete, learnt *roomful.Abilities, on roomful.Date) *roomful.Abilities {
	return believed(learnt, d.abilities(a, people, nil, on))
}

// believed is what was learnt of somebody, for a day's question. A maximum of which only
// scores speak is believed, but not known: nobody is handed a bar by it, so that the
// proof set decides as it does for whoever told nothing. How heavy somebody goes who
// noted what they lifted is for [Day.OwnLoad] to say.
func believed(learnt, told *roomful.Abilities) *roomful.Abilities {
	out := *learnt
	out.Dims = slices.Clone(learnt.Dims)
	for i := range out.Dims {
		d := &out.Dims[i]
		if at := told.Index(d.Capacity); strings.HasPrefix(string(d.Capacity), "1rm ") && (at < 0 || len(told.Dims[at].Informed) == 0) {
			d.Informed = nil
		}
	}
	return &out
}
