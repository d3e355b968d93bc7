package web

import (
	"errors"
	"net/http"

	"roomful/account"
	"roomful/store"
)

// withdraw takes a score back: out of every list, and out of what is learnt from. Its text
// stays.
func (s *Server) withdraw(w http.ResponseWriter, q *http.Request, v visit) error {
	if _, err := s.takeBack(q, v, q.PathValue("score")); err != nil {
		return err
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// takeBack takes a score back, and has what was learnt from it learnt anew.
func (s *Server) takeBack(q *http.Request, v visit, id string) (a store.Attempt, err error) {
	var seq int64
	if err := s.update(q, v, func(b *store.Books) (err error) {
		if a, err = withdrawn(b, v, id); err == nil && a.WithdrawnAt.IsZero() {
			seq, err = b.Seq()
		}
		return err
	}); err != nil {
		return a, err
	}
	if s.Background != nil && seq > 0 {
		s.Background.Arrived(v.Gym, a.Person, seq)
	}
	return a, nil
}

// withdrawn takes a score out of every list, for whose it is and for coaches, and gives it
// as it was before. Taken back twice it is taken back once.
func withdrawn(b *store.Books, v visit, id string) (store.Attempt, error) {
	a, err := b.Attempt(id)
	switch {
	case err != nil:
		return a, err
	case !v.is(a.Person) && !v.May(account.PostForOther):
		return a, errNotYours
	case !a.WithdrawnAt.IsZero():
		return a, nil
	}
	return a, b.Withdraw(a.ID)
}

// mayReplace refuses to put a score in the place of one that stands no longer: of two
// corrections the first holds. One that has come before may come again.
func mayReplace(b *store.Books, was store.Attempt, id string) error {
	if was.WithdrawnAt.IsZero() {
		return nil
	}
	if _, err := b.Attempt(id); !errors.Is(err, store.ErrMissing) {
		return err
	}
	return errNoScore
}
