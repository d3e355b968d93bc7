package web

import (
	"cmp"
	"net/http"
	"slices"
	"strings"

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
		Past:    !d.Day.IsZero() && d.today.Days(d.Day) > 0,
		Kept:    arrived(q),
		Classes: d.links(class, q.FormValue("piece")), Edition: d.says(),
		NoClass: len(d.classes) == 0,
		Notes:   &page.DayNotes{Name: d.Name, Query: queryOf(class, q.FormValue("piece")), All: d.notes},
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
	if to := d.busiest(); body.Work.Not != "" && queryOf(class, q.FormValue("piece")) == "" && to != "" && again.text == nil && d.earlier == nil {
		return next(w, q, dayPath(q, "class", to)) // everybody is more than one room holds
	}
	body.Work.As, body.Work.Revision, body.Work.Phone = body.Edition.Says, d.Revision, onPhone(q)
	body.Fold = onPhone(q) && again.text == nil && len(body.Sheet.Said.Lines) == 0
	if body.Given = d.stands(); body.Past { // there is nothing to give out any more
		body.Work.Otherwise, body.Work.Looking = nil, false
	}
	if again.version != nil {
		body.Work.Opened = again.version
	} else if who := q.FormValue("open"); who != "" {
		body.Work.Opened, err = s.versionOf(q, v, ask, who)
		if err != nil && !expected(err) { // whoever is not there is not open
			return err
		}
	}
	d.frame.Said = cmp.Or(again.told, d.frame.Said)
	d.frame.Loads = []string{"day.css", "day.js"}
	return s.show(w, cmp.Or(again.status, http.StatusOK), d.frame, body)
}

// onPhone reports whether a browser says that it is on a phone: by the client hint, else by
// the word that all of them have in their name.
func onPhone(q *http.Request) bool {
	if hint := q.Header.Get("Sec-CH-UA-Mobile"); hint != "" {
		return hint == "?1"
	}
	return strings.Contains(q.Header.Get("User-Agent"), "Mobi")
}

// arrived is the field of the page whose words have just been kept.
func arrived(q *http.Request) string {
	switch q.FormValue("said") {
	case "saved", "same":
		return "sheet"
	case "answer":
		return "answer-" + q.FormValue("answered")
	}
	return ""
}

// shownWork works a day out. Where its text has faults it is the last text without any
// that shows who would do what.
func (s *Server) shownWork(q *http.Request, ask desk.Ask, d opened) (page.DayWork, error) {
	if ask.Text == "" {
		for _, r := range slices.Backward(d.earlier) {
			if _, ds := notation.Read(r.Text, s.Lexicon); !r.Aside && !faulty(ds) {
				ask.Text = r.Text
				out, err := s.dayWork(q.Context(), ask, d.words, waits(q))
				out.Draft, out.Of = false, "There are lines to mend. Until they are, this is the day as it was saved at "+d.clock(r.At)+", before them."
				return out, err
			}
		}
		if d.earlier != nil {
			return page.DayWork{Name: d.Name, Not: "There are lines to mend, so nothing is worked out yet.", Next: "They are named under the sheet. The rest follows by itself."}, nil
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
