package exchange

import "roomful"

// Movement is what the catalogue knows about a movement and a coach may use.
type Movement struct {
	ID        roomful.MovementID `json:"id"`
	Name      string             `json:"name"`
	Plural    string             `json:"plural"`
	Also      []string           `json:"also"`
	Family    string             `json:"family"`
	Patterns  []roomful.Pattern  `json:"patterns"`
	Modality  string             `json:"modality"`
	Stress    []roomful.Stress   `json:"stress"`
	Implement *string            `json:"implement"`
	Needs     []string           `json:"needs"`
	CeilingM  *float64           `json:"ceiling_m"`
	LaneM     *float64           `json:"lane_m"`
	Noisy     bool               `json:"noisy"`
	Units     []string           `json:"units"`
	Skill     bool               `json:"skill"`
	Standard  *string            `json:"standard"`
	Cues      []string           `json:"cues"`
	Faults    []string           `json:"faults"`
	Easier    []Named            `json:"easier"`
	Swaps     []Swap             `json:"swaps"`
	Caution   *string            `json:"caution"`
}

// Named is a movement by its id and name.
type Named struct {
	ID   roomful.MovementID `json:"id"`
	Name string             `json:"name"`
}

// Swap is another movement often chosen for a reason.
type Swap struct {
	To        roomful.MovementID `json:"to"`
	Name      string             `json:"name"`
	For       []roomful.Reason   `json:"for"`
	Ratio     *float64           `json:"ratio"`     // null is the same time
	Neighbour *string            `json:"neighbour"` // what changes when the pattern is not kept
}

// MovementOf turns a movement into JSON, with the swaps given for one reason,
// or all of them when the reason is empty. The caution goes with it.
func MovementOf(m *roomful.Movement, lex roomful.Lexicon, why roomful.Reason, caution string) Movement {
	out := Movement{
		ID: m.ID, Name: m.Name, Plural: m.Plural, Also: listed(m.Also), Family: m.Family,
		Patterns: append([]roomful.Pattern{}, m.Patterns...), Modality: string(m.Modality),
		Stress: append([]roomful.Stress{}, m.Stress...), Implement: word(string(m.Implement)), Needs: listed(m.Needs),
		CeilingM: known(m.Space.CeilingM), LaneM: known(m.Space.LengthM), Noisy: m.Noisy, Units: []string{}, Skill: m.Skill.Needed,
		Standard: word(m.Standard), Cues: listed(m.Cues), Faults: listed(m.Faults),
		Easier: []Named{}, Swaps: []Swap{}, Caution: word(caution),
	}
	for _, u := range m.Units {
		out.Units = append(out.Units, u.String())
	}
	for _, id := range m.Easier {
		out.Easier = append(out.Easier, Named{id, nameOf(id, lex)})
	}
	swaps := m.Swaps
	if why != "" {
		swaps = m.SwapsFor(why)
	}
	for _, s := range swaps {
		out.Swaps = append(out.Swaps, Swap{s.To, nameOf(s.To, lex), append([]roomful.Reason{}, s.For...), known(s.Ratio), word(s.Neighbour)})
	}
	return out
}

func nameOf(id roomful.MovementID, lex roomful.Lexicon) string {
	if m := lex.Movement(id); m != nil {
		return m.Name
	}
	return string(id)
}
