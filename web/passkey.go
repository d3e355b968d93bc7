package web

import (
	"errors"
	"io"
	"net/http"
	"time"

	"roomful"
	"roomful/account"
	"roomful/exchange"
	"roomful/store"
)

// newPasskey begins to make a passkey for the visitor.
func (s *Server) newPasskey(w http.ResponseWriter, q *http.Request, v visit) error {
	var out any
	if err := s.Store.View(q.Context(), func(tx *store.Tx) error {
		b := tx.In(v.Gym)
		gym, err := b.Gym()
		if err != nil {
			return err
		}
		out, err = s.ceremonies.NewPasskey(b, v.Visitor, s.site(q, gym.Name), s.Now(), s.Random)
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// keepPasskey keeps the passkey that the visitor's device has made.
func (s *Server) keepPasskey(w http.ResponseWriter, q *http.Request, v visit) error {
	sent, err := signed(q)
	if err != nil {
		return err
	}
	made, err := s.ceremonies.Made(sent, s.Now())
	if err != nil {
		return err
	}
	if err := s.Store.Update(q.Context(), s.by(v), func(tx *store.Tx) error {
		return made.Keep(tx.In(v.Gym), v.Visitor, s.site(q, ""), s.Now())
	}); err != nil {
		return err
	}
	return s.passkeys(w, q, v)
}

// passkeys lists the visitor's passkeys.
func (s *Server) passkeys(w http.ResponseWriter, q *http.Request, v visit) error {
	out := exchange.Passkeys{Passkeys: []exchange.Passkey{}}
	if err := s.Store.View(q.Context(), func(tx *store.Tx) error {
		all, err := tx.In(v.Gym).Passkeys(v.Account.ID)
		for _, one := range all {
			out.Passkeys = append(out.Passkeys, exchange.Passkey{ID: one.ID, MadeAt: one.MadeAt.Format(time.RFC3339)})
		}
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// dropPasskey takes one of the visitor's passkeys away.
func (s *Server) dropPasskey(w http.ResponseWriter, q *http.Request, v visit) error {
	if err := s.Store.Update(q.Context(), s.by(v), func(tx *store.Tx) error {
		return tx.In(v.Gym).DropPasskey(v.Account.ID, q.PathValue("passkey"))
	}); err != nil {
		return err
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// askPasskey begins a sign-in by passkey.
func (s *Server) askPasskey(w http.ResponseWriter, q *http.Request, _ visit) error {
	if !s.pace.Allow(s.Now(), address(q)) {
		return errTooMany
	}
	out, err := s.ceremonies.AskPasskey(s.site(q, "Roomful"), s.Now(), s.Random)
	if err != nil {
		return err
	}
	return answer(w, out)
}

// enterByPasskey signs the device in by what its passkey has signed.
func (s *Server) enterByPasskey(w http.ResponseWriter, q *http.Request, _ visit) error {
	now := s.Now()
	if !s.pace.Allow(now, address(q)) {
		return errTooMany
	}
	sent, err := signed(q)
	if err != nil {
		return err
	}
	used, err := s.ceremonies.Used(sent, now)
	var key string
	if err == nil {
		key, err = s.enterAs(q, func(tx *store.Tx) (string, account.Visitor, error) {
			return used.SignIn(tx, s.site(q, ""), s.coming(q, now))
		})
	}
	if err != nil {
		s.pace.Failed(now, address(q))
		return notIn(err)
	}
	http.SetCookie(w, s.cookie(q, key, longCookie))
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// mostSigned bounds what a device may send that has signed something.
const mostSigned = 64 << 10

// signed reads what a device has signed.
func signed(q *http.Request) ([]byte, error) {
	sent, err := io.ReadAll(io.LimitReader(q.Body, mostSigned+1))
	if err != nil || len(sent) > mostSigned {
		return nil, errors.Join(err, &roomful.Error{Summary: "reading what the device has signed: it is too long", Hint: "begin again"})
	}
	return sent, nil
}
