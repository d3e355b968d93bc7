package web

import (
	"net/http"

	"roomful/desk"
	"roomful/store"
	"roomful/web/page"
)

// myDayPage is a day to those who train on it: their own version of it.
func (s *Server) myDayPage(w http.ResponseWriter, q *http.Request, v visit) error {
	var frame page.Frame
	var d desk.Page
	if err := s.view(q, v, func(b *store.Books) (err error) {
		if d, err = s.seen(b, v, q.PathValue("name")); err != nil {
			return err
		}
		frame, err = s.frame(b, q, v, "/", d.Title)
		return err
	}); err != nil {
		return err
	}
	return s.show(w, http.StatusOK, frame, page.MyDay{DayHead: page.DayHead{Name: d.Name, Title: d.Title, When: inWords(d.Day)}})
}
