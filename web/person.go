package web

import (
	"net/http"

	"roomful/store"
)

// person is somebody as coaches see them.
type person struct {
	ID   string `json:"id"`
	Name string `json:"name"`
}

// people lists who comes.
func (s *Server) people(w http.ResponseWriter, q *http.Request, v visit) error {
	out := struct {
		People []person `json:"people"`
	}{[]person{}}
	if err := s.Store.View(q.Context(), func(tx *store.Tx) error {
		all, err := tx.In(v.Gym).People(false)
		for _, p := range all {
			out.People = append(out.People, person{p.ID, p.Name})
		}
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}
