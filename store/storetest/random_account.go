package storetest

import (
	"time"

	"pgregory.net/rapid"

	"roomful/store"
)

// doors are steps about who may come in.
var doors = map[string]func(drawn) step{
	"account": func(d drawn) step {
		a := store.Account{ID: d.account, Name: d.text, Role: store.Member, MadeAt: Now}
		if d.number > 0 {
			a.Person = d.person
		}
		if rapid.Bool().Draw(d.T, "closed") {
			a.ClosedAt = Now
		}
		return step{func(b *store.Books) error { return b.PutAccount(a) }, func(m *model) error { return m.putAccount(a) }}
	},
	"invite": func(d drawn) step {
		i := store.Invitation{Hash: d.secret("h"), Role: store.Member, Until: Now.Add(time.Duration(d.number-1) * time.Hour)}
		if d.number > 1 {
			i.Person = d.person
		}
		return step{func(b *store.Books) error { return b.PutInvitation(i) }, func(m *model) error { return m.putInvitation(i) }}
	},
	"use invitation": func(d drawn) step {
		hash := d.secret("h")
		return step{func(b *store.Books) error { return b.UseInvitation(hash) }, func(m *model) error { return m.useInvitation(hash) }}
	},
	"sign in": func(d drawn) step {
		s := store.SignIn{Hash: d.secret("s"), Account: d.account, Device: d.text, MadeAt: Now, SeenAt: Now, Until: Now.Add(time.Duration(d.number) * time.Hour)}
		return step{func(b *store.Books) error { return b.PutSignIn(s) }, func(m *model) error { return m.putSignIn(s) }}
	},
	"sign out": func(d drawn) step {
		var hashes []string // none for everywhere
		if d.number > 1 {
			hashes = []string{d.secret("s")}
		}
		return step{func(b *store.Books) error { return b.SignOut(d.account, hashes...) }, func(m *model) error { return m.signOut(d.account, hashes...) }}
	},
	"passkey": func(d drawn) step {
		p := store.Passkey{ID: d.secret("p"), Account: d.account, Credential: d.text, MadeAt: Now}
		return step{func(b *store.Books) error { return b.NewPasskey(p) }, func(m *model) error { return m.newPasskey(p) }}
	},
	"drop passkey": func(d drawn) step {
		id := d.secret("p")
		return step{func(b *store.Books) error { return b.DropPasskey(d.account, id) }, func(m *model) error { return m.dropPasskey(d.account, id) }}
	},
}
