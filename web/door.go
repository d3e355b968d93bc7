package web

import (
	"net/http"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// invitedPage shows whom an invitation is for, and takes nothing up: programs that look at
// links before people do must not use them.
func (s *Server) invitedPage(w http.ResponseWriter, q *http.Request, _ visit) error {
	var i store.Invitation
	frame, show := page.Frame{Title: "Come in"}, page.Invited{}
	if err := s.Store.View(q.Context(), func(tx *store.Tx) (err error) {
		if i, err = account.Invited(tx, q.PathValue("secret"), s.Now()); err != nil {
			return err
		}
		gym, err := tx.In(i.Gym).Gym()
		if err != nil {
			return err
		}
		frame.Gym, show.Role = gym.Name, i.Role
		if i.Person != "" {
			p, err := tx.In(i.Gym).Person(i.Person)
			show.Name = p.Name
			return err
		}
		return nil
	}); err != nil {
		return notIn(err)
	}
	return s.show(w, http.StatusOK, frame, show)
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
	if !s.pace.Allow(now, address(q)) {
		return errTooMany
	}
	id, err := s.NewID()
	if err != nil {
		return err
	}
	name := legible(q.PostFormValue("name"))
	if len(name) > 200 {
		return &roomful.Error{Summary: "coming in: that name is too long", Hint: "a short one will do"}
	}
	key, err := s.enterAs(q, func(tx *store.Tx) (string, account.Visitor, error) {
		return account.Accept(tx, q.PathValue("secret"), account.Newcomer{ID: id, Name: name}, s.coming(q, now))
	})
	if err != nil {
		s.pace.Failed(now, address(q))
		return notIn(err)
	}
	http.SetCookie(w, s.cookie(q, key, longCookie))
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
	w.Header().Set("Content-Type", "image/svg+xml")
	return account.WriteCode(w, s.base(q)+"/in/"+q.PathValue("secret"))
}

// enterAs signs a device in, and ends the sign-in that it had before.
func (s *Server) enterAs(q *http.Request, in func(*store.Tx) (key string, v account.Visitor, err error)) (key string, err error) {
	before := ""
	if c, err := q.Cookie(s.cookieName(q)); err == nil {
		before = c.Value
	}
	return key, s.Store.Update(q.Context(), store.By{At: s.Now()}, func(tx *store.Tx) (err error) {
		if key, _, err = in(tx); err != nil || before == "" {
			return err
		}
		return account.Forget(tx, before)
	})
}

// longCookie is the longest that browsers keep one; the store decides.
const longCookie = 400 * 24 * time.Hour

// cookie is what a device keeps.
func (s *Server) cookie(q *http.Request, key string, keep time.Duration) *http.Cookie {
	return &http.Cookie{Name: s.cookieName(q), Value: key, Path: "/", MaxAge: int(keep.Seconds()), HttpOnly: true, Secure: s.secure(q), SameSite: http.SameSiteLaxMode}
}

// legible is a name without what cannot be seen: bytes that are no letters, controls,
// and marks that turn the text around.
func legible(name string) string {
	name = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case r == utf8.RuneError || unicode.IsControl(r) || unicode.Is(unicode.Bidi_Control, r):
			return -1
		}
		return r
	}, name)
	return strings.Join(strings.Fields(name), " ")
}

// coming is the device that asks, by what it calls itself, shortened.
func (s *Server) coming(q *http.Request, now time.Time) account.Coming {
	name := []rune(legible(q.UserAgent()))
	return account.Coming{Device: string(name[:min(len(name), 200)]), At: now, Random: s.Random}
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
	s.forget(w, q)
	if wantsPage(q) {
		return next(w, q, "/enter")
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// forget has the browser forget the key, and all that its pages have kept of what was typed.
// Browsers do the latter over https alone; elsewhere the form that signs out does (keep.js).
func (s *Server) forget(w http.ResponseWriter, q *http.Request) {
	http.SetCookie(w, s.cookie(q, "", -time.Second))
	w.Header().Set("Clear-Site-Data", `"storage"`)
}

// inviting is whom somebody invites: a role, and for a member who of the people it is.
type inviting struct{ Role, Person string }

// invitation is a link that lets one person in.
type invitation struct {
	Link string `json:"link"`
}

// invite makes an invitation and answers with its link.
func (s *Server) invite(w http.ResponseWriter, q *http.Request, v visit) error {
	var ask inviting
	if err := read(q, &ask); err != nil {
		return err
	}
	secret, err := s.invitation(q, v, ask)
	if err != nil {
		return err
	}
	return answer(w, invitation{"/in/" + secret})
}

// invitation makes an invitation and gives its secret.
func (s *Server) invitation(q *http.Request, v visit, ask inviting) (secret string, err error) {
	if ask.Role == store.Owner || ask.Role == store.Coach || ask.Role == store.Screen {
		if !v.May(account.InviteStaff) {
			return "", errNotYours
		}
	}
	err = s.update(q, v, func(b *store.Books) (err error) {
		if ask.Person != "" {
			if _, err := b.Person(ask.Person); err != nil {
				return err
			}
		}
		secret, err = v.Invite(b, ask.Role, ask.Person, s.Now(), s.Random)
		return err
	})
	return secret, err
}
