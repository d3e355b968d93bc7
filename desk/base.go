package desk

import (
	"crypto/sha256"
	"errors"
	"strings"
	"sync"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/store"
)

// base is what every day of a gym rests on, as it was read. It is shared.
type base struct {
	made     int64 // the change up to which it is so
	gym      store.Gym
	day      *day.Day // with the gym's settings
	settings [sha256.Size]byte
	kit      *roomful.Kit
	people   []store.Person // those who left too
	by       map[string]int // where somebody stands among them
	limits   map[string][]store.Limit

	mu    sync.Mutex
	today roomful.Date // of the rest
	all   []roomful.Athlete
	come  []roomful.Athlete
}

// baseTopics are what a base rests on.
var baseTopics = []topic{{kind: "gym"}, {kind: store.Settings}, {kind: store.Kit}, {kind: "person"}, {kind: "erased"}}

// baseOf returns what every day of a gym rests on, read anew when it has changed.
func (d *Desk) baseOf(b *store.Books, s *shelf, seq int64) (*base, error) {
	d.mu.Lock()
	held := s.base
	known := held != nil && !s.changed(held.made, baseTopics...)
	d.mu.Unlock()
	if known {
		return held, nil
	}
	out, err := d.readBase(b, seq)
	if err != nil {
		return nil, err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if s.base == nil || s.base.made <= seq {
		s.base = out
	}
	return out, nil
}

// readBase reads a base.
func (d *Desk) readBase(b *store.Books, seq int64) (*base, error) {
	out := &base{made: seq, limits: map[string][]store.Limit{}}
	var err error
	if out.gym, err = b.Gym(); err != nil {
		return nil, err
	}
	own := *d.day
	out.day = &own
	if text, err := textOf(b, store.Settings); err != nil {
		return nil, err
	} else if text != "" {
		own.Gym, _ = exchange.ReadGym(strings.NewReader(text), d.day.Lexicon)
		out.settings = sha256.Sum256([]byte(text))
	}
	if text, err := textOf(b, store.Kit); err != nil {
		return nil, err
	} else if text != "" {
		out.kit, _ = exchange.ReadKit(strings.NewReader(text))
	}
	if out.people, err = b.People(true); err != nil {
		return nil, err
	}
	out.by = map[string]int{}
	for i, p := range out.people {
		out.by[p.ID] = i
	}
	limits, err := b.Limits("")
	for _, l := range limits {
		out.limits[l.Person] = append(out.limits[l.Person], l)
	}
	return out, err
}

// textOf is the kit or the settings, empty when there are none.
func textOf(b *store.Books, kind string) (string, error) {
	d, err := b.Named(kind, kind)
	if errors.Is(err, store.ErrMissing) {
		return "", nil
	}
	return d.Text, err
}

// Person is somebody of the gym as they told it, without limits.
func (g *Gym) Person(id string) (store.Person, error) {
	i, ok := g.base.by[id]
	if !ok {
		return store.Person{}, store.ErrMissing
	}
	return g.base.people[i], nil
}

// on lists everybody, and who come, with the limits that hold on a day.
func (b *base) on(today roomful.Date) (all, come []roomful.Athlete) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if b.all != nil && b.today == today {
		return b.all, b.come
	}
	b.today, b.all, b.come = today, nil, nil
	for _, p := range b.people {
		a := p.Athlete
		for _, l := range b.limits[a.ID] {
			if l.On(today) {
				a.Limits = append(a.Limits, l.Limit)
			}
		}
		b.all = append(b.all, a)
		if p.LeftAt.IsZero() {
			b.come = append(b.come, a)
		}
	}
	return b.all, b.come
}

// Held answers for a gym with its own settings as they were last read, and with usual ones
// where nothing is held: for what must be said when nothing can be read.
func (d *Desk) Held(gym string) *day.Day {
	d.mu.Lock()
	defer d.mu.Unlock()
	if s := d.shelves[gym]; s != nil && s.base != nil {
		return s.base.day
	}
	return d.day
}
