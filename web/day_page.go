package web

import (
	"net/http"

	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// dayPage is a day: to those who write it with everybody's version, to anybody else with
// their own.
func (s *Server) dayPage(w http.ResponseWriter, q *http.Request, v visit) error {
	if !v.May(account.EditSheets) {
		return s.myDayPage(w, q, v)
	}
	var frame page.Frame
	var d store.Document
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if d, err = b.Named(store.Sheet, q.PathValue("name")); err != nil {
			return err
		}
		frame, err = s.frame(b, q, v, "/", d.Title)
		return err
	}); err != nil {
		return err
	}
	return s.show(w, http.StatusOK, frame, page.Day{DayHead: page.DayHead{Name: d.Name, Title: d.Title, When: inWords(d.Day)}, Text: d.Text, Revision: d.Revision})
}
