package web

import (
	"net/http"

	"roomful/store"
)

// backup gives all that is kept of the gym in one file, as it is at this moment, while
// others go on: restore makes the same gym of it.
func (s *Server) backup(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.view(q, v, func(b *store.Books) error {
		today, err := s.today(b)
		if err != nil {
			return err
		}
		w.Header().Set("Content-Type", "application/zip")
		w.Header().Set("Content-Disposition", `attachment; filename="gym-`+today.String()+`.zip"`)
		return b.Archive(w)
	})
}
