package web

import (
	"cmp"
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"time"

	"roomful"
	"roomful/account"
	"roomful/desk"
	"roomful/notation"
	"roomful/store"
	"roomful/web/page"
)

// dayPage is a day: to those who write it with everybody's version, to anybody else with
// their own.
func (s *Server) dayPage(w http.ResponseWriter, q *http.Request, v visit) error {
	if v.Account.Role == store.Screen {
		return s.screenPage(w, q, v)
	}
	if !v.May(account.EditSheets) {
		return s.myDayPage(w, q, v)
	}
	return s.coachPage(w, q, v, written{})
}

// written is what a coach sent in a form of the day that is shown again.
type written struct {
	status  int     // of the answer; nought for 200
	text    *string // of the sheet, nil for the one that is saved
	wrong   string  // why it was not saved
	told    string  // what was done with it
	version *page.DayVersion
	note    *page.DayNote
	// revision is the one that the text was written from; nil for the one that holds.
	revision *int64
}

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
	names, err := accountNames(b)
	if err != nil {
		return d, err
	}
	d.by = names[d.Account]
	if d.words, err = whoseWords(b, d.ID, v, names); err != nil {
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

// whoseWords is whose word the versions are that were set by hand, by person.
func whoseWords(b *store.Books, document string, v visit, names map[string]string) (map[string]string, error) {
	all, err := b.Overrides(document)
	out := map[string]string{}
	for _, o := range all {
		switch name := names[o.Account]; {
		case o.Account == v.Account.ID:
			out[o.Person] = "your word"
		case name == "":
			out[o.Person] = "a coach’s word"
		default:
			out[o.Person] = name + "’s word"
		}
	}
	return out, err
}

// coachPage shows a day to a coach, with what they sent where it was not taken.
func (s *Server) coachPage(w http.ResponseWriter, q *http.Request, v visit, again written) error {
	var d opened
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if d, err = s.openDay(b, q, v); err != nil {
			return err
		}
		d.notes, err = s.coachNotes(b, v, d, again.note)
		return err
	}); err != nil {
		return err
	}
	class := q.FormValue("class")
	body := page.Day{
		DayHead: page.DayHead{Name: d.Name, Title: cmp.Or(d.Title, d.Name), When: d.when(class)},
		Query:   queryOf(class, q.FormValue("piece")),
		Saved:   slices.Contains([]string{"saved", "same"}, q.FormValue("said")),
		Classes: d.links(class, q.FormValue("piece")), Edition: d.says(),
		Notes: &page.DayNotes{Name: d.Name, Query: queryOf(class, q.FormValue("piece")), All: d.notes},
	}
	body.Sheet = s.editor(d, body.Query, again)
	ask := s.askAbout(q, v, d.Name)
	if again.text != nil {
		ask.Text = *again.text
	}
	var err error
	if body.Work, err = s.shownWork(q, ask, d); err != nil {
		return err
	}
	body.Work.As = body.Edition.Says
	if again.version != nil {
		body.Work.Opened = again.version
	} else if who := q.FormValue("open"); who != "" {
		body.Work.Opened, _ = s.versionOf(q, v, ask, who) // whoever is not there is not open
	}
	d.frame.Said = cmp.Or(again.told, d.frame.Said)
	d.frame.Loads = []string{"day.css", "day.js"}
	return s.show(w, cmp.Or(again.status, http.StatusOK), d.frame, body)
}

// shownWork works a day out. Where its text has faults it is the last text without any
// that shows who would do what.
func (s *Server) shownWork(q *http.Request, ask desk.Ask, d opened) (page.DayWork, error) {
	if ask.Text == "" {
		for _, r := range slices.Backward(d.earlier) {
			if _, ds := notation.Read(r.Text, s.Lexicon); !r.Aside && !faulty(ds) {
				ask.Text = r.Text
				out, err := s.dayWork(q.Context(), ask, d.words, waits(q))
				out.Draft, out.Of = false, "The sheet has faults. Until they are mended this is the day as it was saved at "+d.clock(r.At)+", before them."
				return out, err
			}
		}
		if d.earlier != nil {
			return page.DayWork{Name: d.Name, Not: "The sheet has faults, so nothing is worked out yet.", Next: "Mend the lines that are named under it. The rest follows by itself."}, nil
		}
	}
	return s.dayWork(q.Context(), ask, d.words, waits(q))
}

// waits reports whether whoever asks waits for the hour.
func waits(q *http.Request) bool { return q.FormValue("wait") != "" }

// faulty reports whether a text cannot be used as it stands.
func faulty(ds []roomful.Diagnostic) bool {
	return slices.ContainsFunc(ds, func(d roomful.Diagnostic) bool { return d.Severity == roomful.Fault })
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

// clock writes an instant by the gym's clock, with its day when that is not today.
func (d opened) clock(at time.Time) string {
	there := d.gym.Clock(at)
	if roomful.DateOf(there) == d.today {
		return there.Format("15:04")
	}
	return there.Format("15:04 on 2 January")
}

// editor is the sheet to be written on.
func (s *Server) editor(d opened, query string, again written) page.DaySheet {
	out := page.DaySheet{Name: d.Name, Query: query, Text: d.Text, Revision: d.Revision, Earlier: d.Revision > 1, Wrong: again.wrong,
		Who: "Saved at " + d.clock(d.At) + by(d.by) + "."}
	if again.text != nil {
		out.Text = *again.text
	}
	if again.revision != nil {
		out.Revision = *again.revision
	}
	out.Said = s.said(out.Text)
	return out
}

// by says who, when that is known.
func by(name string) string {
	if name == "" {
		return ""
	}
	return " by " + name
}
