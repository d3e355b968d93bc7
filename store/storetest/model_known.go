package storetest

import (
	"slices"

	"roomful/store"
)

// place is whose version of which piece.
type place struct{ document, piece, person string }

func (m *model) publish(e store.Edition) error {
	d, there := m.documents[e.Document]
	if !there {
		return store.ErrMissing
	}
	if _, taken := m.editions[e.ID]; taken {
		return refused
	}
	e.Text, e.Account, e.At = d.Text, "coach", Now
	m.editions[e.ID] = e
	m.change("edition", e.ID)
	return nil
}

func (m *model) putOverride(o store.Override) error {
	if !m.has(o.Document, o.Person) {
		return refused
	}
	o.Account, o.At = "coach", Now
	m.overrides[place{o.Document, o.Piece, o.Person}] = o
	m.change("override", o.Document)
	return nil
}

func (m *model) dropOverride(of place) error {
	if _, there := m.overrides[of]; !there {
		return store.ErrMissing
	}
	delete(m.overrides, of)
	m.change("override", of.document)
	return nil
}

func (m *model) putLearnt(l store.Learnt) error {
	if _, there := m.people[l.Person]; !there {
		return refused
	}
	if was, there := m.learnt[l.Person]; !there || was.Seq <= l.Seq {
		l.At = Now
		m.learnt[l.Person] = l
	}
	m.change("learnt", l.Person)
	return nil
}

// unlearnt lists those with a score, withdrawn or not, after what is known of them.
func (m *model) unlearnt() (out []store.Unlearnt) {
	last := map[string]store.Unlearnt{}
	for _, a := range m.attempts {
		if a.Seq > m.learnt[a.Person].Seq && a.Seq > last[a.Person].Seq {
			last[a.Person] = store.Unlearnt{Person: a.Person, Seq: a.Seq}
		}
	}
	return sorted(last, func(u store.Unlearnt) string { return u.Person })
}

func (m *model) putNote(n store.Note) error {
	if _, there := m.notes[n.ID]; !there {
		if !m.has(n.Document, n.Person) {
			return refused
		}
		n.Account, n.At = "coach", Now
		m.notes[n.ID] = n
	}
	m.change("note", n.Document)
	return nil
}

// has reports whether there are a document and a person of those ids.
func (m *model) has(document, person string) bool {
	_, d := m.documents[document]
	_, p := m.people[person]
	return d && p
}

// of picks those of a list that belong to an id.
func of[T any](all []T, owner func(T) string, id string) []T {
	return slices.DeleteFunc(slices.Clone(all), func(one T) bool { return owner(one) != id })
}
