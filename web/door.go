package web

import (
	"errors"
	"net"
	"net/http"
	"strings"
	"time"

	"roomful"
	"roomful/account"
	"roomful/store"
)

// invited shows whom an invitation is for, and takes nothing up: programs that look at
// links before people do must not use them.
func (s *Server) invited(w http.ResponseWriter, q *http.Request, _ visit) error {
	var i store.Invitation
	show := struct{ Gym, Name, Role string }{}
	if err := s.Store.View(q.Context(), func(tx *store.Tx) (err error) {
		if i, err = account.Invited(tx, q.PathValue("secret"), s.Now()); err != nil {
			return err
		}
		gym, err := tx.In(i.Gym).Gym()
		if err != nil {
			return err
		}
		show.Gym, show.Role = gym.Name, i.Role
		if i.Person != "" {
			p, err := tx.In(i.Gym).Person(i.Person)
			show.Name = p.Name
			return err
		}
		return nil
	}); err != nil {
		return notIn(err)
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	return invitedPage.Execute(w, show)
}

// notIn is a refusal at the door.
func notIn(err error) error {
	if roomful.HintOf(err) == "" {
		return err
	}
	return &refusal{http.StatusForbidden, roomful.Error{Summary: err.Error(), Hint: roomful.HintOf(err)}}
}

// comeIn takes an invitation up and signs the device in.
func (s *Server) comeIn(w http.ResponseWriter, q *http.Request, _ visit) error {
	now := s.Now()
	host, _, _ := net.SplitHostPort(q.RemoteAddr)
	if !s.pace.Allow(now, "address "+host) {
		return errTooMany
	}
	id, err := s.NewID()
	if err != nil {
		return err
	}
	name := strings.Join(strings.Fields(q.PostFormValue("name")), " ")
	if len(name) > 200 {
		return &roomful.Error{Summary: "coming in: that name is too long", Hint: "a short one will do"}
	}
	var key string
	if err := s.Store.Update(q.Context(), store.By{At: now}, func(tx *store.Tx) (err error) {
		key, _, err = account.Accept(tx, q.PathValue("secret"), account.Newcomer{ID: id, Name: name}, s.coming(q, now))
		return err
	}); err != nil {
		s.pace.Failed(now, "address "+host)
		return notIn(err)
	}
	http.SetCookie(w, s.cookie(key, longCookie))
	http.Redirect(w, q, "/", http.StatusSeeOther)
	return nil
}

// code draws an invitation's link for a camera.
func (s *Server) code(w http.ResponseWriter, q *http.Request, _ visit) error {
	if err := s.Store.View(q.Context(), func(tx *store.Tx) error {
		_, err := account.Invited(tx, q.PathValue("secret"), s.Now())
		return err
	}); err != nil {
		return notIn(err)
	}
	scheme := "https://"
	if s.Plain {
		scheme = "http://"
	}
	w.Header().Set("Content-Type", "image/svg+xml")
	return account.WriteCode(w, scheme+q.Host+"/in/"+q.PathValue("secret"))
}

// enter signs a device in by password.
func (s *Server) enter(w http.ResponseWriter, q *http.Request, _ visit) error {
	var sent struct{ Gym, Account, Password string }
	if err := read(q, &sent); err != nil {
		return err
	}
	now := s.Now()
	host, _, _ := net.SplitHostPort(q.RemoteAddr)
	names := []string{"address " + host, "account " + sent.Gym + " " + sent.Account}
	if !s.pace.Allow(now, names...) {
		return errTooMany
	}
	var a store.Account
	if err := s.Store.View(q.Context(), func(tx *store.Tx) (err error) {
		a, err = tx.In(sent.Gym).Account(sent.Account)
		return err
	}); err != nil && !errors.Is(err, store.ErrMissing) {
		return err
	}
	ok, stale := account.Opens(a, sent.Password) // outside of any transaction: it is slow
	if !ok {
		s.pace.Failed(now, names...)
		return errNotIn
	}
	if stale {
		kept, err := account.HashPassword(sent.Password, s.Random)
		if err != nil {
			return err
		}
		a.Password = kept
	}
	var key string
	if err := s.Store.Update(q.Context(), store.By{Account: a.ID, At: now}, func(tx *store.Tx) (err error) {
		b := tx.In(sent.Gym)
		if stale {
			if err := b.PutAccount(a); err != nil {
				return err
			}
		}
		key, _, err = account.SignIn(b, a, s.coming(q, now))
		return err
	}); err != nil {
		return err
	}
	http.SetCookie(w, s.cookie(key, longCookie))
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// setPassword sets the visitor's password, and signs their other devices out: whoever
// changes a password may have lost one.
func (s *Server) setPassword(w http.ResponseWriter, q *http.Request, v visit) error {
	var sent struct{ Password string }
	if err := read(q, &sent); err != nil {
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
	return answer(w, struct {
		Gym     string `json:"gym"`
		Account string `json:"account"`
	}{v.Gym, v.Account.ID})
}

// longCookie is the longest that browsers keep one; the store decides.
const longCookie = 400 * 24 * time.Hour

// cookie is what a device keeps.
func (s *Server) cookie(key string, keep time.Duration) *http.Cookie {
	return &http.Cookie{Name: cookieName, Value: key, Path: "/", MaxAge: int(keep.Seconds()), HttpOnly: true, Secure: !s.Plain, SameSite: http.SameSiteLaxMode}
}

// coming is the device that asks, by what it calls itself, shortened.
func (s *Server) coming(q *http.Request, now time.Time) account.Coming {
	name := q.UserAgent()
	return account.Coming{Device: name[:min(len(name), 200)], At: now, Random: s.Random}
}

// home says who is signed in where.
func (s *Server) home(w http.ResponseWriter, q *http.Request, v visit) error {
	show := struct{ Gym, Name, Role string }{Name: v.Account.Name, Role: v.Account.Role}
	if err := s.Store.View(q.Context(), func(tx *store.Tx) error {
		gym, err := tx.In(v.Gym).Gym()
		show.Gym = gym.Name
		return err
	}); err != nil {
		return err
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	return homePage.Execute(w, show)
}

// signOut ends the sign-in of this device.
func (s *Server) signOut(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.leave(w, q, v, v.Hash)
}

// signOutEverywhere ends the sign-ins of all devices of the account.
func (s *Server) signOutEverywhere(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.leave(w, q, v)
}

// leave signs devices out and forgets the cookie.
func (s *Server) leave(w http.ResponseWriter, q *http.Request, v visit, hashes ...string) error {
	if err := s.Store.Update(q.Context(), s.by(v), func(tx *store.Tx) error { return tx.In(v.Gym).SignOut(v.Account.ID, hashes...) }); err != nil {
		return err
	}
	http.SetCookie(w, s.cookie("", -time.Second))
	if strings.Contains(q.Header.Get("Accept"), "text/html") {
		http.Redirect(w, q, "/", http.StatusSeeOther)
		return nil
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// invite makes an invitation and answers with its link.
func (s *Server) invite(w http.ResponseWriter, q *http.Request, v visit) error {
	var ask struct{ Role, Person string }
	if err := read(q, &ask); err != nil {
		return err
	}
	var secret string
	if err := s.Store.Update(q.Context(), s.by(v), func(tx *store.Tx) (err error) {
		b := tx.In(v.Gym)
		if ask.Person != "" {
			if _, err := b.Person(ask.Person); err != nil {
				return err
			}
		}
		secret, err = v.Invite(b, ask.Role, ask.Person, s.Now(), s.Random)
		return err
	}); err != nil {
		return err
	}
	return answer(w, struct {
		Link string `json:"link"`
	}{"/in/" + secret})
}
