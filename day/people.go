package day

import (
	"slices"
	"strings"

	"roomful"
	"roomful/prior"
)

// abilities returns what is believed of a person: what scores say, if they were
// learnt from, else what was told, with the help of whoever they are said to be
// like. Who is already being asked about is not asked again, so two people may be
// like each other.
func (d *Day) abilities(a roomful.Athlete, people []roomful.Athlete, believed map[string]*roomful.Abilities, on roomful.Date, asking ...string) *roomful.Abilities {
	if known := believed[a.ID]; known != nil {
		return known
	}
	own := prior.Of(a, d.Lexicon, on)
	i := slices.IndexFunc(people, func(b roomful.Athlete) bool { return a.Like != "" && strings.EqualFold(b.Name, a.Like) })
	if i < 0 || slices.Contains(asking, people[i].ID) || people[i].ID == a.ID {
		return own
	}
	return prior.Like(own, d.abilities(people[i], people, believed, on, append(asking, a.ID)...))
}

// doubts returns what does not fit together in what a person told, each ready
// to be put into a longer sentence.
func (d *Day) doubts(a roomful.Athlete, on roomful.Date) []string {
	said := prior.Doubts(a, d.Lexicon, on)
	for i := range said {
		said[i] = strings.TrimSuffix(said[i], ".")
	}
	return said
}
