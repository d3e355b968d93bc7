package desk

import (
	"slices"
	"time"

	"roomful"
	"roomful/store"
)

// places is who has a place in a class, and when it begins.
type places struct {
	people []string
	start  time.Duration // since midnight
	made   int64
}

// placesIn finds a class by its id.
func (g *Gym) placesIn(class string) (places, error) {
	d := g.desk
	d.mu.Lock()
	one, known := g.shelf.places[class]
	known = known && !g.shelf.changed(one.made, topic{"class", class}, topic{kind: "erased"})
	d.mu.Unlock()
	if known {
		return one, nil
	}
	c, err := g.books.Class(class)
	if err != nil {
		return one, err
	}
	all, err := g.books.SignUps(class)
	if err != nil {
		return one, err
	}
	one = places{made: g.seq}
	for _, p := range all {
		if p.State == store.In {
			one.people = append(one.people, p.Person)
		}
	}
	at, err := time.Parse("15:04", c.Start)
	if err != nil {
		return one, err
	}
	one.start = time.Duration(at.Hour())*time.Hour + time.Duration(at.Minute())*time.Minute
	d.mu.Lock()
	defer d.mu.Unlock()
	if len(g.shelf.places) >= mostSessions {
		clear(g.shelf.places)
	}
	g.shelf.places[class] = one
	return one, nil
}

// in are those who have a place, of those who come.
func (p places) in(people []roomful.Athlete) (out []roomful.Athlete) {
	for _, a := range people {
		if slices.Contains(p.people, a.ID) {
			out = append(out, a)
		}
	}
	return out
}
