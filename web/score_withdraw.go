package web

import (
	"net/http"

	"roomful/account"
	"roomful/store"
)

// withdraw takes a score back: out of every list, and out of what is learnt from. Its text
// stays. Taken back twice it is taken back once.
func (s *Server) withdraw(w http.ResponseWriter, q *http.Request, v visit) error {
	var a store.Attempt
	var seq int64
	if err := s.update(q, v, func(b *store.Books) (err error) {
		if a, err = b.Attempt(q.PathValue("score")); err != nil {
			return err
		}
		switch {
		case !v.is(a.Person) && !v.May(account.PostForOther):
			return errNotYours
		case !a.WithdrawnAt.IsZero():
			return nil
		}
		if err := b.Withdraw(a.ID); err != nil {
			return err
		}
		seq, err = b.Seq()
		return err
	}); err != nil {
		return err
	}
	if s.Background != nil && seq > 0 {
		s.Background.Arrived(v.Gym, a.Person, seq)
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}
