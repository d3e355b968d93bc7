package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"time"

	"roomful"
	"roomful/desk"
	"roomful/store"
	"roomful/web/page"
)

// opened is a day with what stands around it in the store.
type opened struct {
	store.Document
	frame   page.Frame
	gym     store.Gym
	today   roomful.Date
	classes []store.Class
	come    map[string]int // to a class
	edition store.Edition  // the last; its id is empty for none
	by      string         // who saved it
	words   map[string]string
	earlier []store.Revision // nil unless the text has faults
	notes   []page.DayNote
}

// openDay reads all that a coach's page of a day needs but what is worked out.
func (s *Server) openDay(b *store.Books, q *http.Request, v visit) (d opened, err error) {
	if d.Document, err = b.Named(store.Sheet, q.PathValue("name")); err != nil {
		return d, err
	}
	if class := q.FormValue("class"); class != "" {
		if _, err = b.Class(class); err != nil {
			return d, err
		}
	}
	if d.frame, err = s.frame(b, q, v, "/", cmp.Or(d.Title, d.Name)); err != nil {
		return d, err
	}
	if d.gym, err = b.Gym(); err != nil {
		return d, err
	}
	d.today = roomful.DateOf(d.gym.Clock(s.Now()))
	if err = s.classesOf(b, &d); err != nil {
		return d, err
	}
	editions, err := b.Editions(d.ID)
	if err != nil {
		return d, err
	}
	if len(editions) > 0 {
		d.edition = editions[len(editions)-1]
	}
	accounts, err := accountsByID(b)
	if err != nil {
		return d, err
	}
	d.by = accounts[d.Account].Name
	if d.words, err = whoseWords(b, d.ID, v, accounts); err != nil {
		return d, err
	}
	if _, ok := s.session(d.Document); !ok {
		d.earlier, err = b.Revisions(d.ID)
	}
	return d, err
}

// classesOf are the classes that do a sheet on its day, or on today where it has none.
func (s *Server) classesOf(b *store.Books, d *opened) error {
	on := d.Day
	if on.IsZero() {
		on = d.today
	}
	all, err := b.Classes(on, on)
	if err != nil {
		return err
	}
	d.come = map[string]int{}
	for _, c := range all {
		if c.Document != d.ID || c.CalledOff {
			continue
		}
		places, err := b.SignUps(c.ID)
		if err != nil {
			return err
		}
		d.classes = append(d.classes, c)
		for _, p := range places {
			if p.State == store.In {
				d.come[c.ID]++
			}
		}
	}
	return nil
}

// whoseWords is whose word the versions are that were set by hand, by person. Of a coach's
// and their own it is the coach's that holds.
func whoseWords(b *store.Books, document string, v visit, accounts map[string]store.Account) (map[string]string, error) {
	all, err := b.Overrides(document)
	out := map[string]string{}
	for _, o := range all {
		switch by := accounts[o.Account]; {
		case desk.OwnChoice(by, o):
			out[o.Person] = cmp.Or(out[o.Person], "own choice")
		case o.Account == v.Account.ID:
			out[o.Person] = "your word"
		default:
			out[o.Person] = cmp.Or(by.Name, "a coach") + "’s word"
		}
	}
	return out, err
}

// when says when a day is, and the class that is looked at.
func (d opened) when(class string) string {
	out := cmp.Or(inWords(d.Day), "No date yet")
	for _, c := range d.classes {
		if c.ID == class {
			out += fmt.Sprintf(", %s · %d coming", c.Start, d.come[c.ID])
		}
	}
	return out
}

// busiest is the class of a day that most come to; empty when nobody comes to any.
func (d opened) busiest() (id string) {
	for _, c := range d.classes {
		if n := d.come[c.ID]; n > 0 && n > d.come[id] {
			id = c.ID
		}
	}
	return id
}

// links lead to each class of a day, and to everybody.
func (d opened) links(class, piece string) (out []page.DayClass) {
	path := "/sheets/" + url.PathEscape(d.Name)
	for _, c := range d.classes {
		out = append(out, page.DayClass{Path: path + queryOf(c.ID, piece), Words: fmt.Sprintf("%s, %d come", c.Start, d.come[c.ID]), Here: c.ID == class})
	}
	return append(out, page.DayClass{Path: path + queryOf("", piece), Words: "Everybody who comes here", Here: class == ""})
}

// says tells what members see of a day.
func (d opened) says() page.DayEdition {
	switch {
	case d.edition.ID != "" && d.edition.Text == d.Text:
		return page.DayEdition{Says: "Published at " + d.clock(d.edition.At) + ". Members see it as it stands here."}
	case d.edition.ID != "" && d.earlier != nil:
		return page.DayEdition{Says: "Members see it as it was published at " + d.clock(d.edition.At) + "."}
	case d.edition.ID != "":
		return page.DayEdition{Says: "Members see it as it was published at " + d.clock(d.edition.At) + ", and none of what was changed since.", Publish: "Publish the changes"}
	case d.earlier != nil:
		return page.DayEdition{Says: "Members see nothing of it while it has lines to mend."}
	case d.Day.IsZero() || d.Day.Days(d.today) > 0:
		return page.DayEdition{Says: "Members do not see it before its day, unless you publish it.", Publish: "Publish"}
	}
	return page.DayEdition{Says: "Its day has come, so members see it as it is saved.", Publish: "Publish"}
}

// stands reports whether a day is as it was published, by its text and by what was known.
func (d opened) stands() bool {
	return d.edition.ID != "" && d.edition.Text == d.Text && d.edition.Stands(d.today)
}

// clock writes an instant by the gym's clock, with its day when that is not today.
func (d opened) clock(at time.Time) string {
	there := d.gym.Clock(at)
	if roomful.DateOf(there) == d.today {
		return there.Format("15:04")
	}
	return there.Format("15:04 on 2 January")
}
