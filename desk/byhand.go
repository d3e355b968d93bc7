package desk

import (
	"roomful/day"
	"roomful/store"
)

// ByHand are the versions of a sheet that were set by hand, with whose word each is.
func (g *Gym) ByHand(sheet string) (out []day.ByHand, err error) {
	all, err := g.books.Overrides(sheet)
	if err != nil || len(all) == 0 {
		return nil, err
	}
	accounts, err := g.books.Accounts()
	known := map[string]store.Account{}
	for _, a := range accounts {
		known[a.ID] = a
	}
	for _, o := range all {
		by := known[o.Account]
		out = append(out, day.ByHand{Athlete: o.Person, Piece: o.Piece, Work: o.Work, Whose: by.Name, Own: OwnChoice(by, o),
			Option: o.Option, Written: o.Written, Reason: o.Reason, Segments: o.Segments})
	}
	return out, err
}

// OwnChoice reports whether a version was set by whose it is, as a member: what a coach
// says of themselves is a coach's word too.
func OwnChoice(by store.Account, o store.Override) bool {
	return by.Person == o.Person && by.Role == store.Member
}
