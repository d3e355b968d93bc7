package web

import (
	"net/http"
	"regexp"
	"time"

	"roomful"
	"roomful/desk"
	"roomful/store"
)

// view looks at the visitor's gym.
func (s *Server) view(q *http.Request, v visit, look func(*store.Books) error) error {
	return s.Store.View(q.Context(), func(tx *store.Tx) error { return look(tx.In(v.Gym)) })
}

// update changes the visitor's gym.
func (s *Server) update(q *http.Request, v visit, change func(*store.Books) error) error {
	return s.Store.Update(q.Context(), s.by(v), func(tx *store.Tx) error { return change(tx.In(v.Gym)) })
}

// is reports whether the visitor is somebody of the people.
func (v visit) is(person string) bool { return person != "" && person == v.Account.Person }

// today is the day on the gym's clock.
func (s *Server) today(b *store.Books) (roomful.Date, error) {
	gym, err := b.Gym()
	if err != nil {
		return roomful.Date{}, err
	}
	return roomful.DateOf(gym.Clock(s.Now())), nil
}

// crowd knows who somebody is while a list is made.
type crowd struct {
	gym *desk.Gym
	err error // of laying it out
}

// crowd begins a list.
func (s *Server) crowd(b *store.Books) *crowd {
	g, err := s.Desk.Open(b, s.Now())
	return &crowd{g, err}
}

// find says what somebody is called, and whether others may see what they do.
func (c *crowd) find(id string) (name string, listed bool, err error) {
	if c.err != nil {
		return "", false, c.err
	}
	p, err := c.gym.Person(id)
	return p.Name, p.Listed(c.gym.Today), err
}

// ids are what a thing is called by whoever makes it: a UUID, or words for an address.
var ids = regexp.MustCompile(`^[\pL\pN](?:[\pL\pN_.-]|\x20){0,99}$`)

// checkID refuses an id that could be mistaken for something else.
func checkID(what, id string) error {
	if ids.MatchString(id) {
		return nil
	}
	return &roomful.Error{Summary: "the " + what + " has an id that cannot be", Hint: "take a UUID, or up to a hundred letters, digits and hyphens"}
}

// pick takes what was sent in place of what was there; what was not sent stays.
func pick[T any](was *T, sent *T) {
	if sent != nil {
		*was = *sent
	}
}

// instant writes a time as RFC 3339 in UTC, empty for none.
func instant(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.UTC().Format(time.RFC3339)
}

// date is a day that can be counted from.
type date struct{ roomful.Date }

// plus is so many days later.
func (d date) plus(n int) date {
	at := time.Date(d.Year, d.Month, d.Day+n, 0, 0, 0, 0, time.UTC)
	return date{roomful.Date{Year: at.Year(), Month: at.Month(), Day: at.Day()}}
}

// UnmarshalText reads a day; empty is none.
func (d *date) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		d.Date = roomful.Date{}
		return nil
	}
	return d.Date.UnmarshalText(text)
}

// pickDay is pick for days.
func pickDay(was *roomful.Date, sent *date) {
	if sent != nil {
		*was = sent.Date
	}
}
