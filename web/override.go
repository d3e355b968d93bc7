package web

import (
	"errors"
	"fmt"
	"net/http"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/store"
)

// override is somebody's version of a piece that a coach or they themselves set by hand.
type override struct {
	Person   string        `json:"person"`
	Name     string        `json:"name"`
	Piece    string        `json:"piece"` // empty for the main one
	Work     exchange.Work `json:"work"`
	Account  string        `json:"account"` // who set it
	At       string        `json:"at"`
	Option   string        `json:"option"` // that it was taken from; empty for none
	Reason   string        `json:"reason"`
	Replaced *override     `json:"replaced,omitempty"` // what stood there before, of another hand or the same
	Beneath  *override     `json:"beneath,omitempty"`  // a coach's word that stands again when this, for what hurts, is dropped
}

// overrides lists the versions of a day that were set by hand.
func (s *Server) overrides(w http.ResponseWriter, q *http.Request, v visit) error {
	out := struct {
		Overrides []override `json:"overrides"`
	}{[]override{}}
	if err := s.view(q, v, func(b *store.Books) error {
		d, err := b.Named(store.Sheet, q.PathValue("name"))
		if err != nil {
			return err
		}
		all, err := b.Overrides(d.ID)
		if err != nil {
			return err
		}
		who := s.crowd(b)
		for _, o := range all {
			name, _, err := who.find(o.Person)
			if err != nil {
				return err
			}
			out.Overrides = append(out.Overrides, overrideOf(o, name))
		}
		return nil
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// overrideOf is what was set for somebody of a name.
func overrideOf(o store.Override, name string) override {
	out := override{Person: o.Person, Name: name, Piece: o.Piece, Work: exchange.WorkOf(o.Work), Account: o.Account, At: instant(o.At), Option: o.Option, Reason: o.Reason}
	if o.Beneath != nil {
		under := overrideOf(*o.Beneath, name)
		out.Beneath = &under
	}
	return out
}

// overriding is what a coach sends: a piece, and what somebody does of it.
type overriding struct {
	Piece  string        `json:"piece"`
	Work   exchange.Work `json:"work"`
	Reason string        `json:"reason"`
}

// putOverride sets somebody's version by hand. What it replaces comes back, so that of
// two coaches neither is overruled unseen.
func (s *Server) putOverride(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent overriding
	if err := read(q, &sent); err != nil {
		return err
	}
	work, err := sent.Work.Read(s.Lexicon)
	if err == nil {
		err = checkReason(sent.Reason)
	}
	if err != nil {
		return err
	}
	var out override
	if err := s.update(q, v, func(b *store.Books) error {
		d, who, err := overridden(b, q)
		if err != nil {
			return err
		}
		session, part, err := s.fits(d, sent.Piece, work)
		if err != nil {
			return err
		}
		was, _, err := setFor(b, d, session, part, who.ID)
		if err != nil {
			return err
		}
		o := store.Override{Document: d.ID, Piece: keyOf(session, part), Person: who.ID, Work: work, Account: v.Account.ID, At: s.Now(),
			Written: day.Stated(part, who.Division), Reason: sent.Reason}
		if out = overrideOf(o, who.Name); was != nil {
			replaced := overrideOf(*was, who.Name)
			out.Replaced = &replaced
		}
		return keepWord(b, d, session, part, o)
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// fits refuses a version that is of no piece of a day, or has other lines than it.
func (s *Server) fits(d store.Document, piece string, work roomful.Work) (session roomful.Session, p roomful.Part, err error) {
	session, ok := s.session(d)
	if !ok {
		return session, p, &roomful.Error{Summary: "setting a version by hand: the sheet has faults", Hint: "save it once more: the answer lists them"}
	}
	p, ok = session.Asked(piece)
	if !ok {
		return session, p, &roomful.Error{Summary: "setting a version by hand: the day has no piece of that name", Hint: "leave piece out for the main one"}
	}
	if len(work.Once) != len(p.Once) || len(work.Round) != len(p.Round) || len(work.Last) != len(p.Last) {
		return session, p, &roomful.Error{Summary: fmt.Sprintf("setting a version by hand: %s has %d lines once, %d in each round and %d last", p.Name(), len(p.Once), len(p.Round), len(p.Last)),
			Hint: "send a line for each, the same or another"}
	}
	return session, p, nil
}

// dropOverride has somebody's version computed again, or gives back a coach's word that was
// beneath it.
func (s *Server) dropOverride(w http.ResponseWriter, q *http.Request, v visit) error {
	if err := s.update(q, v, func(b *store.Books) error {
		_, err := s.dropOverridden(b, q)
		return err
	}); err != nil {
		return err
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// errNoWord says that nothing was set by hand.
var errNoWord = fmt.Errorf("nothing was set by hand: %w", store.ErrMissing)

// dropOverridden takes away what was set for the person and the piece that are named.
func (s *Server) dropOverridden(b *store.Books, q *http.Request) (again *store.Override, err error) {
	d, who, err := overridden(b, q)
	if err != nil {
		return nil, err
	}
	session, _ := s.session(d)
	if again, err = dropWord(b, d, session, q.FormValue("piece"), who.ID); errors.Is(err, store.ErrMissing) {
		err = errNoWord
	}
	return again, err
}

// overridden are the day and the person that a path names.
func overridden(b *store.Books, q *http.Request) (d store.Document, who store.Person, err error) {
	if d, err = b.Named(store.Sheet, q.PathValue("name")); err == nil {
		who, err = b.Person(q.PathValue("person"))
	}
	return d, who, err
}
