package web

import (
	"mime"
	"net/http"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// entering is what somebody signs in with: the gym and the account by id or name. The
// gym may be left out where there is one.
type entering struct{ Gym, Account, Password string }

// enterPage is where people come back who have no sign-in on this device.
func (s *Server) enterPage(w http.ResponseWriter, q *http.Request, _ visit) error {
	return s.show(w, http.StatusOK, page.Frame{Title: "Come back in", Said: sentence(q)}, page.Enter{Passkeys: s.passkeysWork(q)})
}

// enter signs a device in by password.
func (s *Server) enter(w http.ResponseWriter, q *http.Request, _ visit) error {
	sent, form, err := readEntering(q)
	if err != nil {
		return err
	}
	now := s.Now()
	var gym string
	var a store.Account
	if err := s.Store.View(q.Context(), func(tx *store.Tx) (err error) {
		gym, a, err = account.Find(tx, sent.Gym, sent.Account)
		return err
	}); err != nil {
		return err
	}
	who := a.ID
	if who == "" {
		who = sent.Account // paced too, so that nobody learns who is there
	}
	names := []string{address(q), "account " + gym + " " + who}
	if !s.pace.Begin(now, names...) {
		return errTooMany
	}
	ok, stale := account.Opens(a, sent.Password) // outside of any transaction: it is slow
	s.pace.End(now, !ok, names...)
	switch {
	case !ok && form && wantsPage(q):
		return s.show(w, http.StatusUnauthorized, page.Frame{Title: "Come back in"}, page.Enter{Passkeys: s.passkeysWork(q), Account: sent.Account, Gym: sent.Gym,
			Wrong: "That name and that password do not go together here. Try again, or ask for a new link."})
	case !ok:
		return errNotIn
	}
	anew := ""
	if stale {
		if anew, err = account.HashPassword(sent.Password, s.Random); err != nil {
			return err
		}
	}
	key, err := s.enterAs(q, func(tx *store.Tx) (string, account.Visitor, error) {
		return account.Enter(tx.In(gym), a, anew, s.coming(q, now))
	})
	if err != nil {
		return notIn(err)
	}
	http.SetCookie(w, s.cookie(q, key, longCookie))
	if form {
		http.Redirect(w, q, "/", http.StatusSeeOther)
		return nil
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// formed reports whether a page's form was sent, and reads it.
func formed(q *http.Request) (bool, error) {
	kind, _, _ := mime.ParseMediaType(q.Header.Get("Content-Type"))
	if kind != "application/x-www-form-urlencoded" {
		return false, nil
	}
	if err := q.ParseForm(); err != nil {
		return true, &refusal{http.StatusBadRequest, roomful.Error{Summary: "reading the form: " + err.Error(), Hint: "try again"}}
	}
	return true, nil
}

// readEntering reads what somebody signs in with, from a script or from a form.
func readEntering(q *http.Request) (sent entering, form bool, err error) {
	if form, err = formed(q); form || err != nil {
		return entering{q.PostFormValue("gym"), q.PostFormValue("account"), q.PostFormValue("password")}, form, err
	}
	return sent, false, read(q, &sent)
}

// choosing is a password that somebody chooses.
type choosing struct{ Password string }

// known are the ids by which somebody comes in with a password.
type known struct {
	Gym     string `json:"gym"`
	Account string `json:"account"`
}

// setPassword sets the visitor's password, and signs their other devices out: whoever
// changes a password may have lost one.
func (s *Server) setPassword(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent choosing
	form, err := formed(q)
	if sent.Password = q.PostFormValue("password"); err == nil && !form {
		err = read(q, &sent)
	}
	if err != nil {
		return err
	}
	kept, err := account.HashPassword(sent.Password, s.Random)
	if err != nil {
		return err
	}
	if err := s.Store.Update(q.Context(), s.by(v), func(tx *store.Tx) error {
		b := tx.In(v.Gym)
		a, err := b.Account(v.Account.ID)
		if err != nil {
			return err
		}
		a.Password = kept
		devices, err := b.SignIns(a.ID)
		if err != nil {
			return err
		}
		for _, d := range devices {
			if d.Hash != v.Hash {
				if err := b.SignOut(a.ID, d.Hash); err != nil {
					return err
				}
			}
		}
		return b.PutAccount(a)
	}); err != nil {
		return err
	}
	if form {
		return next(w, q, "/me?said=password")
	}
	return answer(w, known{v.Gym, v.Account.ID})
}
