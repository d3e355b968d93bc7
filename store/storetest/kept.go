package storetest

import (
	"errors"
	"slices"

	"roomful"
	"roomful/store"
)

// kept is all of a gym, as lists.
type kept struct {
	Changes     []store.Change
	People      []store.Person
	Limits      []store.Limit
	Documents   []store.Document
	Classes     []store.Class
	Attempts    []store.Attempt
	Learnt      []store.Learnt
	Unlearnt    []store.Unlearnt
	Accounts    []store.Account
	Invitations []store.Invitation
	// In the order of documents:
	Revisions [][]store.Revision
	Editions  [][]store.Edition
	Overrides [][]store.Override
	Notes     [][]store.Note
	// By edition that stands, and person:
	LearntBefore map[string]map[string]store.Learnt
	// In the order of classes:
	SignUps [][]store.SignUp
	// In the order of accounts:
	SignIns  [][]store.SignIn
	Passkeys [][]store.Passkey
}

// kept lists what the model holds.
func (m *model) kept() (k kept) {
	k.Changes = m.changes
	k.People = sorted(m.people, func(p store.Person) string { return p.ID })
	k.Limits = sorted(m.limits, func(l store.Limit) string { return l.ID })
	k.Documents = sorted(m.documents, func(d store.Document) string { return d.Name })
	k.Classes = sorted(m.classes, func(c store.Class) string { return c.Day.String() + c.Start + c.ID })
	k.Attempts = sorted(m.attempts, func(a store.Attempt) int64 { return a.Seq })
	for i, a := range k.Attempts {
		k.Attempts[i].Sheet = m.documents[a.Document].Name
	}
	k.Learnt = sorted(m.learnt, func(l store.Learnt) string { return l.Person })
	k.Unlearnt, k.LearntBefore = m.unlearnt(), m.learntBefore()
	k.Accounts = sorted(m.accounts, func(a store.Account) string { return a.ID })
	k.Invitations = sorted(m.invitations, func(i store.Invitation) string { return i.Hash })
	editions := sorted(m.editions, func(e store.Edition) string { return e.ID })
	overrides := sorted(m.overrides, func(o store.Override) string { return o.Piece + o.Person })
	notes := sorted(m.notes, func(n store.Note) string { return n.ID })
	for _, d := range k.Documents {
		k.Revisions = append(k.Revisions, m.revisions[d.ID])
		k.Editions = append(k.Editions, of(editions, func(e store.Edition) string { return e.Document }, d.ID))
		k.Overrides = append(k.Overrides, of(overrides, func(o store.Override) string { return o.Document }, d.ID))
		k.Notes = append(k.Notes, of(notes, func(n store.Note) string { return n.Document }, d.ID))
	}
	for _, c := range k.Classes {
		k.SignUps = append(k.SignUps, m.signups[c.ID])
	}
	signins := sorted(m.signins, func(s store.SignIn) string { return s.Hash })
	passkeys := sorted(m.passkeys, func(p store.Passkey) string { return p.ID })
	for _, a := range k.Accounts {
		k.SignIns = append(k.SignIns, of(signins, func(s store.SignIn) string { return s.Account }, a.ID))
		k.Passkeys = append(k.Passkeys, of(passkeys, func(p store.Passkey) string { return p.Account }, a.ID))
	}
	return k
}

// keptBy lists what a store holds of a gym. Nobody may list invitations: they are asked
// for by the hashes that are drawn.
func keptBy(tx *store.Tx, gym string) (k kept, err error) {
	b := tx.In(gym)
	ask := func(f func() error) {
		if err == nil {
			err = f()
		}
	}
	ask(func() (err error) { k.Changes, err = b.Changes(0, 10_000); return err })
	ask(func() (err error) { k.People, err = b.People(true); return err })
	ask(func() (err error) { k.Limits, err = b.Limits(""); return err })
	ask(func() (err error) { k.Documents, err = b.Documents(store.Sheet); return err })
	ask(func() (err error) { k.Classes, err = b.Classes(roomful.Date{}, day.Plus(9)); return err })
	ask(func() (err error) { k.Attempts, err = b.Attempts(0, 10_000); return err })
	ask(func() (err error) { k.Learnt, err = b.Learnt(""); return err })
	ask(func() (err error) { k.Unlearnt, err = b.Unlearnt(0); return err })
	ask(func() (err error) { k.Accounts, err = b.Accounts(); return err })
	for _, hash := range []string{gym + "h1", gym + "h2"} {
		ask(func() error {
			i, err := tx.Invitation(hash)
			if errors.Is(err, store.ErrMissing) {
				return nil
			}
			k.Invitations = append(k.Invitations, i)
			return err
		})
	}
	for _, d := range k.Documents {
		ask(func() error { all, err := b.Revisions(d.ID); k.Revisions = append(k.Revisions, all); return err })
		ask(func() error { all, err := b.Editions(d.ID); k.Editions = append(k.Editions, all); return err })
		ask(func() error { all, err := b.Overrides(d.ID); k.Overrides = append(k.Overrides, all); return err })
		ask(func() error { all, err := b.Notes(d.ID); k.Notes = append(k.Notes, all); return err })
	}
	for _, c := range k.Classes {
		ask(func() error { all, err := b.SignUps(c.ID); k.SignUps = append(k.SignUps, all); return err })
	}
	for _, a := range k.Accounts {
		ask(func() error { all, err := b.SignIns(a.ID); k.SignIns = append(k.SignIns, all); return err })
		ask(func() error { all, err := b.Passkeys(a.ID); k.Passkeys = append(k.Passkeys, all); return err })
	}
	ask(func() (err error) { k.LearntBefore, err = learntBefore(b, k); return err })
	return k, err
}

// learntBefore is what a store says that the editions that stand rest on, by edition and
// person.
func learntBefore(b *store.Books, k kept) (map[string]map[string]store.Learnt, error) {
	out := map[string]map[string]store.Learnt{}
	for _, e := range slices.Concat(k.Editions...) {
		if !e.Stands(roomful.DateOf(Now)) {
			continue
		}
		out[e.ID] = map[string]store.Learnt{}
		for _, p := range k.People {
			l, known, err := b.LearntBefore(p.ID, e.Seq)
			if err != nil {
				return nil, err
			}
			if known {
				out[e.ID][p.ID] = store.Learnt{Person: p.ID, Abilities: l.Abilities, Model: l.Model}
			}
		}
	}
	return out, nil
}
