package web

import (
	"net/http"

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
	Own       *string `json:"own"`      // one's own state; null when one has not asked
	OwnTurn   *int    `json:"own_turn"` // one's place among those who wait, from 1; null for who does not
	Places    []place `json:"places"`   // null for who is no coach
}

// classOf is a class in JSON.
func classOf(c slot) class {
	out := class{ID: c.ID, Day: c.Day.String(), Start: c.Start, Minutes: c.Minutes, Capacity: c.Capacity, CalledOff: c.CalledOff,
		In: c.in, Waiting: c.waiting, Places: c.places}
	if c.sheet.ID != "" {
		out.Sheet = &c.sheet.Name
	}
	if c.own != "" {
		out.Own = &c.own
	}
	if c.turn > 0 {
		out.OwnTurn = &c.turn
	}
	return out
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
		if from.plus(mostDays).String() < to.String() {
			return &roomful.Error{Summary: "listing classes: those are too many days at once", Hint: "ask for three months or less"}
		}
		all, err := s.timetable(b, v).between(from.Date, to.Date)
		for _, c := range all {
			out.Classes = append(out.Classes, classOf(c))
		}
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// putClass writes a class down, or what has changed of it.
func (s *Server) putClass(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent putting
	if err := read(q, &sent); err != nil {
		return err
	}
	return s.changeClass(w, q, v, func(b *store.Books) error { return writeClass(b, q.PathValue("class"), sent) })
}

// changeClass changes a class, or who comes to it, and answers with what it is then.
func (s *Server) changeClass(w http.ResponseWriter, q *http.Request, v visit, change func(*store.Books) error) error {
	var out slot
	if err := s.update(q, v, change); err != nil {
		return err
	}
	if err := s.view(q, v, func(b *store.Books) (err error) {
		out, err = s.timetable(b, v).class(q.PathValue("class"))
		return err
	}); err != nil {
		return err
	}
	return answer(w, classOf(out))
}

// takePlace asks for a place in a class, for oneself or as a coach for somebody: in while
// there is one, else waiting.
func (s *Server) takePlace(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := whose(q, v)
	if err != nil {
		return err
	}
	return s.changeClass(w, q, v, func(b *store.Books) error {
		_, err := s.askPlace(b, v, q.PathValue("class"), who)
		return err
	})
}

// leavePlace gives a place back; who waits first moves up.
func (s *Server) leavePlace(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := whose(q, v)
	if err != nil {
		return err
	}
	return s.changeClass(w, q, v, func(b *store.Books) error { return s.giveBack(b, v, q.PathValue("class"), who) })
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
	return from, to, nil
}
