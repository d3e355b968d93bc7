package desk

import (
	"slices"
	"strings"

	"roomful/store"
)

// library is what is held of a gym's sheets as a library.
type library struct {
	made   int64 // the chains
	chains *Chains
	scored int64 // scores up to this change are in the uses
	uses   map[string]use
}

// use is what became of a sheet, up to a change.
type use struct {
	store.Use
	made int64
}

// Chains are the sheets that say they are the same as another again, with what they repeat,
// as they are saved. They are shared, and nobody changes them.
type Chains struct {
	root map[string]string           // by the id of a sheet: the title that its chain begins with
	of   map[string][]store.Document // by that title
}

// With are the sheets of the chain in which one stands, itself among them, the latest
// first; none where it stands alone.
func (c *Chains) With(sheet string) []store.Document { return c.of[c.root[sheet]] }

// Chains tells which sheets are the same piece again.
func (g *Gym) Chains() (*Chains, error) {
	d := g.desk
	d.mu.Lock()
	held := g.shelf.library
	known := held.chains != nil && !g.shelf.changed(held.made, topic{kind: store.Sheet})
	d.mu.Unlock()
	if known {
		return held.chains, nil
	}
	found, err := g.findChains()
	if err != nil {
		return nil, err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if g.shelf.library.made <= g.seq { // else somebody has seen something later
		g.shelf.library.made, g.shelf.library.chains = g.seq, found
	}
	return found, nil
}

// findChains reads them from the books.
func (g *Gym) findChains() (*Chains, error) {
	repeats, err := g.books.Repeats()
	if err != nil {
		return nil, err
	}
	out := &Chains{map[string]string{}, map[string][]store.Document{}}
	for _, d := range repeats {
		title := againIn(d.Text)
		if title == "" {
			continue
		}
		if out.of[title] == nil {
			first, err := g.books.Titled(title, title)
			if err != nil {
				return nil, err
			}
			for _, f := range first {
				out.put(title, f)
			}
		}
		out.put(title, d)
	}
	for _, chain := range out.of {
		slices.SortStableFunc(chain, func(a, b store.Document) int { return b.Day.Days(a.Day) })
	}
	return out, nil
}

// put adds a sheet to the chain of a title, once.
func (c *Chains) put(title string, d store.Document) {
	if c.root[d.ID] == title {
		return
	}
	c.root[d.ID] = title
	c.of[title] = append(c.of[title], d)
}

// againIn is the title of which a sheet says that it is the same again.
func againIn(text string) string {
	for line := range strings.Lines(text) {
		if key, title, ok := strings.Cut(line, ":"); ok && strings.EqualFold(strings.TrimSpace(key), "again") {
			return strings.TrimSpace(title)
		}
	}
	return ""
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
