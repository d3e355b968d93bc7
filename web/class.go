package web

import (
	"errors"
	"net/http"
	"regexp"

	"roomful"
	"roomful/account"
	"roomful/store"
)

// class is an hour on the timetable, as the one who asks may see it: who comes is for
// coaches, everybody else sees how many and their own place.
type class struct {
	ID        string  `json:"id"`
	Day       string  `json:"date"`
	Start     string  `json:"start"` // local time
	Minutes   int     `json:"minutes"`
	Capacity  int     `json:"capacity"` // 0 for any number
	Sheet     *string `json:"sheet"`    // null while it is not known
	CalledOff bool    `json:"called_off"`
	In        int     `json:"in"`
	Waiting   int     `json:"waiting"`
	Own       *string `json:"own"`    // one's own state; null when one has not asked
	Places    []place `json:"places"` // null for who is no coach
}

// place is somebody who asked for a place: in, waiting, out or missed.
type place struct {
	Person string `json:"person"`
	Name   string `json:"name"`
	State  string `json:"state"`
}

// classOf is a class as the visitor may see it.
func (s *Server) classOf(b *store.Books, v visit, c store.Class, sheets map[string]string) (class, error) {
	out := class{ID: c.ID, Day: c.Day.String(), Start: c.Start, Minutes: c.Minutes, Capacity: c.Capacity, CalledOff: c.CalledOff}
	if name := sheets[c.Document]; name != "" {
		out.Sheet = &name
	}
	all, err := b.SignUps(c.ID)
	if err != nil {
		return out, err
	}
	coach, who := v.May(account.EditPeople), s.crowd(b)
	if coach {
		out.Places = []place{}
	}
	for _, one := range all {
		switch one.State {
		case store.In:
			out.In++
		case store.Waiting:
			out.Waiting++
		}
		if v.is(one.Person) {
			out.Own = &one.State
		}
		if !coach {
			continue
		}
		name, _, err := who.find(one.Person)
		if err != nil {
			return out, err
		}
		out.Places = append(out.Places, place{one.Person, name, one.State})
	}
	return out, nil
}

// mostDays is how far a timetable is shown at once.
const mostDays = 92

// classes lists the classes of the days from one to another, a week from today when none
// are named.
func (s *Server) classes(w http.ResponseWriter, q *http.Request, v visit) error {
	from, to, err := days(q)
	if err != nil {
		return err
	}
	out := struct {
		Classes []class `json:"classes"`
	}{[]class{}}
	if err := s.view(q, v, func(b *store.Books) error {
		if from.IsZero() {
			if from.Date, err = s.today(b); err != nil {
				return err
			}
		}
		if to.IsZero() {
			to = from.plus(6)
		}
		all, err := b.Classes(from.Date, to.Date)
		if err != nil {
			return err
		}
		sheets, err := sheetNames(b)
		if err != nil {
			return err
		}
		for _, c := range all {
			one, err := s.classOf(b, v, c, sheets)
			if err != nil {
				return err
			}
			out.Classes = append(out.Classes, one)
		}
		return nil
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// putting is what a coach sends of a class: what is left out stays as it is.
type putting struct {
	Day       *date   `json:"date"`
	Start     *string `json:"start"`
	Minutes   *int    `json:"minutes"`
	Capacity  *int    `json:"capacity"`
	Sheet     *string `json:"sheet"`
	CalledOff *bool   `json:"called_off"`
}

// startOf is a time of day as a class starts at it.
var startOf = regexp.MustCompile(`^([01][0-9]|2[0-3]):[0-5][0-9]$`)

// mostMinutes and mostPlaces bound a class (judgement: a day, and a stadium).
const (
	mostMinutes = 24 * 60
	mostPlaces  = 10_000
)

// apply changes a class as far as a coach has said.
func (p putting) apply(c *store.Class) error {
	pickDay(&c.Day, p.Day)
	pick(&c.Start, p.Start)
	pick(&c.Minutes, p.Minutes)
	pick(&c.Capacity, p.Capacity)
	pick(&c.CalledOff, p.CalledOff)
	switch {
	case c.Day.IsZero(), !startOf.MatchString(c.Start):
		return &roomful.Error{Summary: "writing a class down: on which day and when", Hint: `send date "2027-03-04" and start "17:30"`}
	case c.Minutes < 1 || c.Minutes > mostMinutes:
		return &roomful.Error{Summary: "writing a class down: how long it is", Hint: "send minutes, usually 60"}
	case c.Capacity < 0 || c.Capacity > mostPlaces:
		return &roomful.Error{Summary: "writing a class down: how many there is room for", Hint: "send capacity, 0 for any number"}
	}
	return nil
}

// putClass writes a class down, or what has changed of it.
func (s *Server) putClass(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent putting
	if err := read(q, &sent); err != nil {
		return err
	}
	id := q.PathValue("class")
	return s.changeClass(w, q, v, func(b *store.Books) error {
		c, err := b.Class(id)
		if errors.Is(err, store.ErrMissing) {
			c, err = store.Class{ID: id, Minutes: 60}, checkID("class", id)
		}
		if err != nil {
			return err
		}
		if sent.Sheet != nil {
			c.Document = ""
			if *sent.Sheet != "" {
				d, err := b.Named(store.Sheet, *sent.Sheet)
				if err != nil {
					return err
				}
				c.Document = d.ID
			}
		}
		if err := sent.apply(&c); err != nil {
			return err
		}
		return b.PutClass(c)
	})
}

// changeClass changes a class, or who comes to it, and answers with what it is then.
func (s *Server) changeClass(w http.ResponseWriter, q *http.Request, v visit, change func(*store.Books) error) error {
	var out class
	if err := s.update(q, v, func(b *store.Books) error {
		if err := change(b); err != nil {
			return err
		}
		c, err := b.Class(q.PathValue("class"))
		if err != nil {
			return err
		}
		sheets, err := sheetNames(b)
		if err != nil {
			return err
		}
		out, err = s.classOf(b, v, c, sheets)
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// takePlace asks for a place in a class, for oneself or as a coach for somebody: in while
// there is one, else waiting.
func (s *Server) takePlace(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := whose(q, v)
	if err != nil {
		return err
	}
	return s.changeClass(w, q, v, func(b *store.Books) error {
		if _, err := b.Person(who); err != nil {
			return err
		}
		c, err := b.Class(q.PathValue("class"))
		if err != nil {
			return err
		}
		if c.CalledOff {
			return &roomful.Error{Summary: "asking for a place: this class is called off", Hint: "look for another"}
		}
		_, err = b.SignUp(c.ID, who)
		return err
	})
}

// leavePlace gives a place back; who waits first moves up.
func (s *Server) leavePlace(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := whose(q, v)
	if err != nil {
		return err
	}
	return s.changeClass(w, q, v, func(b *store.Books) error { return b.Leave(q.PathValue("class"), who, store.Out) })
}

// missPlace notes that somebody had a place and did not come.
func (s *Server) missPlace(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.changeClass(w, q, v, func(b *store.Books) error { return b.Leave(q.PathValue("class"), q.PathValue("person"), store.Missed) })
}

// whose is the person that a path names, whom only they and coaches may speak for.
func whose(q *http.Request, v visit) (string, error) {
	who := q.PathValue("person")
	if !v.is(who) && !v.May(account.EditPeople) {
		return "", errNotYours
	}
	return who, nil
}

// days are those that an address asks for, zero where it does not.
func days(q *http.Request) (from, to date, err error) {
	for name, at := range map[string]*date{"from": &from, "to": &to} {
		if text := q.FormValue(name); text != "" {
			if err := at.UnmarshalText([]byte(text)); err != nil {
				return from, to, err
			}
		}
	}
	if !from.IsZero() && !to.IsZero() && from.plus(mostDays).String() < to.String() {
		err = &roomful.Error{Summary: "listing classes: those are too many days at once", Hint: "ask for three months or less"}
	}
	return from, to, err
}
