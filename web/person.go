package web

import (
	"errors"
	"net/http"
	"slices"
	"strings"
	"time"

	"roomful"
	"roomful/account"
	"roomful/exchange"
	"roomful/store"
)

// person is somebody as coaches see them.
type person struct {
	ID     string `json:"id"`
	Name   string `json:"name"`
	DropIn bool   `json:"drop_in"` // came in for one class, and is no member yet
}

// people lists who comes.
func (s *Server) people(w http.ResponseWriter, q *http.Request, v visit) error {
	out := struct {
		People []person `json:"people"`
	}{[]person{}}
	if err := s.view(q, v, func(b *store.Books) error {
		all, err := b.People(false)
		for _, p := range all {
			out.People = append(out.People, personOf(p))
		}
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// told is what somebody told, by the columns of a people file, limits apart. Body mass is
// for themselves alone. When the one who asks has to see what holds because somebody else
// was faster, stale says so, and what they sent is left to them.
type told struct {
	ID          string                `json:"id"`
	Revision    int64                 `json:"revision"`
	Left        bool                  `json:"left"` // no longer comes
	Told        map[string]string     `json:"told"`
	Stale       bool                  `json:"stale"`
	Diagnostics []exchange.Diagnostic `json:"diagnostics"`
	columns     []string              // that the diagnostics speak of
}

// massColumns are those that nobody but the person sees.
var massColumns = []string{"mass_kg", "mass_lb"}

// coachColumns are those that only a coach changes: they decide who somebody is, and who
// is treated as a child.
var coachColumns = []string{"id", "name", "born", "drop_in"}

// toldOf is somebody as the visitor may see them.
func toldOf(p store.Person, v visit) told {
	out := told{ID: p.ID, Revision: p.Revision, Left: !p.LeftAt.IsZero(), Told: exchange.ToldOf(p.Athlete), Diagnostics: []exchange.Diagnostic{}}
	if !v.is(p.ID) {
		for _, column := range massColumns {
			delete(out.Told, column)
		}
	}
	return out
}

// person shows what somebody told: to them and to coaches.
func (s *Server) person(w http.ResponseWriter, q *http.Request, v visit) error {
	id := q.PathValue("person")
	if !v.is(id) && !v.May(account.EditPeople) {
		return errNotYours
	}
	var out told
	if err := s.view(q, v, func(b *store.Books) error {
		p, err := b.Person(id)
		out = toldOf(p, v)
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// telling is what somebody says of a person: the columns that are named change, all
// others stay. The revision is the one that was read, 0 for somebody new.
type telling struct {
	Revision int64             `json:"revision"`
	Left     *bool             `json:"left"`
	Told     map[string]string `json:"told"`
	// whole is a column of which nothing may be left out: a form has it written again.
	whole string
}

// tellPerson changes what somebody told, or adds somebody new.
func (s *Server) tellPerson(w http.ResponseWriter, q *http.Request, v visit) error {
	id := q.PathValue("person")
	var sent telling
	if err := read(q, &sent); err != nil {
		return err
	}
	if err := mayTell(v, id, sent); err != nil {
		return err
	}
	var out told
	if err := s.update(q, v, func(b *store.Books) (err error) {
		out, err = s.tell(b, v, id, sent)
		return err
	}); err != nil {
		return err
	}
	switch {
	case out.Stale:
		return answerWith(w, http.StatusConflict, out)
	case faults(out.Diagnostics):
		return answerWith(w, http.StatusUnprocessableEntity, out)
	}
	return answer(w, out)
}

// mayTell refuses what is not the visitor's to say of somebody.
func mayTell(v visit, id string, sent telling) error {
	if _, ok := sent.Told["limits"]; ok {
		return &roomful.Error{Summary: "changing limits: they have a place of their own", Hint: "send them to /people/" + id + "/limits"}
	}
	if v.May(account.EditPeople) {
		return nil
	}
	if !v.is(id) || sent.Left != nil {
		return errNotYours
	}
	for _, column := range coachColumns {
		if _, ok := sent.Told[column]; ok {
			return errNotYours
		}
	}
	return nil
}

// tell changes a person within an update; with a fault, or when it is stale, nothing.
func (s *Server) tell(b *store.Books, v visit, id string, sent telling) (told, error) {
	p, err := b.Person(id)
	switch {
	case errors.Is(err, store.ErrMissing) && sent.Revision == 0:
		if err := checkID("person", id); err != nil {
			return told{}, err
		}
		p.ID = id
	case err != nil:
		return told{}, err
	case sent.Revision != p.Revision:
		out := toldOf(p, v)
		out.Stale = true
		return out, nil
	}
	on, err := s.today(b)
	if err != nil {
		return told{}, err
	}
	others, err := s.liked(b, sent.Told["like"], p.Like)
	if err != nil {
		return told{}, err
	}
	changed, ds := exchange.Tell(p.Athlete, sent.Told, others, s.Lexicon, on)
	out := exchange.DiagnosticsOf("told", ds)
	columns := make([]string, len(ds))
	for i, d := range ds {
		columns[i] = exchange.ToldColumn(p.Athlete, sent.Told, d)
		if d.Severity == roomful.Warning && sent.whole != "" && columns[i] == sent.whole {
			out[i].Severity = roomful.Fault.String()
		}
	}
	if faults(out) {
		now := toldOf(p, v)
		now.Diagnostics, now.columns = out, columns
		return now, nil
	}
	p.Athlete = changed
	if sent.Left != nil && *sent.Left != !p.LeftAt.IsZero() {
		if p.LeftAt = (time.Time{}); *sent.Left {
			p.LeftAt = s.Now()
		}
	}
	if err := b.PutPerson(p); err != nil {
		return told{}, err
	}
	p.Revision++
	return toldOf(p, v), nil
}

// liked finds those whom somebody is said to be like; nobody found, all whom they could be
// like.
func (s *Server) liked(b *store.Books, names ...string) ([]roomful.Athlete, error) {
	if strings.Join(names, "") == "" {
		return nil, nil
	}
	people, err := b.People(true)
	var all, found []roomful.Athlete
	for _, p := range people {
		all = append(all, p.Athlete)
		if slices.ContainsFunc(names, func(name string) bool { return strings.EqualFold(name, p.Name) || name == p.ID }) {
			found = append(found, p.Athlete)
		}
	}
	if len(found) == 0 {
		found = all
	}
	return found, err
}
