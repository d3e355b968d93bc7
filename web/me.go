package web

import (
	"net/http"

	"roomful/account"
	"roomful/store"
	"roomful/web/page"
)

// mePage is one's own page: how one comes in, and what is kept of one.
func (s *Server) mePage(w http.ResponseWriter, q *http.Request, v visit) error {
	var frame page.Frame
	if err := s.view(q, v, func(b *store.Books) (err error) {
		frame, err = s.frame(b, q, v, "/me", v.Account.Name)
		return err
	}); err != nil {
		return err
	}
	return s.show(w, http.StatusOK, frame, page.Me{Name: v.Account.Name, Role: v.Account.Role,
		Passkeys: v.May(account.AddPasskey) && s.passkeysWork(q), Password: v.May(account.SetPassword)})
}
