package storetest

import (
	"errors"
	"testing"
	"time"

	"roomful/store"
)

func accounts(t *testing.T, h *house) {
	h.somebody("mo")
	a := store.Account{ID: "a1", Person: "mo", Name: "Mo", Role: store.Member, MadeAt: Now}
	i := store.Invitation{Hash: "h1", Person: "mo", Role: store.Member, Until: Now.Add(time.Hour)}
	h.update(func(tx *store.Tx) error {
		b := tx.In(ours)
		return errors.Join(b.PutAccount(a), b.PutInvitation(i))
	})
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(theirs).UseInvitation("h1") })
	h.update(func(tx *store.Tx) error { return tx.In(ours).UseInvitation("h1") })
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).UseInvitation("h1") })
	late := i
	late.Hash, late.Until = "h2", Now.Add(-time.Second)
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutInvitation(late) })
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).UseInvitation("h2") })
	s := store.SignIn{Hash: "s1", Gym: ours, Account: "a1", Device: "phone", MadeAt: Now, SeenAt: Now, Until: Now.Add(time.Hour)}
	k := store.Passkey{ID: "k1", Gym: ours, Account: "a1", Credential: "{}", MadeAt: Now}
	h.update(func(tx *store.Tx) error { return errors.Join(tx.In(ours).PutSignIn(s), tx.In(ours).PutPasskey(k)) })
	h.same("signed in", look(h, func(b *store.Books) ([]store.SignIn, error) { return b.SignIns("a1") }), []store.SignIn{s})
	h.same("keys", look(h, func(b *store.Books) ([]store.Passkey, error) { return b.Passkeys("a1") }), []store.Passkey{k})
	h.refuse(store.ErrTaken, func(tx *store.Tx) error {
		return tx.In(theirs).NewPasskey(store.Passkey{ID: "k1", Account: "a1", Credential: "x", MadeAt: Now})
	})
	h.refuse(store.ErrTaken, func(tx *store.Tx) error { return tx.In(ours).NewPasskey(k) })
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(theirs).DropPasskey("a1", "k1") })
	h.refuse(store.ErrMissing, func(tx *store.Tx) error { return tx.In(ours).DropPasskey("a2", "k1") })
	h.update(func(tx *store.Tx) error {
		return errors.Join(tx.In(ours).NewPasskey(store.Passkey{ID: "k2", Account: "a1", Credential: "{}", MadeAt: Now}), tx.In(ours).DropPasskey("a1", "k2"))
	})
	h.same("the other key", look(h, func(b *store.Books) ([]store.Passkey, error) { return b.Passkeys("a1") }), []store.Passkey{k})
	a.ClosedAt = Now
	h.update(func(tx *store.Tx) error { return tx.In(ours).PutAccount(a) })
	h.same("closed", look(h, func(b *store.Books) ([]store.SignIn, error) { return b.SignIns("a1") }), []store.SignIn(nil))
	h.same("accounts", look(h, (*store.Books).Accounts), []store.Account{a})
}
