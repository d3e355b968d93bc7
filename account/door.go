package account

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"roomful"
	"roomful/store"
)

// How long things hold (judgement). A device that is used every week stays signed in.
const (
	invitationFor = 7 * 24 * time.Hour
	deviceFor     = 90 * 24 * time.Hour
	renewAfter    = 24 * time.Hour // since it was last seen
)

// errNotIn is told to whoever is not let in, whatever the reason.
var errNotIn = &roomful.Error{Summary: "this link or sign-in does not hold, or no longer", Hint: "ask your coach for a new invitation"}

// Visitor is somebody who is signed in.
type Visitor struct {
	Gym     string // id
	Account store.Account
	Hash    string // of the device's secret
	renew   *store.SignIn
}

// May reports whether the visitor may do something.
func (v Visitor) May(a Action) bool { return May(v.Account.Role, a) }

// FirstOwner invites the owner of a gym that has no account yet; else it fails with
// [store.ErrTaken].
func FirstOwner(b *store.Books, now time.Time, random io.Reader) (secret string, err error) {
	all, err := b.Accounts()
	if err != nil {
		return "", err
	}
	if slices.ContainsFunc(all, func(a store.Account) bool { return a.Role == store.Owner && a.ClosedAt.IsZero() }) {
		return "", store.ErrTaken
	}
	return invite(b, store.Owner, "", now, random)
}

// Invite makes an invitation on behalf of a visitor, for somebody of the people or, with
// an empty person, for whoever takes it up.
func (v Visitor) Invite(b *store.Books, role, person string, now time.Time, random io.Reader) (secret string, err error) {
	if roles := []string{store.Owner, store.Coach, store.Member, store.Screen}; !slices.Contains(roles, role) {
		return "", &roomful.Error{Summary: fmt.Sprintf("inviting: no role is called %q", role), Hint: "the roles are " + strings.Join(roles, ", ")}
	}
	if ok, err := mayInvite(b, v.Account, role, person); err != nil || !ok {
		return "", cmp.Or[error](err, &roomful.Error{Summary: "inviting: that is not yours to do", Hint: "ask the owner of the gym"})
	}
	if role == store.Member && person == "" {
		return "", &roomful.Error{Summary: "inviting a member: for whom", Hint: "add them to the people first, a name is enough"}
	}
	return invite(b, role, person, now, random)
}

// mayInvite reports whether an account may invite to a role, and as one of the people,
// whose body and record are then before whoever holds the link. So it has to be somebody
// all of whose accounts it might have invited, or its own.
func mayInvite(b *store.Books, by store.Account, role, person string) (bool, error) {
	if !MayInvite(by.Role, role) || person == "" || person == by.Person {
		return MayInvite(by.Role, role), nil
	}
	all, err := b.Accounts()
	return err == nil && !slices.ContainsFunc(all, func(a store.Account) bool {
		return a.Person == person && a.ClosedAt.IsZero() && !MayInvite(by.Role, a.Role)
	}), err
}

// invite writes an invitation down and returns its secret.
func invite(b *store.Books, role, person string, now time.Time, random io.Reader) (string, error) {
	secret, hash, err := newSecret(random)
	if err != nil {
		return "", err
	}
	return secret, b.PutInvitation(store.Invitation{Hash: hash, Person: person, Role: role, Until: now.Add(invitationFor)})
}

// Invited says whom an invitation is for, without taking it up. It holds only while
// whoever made it may still make it.
func Invited(tx *store.Tx, secret string, now time.Time) (store.Invitation, error) {
	i, err := tx.Invitation(hashOf(secret))
	if errors.Is(err, store.ErrMissing) || err == nil && (!i.UsedAt.IsZero() || i.Until.Before(now)) {
		return store.Invitation{}, errNotIn
	}
	if err != nil || i.Account == "" { // the program itself invites the first owner
		return i, err
	}
	b := tx.In(i.Gym)
	by, err := b.Account(i.Account)
	if errors.Is(err, store.ErrMissing) || err == nil && !by.ClosedAt.IsZero() {
		return store.Invitation{}, errNotIn
	}
	if err != nil {
		return i, err
	}
	if ok, err := mayInvite(b, by, i.Role, i.Person); err != nil || !ok {
		return store.Invitation{}, cmp.Or[error](err, errNotIn)
	}
	return i, nil
}

// Coming is a device that comes in, and when.
type Coming struct {
	Device string // as it names itself
	At     time.Time
	Random io.Reader // for its secret
}

// Newcomer is somebody whom an invitation opens an account for: its id, and what they
// are called when they are not among the people.
type Newcomer struct{ ID, Name string }

// Accept takes an invitation up: it opens an account, or finds the one that the person
// has, and signs the device in.
func Accept(tx *store.Tx, secret string, who Newcomer, c Coming) (key string, v Visitor, err error) {
	i, err := Invited(tx, secret, c.At)
	if err != nil {
		return "", v, err
	}
	b := tx.In(i.Gym)
	if err := b.UseInvitation(i.Hash); err != nil {
		return "", v, errNotIn
	}
	a, err := accountFor(b, i, who, c.At)
	if err != nil {
		return "", v, err
	}
	return SignIn(b, a, c)
}

// accountFor finds or opens the account that an invitation is for.
func accountFor(b *store.Books, i store.Invitation, who Newcomer, now time.Time) (store.Account, error) {
	if i.Person != "" {
		p, err := b.Person(i.Person)
		if err != nil {
			return store.Account{}, err
		}
		who.Name = p.Name
		all, err := b.Accounts()
		if err != nil {
			return store.Account{}, err
		}
		for _, a := range all {
			if a.Person == i.Person && a.Role == i.Role && a.ClosedAt.IsZero() {
				return a, nil
			}
		}
	}
	a := store.Account{ID: who.ID, Person: i.Person, Name: who.Name, Role: i.Role, MadeAt: now}
	return a, b.PutAccount(a)
}

// Opens reports whether a password opens an account, and whether it had better be hashed
// anew. It takes as long for an account that has none, or is not there: the zero value.
func Opens(a store.Account, password string) (ok, stale bool) {
	ok, stale = CheckPassword(a.Password, password)
	return ok && a.ClosedAt.IsZero(), stale
}

// Enter signs a device in to an account that a password has opened a moment ago, unless
// it has been closed or given another password meanwhile. A password that was hashed anew
// is kept so; empty for none.
func Enter(b *store.Books, was store.Account, anew string, c Coming) (key string, v Visitor, err error) {
	a, err := b.Account(was.ID)
	if errors.Is(err, store.ErrMissing) || err == nil && (!a.ClosedAt.IsZero() || a.Password != was.Password) {
		return "", v, errNotIn
	}
	if err == nil && anew != "" {
		a.Password = anew
		err = b.PutAccount(a)
	}
	if err != nil {
		return "", v, err
	}
	return SignIn(b, a, c)
}

// SignIn gives a device a secret to come back to an account with.
func SignIn(b *store.Books, a store.Account, c Coming) (key string, v Visitor, err error) {
	key, hash, err := newSecret(c.Random)
	if err != nil {
		return "", v, err
	}
	v = Visitor{Gym: b.ID(), Account: a, Hash: hash}
	return key, v, b.PutSignIn(store.SignIn{Hash: hash, Account: a.ID, Device: c.Device, MadeAt: c.At, SeenAt: c.At, Until: c.At.Add(deviceFor)})
}

// Find finds an account by what somebody calls themselves, its name or id, in a gym by
// its name or id, or in the only one there is. Nobody, and somebody whom that leaves in
// doubt, is the zero account: see [Opens].
func Find(tx *store.Tx, gym, who string) (string, store.Account, error) {
	gyms, err := tx.Gyms()
	if err != nil {
		return "", store.Account{}, err
	}
	at := slices.IndexFunc(gyms, func(g store.Gym) bool {
		return g.ID == gym || strings.EqualFold(g.Name, gym) || gym == "" && len(gyms) == 1
	})
	if at < 0 {
		return gym, store.Account{}, nil
	}
	all, err := tx.In(gyms[at].ID).Accounts()
	found := store.Account{}
	for _, a := range all {
		switch {
		case a.ID == who:
			return gyms[at].ID, a, nil
		case !strings.EqualFold(a.Name, who) || a.Password == "" || !a.ClosedAt.IsZero():
		case found.ID != "":
			return gyms[at].ID, store.Account{}, err
		default:
			found = a
		}
	}
	return gyms[at].ID, found, err
}

// Forget ends the sign-in of a device that comes in anew.
func Forget(tx *store.Tx, key string) error {
	s, err := tx.SignIn(hashOf(key))
	if errors.Is(err, store.ErrMissing) {
		return nil
	}
	if err != nil {
		return err
	}
	return tx.In(s.Gym).SignOut(s.Account, s.Hash)
}

// Who finds who comes with a device's secret.
func Who(tx *store.Tx, key string, now time.Time) (v Visitor, err error) {
	s, err := tx.SignIn(hashOf(key))
	if errors.Is(err, store.ErrMissing) || err == nil && s.Until.Before(now) {
		return v, errNotIn
	}
	if err != nil {
		return v, err
	}
	a, err := tx.In(s.Gym).Account(s.Account)
	if err != nil || !a.ClosedAt.IsZero() {
		return v, errNotIn
	}
	v = Visitor{Gym: s.Gym, Account: a, Hash: s.Hash}
	if now.Sub(s.SeenAt) >= renewAfter {
		s.SeenAt, s.Until = now, now.Add(deviceFor)
		v.renew = &s
	}
	return v, nil
}

// ToRenew reports whether the device has not been seen for a day, and had better be
// written down anew.
func (v Visitor) ToRenew() bool { return v.renew != nil }

// Renew writes down that the device was seen.
func (v Visitor) Renew(b *store.Books) error {
	if v.renew == nil {
		return nil
	}
	return b.PutSignIn(*v.renew)
}
