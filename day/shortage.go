package day

import (
	"slices"

	"roomful"
)

// Shortage is a shared place of which there are fewer than want it at once.
// The simulator gives everybody a place of their own, so where one is short the
// time spent waiting is unknown.
type Shortage struct {
	Name       string // a word of the kit's stations: row, rig
	Have, Need int
}

// placesOf are the stations that a need other than their own name is met by.
var placesOf = map[string]string{"pull-up-bar": "rig"}

// shortages lists what a class is short of when all start together, in the
// order of the piece. A station that the kit does not count is not short.
func (d *Day) shortages(c class) []Shortage {
	if c.Kit == nil {
		return nil
	}
	need := len(c.People)
	if t := c.piece.Team; t.Size > 1 && t.Style != roomful.Synchronised {
		need = (need + t.Size - 1) / t.Size
	}
	var out []Shortage
	for _, e := range slices.Concat(c.piece.Once, c.piece.Round, c.piece.Last) {
		m := d.Lexicon.Movement(e.Movement)
		if m == nil {
			continue
		}
		for _, word := range append([]string{string(m.Implement)}, m.Needs...) {
			if place, ok := placesOf[word]; ok {
				word = place
			}
			have, counted := c.Kit.Stations[word]
			if counted && have < need && !slices.ContainsFunc(out, func(s Shortage) bool { return s.Name == word }) {
				out = append(out, Shortage{word, have, need})
			}
		}
	}
	return out
}
