package storetest

import (
	"cmp"
	"maps"
	"slices"

	"roomful/store"
)

// model is a gym in memory, as plain as can be: what a store keeps is compared with it.
// Each of its methods does what the method of [store.Books] of that name says, and
// answers with the kind of refusal.
type model struct {
	gym         string
	changes     []store.Change
	people      map[string]store.Person
	limits      map[string]store.Limit
	documents   map[string]store.Document
	revisions   map[string][]store.Revision
	editions    map[string]store.Edition
	overrides   map[place]store.Override
	notes       map[string]store.Note
	classes     map[string]store.Class
	signups     map[string][]store.SignUp // by class, in the order of asking
	attempts    map[string]store.Attempt
	learnt      map[string]store.Learnt // by person
	before      map[string][]knew       // the same, with all that was known before
	early       map[string]int64        // the last change that brought something of somebody before the gym had learnt from all
	taught      bool                    // it has
	accounts    map[string]store.Account
	invitations map[string]store.Invitation // by hash
	signins     map[string]store.SignIn     // by hash
	passkeys    map[string]store.Passkey
}

// refused is an error of the database itself, such as a reference that leads nowhere.
const refused = modelError("refused")

type modelError string

// Error implements error.
func (e modelError) Error() string { return string(e) }

func newModel(gym string) *model {
	m := &model{gym: gym, people: map[string]store.Person{}, limits: map[string]store.Limit{}, documents: map[string]store.Document{},
		revisions: map[string][]store.Revision{}, editions: map[string]store.Edition{}, overrides: map[place]store.Override{}, notes: map[string]store.Note{},
		classes: map[string]store.Class{}, signups: map[string][]store.SignUp{}, attempts: map[string]store.Attempt{}, learnt: map[string]store.Learnt{}, before: map[string][]knew{}, early: map[string]int64{},
		accounts: map[string]store.Account{}, invitations: map[string]store.Invitation{}, signins: map[string]store.SignIn{}, passkeys: map[string]store.Passkey{}}
	m.change("gym", gym)
	return m
}

// change notes that something was done.
func (m *model) change(kind, subject string) int64 {
	seq := int64(len(m.changes) + 1)
	m.changes = append(m.changes, store.Change{Seq: seq, At: Now, Account: "coach", Kind: kind, Subject: subject})
	return seq
}

func (m *model) putPerson(p store.Person) error {
	if was, there := m.people[p.ID]; there && was.Revision != p.Revision {
		return store.ErrStale
	}
	p.Revision = m.people[p.ID].Revision + 1
	m.people[p.ID] = p
	m.change("person", p.ID)
	return nil
}

func (m *model) erase(id string) error {
	if _, there := m.people[id]; !there {
		return store.ErrMissing
	}
	m.change("erased", id)
	delete(m.people, id)
	maps.DeleteFunc(m.limits, func(_ string, l store.Limit) bool { return l.Person == id })
	maps.DeleteFunc(m.attempts, func(_ string, a store.Attempt) bool { return a.Person == id })
	maps.DeleteFunc(m.overrides, func(_ place, o store.Override) bool { return o.Person == id })
	maps.DeleteFunc(m.notes, func(_ string, n store.Note) bool { return n.Person == id })
	delete(m.learnt, id)
	delete(m.before, id)
	delete(m.early, id)
	m.closeOf(id)
	for class, all := range m.signups {
		stay := slices.DeleteFunc(slices.Clone(all), func(s store.SignUp) bool { return s.Person == id })
		if m.signups[class] = stay; len(stay) < len(all) { // who was in no class leaves no place in it
			m.moveUp(class)
		}
	}
	for i := range m.changes { // nothing says any more whom it was about
		if c := &m.changes[i]; c.Subject == id && slices.Contains([]string{"person", "read", "learnt", "erased"}, c.Kind) {
			c.Subject = ""
		}
	}
	return nil
}

func (m *model) putLimit(l store.Limit) error {
	if was, there := m.limits[l.ID]; there && was.Person != l.Person {
		return store.ErrMissing
	}
	if _, there := m.people[l.Person]; !there {
		return refused
	}
	m.limits[l.ID] = l
	m.change("person", l.Person)
	return nil
}

func (m *model) dropLimit(person, id string) error {
	if m.limits[id].Person != person {
		return store.ErrMissing
	}
	delete(m.limits, id)
	m.change("person", person)
	return nil
}

func (m *model) save(d store.Document) error {
	now, there := m.documents[d.ID]
	named := func() bool {
		for _, o := range m.documents {
			if o.ID != d.ID && o.Kind == d.Kind && o.Name == d.Name {
				return true
			}
		}
		return false
	}
	switch {
	case !there && d.Revision != 0:
		return store.ErrMissing
	case there && now.Text == d.Text && now.Name == d.Name:
		return nil
	case there && now.Revision != d.Revision:
		if !slices.ContainsFunc(m.revisions[d.ID], func(r store.Revision) bool { return r.Aside && r.Base == d.Revision && r.Text == d.Text }) {
			m.revise(d, true)
		}
		return nil
	case named():
		return store.ErrTaken
	}
	n := m.revise(d, false)
	d.Revision, d.At, d.Account = n, Now, "coach"
	m.documents[d.ID] = d
	return nil
}

// revise keeps a text of a document and returns its number.
func (m *model) revise(d store.Document, aside bool) int64 {
	n := int64(len(m.revisions[d.ID]) + 1)
	m.revisions[d.ID] = append(m.revisions[d.ID], store.Revision{N: n, Base: d.Revision, Aside: aside, Text: d.Text, Account: "coach", At: Now})
	m.change(d.Kind, d.ID)
	return n
}

func (m *model) putClass(c store.Class) error {
	if _, there := m.documents[c.Document]; c.Document != "" && !there {
		return refused
	}
	m.classes[c.ID] = c
	m.change("class", c.ID)
	m.prolong(c)
	m.moveUp(c.ID)
	return nil
}

func (m *model) signUp(class, person string) error {
	if _, there := m.classes[class]; !there {
		return store.ErrMissing
	}
	i := slices.IndexFunc(m.signups[class], func(s store.SignUp) bool { return s.Person == person })
	if i >= 0 {
		if s := m.signups[class][i].State; s == store.In || s == store.Waiting {
			return nil
		}
		m.signups[class] = slices.Delete(m.signups[class], i, i+1)
	}
	if _, there := m.people[person]; !there {
		return refused
	}
	s := store.SignUp{Class: class, Person: person, State: store.Waiting, Turn: m.change("class", class), At: Now}
	m.signups[class] = append(m.signups[class], s)
	m.moveUp(class)
	return nil
}

func (m *model) leave(class, person, state string) error {
	i := slices.IndexFunc(m.signups[class], func(s store.SignUp) bool { return s.Person == person })
	if i < 0 {
		return store.ErrMissing
	}
	m.signups[class][i].State = state
	m.change("class", class)
	if state != store.Missed {
		m.moveUp(class)
	}
	return nil
}

// moveUp gives free places to those who wait.
func (m *model) moveUp(class string) {
	c, all := m.classes[class], m.signups[class]
	if c.CalledOff {
		return
	}
	in := 0
	for _, s := range all {
		if s.State == store.In {
			in++
		}
	}
	for i := range all {
		if all[i].State == store.Waiting && (c.Capacity == 0 || in < c.Capacity) {
			all[i].State = store.In
			in++
		}
	}
}

func (m *model) putAttempt(a store.Attempt) error {
	if was, there := m.attempts[a.ID]; there {
		if was.Person != a.Person || was.Document != a.Document || was.Text != a.Text {
			return store.ErrTaken
		}
		return nil
	}
	_, person := m.people[a.Person]
	_, document := m.documents[a.Document]
	_, class := m.classes[a.Class]
	_, edition := m.editions[a.Edition]
	if !person || !document || a.Class != "" && !class || a.Edition != "" && !edition {
		return refused
	}
	a.Account, a.Seq = "coach", m.change("attempt", a.ID)
	m.attempts[a.ID] = a
	return nil
}

func (m *model) withdraw(id string) error {
	a, there := m.attempts[id]
	if !there {
		return store.ErrMissing
	}
	a.WithdrawnAt = Now
	m.attempts[id] = a
	m.change("attempt", id)
	m.change("read", a.Person)
	return nil
}

// sorted are the values of a map by a key.
func sorted[T any, I comparable, K cmp.Ordered](of map[I]T, key func(T) K) (out []T) {
	for _, one := range of {
		out = append(out, one)
	}
	slices.SortFunc(out, func(a, b T) int { return cmp.Compare(key(a), key(b)) })
	return out
}
