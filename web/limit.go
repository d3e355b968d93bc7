package web

import (
	"errors"
	"net/http"
	"slices"
	"strings"

	"roomful"
	"roomful/account"
	"roomful/store"
)

// limit is something that restricts a person, for them and for coaches.
type limit struct {
	ID        string `json:"id"`
	What      string `json:"what"`
	Pain      *int   `json:"pain"` // 0 to 10; null when not told
	Since     string `json:"since"`
	Until     string `json:"until"`  // the last day; empty while it is open
	Word      string `json:"word"`   // whose it is
	Review    string `json:"review"` // the day to ask again; empty for none
	Note      string `json:"note"`
	RefersOut bool   `json:"refers_out"` // beyond what a coach should work around
}

func limitOf(l store.Limit) limit {
	out := limit{ID: l.ID, What: l.What, Since: l.Since.String(), Until: l.Until.String(), Word: l.Word, Review: l.Review.String(), Note: l.Note, RefersOut: l.RefersOut()}
	if l.Pain >= 0 {
		out.Pain = &l.Pain
	}
	return out
}

// limits lists the limits of somebody, ended ones too.
func (s *Server) limits(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	out := struct {
		Limits []limit `json:"limits"`
	}{[]limit{}}
	if err := s.view(q, v, func(b *store.Books) error {
		if _, err := b.Person(who); err != nil {
			return err
		}
		all, err := b.Limits(who)
		for _, l := range all {
			out.Limits = append(out.Limits, limitOf(l))
		}
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// cared is the person that a path names, whose health only they and coaches see.
func cared(q *http.Request, v visit) (string, error) {
	who := q.PathValue("person")
	if !v.is(who) && !v.May(account.SeeHealth) {
		return "", errNotYours
	}
	return who, nil
}

// limiting is what somebody sends of a limit: what is left out stays as it is.
type limiting struct {
	What   *string `json:"what"`
	Pain   *int    `json:"pain"` // -1 for not told
	Since  *date   `json:"since"`
	Until  *date   `json:"until"`
	Word   *string `json:"word"`
	Review *date   `json:"review"`
	Note   *string `json:"note"`
}

// mostNote bounds what is said about a limit, or under a day.
const mostNote = 10_000

// apply changes a limit as far as somebody has said.
func (p limiting) apply(l *store.Limit) error {
	pick(&l.What, p.What)
	pick(&l.Pain, p.Pain)
	pickDay(&l.Since, p.Since)
	pickDay(&l.Until, p.Until)
	pick(&l.Word, p.Word)
	pickDay(&l.Review, p.Review)
	pick(&l.Note, p.Note)
	switch {
	case !slices.Contains(roomful.LimitWords, l.What):
		return &amiss{"what", roomful.Error{Summary: "writing a limit down: of what", Hint: "what is one of " + strings.Join(roomful.LimitWords, ", ")}}
	case l.Pain < -1 || l.Pain > 10:
		return &amiss{"pain", roomful.Error{Summary: "writing a limit down: how much it hurts", Hint: "pain goes from 0 to 10, -1 for not told"}}
	case p.Word != nil && !slices.Contains([]string{store.Theirs, store.ACoachs, store.AClinician}, l.Word):
		return &amiss{"word", roomful.Error{Summary: "writing a limit down: whose word it is", Hint: "word is " + store.Theirs + ", " + store.ACoachs + " or " + store.AClinician}}
	case !l.Until.IsZero() && l.Until.String() < l.Since.String():
		return &amiss{"until", roomful.Error{Summary: "writing a limit down: it ends before it begins", Hint: "look at since and until"}}
	case len(l.Note) > mostNote:
		return &amiss{"note", roomful.Error{Summary: "writing a limit down: the note is too long", Hint: "a few sentences will do"}}
	}
	return nil
}

// putLimit writes a limit down, or what is known of it now. What a coach or a clinician
// has said stays theirs to change.
func (s *Server) putLimit(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	var sent limiting
	if err := read(q, &sent); err != nil {
		return err
	}
	var out limit
	if err := s.update(q, v, func(b *store.Books) (err error) {
		out, err = s.writeLimit(b, v, who, q.PathValue("limit"), sent)
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// writeLimit writes a limit down within an update.
func (s *Server) writeLimit(b *store.Books, v visit, who, id string, sent limiting) (limit, error) {
	if _, err := b.Person(who); err != nil {
		return limit{}, err
	}
	l, err := s.limitNow(b, v, who, id)
	if err != nil {
		return limit{}, err
	}
	if err := sent.apply(&l); err != nil {
		return limit{}, err
	}
	if l.Word != store.Theirs && !v.May(account.SeeHealth) {
		return limit{}, errNotYours
	}
	return limitOf(l), b.PutLimit(l)
}

// limitNow is a limit as it is, or a new one from today on.
func (s *Server) limitNow(b *store.Books, v visit, who, id string) (store.Limit, error) {
	l, err := findLimit(b, who, id)
	switch {
	case err == nil && l.Word != store.Theirs && !v.May(account.SeeHealth):
		return l, errNotYours
	case !errors.Is(err, store.ErrMissing):
		return l, err
	}
	on, err := s.today(b)
	if err != nil {
		return l, err
	}
	l = store.Limit{ID: id, Person: who, Limit: roomful.Limit{Pain: -1}, Since: on, Word: store.Theirs}
	if !v.is(who) {
		l.Word = store.ACoachs
	}
	return l, checkID("limit", id)
}

// findLimit finds one of somebody's limits.
func findLimit(b *store.Books, who, id string) (store.Limit, error) {
	all, err := b.Limits(who)
	at := slices.IndexFunc(all, func(l store.Limit) bool { return l.ID == id })
	switch {
	case err != nil:
		return store.Limit{}, err
	case at < 0:
		return store.Limit{}, store.ErrMissing
	}
	return all[at], nil
}

// dropLimit takes a limit away that was never one.
func (s *Server) dropLimit(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	if err := s.update(q, v, func(b *store.Books) error { return dropLimit(b, v, who, q.PathValue("limit")) }); err != nil {
		return err
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// dropLimit takes a limit away within an update.
func dropLimit(b *store.Books, v visit, who, id string) error {
	l, err := findLimit(b, who, id)
	switch {
	case err != nil:
		return err
	case l.Word != store.Theirs && !v.May(account.SeeHealth):
		return errNotYours
	}
	return b.DropLimit(who, l.ID)
}
