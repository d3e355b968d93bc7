package web

import (
	"net/http"
	"strconv"

	"roomful"
	"roomful/store"
)

// step is something that somebody did. It names ids and no words.
type step struct {
	Seq     int64  `json:"seq"`
	At      string `json:"at"`
	Account string `json:"account"` // empty for the program itself
	Name    string `json:"name"`    // of the account; empty when it is gone
	Kind    string `json:"kind"`    // sheet, person, attempt ...
	Subject string `json:"subject"` // the id of what changed
}

// trail is a part of what was done in a gym.
type trail struct {
	Steps []step `json:"steps"`
	Last  int64  `json:"last"` // the seq of the gym's last change
}

// mostSteps is how many are told at once.
const mostSteps = 500

// trail tells the owner who did what, after a number, the oldest first.
func (s *Server) trail(w http.ResponseWriter, q *http.Request, v visit) error {
	after := int64(0)
	if text := q.FormValue("after"); text != "" {
		n, err := strconv.ParseInt(text, 10, 64)
		if err != nil || n < 0 {
			return &roomful.Error{Summary: "reading the trail: after is no number", Hint: "send the seq of the last step that was read"}
		}
		after = n
	}
	out := trail{Steps: []step{}}
	if err := s.view(q, v, func(b *store.Books) error {
		all, err := b.Changes(after, mostSteps)
		if err != nil {
			return err
		}
		names, err := accountNames(b)
		if err != nil {
			return err
		}
		for _, c := range all {
			out.Steps = append(out.Steps, step{c.Seq, instant(c.At), c.Account, names[c.Account], c.Kind, c.Subject})
		}
		out.Last, err = b.Seq()
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// accountNames are the names of all accounts by id.
func accountNames(b *store.Books) (map[string]string, error) {
	all, err := b.Accounts()
	names := map[string]string{}
	for _, a := range all {
		names[a.ID] = a.Name
	}
	return names, err
}
