package web

import (
	"fmt"
	"net/http"

	"roomful"
)

// sorted answers with the routes, and what leads nowhere in the form of every other
// refusal: a script reads one kind of answer.
func (s *Server) sorted(routes *http.ServeMux) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, q *http.Request) {
		if _, pattern := routes.Handler(q); pattern != "" {
			routes.ServeHTTP(w, q)
			return
		}
		tried := &unsent{ResponseWriter: w}
		routes.ServeHTTP(tried, q) // says which methods an address takes
		switch tried.status {
		case http.StatusNotFound:
			hint := "GET /openapi.json lists what there is"
			if wantsPage(q) {
				hint = "look whether it is written as you meant, or go on from the day"
			}
			s.refuse(w, q, &refusal{tried.status, roomful.Error{Summary: "there is nothing at this address", Hint: hint}})
		case http.StatusMethodNotAllowed:
			s.refuse(w, q, &refusal{tried.status, roomful.Error{Summary: fmt.Sprintf("this address does not take %s", q.Method), Hint: "it takes " + w.Header().Get("Allow")}})
		default:
			w.WriteHeader(tried.status)
		}
	})
}

// unsent notes the status of an answer instead of sending it; the header is kept.
type unsent struct {
	http.ResponseWriter
	status int
}

// WriteHeader implements [http.ResponseWriter].
func (u *unsent) WriteHeader(status int) { u.status = status }

// Write implements [http.ResponseWriter].
func (u *unsent) Write(b []byte) (int, error) { return len(b), nil }
