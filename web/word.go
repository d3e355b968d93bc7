package web

import (
	"cmp"
	"net/http"
	"slices"

	"roomful"
	"roomful/account"
	"roomful/desk"
	"roomful/store"
)

// wordsFor are the versions that were set by hand for somebody of a piece, by whichever of
// its names.
func wordsFor(b *store.Books, d store.Document, session roomful.Session, piece, who string) ([]store.Override, error) {
	all, err := b.Overrides(d.ID)
	asked, ok := session.Asked(piece)
	return slices.DeleteFunc(all, func(o store.Override) bool {
		p, known := session.Asked(o.Piece)
		same := ok && known && p.Name() == asked.Name()
		return o.Person != who || o.Piece != piece && !same
	}), err
}

// setFor is what was set by hand for somebody of a piece, and by whom; nil for nothing. A
// piece goes by several names, and a coach's word by any of them stands above others.
func setFor(b *store.Books, d store.Document, session roomful.Session, piece roomful.Part, who string) (found *store.Override, by store.Account, err error) {
	all, err := wordsFor(b, d, session, piece.Name(), who)
	if err != nil || len(all) == 0 {
		return nil, by, err
	}
	accounts, err := accountsByID(b)
	for _, o := range all {
		if found == nil || !desk.OwnChoice(accounts[o.Account], o) {
			found, by = &o, accounts[o.Account]
		}
	}
	return found, by, err
}

// holding is whose word it is whether something else may be chosen: that of a coach which
// is beneath what was set for what hurts, else what was set.
func holding(b *store.Books, set *store.Override, by store.Account) (*store.Override, store.Account, error) {
	if set == nil || set.Beneath == nil {
		return set, by, nil
	}
	accounts, err := accountsByID(b)
	return set.Beneath, accounts[set.Beneath.Account], err
}

// coachesWord refuses a member who would change what a coach has set.
func coachesWord(v visit, by store.Account, o *store.Override) error {
	if o == nil || v.May(account.Override) || desk.OwnChoice(by, *o) {
		return nil
	}
	name := cmp.Or(by.Name, "a coach")
	return &refusal{http.StatusForbidden, roomful.Error{Summary: name + " has set this for you", Hint: "ask " + name + " to change it"}}
}

// keyOf is what a piece is kept under: nothing for the main one, else its name.
func keyOf(session roomful.Session, piece roomful.Part) string {
	if main, ok := session.Asked(""); ok && main.Name() == piece.Name() {
		return ""
	}
	return piece.Name()
}

// keepWord sets somebody's version of a piece in the place of whatever was set, by
// whichever name of the piece.
func keepWord(b *store.Books, d store.Document, session roomful.Session, piece roomful.Part, o store.Override) error {
	all, err := wordsFor(b, d, session, piece.Name(), o.Person)
	if err != nil {
		return err
	}
	o.Document, o.Piece = d.ID, keyOf(session, piece)
	for _, was := range all {
		if was.Piece == o.Piece {
			continue
		}
		if err := b.DropOverride(d.ID, was.Piece, was.Person); err != nil {
			return err
		}
	}
	return b.PutOverride(o)
}

// dropWord takes away what was set for somebody of a piece, by whichever name of the piece.
// A coach's word that was beneath it stands again, and is returned; nil for none.
func dropWord(b *store.Books, d store.Document, session roomful.Session, piece, who string) (again *store.Override, err error) {
	all, err := wordsFor(b, d, session, piece, who)
	if err == nil && len(all) == 0 {
		err = store.ErrMissing
	}
	for _, was := range all {
		if was.Beneath != nil {
			again = was.Beneath
		}
		if err == nil {
			err = b.DropOverride(d.ID, was.Piece, who)
		}
	}
	if err == nil && again != nil {
		err = b.PutBack(*again)
	}
	return again, err
}
