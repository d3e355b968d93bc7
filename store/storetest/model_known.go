package storetest

import (
	"slices"

	"roomful"
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
	e.Text, e.Account, e.At, e.Day = d.Text, "coach", Now, d.Day
	if e.Day.IsZero() {
		e.Day = roomful.DateOf(Now)
	}
	for _, c := range m.classes {
		if c.Document == e.Document && c.Day.Days(e.Day) > 0 {
			e.Day = c.Day
		}
	}
	e.Seq = m.change("edition", e.ID)
	m.editions[e.ID] = e
	return nil
}

// prolong has the editions of a sheet that stand do so for a class on a later day too.
func (m *model) prolong(c store.Class) {
	for _, e := range sorted(m.editions, func(e store.Edition) string { return e.ID }) {
		if e.Document == c.Document && e.Stands(roomful.DateOf(Now)) && c.Day.Days(e.Day) > 0 {
			e.Day = c.Day
			m.editions[e.ID] = e
			m.change("edition", e.ID)
		}
	}
}

// putLearning has the gym learn from all its scores.
func (m *model) putLearning() error {
	m.taught = true
	m.change("learning", m.gym)
	return nil
}

// knew is what was known of somebody from a change on: all that ever was is held, which is
// more than a store does.
type knew struct {
	from int64
	store.Learnt
}

// learntBefore is what the editions that stand rest on, by edition and person.
func (m *model) learntBefore() map[string]map[string]store.Learnt {
	out := map[string]map[string]store.Learnt{}
	for _, e := range m.editions {
		if !e.Stands(roomful.DateOf(Now)) {
			continue
		}
		out[e.ID] = map[string]store.Learnt{}
		for id := range m.people {
			for _, w := range m.before[id] {
				if w.from <= e.Seq || w.from <= m.early[id] {
					out[e.ID][id] = store.Learnt{Person: id, Abilities: w.Abilities, Model: w.Model}
				}
			}
		}
	}
	return out
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
		m.before[l.Person] = append(m.before[l.Person], knew{int64(len(m.changes) + 1), l})
	}
	seq := m.change("learnt", l.Person)
	if !m.taught {
		m.early[l.Person] = seq
	}
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
