package web

import (
	"errors"
	"regexp"
	"slices"
	"time"

	"roomful"
	"roomful/account"
	"roomful/desk"
	"roomful/store"
)

// slot is a class with what belongs to it, as far as the visitor may see it.
type slot struct {
	store.Class
	sheet       store.Document // zero while it is not known
	in, waiting int
	own         string  // one's own state; empty when one has not asked
	turn        int     // one's own place among those who wait, from 1
	places      []place // in the order of asking; nil for who is no coach
}

// place is somebody who asked for a place: in, waiting, out or missed.
type place struct {
	Person string `json:"person"`
	Name   string `json:"name"`
	State  string `json:"state"`
}

// timetable looks classes up for a visitor, each sheet and person once.
type timetable struct {
	books  *store.Books
	visit  visit
	crowd  *crowd
	seen   func(name string) (desk.Page, error)
	sheets map[string]store.Document
}

// timetable begins a look at the classes.
func (s *Server) timetable(b *store.Books, v visit) *timetable {
	return &timetable{books: b, visit: v, crowd: s.crowd(b), sheets: map[string]store.Document{},
		seen: func(name string) (desk.Page, error) { return s.seen(b, v, name) }}
}

// between lists the classes of the days from one to another.
func (t *timetable) between(from, to roomful.Date) ([]slot, error) {
	all, err := t.books.Classes(from, to)
	if err != nil {
		return nil, err
	}
	out := make([]slot, 0, len(all))
	for _, c := range all {
		one, err := t.of(c)
		if err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	return out, nil
}

// class finds one class.
func (t *timetable) class(id string) (slot, error) {
	c, err := t.books.Class(id)
	if err != nil {
		return slot{}, err
	}
	return t.of(c)
}

// of is a class with what belongs to it.
func (t *timetable) of(c store.Class) (slot, error) {
	out := slot{Class: c}
	var err error
	if out.sheet, err = t.sheet(c.Document); err != nil {
		return out, err
	}
	all, err := t.books.SignUps(c.ID)
	if err != nil {
		return out, err
	}
	coach := t.visit.May(account.EditPeople)
	if coach {
		out.places = []place{}
	}
	for _, one := range all {
		switch one.State {
		case store.In:
			out.in++
		case store.Waiting:
			out.waiting++
		}
		if t.visit.is(one.Person) {
			if out.own = one.State; one.State == store.Waiting {
				out.turn = out.waiting
			}
		}
		if !coach {
			continue
		}
		name, _, err := t.crowd.find(one.Person)
		if err != nil {
			return out, err
		}
		out.places = append(out.places, place{one.Person, name, one.State})
	}
	return out, nil
}

// sheet finds a sheet by its id; none for none, and for one that the visitor may not see.
func (t *timetable) sheet(id string) (d store.Document, err error) {
	d, known := t.sheets[id]
	if id == "" || known {
		return d, nil
	}
	if d, err = t.books.Document(id); err != nil {
		return d, err
	}
	seen, err := t.seen(d.Name)
	if errors.Is(err, store.ErrMissing) {
		seen, err = desk.Page{}, nil
	}
	t.sheets[id] = seen.Document
	return seen.Document, err
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

// differs reports whether what a coach sends would change a class.
func (p putting) differs(b *store.Books, c store.Class) (bool, error) {
	was := c
	if err := p.plan(b, &c); err != nil {
		return false, err
	}
	err := p.apply(&c)
	return c != was, err
}

// plan puts the sheet that a coach has named into a class.
func (p putting) plan(b *store.Books, c *store.Class) error {
	if p.Sheet == nil {
		return nil
	}
	c.Document = ""
	if *p.Sheet == "" {
		return nil
	}
	d, err := b.Named(store.Sheet, *p.Sheet)
	c.Document = d.ID
	return err
}

// usualMinutes is how long a class is when nobody says otherwise.
const usualMinutes = 60

// writeClass writes a class down, or what has changed of it.
func writeClass(b *store.Books, id string, sent putting) error {
	c, err := b.Class(id)
	if errors.Is(err, store.ErrMissing) {
		c, err = store.Class{ID: id, Minutes: usualMinutes}, checkID("class", id)
	}
	if err != nil {
		return err
	}
	if err := sent.plan(b, &c); err != nil {
		return err
	}
	if err := sent.apply(&c); err != nil {
		return err
	}
	return b.PutClass(c)
}

// askPlace asks for a place for somebody: in while there is one, else waiting.
func (s *Server) askPlace(b *store.Books, v visit, class, person string) (state string, err error) {
	if _, err := b.Person(person); err != nil {
		return "", err
	}
	c, err := b.Class(class)
	if err != nil {
		return "", err
	}
	if c.CalledOff {
		return "", &roomful.Error{Summary: "asking for a place: this class is called off", Hint: "look for another"}
	}
	if err := s.stillTheirs(b, v, c, person); err != nil {
		return "", err
	}
	got, err := b.SignUp(c.ID, person)
	return got.State, err
}

// giveBack gives somebody's place back.
func (s *Server) giveBack(b *store.Books, v visit, class, person string) error {
	c, err := b.Class(class)
	if err != nil {
		return err
	}
	if err := s.stillTheirs(b, v, c, person); err != nil {
		return err
	}
	return b.Leave(c.ID, person, store.Out)
}

// stillTheirs refuses members who ask for a place or give it back once the class is over,
// or once a coach has noted that they did not come: who came is the coach's to say.
func (s *Server) stillTheirs(b *store.Books, v visit, c store.Class, person string) error {
	if v.May(account.EditPeople) {
		return nil
	}
	gym, err := b.Gym()
	if err != nil {
		return err
	}
	if over(c, gym.Clock(s.Now())) {
		return &roomful.Error{Summary: "asking for a place, or giving one back: this class is over", Hint: "look for another"}
	}
	all, err := b.SignUps(c.ID)
	if slices.ContainsFunc(all, func(one store.SignUp) bool { return one.Person == person && one.State == store.Missed }) {
		return &roomful.Error{Summary: "a place: your coach has noted that you did not come", Hint: "if you did, tell them"}
	}
	return err
}

// over reports whether a class has ended by a clock.
func over(c store.Class, now time.Time) bool {
	_, end := begins(c, now.Location())
	return !now.Before(end)
}

// begins is when a class begins and ends on a clock.
func begins(c store.Class, in *time.Location) (start, end time.Time) {
	at, err := time.Parse("15:04", c.Start)
	if err != nil {
		at = time.Time{} // what is kept was checked
	}
	start = time.Date(c.Day.Year, c.Day.Month, c.Day.Day, at.Hour(), at.Minute(), 0, 0, in)
	return start, start.Add(time.Duration(c.Minutes) * time.Minute)
}
