package exchange

import "roomful"

// Alternative is an option of the day with what one person would do on it.
type Alternative struct {
	Name     string   `json:"name"`
	Elements []Task   `json:"elements"`
	Second   []Task   `json:"elements_b"` // for division b; null when both do the same
	Proposed bool     `json:"proposed"`   // the one that was found for them
	Chosen   bool     `json:"chosen"`     // the one that they stand on
	Version  *Version `json:"version"`    // theirs on it; null when there is none
	Expect   *string  `json:"expect"`     // where it would end beside the effort, in words
	Not      *string  `json:"not_yours"`  // why it is not theirs, for them and coaches
}

// AlternativesOf turns what somebody would do of a piece into JSON, with the option that
// they stand on.
func AlternativesOf(p roomful.Part, all []roomful.Alternative, chosen string) []Alternative {
	out, stepped := []Alternative{}, laddered(p)
	for _, a := range all {
		one := Alternative{Name: a.Name, Elements: []Task{}, Proposed: a.Proposed, Chosen: a.Name == chosen, Expect: word(a.Expect), Not: word(a.Not)}
		for _, t := range a.Elements {
			one.Elements = append(one.Elements, taskOf(t, stepped))
		}
		for _, t := range a.Second {
			one.Second = append(one.Second, taskOf(t, stepped))
		}
		if a.Version != nil {
			v := versionOf(*a.Version, stepped)
			one.Version = &v
		}
		out = append(out, one)
	}
	return out
}
