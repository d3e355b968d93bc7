package desk

import (
	"roomful/store"
)

// library is what is held of a gym's sheets as a library.
type library struct {
	made    int64 // the repeats
	repeats []store.Document
	scored  int64 // scores up to this change are in the uses
	uses    map[string]use
}

// use is what became of a sheet, up to a change.
type use struct {
	store.Use
	made int64
}

// Repeats lists the sheets that say they are the same as another again, as they are saved.
func (g *Gym) Repeats() ([]store.Document, error) {
	d := g.desk
	d.mu.Lock()
	held := g.shelf.library
	known := held.repeats != nil && !g.shelf.changed(held.made, topic{kind: store.Sheet})
	d.mu.Unlock()
	if known {
		return held.repeats, nil
	}
	all, err := g.books.Repeats()
	if err != nil {
		return nil, err
	}
	all = append([]store.Document{}, all...) // none is an answer too
	d.mu.Lock()
	defer d.mu.Unlock()
	if g.shelf.library.made <= g.seq { // else somebody has seen something later
		g.shelf.library.made, g.shelf.library.repeats = g.seq, all
	}
	return all, nil
}

// Uses tells what became of some sheets, by their ids. Counting who scored on many of them
// takes long, and few change from one look to the next.
func (g *Gym) Uses(sheets []string) (map[string]store.Use, error) {
	if err := g.forget(); err != nil {
		return nil, err
	}
	d, out := g.desk, map[string]store.Use{}
	var open []string
	d.mu.Lock()
	for _, id := range sheets {
		one, known := g.shelf.library.uses[id]
		if known && !g.shelf.changed(one.made, topic{store.Sheet, id}, topic{kind: "edition"}, topic{kind: "erased"}) {
			out[id] = one.Use
			continue
		}
		open = append(open, id)
	}
	d.mu.Unlock()
	found, err := g.books.Uses(open)
	if err != nil {
		return nil, err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	l := &g.shelf.library
	for id, one := range found {
		out[id] = one
		if l.scored > g.seq { // a score has come that these do not have
			continue
		}
		if l.uses == nil || len(l.uses) >= mostTopics {
			l.uses = map[string]use{}
		}
		l.uses[id] = use{one, g.seq}
	}
	return out, nil
}

// forget lets go of what became of the sheets of which scores have come or gone since.
func (g *Gym) forget() error {
	d := g.desk
	d.mu.Lock()
	from := g.shelf.library.scored
	all, some := g.shelf.floor > from, g.shelf.changed(from, topic{kind: "attempt"})
	d.mu.Unlock()
	var changed []string
	if some && !all {
		var err error
		if changed, err = g.books.Scored(from); err != nil {
			return err
		}
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	l := &g.shelf.library
	if all {
		clear(l.uses)
	}
	for _, id := range changed {
		delete(l.uses, id)
	}
	l.scored = max(l.scored, g.seq)
	return nil
}
