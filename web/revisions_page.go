package web

import (
	"cmp"
	"net/http"
	"strconv"

	"roomful"
	"roomful/store"
	"roomful/web/page"
)

// mostRevisions is how many earlier texts a page shows.
const mostRevisions = 20

// revisionsPage shows all that a sheet was, the latest first, each with what it changed.
func (s *Server) revisionsPage(w http.ResponseWriter, q *http.Request, v visit) error {
	var d opened
	var all []store.Revision
	var names map[string]string
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if d.Document, err = b.Named(store.Sheet, q.PathValue("name")); err != nil {
			return err
		}
		if d.frame, err = s.frame(b, q, v, "/", cmp.Or(d.Title, d.Name)); err != nil {
			return err
		}
		if d.gym, err = b.Gym(); err != nil {
			return err
		}
		if names, err = accountNames(b); err != nil {
			return err
		}
		all, err = b.Revisions(d.ID)
		return err
	}); err != nil {
		return err
	}
	d.today = roomful.DateOf(d.gym.Clock(s.Now()))
	body := page.Revisions{Name: d.Name, Title: cmp.Or(d.Title, d.Name), Revision: d.Revision}
	before, _ := strconv.ParseInt(q.FormValue("before"), 10, 64) // none for what is no number
	texts := map[int64]string{}
	for _, r := range all {
		texts[r.N] = r.Text
	}
	for i := len(all) - 1; i >= 0; i-- {
		r := all[i]
		if before > 0 && r.N >= before {
			continue
		}
		if len(body.All) == mostRevisions {
			body.Before = all[i+1].N
			break
		}
		row := page.RevisionRow{N: r.N, When: capital(d.clock(r.At)), Who: names[r.Account], Now: r.N == d.Revision, Aside: r.Aside}
		row.Says, row.Lines = whatChanged(texts[r.Base], r.Text)
		body.All = append(body.All, row)
	}
	d.frame.Loads = []string{"day.css"}
	return s.show(w, http.StatusOK, d.frame, body)
}

// whatChanged is a text beside the one that it was written from.
func whatChanged(from, to string) (says string, lines []page.RevisionLine) {
	was, is := textLines(from), textLines(to)
	more, less := 0, 0
	for _, h := range merge(was, is, was) {
		for _, line := range h.same {
			lines = append(lines, page.RevisionLine{Text: line})
		}
		for _, line := range h.theirs {
			less++
			lines = append(lines, page.RevisionLine{Mark: "−", Text: line})
		}
		for _, line := range h.mine {
			more++
			lines = append(lines, page.RevisionLine{Mark: "+", Text: line})
		}
	}
	switch {
	case from == "":
		return "Written for the first time.", lines
	case more == 0 && less == 0:
		return "The same lines.", lines
	case less == 0:
		return "Added " + counted(more, "line") + ".", lines
	case more == 0:
		return "Took away " + counted(less, "line") + ".", lines
	}
	return "Wrote " + counted(more, "line") + " in the place of " + strconv.Itoa(less) + ".", lines
}

// bringBack saves a text again that a sheet was.
func (s *Server) bringBack(w http.ResponseWriter, q *http.Request, v visit) error {
	n, err := strconv.ParseInt(q.PostFormValue("n"), 10, 64)
	revision, wrong := strconv.ParseInt(q.PostFormValue("revision"), 10, 64)
	if err != nil || wrong != nil {
		return &roomful.Error{Summary: "bringing a text back: it is not said which", Hint: "choose one of the earlier texts"}
	}
	var text string
	if err := s.view(q, v, func(b *store.Books) error {
		d, err := b.Named(store.Sheet, q.PathValue("name"))
		if err != nil {
			return err
		}
		if text, err = textOf(b, d.ID, n); err == nil && text == "" {
			err = store.ErrMissing
		}
		return err
	}); err != nil {
		return err
	}
	return s.saveOrMerge(w, q, v, text, revision)
}
