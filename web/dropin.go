package web

import (
	"cmp"
	"errors"
	"net/http"
	"strings"

	"roomful"
	"roomful/exchange"
	"roomful/store"
)

// dropping is somebody who comes in for one class: a name, whom they are like, and the
// class. The id is made where it was typed, so that sent twice they are one.
type dropping struct {
	ID    string `json:"id"`
	Name  string `json:"name"`
	Like  string `json:"like"`  // the name of somebody who comes; empty for nobody
	Class string `json:"class"` // empty for none
}

// dropIn is somebody who came in for one class, with their place in it.
type dropIn struct {
	Person      person                `json:"person"`
	Place       *string               `json:"place"` // in or waiting; null without a class
	Diagnostics []exchange.Diagnostic `json:"diagnostics"`
}

// mostName bounds a name, in letters.
const mostName = 100

// addDropIn adds somebody who comes in for one class, without an account. They are marked,
// to be made a member later or dropped.
func (s *Server) addDropIn(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent dropping
	if err := read(q, &sent); err != nil {
		return err
	}
	if sent.Name = strings.Join(strings.Fields(sent.Name), " "); sent.Name == "" || len([]rune(sent.Name)) > mostName {
		return &roomful.Error{Summary: "adding a drop-in: what they are called", Hint: "send a name, the first will do"}
	}
	if sent.ID == "" {
		id, err := s.NewID()
		if err != nil {
			return err
		}
		sent.ID = id
	}
	if err := checkID("person", sent.ID); err != nil {
		return err
	}
	var out dropIn
	if err := s.update(q, v, func(b *store.Books) error {
		p, ds, err := s.droppedIn(b, sent)
		if out.Diagnostics = exchange.DiagnosticsOf("told", ds); err != nil || faults(out.Diagnostics) {
			return err
		}
		out.Person = personOf(p)
		if sent.Class == "" {
			return nil
		}
		c, err := b.Class(sent.Class)
		if err != nil {
			return err
		}
		if c.CalledOff {
			return &roomful.Error{Summary: "adding a drop-in: this class is called off", Hint: "look for another"}
		}
		place, err := b.SignUp(c.ID, p.ID)
		if err == nil {
			out.Place = &place.State
		}
		return err
	}); err != nil {
		return err
	}
	if faults(out.Diagnostics) {
		return answerWith(w, http.StatusUnprocessableEntity, out)
	}
	return answer(w, out)
}

// droppedIn is the person of a drop-in, as it is kept already or new.
func (s *Server) droppedIn(b *store.Books, sent dropping) (p store.Person, ds []roomful.Diagnostic, err error) {
	p, err = b.Person(sent.ID)
	if err == nil {
		if !p.DropIn || p.Name != sent.Name {
			err = store.ErrTaken
		}
		return p, nil, err
	}
	if !errors.Is(err, store.ErrMissing) {
		return p, nil, err
	}
	on, err := s.today(b)
	if err != nil {
		return p, nil, err
	}
	others, err := s.liked(b, sent.Like)
	if err != nil {
		return p, nil, err
	}
	p = store.Person{}
	p.ID = sent.ID
	p.Athlete, ds = exchange.Tell(p.Athlete, map[string]string{"name": sent.Name, "like": sent.Like, "drop_in": "yes"}, others, s.Lexicon, on)
	if faults(exchange.DiagnosticsOf("told", ds)) {
		return p, ds, nil
	}
	p.ID = cmp.Or(p.ID, sent.ID)
	return p, ds, b.PutPerson(p)
}

// personOf is somebody as coaches see them in a list.
func personOf(p store.Person) person { return person{p.ID, p.Name, p.DropIn} }
