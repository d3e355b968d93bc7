package desk

import (
	"crypto/sha256"
	"sync"
	"time"

	"roomful"
	"roomful/day"
	"roomful/store"
)

// Desk lays out gyms, and keeps what was worked out for them.
type Desk struct {
	day   *day.Day
	store *store.Store

	mu       sync.Mutex
	sessions map[sheetKey]session
	said     map[[sha256.Size]byte]said // by the digest of a text
	taught   map[string]taught          // by gym
	shelves  map[string]*shelf          // by gym
	kept     kept
	held     map[heldKey]heldItem
	typed    map[typist]key // what each typed last

	turns   turns
	flights flights[key, any]
	parts   flights[part, any]
	beside  beside
}

// New returns a desk for the gyms of a store, which are answered for by a day.
func New(d *day.Day, s *store.Store) *Desk {
	return &Desk{day: d, store: s, sessions: map[sheetKey]session{}, said: map[[sha256.Size]byte]said{}, taught: map[string]taught{}, shelves: map[string]*shelf{},
		kept: kept{items: map[key]*item{}}, held: map[heldKey]heldItem{}, typed: map[typist]key{}, turns: newTurns(), beside: newBeside()}
}

// Close ends what is worked out beside, and waits until it has ended.
func (d *Desk) Close() { d.beside.close() }

// Gym is a gym as its books have it at a moment.
type Gym struct {
	*day.Day // with the gym's own settings
	Kit      *roomful.Kit
	People   []roomful.Athlete // who come, as they are today
	Today    roomful.Date      // by the gym's own clock

	desk  *Desk
	shelf *shelf
	seq   int64 // of the last change that the books know of
	base  *base
	books *store.Books
	all   []roomful.Athlete // those who left too
	names map[string]store.Document
}

// Open lays out a gym.
func (d *Desk) Open(b *store.Books, now time.Time) (*Gym, error) {
	s, seq, err := d.look(b)
	if err != nil {
		return nil, err
	}
	base, err := d.baseOf(b, s, seq)
	if err != nil {
		return nil, err
	}
	g := &Gym{Day: base.day, Kit: base.kit, Today: roomful.DateOf(base.gym.Clock(now)),
		desk: d, shelf: s, seq: seq, base: base, books: b, names: map[string]store.Document{}}
	g.all, g.People = base.on(g.Today)
	return g, nil
}

// With lays the same gym out from another view of its books; its sheets are as they were
// first met. It is not for several goroutines at once.
func (g *Gym) With(b *store.Books) *Gym {
	out := *g
	out.books = b
	return &out
}
