package store

import (
	"database/sql"
	"time"
)

// The roles, from the one who may most.
const (
	Owner  = "owner"
	Coach  = "coach"
	Member = "member"
	Screen = "screen" // a device that shows and never asks
)

// Account is somebody, or a screen, who may sign in to a gym.
type Account struct {
	ID       string
	Person   string // empty for who does not train and for a screen
	Name     string
	Role     string
	Password string // as it was hashed, empty for none
	MadeAt   time.Time
	ClosedAt time.Time // zero while it is open
}

const accounts = `SELECT id, COALESCE(person_id, ''), name, role, password, made_at, closed_at FROM accounts WHERE gym_id = $1 `

func readAccount(r row) (a Account, err error) {
	var made int64
	var closed sql.NullInt64
	err = r.Scan(&a.ID, &a.Person, &a.Name, &a.Role, &a.Password, &made, &closed)
	a.MadeAt, a.ClosedAt = instant(made), instantOf(closed)
	return a, err
}

// Accounts lists all accounts of a gym, closed ones too, the oldest first.
func (b *Books) Accounts() ([]Account, error) {
	return many(b.tx, readAccount, accounts+`ORDER BY made_at, id`, b.gym)
}

// Account returns an account by id.
func (b *Books) Account(id string) (Account, error) {
	return one(b.tx, readAccount, accounts+`AND id = $2`, b.gym, id)
}

// PutAccount opens an account, or changes its name, role, password and whether it is
// closed. A closed account is signed out everywhere.
func (b *Books) PutAccount(a Account) error {
	if _, err := b.change("account", a.ID); err != nil {
		return err
	}
	if _, err := b.tx.do(`INSERT INTO accounts (gym_id, id, person_id, name, role, password, made_at, closed_at) VALUES ($1, $2, $3, $4, $5, $6, $7, $8)
		ON CONFLICT (gym_id, id) DO UPDATE SET name = excluded.name, role = excluded.role, password = excluded.password, closed_at = excluded.closed_at`,
		b.gym, a.ID, orNull(a.Person), a.Name, a.Role, a.Password, micro(a.MadeAt), maybe(a.ClosedAt)); err != nil || a.ClosedAt.IsZero() {
		return err
	}
	return b.SignOut(a.ID)
}

// Invitation lets whoever holds its secret open an account.
type Invitation struct {
	Hash    string // of the secret
	Gym     string
	Person  string // empty for somebody who does not train
	Role    string
	Account string // who invited
	Until   time.Time
	UsedAt  time.Time // zero while it is open
}

// PutInvitation writes an invitation down.
func (b *Books) PutInvitation(i Invitation) error {
	if _, err := b.change("invitation", i.Person); err != nil {
		return err
	}
	_, err := b.tx.do(`INSERT INTO invitations (hash, gym_id, person_id, role, account_id, until) VALUES ($1, $2, $3, $4, $5, $6)`,
		i.Hash, b.gym, orNull(i.Person), i.Role, b.tx.by.Account, micro(i.Until))
	return err
}

// Invitation finds an invitation of any gym by the hash of its secret.
func (t *Tx) Invitation(hash string) (Invitation, error) {
	return one(t, func(r row) (i Invitation, err error) {
		var until int64
		var used sql.NullInt64
		err = r.Scan(&i.Hash, &i.Gym, &i.Person, &i.Role, &i.Account, &until, &used)
		i.Until, i.UsedAt = instant(until), instantOf(used)
		return i, err
	}, `SELECT hash, gym_id, COALESCE(person_id, ''), role, account_id, until, used_at FROM invitations WHERE hash = $1`, hash)
}

// UseInvitation takes an invitation up, once and in time; else [ErrMissing].
func (b *Books) UseInvitation(hash string) error {
	if _, err := b.lock(); err != nil {
		return err
	}
	now := micro(b.tx.by.At)
	return b.needed(b.tx.do(`UPDATE invitations SET used_at = $1 WHERE hash = $2 AND gym_id = $3 AND used_at IS NULL AND until >= $1`, now, hash, b.gym))
}

// SignIn is a device on which somebody is signed in.
type SignIn struct {
	Hash    string // of the secret that the device holds
	Gym     string
	Account string
	Device  string // as it names itself
	MadeAt  time.Time
	SeenAt  time.Time
	Until   time.Time
}

const signins = `SELECT hash, gym_id, account_id, device, made_at, seen_at, until FROM signins `

func readSignIn(r row) (s SignIn, err error) {
	var made, seen, until int64
	err = r.Scan(&s.Hash, &s.Gym, &s.Account, &s.Device, &made, &seen, &until)
	s.MadeAt, s.SeenAt, s.Until = instant(made), instant(seen), instant(until)
	return s, err
}

// SignIn finds a sign-in of any gym by the hash of its secret.
func (t *Tx) SignIn(hash string) (SignIn, error) {
	return one(t, readSignIn, signins+`WHERE hash = $1`, hash)
}

// SignIns lists the devices of an account, the last seen first.
func (b *Books) SignIns(account string) ([]SignIn, error) {
	return many(b.tx, readSignIn, signins+`WHERE gym_id = $1 AND account_id = $2 ORDER BY seen_at DESC, hash`, b.gym, account)
}

// PutSignIn writes a sign-in down, or when it was last seen and until when it holds.
func (b *Books) PutSignIn(s SignIn) error {
	if _, err := b.lock(); err != nil {
		return err
	}
	_, err := b.tx.do(`INSERT INTO signins (hash, gym_id, account_id, device, made_at, seen_at, until) VALUES ($1, $2, $3, $4, $5, $6, $7)
		ON CONFLICT (hash) DO UPDATE SET seen_at = excluded.seen_at, until = excluded.until WHERE signins.gym_id = excluded.gym_id AND signins.account_id = excluded.account_id`,
		s.Hash, b.gym, s.Account, s.Device, micro(s.MadeAt), micro(s.SeenAt), micro(s.Until))
	return err
}

// SignOut ends the sign-ins of an account: those with a hash that is given, else all.
func (b *Books) SignOut(account string, hashes ...string) error {
	if _, err := b.change("account", account); err != nil {
		return err
	}
	if len(hashes) == 0 {
		_, err := b.tx.do(`DELETE FROM signins WHERE gym_id = $1 AND account_id = $2`, b.gym, account)
		return err
	}
	for _, hash := range hashes {
		if _, err := b.tx.do(`DELETE FROM signins WHERE gym_id = $1 AND account_id = $2 AND hash = $3`, b.gym, account, hash); err != nil {
			return err
		}
	}
	return nil
}

// Passkey is a key that a device signs in with.
type Passkey struct {
	ID         string // of the credential
	Gym        string
	Account    string
	Credential string // as the library that checks it keeps it
	MadeAt     time.Time
}

const passkeys = `SELECT id, gym_id, account_id, credential, made_at FROM passkeys `

func readPasskey(r row) (p Passkey, err error) {
	var made int64
	err = r.Scan(&p.ID, &p.Gym, &p.Account, &p.Credential, &made)
	p.MadeAt = instant(made)
	return p, err
}

// Passkeys lists the passkeys of an account, the oldest first.
func (b *Books) Passkeys(account string) ([]Passkey, error) {
	return many(b.tx, readPasskey, passkeys+`WHERE gym_id = $1 AND account_id = $2 ORDER BY made_at, id`, b.gym, account)
}

// Passkey finds a passkey of any gym by the id of its credential.
func (t *Tx) Passkey(id string) (Passkey, error) {
	return one(t, readPasskey, passkeys+`WHERE id = $1`, id)
}

// PutPasskey writes a passkey down, or how often it was used.
func (b *Books) PutPasskey(p Passkey) error {
	if _, err := b.change("account", p.Account); err != nil {
		return err
	}
	return b.taken(b.tx.do(`INSERT INTO passkeys (id, gym_id, account_id, credential, made_at) VALUES ($1, $2, $3, $4, $5)
		ON CONFLICT (id) DO UPDATE SET credential = excluded.credential WHERE passkeys.gym_id = excluded.gym_id AND passkeys.account_id = excluded.account_id`,
		p.ID, b.gym, p.Account, p.Credential, micro(p.MadeAt)))
}

// NewPasskey writes a new passkey down; [ErrTaken] when any gym knows it already.
func (b *Books) NewPasskey(p Passkey) error {
	if _, err := b.change("account", p.Account); err != nil {
		return err
	}
	return b.taken(b.tx.do(`INSERT INTO passkeys (id, gym_id, account_id, credential, made_at) VALUES ($1, $2, $3, $4, $5) ON CONFLICT DO NOTHING`,
		p.ID, b.gym, p.Account, p.Credential, micro(p.MadeAt)))
}

// DropPasskey takes a passkey of an account away.
func (b *Books) DropPasskey(account, id string) error {
	if _, err := b.change("account", account); err != nil {
		return err
	}
	return b.needed(b.tx.do(`DELETE FROM passkeys WHERE gym_id = $1 AND account_id = $2 AND id = $3`, b.gym, account, id))
}
