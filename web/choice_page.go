package web

import (
	"cmp"
	"errors"
	"net/http"
	"net/url"
	"slices"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// sheetHead is what a page beside a day begins with, and the class that it is of as part
// of an address.
func (s *Server) sheetHead(q *http.Request, v visit, here, title string) (head page.DayHead, query string, frame page.Frame, err error) {
	err = s.view(q, v, func(b *store.Books) error {
		d, err := s.seen(b, v, q.PathValue("name"))
		if err != nil {
			return err
		}
		head = page.DayHead{Name: d.Name, Title: d.Title, When: inWords(d.Day)}
		frame, err = s.frame(b, q, v, here, title)
		return err
	})
	if class := q.FormValue("class"); class != "" {
		query = "?class=" + url.QueryEscape(class)
	}
	frame.Loads = []string{"my.css"}
	return head, query, frame, err
}

// choicesPage shows what each option of a day would mean for somebody.
func (s *Server) choicesPage(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.showChoices(w, q, v, http.StatusOK, "")
}

// showChoices shows the options, with why one was not taken.
func (s *Server) showChoices(w http.ResponseWriter, q *http.Request, v visit, status int, wrong string) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	head, query, frame, err := s.sheetHead(q, v, "/", "Another option")
	if err != nil {
		return err
	}
	got, err := s.choosing(q, v, chooser{who: who, piece: q.FormValue("piece")})
	if err != nil {
		return err
	}
	may, err := s.choicesOf(q, v, got)
	if err != nil {
		return err
	}
	body := page.MyChoices{DayHead: head, Person: who, Query: query, Whose: otherName(v, who, may.Name), Set: may.Set != nil && may.MayDrop, Wrong: wrong, Stop: got.version().Stop}
	if may.BeneathBy != nil {
		body.Beneath = cmp.Or(*may.BeneathBy, "a coach")
	}
	switch {
	case !may.MaySet && may.MayDrop:
		body.Word = capital(body.Beneath) + " set something for you before it hurt. Go back to that first, or ask " + body.Beneath + " to change it."
	case !may.MaySet && may.SetBy != nil:
		body.Word = *may.SetBy + " set this for you. Ask " + *may.SetBy + " to change it."
	}
	for i, a := range got.all.Alternatives {
		body.Choices = append(body.Choices, s.choice(a, i, got, unitOf(got.Question.People, who), may.MaySet))
	}
	return s.show(w, status, frame, body)
}

// choice is one option as somebody would do it.
func (s *Server) choice(a roomful.Alternative, n int, of chosen, unit roomful.MassUnit, may bool) page.MyChoice {
	out := page.MyChoice{Shape: n, Name: a.Name, Now: a.Name == of.version().Option, Proposed: a.Proposed, Expect: asSentence(a.Expect), Not: asSentence(a.Not)}
	w := wording{s.Lexicon, unit}
	if a.Version != nil {
		for _, c := range a.Version.Choices {
			out.Lines = append(out.Lines, w.line(c.Task, of.all.Piece.Format))
		}
	}
	out.May = may && !out.Now && a.Version != nil && a.Not == ""
	return out
}

// unitOf is what one of some people thinks in.
func unitOf(people []roomful.Athlete, who string) roomful.MassUnit {
	if i := slices.IndexFunc(people, func(a roomful.Athlete) bool { return a.ID == who }); i >= 0 {
		return people[i].Unit
	}
	return roomful.Kilogram
}

// otherName is somebody's name when they are not the visitor.
func otherName(v visit, who, name string) string {
	if v.is(who) {
		return ""
	}
	return name
}

// choiceForm takes an option, or goes back to what was found.
func (s *Server) choiceForm(w http.ResponseWriter, q *http.Request, v visit) error {
	who, err := cared(q, v)
	if err != nil {
		return err
	}
	if q.PostFormValue("drop") != "" {
		if err = s.dropChoice(q, v, who); errors.Is(err, store.ErrMissing) {
			err = nil // it was dropped before
		}
	} else {
		_, err = s.keepChoice(q, v, who, picking{Piece: q.PostFormValue("piece"), Option: q.PostFormValue("option")})
	}
	var wrong *roomful.Error
	var refused *refusal
	switch {
	case errors.As(err, &wrong) && !errors.As(err, &refused):
		return s.showChoices(w, q, v, http.StatusBadRequest, said2(wrong))
	case err != nil:
		return err
	}
	return next(w, q, backToDay(q, v, "chosen"))
}

// backToDay is the address of the day that a page is beside, with what was done.
func backToDay(q *http.Request, v visit, said string) string {
	to := "/sheets/" + url.PathEscape(q.PathValue("name")) + "?said=" + said
	if class := q.FormValue("class"); class != "" {
		to += "&class=" + url.QueryEscape(class)
	}
	if q.FormValue("home") == "yes" {
		to += "&home=yes"
	}
	if v.May(account.EditSheets) {
		return to
	}
	return to + "#what-i-do"
}
