package web

import (
	"fmt"
	"slices"

	"roomful/store"
	"roomful/web/page"
)

// placesOf says where the visitor stands in the classes of a sheet, and which class their
// day is worked out for: the one that they name when it is theirs, else their own.
func (s *Server) placesOf(b *store.Books, v visit, d store.Document, named string) (out *page.MyPlace, own store.Class, err error) {
	classes, err := b.Classes(d.Day, d.Day)
	if err != nil {
		return nil, own, err
	}
	classes = slices.DeleteFunc(classes, func(c store.Class) bool { return c.CalledOff || c.Document != d.ID })
	if len(classes) == 0 {
		return nil, own, nil
	}
	gym, err := b.Gym()
	if err != nil {
		return nil, own, err
	}
	out = &page.MyPlace{}
	for _, c := range classes {
		places, err := b.SignUps(c.ID)
		if err != nil {
			return nil, own, err
		}
		in := 0
		state := ""
		for _, p := range places {
			if p.State == store.In {
				in++
			}
			if v.is(p.Person) {
				state = p.State
			}
		}
		switch {
		case over(c, gym.Clock(s.Now())):
			if state == store.In && (own.ID == "" || c.ID == named) {
				own = c
				out.Says, out.Class, out.Give = "You were in at "+c.Start+".", "", ""
			}
		case state == store.In && (own.ID == "" || c.ID == named):
			own = c
			out.Says, out.Class, out.Give = "You are in at "+c.Start+".", c.ID, "Give it back"
		case state == store.Waiting && own.ID == "":
			out.Says, out.Class, out.Give = "You wait for a place at "+c.Start+".", c.ID, "Stop waiting"
		case state != store.In && state != store.Waiting:
			out.Offers = append(out.Offers, page.MyOffer{Class: c.ID, Says: offerWords(c, in)})
		}
	}
	switch {
	case out.Says != "":
		out.Offers = nil // one hour a day is enough; the timetable has the others
	case len(out.Offers) == 0:
		return nil, own, nil
	default:
		out.Says = "You have no place yet. Take one:"
	}
	return out, own, nil
}

// offerWords is what a class says that somebody could come to.
func offerWords(c store.Class, in int) string {
	switch left := c.Capacity - in; {
	case c.Capacity == 0:
		return c.Start
	case left <= 0:
		return c.Start + ", full: wait"
	case left <= 3:
		return fmt.Sprintf("%s, %d left", c.Start, left)
	}
	return c.Start
}
