package day

import (
	"roomful"
	"roomful/prior"
	"roomful/version"
)

// InsteadQuestion asks what may be done in the place of an element.
type InsteadQuestion struct {
	Of     roomful.Element
	Reason roomful.Reason // empty for every reason
	// Who is asked for; the zero value is somebody nothing is known of.
	Who    roomful.Athlete
	People []roomful.Athlete // whom Who may be like
	Kit    *roomful.Kit      // nil means that nothing is short
	Today  roomful.Date
	Seed   uint64
}

// Instead resolves what is often done in the place of an element for one person.
func (d *Day) Instead(q InsteadQuestion) ([]roomful.StandIn, error) {
	abilities := prior.Of(q.Who, d.Lexicon, q.Today)
	if q.Who.ID != "" {
		abilities = d.abilities(q.Who, q.People, nil, q.Today)
	}
	return version.Instead(version.InsteadQuestion{
		Of: q.Of, Reason: q.Reason, Person: version.Person{Athlete: q.Who, Abilities: abilities},
		Kit: q.Kit, Gym: d.Gym, On: q.Today, Seed: q.Seed, Lexicon: d.Lexicon, Forecaster: d.Forecaster,
	})
}
