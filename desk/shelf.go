package desk

import (
	"roomful/store"
)

// topic is something that answers rest on, as the book of changes names it: all of a kind
// when it has no subject.
type topic struct{ kind, subject string }

// shelf is what is held of one gym: how far its book of changes was read, when each topic
// changed last, and what was read of it.
type shelf struct {
	read  int64 // the book, up to here
	floor int64 // changes up to here are not known one by one
	last  map[topic]int64

	base     *base
	pages    pages
	editions editions
	library  library
	places   map[string]places // by class
}

const (
	// mostRead is how many changes are read at once; more have all be taken for changed.
	mostRead = 2000
	// mostTopics bounds what is known of changes one by one: five years of days, and a
	// thousand people.
	mostTopics = 10_000
	// mostShelves is of how many gyms things are held.
	mostShelves = 32
)

// look reads what has happened in a gym since it was last looked at, and returns the
// number of the last change that the books know of. Nothing is held of what an update sees:
// it may be undone.
func (d *Desk) look(b *store.Books) (*shelf, int64, error) {
	seq, err := b.Seq()
	if err != nil {
		return nil, 0, err
	}
	if b.Changing() {
		return apart(), seq, nil
	}
	d.mu.Lock()
	s := d.shelves[b.ID()]
	if s == nil {
		if len(d.shelves) >= mostShelves {
			clear(d.shelves)
		}
		s = &shelf{read: seq, floor: seq, last: map[topic]int64{}, pages: pages{seq, map[string]Page{}}, places: map[string]places{}}
		d.shelves[b.ID()] = s
	}
	from := s.read
	d.mu.Unlock()
	if seq <= from {
		return s, seq, nil
	}
	changes, err := b.Changes(from, mostRead+1)
	if err != nil {
		return nil, 0, err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	s.note(changes, seq)
	return s, seq, nil
}

// note notes changes up to one; the desk is locked.
func (s *shelf) note(changes []store.Change, seq int64) {
	if len(changes) > mostRead || len(s.last) > mostTopics {
		s.floor = max(s.floor, seq)
		clear(s.last)
	}
	for _, c := range changes {
		s.last[topic{kind: c.Kind}] = max(s.last[topic{kind: c.Kind}], c.Seq)
		if c.Kind != "attempt" { // nothing rests on one that was not read yet
			s.last[topic{c.Kind, c.Subject}] = max(s.last[topic{c.Kind, c.Subject}], c.Seq)
		}
	}
	s.read = max(s.read, seq)
}

// changed reports whether any of some topics has changed after a number; the desk is locked.
func (s *shelf) changed(after int64, topics ...topic) bool {
	if s.floor > after {
		return true
	}
	for _, t := range topics {
		if s.last[t] > after {
			return true
		}
	}
	return false
}
