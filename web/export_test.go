package web

import (
	"net/http"
	"time"

	"roomful/account"
)

// Route is a row of the table of routes, for whoever wants to walk it.
type Route struct {
	Pattern string
	Action  account.Action // empty when anybody may ask
	Accept  string         // what a browser asks for; empty for a program
}

// Routes lists every route and what somebody must be allowed to do who uses it.
func Routes() (out []Route) {
	for _, r := range routes {
		out = append(out, Route{r.pattern, r.action, ""})
	}
	return out
}

// Pages lists every page, as it is asked for by a browser.
func Pages() (out []Route) {
	for _, r := range pages {
		out = append(out, Route{r.pattern, r.action, "text/html"})
	}
	return out
}

// Hurry makes a server a hundred times less patient.
func Hurry(s *Server) {
	u := usualPatience
	s.patience = patience{u.header / 100, u.request / 100, u.answer / 100, u.idle / 100, u.beat / 100}
}

// Patience is how long a server in a hurry waits for a request.
const Patience = time.Minute / 100

// Refuse answers with why not.
func (s *Server) Refuse(w http.ResponseWriter, q *http.Request, err error) { s.refuse(w, q, err) }

// Expected is expected.
var Expected = expected
