package exchange

import "roomful"

// OtherwiseDay is who would do otherwise of a published day.
type OtherwiseDay struct {
	Otherwise []Otherwise `json:"otherwise"`
}

// Otherwise is what somebody was given of a piece, and what they would be given now.
type Otherwise struct {
	ID    string  `json:"id"`
	Name  string  `json:"name"`
	Piece string  `json:"piece"`
	Then  Version `json:"then"`
	Now   Version `json:"now"`
}

// OtherwiseOf is one of those who would do otherwise.
func OtherwiseOf(p roomful.Part, then, now roomful.Version) Otherwise {
	return Otherwise{then.Athlete, then.Name, p.Name(), versionOf(then, laddered(p)), versionOf(now, laddered(p))}
}
