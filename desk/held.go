package desk

import (
	"roomful"
	"roomful/store"
)

// heldKey names what was read of somebody for a day's question.
type heldKey struct {
	gym, what, person string
	title, again      string       // of the sheet, for what they scored before
	on                roomful.Date // the day it is about
	stands            int64
}

// heldItem is what was read, the change up to which it holds, and what it was laid out from.
type heldItem struct {
	made  int64
	today roomful.Date
	base  *base
	value any
}

// mostHeld is how many things are held of people: two to each of those who are asked about
// while somebody types, and of another class beside. What is believed of one takes ten
// kilobytes, five years of scores on a sheet that comes again far more; the days that were
// worked out from it share it.
const mostHeld = 3 * mostAsked

// pastTopics are what somebody's scores as they were resolved rest on, beside the base.
var pastTopics = []topic{{kind: "attempt"}, {kind: "read"}, {kind: store.Sheet}, {kind: "edition"}, {kind: "override"}}

// held reads something of somebody, unless it is held from before and neither the base nor
// any of some topics has changed since. It is shared, and nobody changes it.
func held[T any](g *Gym, k heldKey, topics []topic, read func() (T, error)) (T, error) {
	d := g.desk
	d.mu.Lock()
	it, ok := d.held[k]
	ok = ok && it.base == g.base && it.today == g.Today && !g.shelf.changed(it.made, topics...)
	d.mu.Unlock()
	if ok {
		return it.value.(T), nil
	}
	value, err := read()
	if err != nil || g.books.Changing() {
		return value, err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if len(d.held) >= mostHeld {
		clear(d.held)
	}
	d.held[k] = heldItem{g.seq, g.Today, g.base, value}
	return value, nil
}

// believed is what is believed of somebody on a day, nil where it is no more than they told.
func (g *Gym) believed(a roomful.Athlete, on roomful.Date, stands int64) (*roomful.Abilities, error) {
	k := heldKey{gym: g.books.ID(), what: "believed", person: a.ID, on: on, stands: stands}
	return held(g, k, []topic{{"learnt", a.ID}}, func() (*roomful.Abilities, error) {
		learnt, err := g.learnt(a.ID, stands)
		if err != nil || learnt == nil {
			return nil, err
		}
		return g.Believe(a, g.all, learnt, on), nil
	})
}
