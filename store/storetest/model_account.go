package storetest

import (
	"maps"
	"slices"

	"roomful/store"
)

func (m *model) putAccount(a store.Account) error {
	was, there := m.accounts[a.ID]
	if _, person := m.people[a.Person]; !there && a.Person != "" && !person {
		return refused
	}
	if there { // whose it is and when it was made stays
		a.Person, a.MadeAt = was.Person, was.MadeAt
	}
	m.accounts[a.ID] = a
	m.change("account", a.ID)
	if !a.ClosedAt.IsZero() {
		return m.signOut(a.ID)
	}
	return nil
}

func (m *model) putInvitation(i store.Invitation) error {
	_, taken := m.invitations[i.Hash]
	if _, person := m.people[i.Person]; taken || i.Person != "" && !person {
		return refused
	}
	i.Gym, i.Account = m.gym, "coach"
	m.invitations[i.Hash] = i
	m.change("invitation", i.Person)
	return nil
}

func (m *model) useInvitation(hash string) error {
	i, there := m.invitations[hash]
	if !there || !i.UsedAt.IsZero() || i.Until.Before(Now) {
		return store.ErrMissing
	}
	i.UsedAt = Now
	m.invitations[hash] = i
	return nil
}

func (m *model) putSignIn(s store.SignIn) error {
	was, there := m.signins[s.Hash]
	_, account := m.accounts[s.Account]
	switch {
	case !there && !account:
		return refused
	case !there:
		s.Gym = m.gym
		m.signins[s.Hash] = s
	case was.Account == s.Account:
		was.SeenAt, was.Until = s.SeenAt, s.Until
		m.signins[s.Hash] = was
	}
	return nil
}

func (m *model) signOut(account string, hashes ...string) error {
	maps.DeleteFunc(m.signins, func(hash string, s store.SignIn) bool {
		return s.Account == account && (len(hashes) == 0 || slices.Contains(hashes, hash))
	})
	m.change("account", account)
	return nil
}

func (m *model) newPasskey(p store.Passkey) error {
	if _, taken := m.passkeys[p.ID]; taken {
		return store.ErrTaken
	}
	if _, account := m.accounts[p.Account]; !account {
		return refused
	}
	p.Gym = m.gym
	m.passkeys[p.ID] = p
	m.change("account", p.Account)
	return nil
}

func (m *model) dropPasskey(account, id string) error {
	if m.passkeys[id].Account != account {
		return store.ErrMissing
	}
	delete(m.passkeys, id)
	m.change("account", account)
	return nil
}

// closeOf takes away what belongs to accounts of a person.
func (m *model) closeOf(person string) {
	gone := func(account string) bool { return m.accounts[account].Person == person }
	maps.DeleteFunc(m.signins, func(_ string, s store.SignIn) bool { return gone(s.Account) })
	maps.DeleteFunc(m.passkeys, func(_ string, p store.Passkey) bool { return gone(p.Account) })
	maps.DeleteFunc(m.accounts, func(_ string, a store.Account) bool { return a.Person == person })
	maps.DeleteFunc(m.invitations, func(_ string, i store.Invitation) bool { return i.Person == person })
}
