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

// Swap is another movement often chosen for a reason, with how much of it keeps
// the time for the person asked about. Only why may be shown to others.
type Swap struct {
	To        roomful.MovementID `json:"to"`
	Name      string             `json:"name"`
	For       []roomful.Reason   `json:"for"`
	Ratio     *float64           `json:"ratio"`     // null is the same time
	Neighbour *string            `json:"neighbour"` // what changes when the pattern is not kept

	Amount     *float64 `json:"amount"` // null when the person cannot do it today
	Unit       *string  `json:"unit"`
	LoadKg     *float64 `json:"load_kg"` // per implement
	Load       *Mass    `json:"load"`    // as it is written on the implement
	Implements *int     `json:"implements"`
	HeightCm   *float64 `json:"height_cm"`
	RatioFrom  *string  `json:"ratio_from"` // what the amount rests on
	Why        *string  `json:"why"`
	WhyPrivate *string  `json:"why_private"`
}

// MovementOf turns a movement into JSON, with what stands in for it. The caution
// goes with it.
func MovementOf(m *roomful.Movement, lex roomful.Lexicon, standIns []roomful.StandIn, caution string) Movement {
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
	for _, in := range standIns {
		out.Swaps = append(out.Swaps, swapOf(m, in, lex))
	}
	return out
}

// swapOf turns what stands in for a movement into JSON.
func swapOf(m *roomful.Movement, in roomful.StandIn, lex roomful.Lexicon) Swap {
	out := Swap{To: in.Movement, Name: nameOf(in.Movement, lex), For: []roomful.Reason{}, Neighbour: word(in.Neighbour),
		Why: word(in.Why), WhyPrivate: word(in.Private)}
	for _, s := range m.Swaps {
		if s.To == in.Movement {
			out.For, out.Ratio = append(out.For, s.For...), known(s.Ratio)
		}
	}
	if in.Possible {
		t := taskOf(in.Task, false)
		out.Amount, out.Unit, out.LoadKg, out.Load = t.Amount, word(t.Unit), t.LoadKg, t.Load
		out.Implements, out.HeightCm, out.RatioFrom = t.Implements, t.HeightCm, word(string(in.Basis))
	}
	return out
}

func nameOf(id roomful.MovementID, lex roomful.Lexicon) string {
	if m := lex.Movement(id); m != nil {
		return m.Name
	}
	return string(id)
}
