package web

import (
	"net/http"
	"net/url"
	"strings"
	"time"

	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// A link that was just made is shown for a while to the device that made it: a cookie has
// it, so that it stands in no address and no history, and reloading makes no other.
const linkShown = 10 * time.Minute

// linkPage shows the link of somebody that was just made.
func (s *Server) linkPage(w http.ResponseWriter, q *http.Request, v visit) error {
	who := q.PathValue("person")
	var frame page.Frame
	body := page.Link{Role: store.Member, Back: "/people/" + url.PathEscape(who), Make: "/people/" + url.PathEscape(who) + "/link"}
	if err := s.view(q, v, func(b *store.Books) error {
		p, err := b.Person(who)
		if err != nil {
			return err
		}
		body.Name, body.BackName = p.Name, p.Name
		frame, err = s.frame(b, q, v, "/people", "A link for "+p.Name)
		return err
	}); err != nil {
		return err
	}
	s.linkInto(q, &body)
	return s.show(w, http.StatusOK, frame, body)
}

// linkInto puts the link into the page, while it is shown.
func (s *Server) linkInto(q *http.Request, body *page.Link) {
	c, err := q.Cookie("link")
	if err != nil || !strings.HasPrefix(c.Value, "in-") {
		return
	}
	body.Path = "/in/" + url.PathEscape(strings.TrimPrefix(c.Value, "in-"))
	body.Full = s.base(q) + body.Path
}

// makeLink makes a link for somebody of the people, and leads to where it is shown.
func (s *Server) makeLink(w http.ResponseWriter, q *http.Request, v visit) error {
	who := q.PathValue("person")
	secret, err := s.invitation(q, v, inviting{store.Member, who})
	if err != nil {
		return err
	}
	return s.leadToLink(w, q, "/people/"+url.PathEscape(who)+"/link", secret)
}

// leadToLink leads to the page that shows a link.
func (s *Server) leadToLink(w http.ResponseWriter, q *http.Request, path, secret string) error {
	http.SetCookie(w, &http.Cookie{Name: "link", Value: "in-" + secret, Path: path, MaxAge: int(linkShown.Seconds()), HttpOnly: true, Secure: s.secure(q), SameSite: http.SameSiteStrictMode})
	return next(w, q, path)
}

// staffLinkPage shows the link of somebody who runs the gym, or of a screen.
func (s *Server) staffLinkPage(w http.ResponseWriter, q *http.Request, v visit) error {
	role := q.PathValue("role")
	if !account.MayInvite(v.Account.Role, role) {
		return store.ErrMissing
	}
	body := page.Link{Name: "a " + role, Role: role, Back: "/accounts", BackName: "Accounts", Make: "/accounts/link"}
	if role == store.Owner {
		body.Name = "an owner"
	}
	s.linkInto(q, &body)
	return s.showIn(w, q, v, http.StatusOK, "/settings", "A link for "+body.Name, body)
}

// makeStaffLink makes such a link.
func (s *Server) makeStaffLink(w http.ResponseWriter, q *http.Request, v visit) error {
	role := q.PostFormValue("role")
	secret, err := s.invitation(q, v, inviting{role, ""})
	if err != nil {
		return err
	}
	return s.leadToLink(w, q, "/accounts/link/"+url.PathEscape(role), secret)
}
