package web

import (
	"net/http"
	"slices"

	"roomful"
	"roomful/store"
)

// signer is somebody who may sign in, as an owner sees them.
type signer struct {
	ID       string `json:"id"`
	Name     string `json:"name"`
	Role     string `json:"role"`
	Person   string `json:"person"` // empty for who does not train
	Password bool   `json:"password"`
	Passkeys int    `json:"passkeys"`
	Devices  int    `json:"devices"` // that are signed in
	MadeAt   string `json:"made_at"`
	ClosedAt string `json:"closed_at"` // empty while it is open
}

// accounts lists who may sign in, and who could.
func (s *Server) accounts(w http.ResponseWriter, q *http.Request, v visit) error {
	out := struct {
		Accounts []signer `json:"accounts"`
	}{[]signer{}}
	if err := s.view(q, v, func(b *store.Books) error {
		all, err := signers(b)
		out.Accounts = append(out.Accounts, all...)
		return err
	}); err != nil {
		return err
	}
	return answer(w, out)
}

// signers are all accounts as an owner sees them.
func signers(b *store.Books) (out []signer, err error) {
	all, err := b.Accounts()
	if err != nil {
		return nil, err
	}
	for _, a := range all {
		keys, err := b.Passkeys(a.ID)
		if err != nil {
			return nil, err
		}
		devices, err := b.SignIns(a.ID)
		if err != nil {
			return nil, err
		}
		out = append(out, signer{a.ID, a.Name, a.Role, a.Person, a.Password != "", len(keys), len(devices), instant(a.MadeAt), instant(a.ClosedAt)})
	}
	return out, nil
}

// closeAccount closes an account for good: its devices are signed out, and its password,
// its passkeys and the invitations that it made let nobody in.
func (s *Server) closeAccount(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.changeAccount(w, q, v, func(b *store.Books, a store.Account) error {
		if last, err := lastOwner(b, func(o store.Account) bool { return o.ID == a.ID }); err != nil || last {
			return orElse(err, errLastOwner)
		}
		a.ClosedAt = s.Now()
		return b.PutAccount(a)
	})
}

// signOutAccount signs an account out on every device, such as one that was lost.
func (s *Server) signOutAccount(w http.ResponseWriter, q *http.Request, v visit) error {
	return s.changeAccount(w, q, v, func(b *store.Books, a store.Account) error { return b.SignOut(a.ID) })
}

// changeAccount changes an account that a path names.
func (s *Server) changeAccount(w http.ResponseWriter, q *http.Request, v visit, change func(*store.Books, store.Account) error) error {
	if err := s.update(q, v, func(b *store.Books) error {
		a, err := b.Account(q.PathValue("account"))
		if err != nil {
			return err
		}
		return change(b, a)
	}); err != nil {
		return err
	}
	if wantsPage(q) {
		return next(w, q, "/accounts?said=account")
	}
	w.WriteHeader(http.StatusNoContent)
	return nil
}

// errLastOwner keeps a gym from being nobody's.
var errLastOwner = &roomful.Error{Summary: "that is the only owner of the gym", Hint: "invite another owner first"}

// lastOwner reports whether a gym that has an owner would have none without some accounts.
func lastOwner(b *store.Books, gone func(store.Account) bool) (bool, error) {
	all, err := b.Accounts()
	owners := slices.DeleteFunc(all, func(a store.Account) bool { return a.Role != store.Owner || !a.ClosedAt.IsZero() })
	return len(owners) > 0 && !slices.ContainsFunc(owners, func(a store.Account) bool { return !gone(a) }), err
}

// orElse is an error, or another one.
func orElse(err, other error) error {
	if err != nil {
		return err
	}
	return other
}
