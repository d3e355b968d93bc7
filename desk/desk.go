package desk

import (
	"cmp"
	"context"
	"errors"
	"slices"
	"strings"
	"sync"
	"time"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/store"
	"roomful/version"
)

// Desk lays out gyms.
type Desk struct {
	day *day.Day

	mu       sync.Mutex
	sessions map[sheetKey]session
	taught   map[string]taught // by gym
}

// New returns a desk whose gyms are answered for by a day.
func New(d *day.Day) *Desk {
	return &Desk{day: d, sessions: map[sheetKey]session{}, taught: map[string]taught{}}
}

// Gym is a gym as its books have it at a moment.
type Gym struct {
	*day.Day // with the gym's own settings
	Kit      *roomful.Kit
	People   []roomful.Athlete // who come, as they are today
	Today    roomful.Date      // by the gym's own clock

	desk  *Desk
	books *store.Books
	all   []roomful.Athlete // those who left too
	names map[string]store.Document
}

// Open lays out a gym.
func (d *Desk) Open(b *store.Books, now time.Time) (*Gym, error) {
	g := &Gym{desk: d, books: b, names: map[string]store.Document{}}
	about, err := b.Gym()
	if err != nil {
		return nil, err
	}
	g.Today = roomful.DateOf(about.Clock(now))
	own := *d.day
	g.Day = &own
	if text, err := g.text(store.Settings); err != nil {
		return nil, err
	} else if text != "" {
		g.Gym, _ = exchange.ReadGym(strings.NewReader(text), d.day.Lexicon)
	}
	if text, err := g.text(store.Kit); err != nil {
		return nil, err
	} else if text != "" {
		g.Kit, _ = exchange.ReadKit(strings.NewReader(text))
	}
	return g, g.people()
}

// With lays the same gym out from another view of its books; its sheets are as they were
// first met. It is not for several goroutines at once.
func (g *Gym) With(b *store.Books) *Gym {
	out := *g
	out.books = b
	return &out
}

// Session reads a sheet as far as it can be read, and says how many faults it has.
func (g *Gym) Session(ctx context.Context, sheet store.Document) (roomful.Session, int) {
	d, key := g.desk, sheetKey{g.books.ID(), sheet.ID, sheet.Revision}
	d.mu.Lock()
	one, known := d.sessions[key]
	d.mu.Unlock()
	if known {
		return one.Session, one.faults
	}
	read, ds := g.Check(ctx, sheet.Text)
	one.Session = read
	for _, said := range ds {
		if said.Severity == roomful.Fault {
			one.faults++
		}
	}
	if ctx.Err() != nil {
		return one.Session, one.faults // the effort may not have been worked out: not to be held
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if len(d.sessions) >= mostSessions {
		clear(d.sessions)
	}
	d.sessions[key] = one
	return one.Session, one.faults
}

// session is a sheet as it was read.
type session struct {
	roomful.Session
	faults int
}

// sheetKey is a sheet as it was at a revision.
type sheetKey struct {
	gym, id  string
	revision int64
}

// mostSessions is how many sheets are held as they were read: the days of some years. One
// takes ten kilobytes.
const mostSessions = 2000

// text is the kit or the settings, empty when there are none.
func (g *Gym) text(kind string) (string, error) {
	d, err := g.books.Named(kind, kind)
	if errors.Is(err, store.ErrMissing) {
		return "", nil
	}
	return d.Text, err
}

// people finds everybody, with the limits that hold today.
func (g *Gym) people() error {
	people, err := g.books.People(true)
	if err != nil {
		return err
	}
	limits, err := g.books.Limits("")
	if err != nil {
		return err
	}
	own := map[string][]roomful.Limit{}
	for _, l := range limits {
		if l.On(g.Today) {
			own[l.Person] = append(own[l.Person], l.Limit)
		}
	}
	for _, p := range people {
		a := p.Athlete
		a.Limits = own[a.ID]
		g.all = append(g.all, a)
		if p.LeftAt.IsZero() {
			g.People = append(g.People, a)
		}
	}
	return nil
}

// Question asks about a sheet for some of the people, all who come for nil, with what
// scores have shown of them.
func (g *Gym) Question(sheet roomful.Session, people []roomful.Athlete) (day.Question, error) {
	if people == nil {
		people = g.People
	}
	q := day.Question{Session: sheet, People: people, Kit: g.Kit, Today: g.Today, Runs: version.UsualRuns, Seed: seed, Believed: map[string]*roomful.Abilities{}}
	on := sheet.Date
	if on.IsZero() {
		on = g.Today
	}
	learnt, err := g.books.Learnt("")
	if err != nil {
		return q, err
	}
	known := map[string]*roomful.Abilities{}
	for i := range learnt {
		known[learnt[i].Person] = &learnt[i].Abilities
	}
	for _, a := range people {
		if known[a.ID] != nil {
			q.Believed[a.ID] = g.Believe(a, g.all, known[a.ID], on)
		}
	}
	q.Past, err = g.past(sheet, on)
	return q, err
}

// past is what everybody scored on sheets with the same piece before a day.
func (g *Gym) past(sheet roomful.Session, on roomful.Date) (roomful.Record, error) {
	all, err := g.books.Titled(sheet.Title, sheet.Again)
	if err != nil {
		return nil, err
	}
	var out roomful.Record
	for _, d := range all {
		record, err := g.scored(d)
		if err != nil {
			return nil, err
		}
		for _, e := range record {
			if e.On.String() < on.String() {
				out = append(out, e)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b roomful.Entry) int { return cmp.Compare(a.On.String(), b.On.String()) })
	return out, nil
}
