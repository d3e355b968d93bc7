package web

import (
	"errors"
	"net/http"
	"slices"
	"strings"

	"roomful"
	"roomful/exchange"
	"roomful/store"
)

// dropping is somebody who comes in for one class: a name, whom they are like, the class,
// and what has to be asked. The id is made where it was typed, so that sent twice they are
// one.
type dropping struct {
	ID        string `json:"id"`
	Name      string `json:"name"`
	Like      string `json:"like"`  // the name of somebody who comes; empty for nobody
	Class     string `json:"class"` // empty for none
	New       bool   `json:"new"`   // in their first months of training
	Returning bool   `json:"returning"`
	Pregnant  bool   `json:"pregnant"`
	Born      string `json:"born"`   // a day or a year; empty when not told
	Member    bool   `json:"member"` // they stay, as a member
}

// dropIn is somebody who came in for one class, with their place in it.
type dropIn struct {
	Person      person                `json:"person"`
	Place       *string               `json:"place"` // in or waiting; null without a class
	Diagnostics []exchange.Diagnostic `json:"diagnostics"`
	columns     []string              // that the diagnostics speak of
}

// mostName bounds a name, in letters.
const mostName = 100

// How long what a drop-in tells holds (judgement): the first week back, and a month until
// somebody is asked again.
const (
	daysBack   = 7
	daysReview = 28
)

// addDropIn adds somebody who comes in for one class, without an account. They are marked,
// to be made a member later or dropped, unless they are a member from now on.
func (s *Server) addDropIn(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent dropping
	if err := read(q, &sent); err != nil {
		return err
	}
	if sent.ID == "" {
		id, err := s.NewID()
		if err != nil {
			return err
		}
		sent.ID = id
	}
	var out dropIn
	if err := s.update(q, v, func(b *store.Books) (err error) {
		out, err = s.bringIn(b, v, sent)
		return err
	}); err != nil {
		return err
	}
	if faults(out.Diagnostics) {
		return answerWith(w, http.StatusUnprocessableEntity, out)
	}
	return answer(w, out)
}

// bringIn adds a drop-in with what limits them and their place in a class, within an
// update; with a fault nothing. The same sent again changes nothing,
// but what limits them is written down whenever it is said.
func (s *Server) bringIn(b *store.Books, v visit, sent dropping) (dropIn, error) {
	out := dropIn{Diagnostics: []exchange.Diagnostic{}}
	if sent.Name = legible(sent.Name); sent.Name == "" || len([]rune(sent.Name)) > mostName {
		return out, &amiss{"name", roomful.Error{Summary: "adding a drop-in: what they are called", Hint: "give a name, the first will do"}}
	}
	if err := checkID("person", sent.ID); err != nil {
		return out, err
	}
	if err := checkClass(b, sent.Class); err != nil {
		return out, err
	}
	known, err := b.Person(sent.ID)
	switch {
	case errors.Is(err, store.ErrMissing):
		if out, err = s.newDropIn(b, v, sent); err != nil || faults(out.Diagnostics) {
			return out, err
		}
	case err != nil:
		return out, err
	case known.DropIn == sent.Member || known.Name != sent.Name, sent.New && known.Months == nil, strings.TrimSpace(sent.Born) != "" && known.Born.Year == 0:
		return out, store.ErrTaken
	default:
		on, err := s.today(b)
		if err == nil {
			err = s.limitDropIn(b, v, sent, on) // which may have been ticked since
		}
		if err != nil {
			return out, err
		}
		out.Person = personOf(known)
	}
	if sent.Class == "" {
		return out, nil
	}
	place, err := b.SignUp(sent.Class, sent.ID)
	if err == nil {
		out.Place = &place.State
	}
	return out, err
}

// checkClass refuses a class that nobody can come to.
func checkClass(b *store.Books, id string) error {
	if id == "" {
		return nil
	}
	c, err := b.Class(id)
	switch {
	case errors.Is(err, store.ErrMissing):
		return err
	case err == nil && c.CalledOff:
		return &amiss{"class", roomful.Error{Summary: "adding a drop-in: this class is called off", Hint: "look for another"}}
	}
	return err
}

// newDropIn adds the person of a drop-in, and what they said of themselves. Two people of
// one name could not be told apart at the board.
func (s *Server) newDropIn(b *store.Books, v visit, sent dropping) (out dropIn, err error) {
	all, err := b.People(true)
	if err != nil {
		return out, err
	}
	if slices.ContainsFunc(all, func(p store.Person) bool { return strings.EqualFold(p.Name, sent.Name) }) {
		return out, &amiss{"name", roomful.Error{Summary: "adding a drop-in: somebody is called " + sent.Name + " already", Hint: "find them among the people, or add an initial"}}
	}
	on, err := s.today(b)
	if err != nil {
		return out, err
	}
	others, err := s.liked(b, sent.Like)
	if err != nil {
		return out, err
	}
	columns := map[string]string{"name": sent.Name, "like": strings.TrimSpace(sent.Like), "born": strings.TrimSpace(sent.Born)}
	if !sent.Member {
		columns["drop_in"] = "yes"
	}
	if sent.New {
		columns["months"] = "0"
	}
	start := roomful.Athlete{ID: sent.ID}
	a, ds := exchange.Tell(start, columns, others, s.Lexicon, on)
	out.Diagnostics = exchange.DiagnosticsOf("told", ds)
	for _, d := range ds {
		out.columns = append(out.columns, exchange.ToldColumn(start, columns, d))
	}
	if faults(out.Diagnostics) {
		return out, nil
	}
	p := store.Person{Athlete: a}
	if err := b.PutPerson(p); err != nil {
		return out, err
	}
	out.Person = personOf(p)
	return out, s.limitDropIn(b, v, sent, on)
}

// limitDropIn writes down what they said limits them, as far as it was not known.
func (s *Server) limitDropIn(b *store.Books, v visit, sent dropping, on roomful.Date) error {
	known, err := b.Limits(sent.ID)
	if err != nil {
		return err
	}
	theirs := store.Theirs
	for _, l := range []struct {
		said          bool
		what          string
		until, review roomful.Date
	}{
		{sent.Returning, "returning", on.Plus(daysBack - 1), roomful.Date{}},
		{sent.Pregnant, "pregnant", roomful.Date{}, on.Plus(daysReview)},
	} {
		if !l.said || slices.ContainsFunc(known, func(k store.Limit) bool { return k.What == l.what }) {
			continue
		}
		id, err := s.NewID()
		if err != nil {
			return err
		}
		if _, err := s.writeLimit(b, v, sent.ID, id, limiting{What: &l.what, Until: &date{l.until}, Review: &date{l.review}, Word: &theirs}); err != nil {
			return err
		}
	}
	return nil
}

// personOf is somebody as coaches see them in a list.
func personOf(p store.Person) person { return person{p.ID, p.Name, p.DropIn} }
