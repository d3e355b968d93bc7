package desk

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"slices"
	"sync"
	"time"

	"roomful"
	"roomful/day"
	"roomful/store"
)

// Worked is a day as it was worked out. It is shared, and nobody changes it.
type Worked struct {
	day.Versions
	Question day.Question
	Day      *day.Day       // with the gym's own settings
	Sheet    store.Document // by its id and name, with the text that was worked out
	Start    time.Duration  // of the class, since midnight; nought without one
	home     bool
	stands   int64 // the change by which it stands, nought for what is known now

	mu    sync.Mutex
	parts map[string]any // worked out when somebody asks for them, by name
}

// mostAsked is for how many people a day is worked out at once: a class, or two that
// come together. A whole gym never stands in one room.
const mostAsked = 60

// mostLines is how long a piece may be for its day to be worked out: three times as many
// take twenty times as long. A day has a dozen.
const mostLines = 100

// errOvertaken answers the earlier of two texts of one typist.
var errOvertaken = &roomful.Error{Summary: "a later text has come", Hint: "wait for its answer"}

// Versions tells what everybody does of a day.
func (d *Desk) Versions(ctx context.Context, a Ask) (*Worked, error) {
	for tries := 0; ; tries++ {
		var g *Gym
		var r recipe[Asked, *Worked]
		if err := d.store.View(ctx, func(tx *store.Tx) (err error) {
			if g, err = d.Open(tx.In(a.Gym), a.Now); err == nil {
				r, err = g.recipe(a)
			}
			return err
		}); err != nil {
			return nil, err
		}
		if a.Text != "" {
			d.overtake(a, r.key)
		}
		got, err := get(ctx, g, a.Now, r)
		if errors.Is(err, errMoved) && tries < mostMoves {
			continue
		}
		return got, err
	}
}

// mostMoves is how often a day is asked for again because its text was saved meanwhile.
const mostMoves = 5

// overtake breaks off what the same typist had asked for before, and lets go of it.
func (d *Desk) overtake(a Ask, now key) {
	who := typist{a.Gym, a.Typist}
	d.mu.Lock()
	was, typed := d.typed[who]
	if len(d.typed) >= mostTypists {
		clear(d.typed)
	}
	d.typed[who] = now
	moved := typed && was != now
	if it := d.kept.items[was]; moved && it != nil {
		d.kept.drop(it)
	}
	d.mu.Unlock()
	if moved {
		d.flights.stop(was, errOvertaken)
	}
}

// typist is somebody who types in a gym.
type typist struct{ gym, who string }

// mostTypists is of how many it is known what they typed last.
const mostTypists = 100

// recipe is how the versions of a day are made.
func (g *Gym) recipe(a Ask) (recipe[Asked, *Worked], error) {
	r := recipe[Asked, *Worked]{
		work:   work,
		weight: func(q Asked) int { return max(1, len(q.People)) },
	}
	r.key = key{gym: g.books.ID(), what: "versions", sheet: a.Sheet, class: a.Class, piece: a.Piece, home: a.Home, draft: a.Text != ""}
	shown, err := g.page(a)
	switch {
	case err == nil:
		r.key.sheet = shown.ID
	case !r.key.draft || !errors.Is(err, store.ErrMissing): // what is typed may be new
		return r, err
	}
	if r.key.draft {
		r.key.typist = a.Typist
		shown.Text, shown.sum = a.Text, sha256.Sum256([]byte(a.Text))
	}
	r.key.text = string(shown.sum[:])
	if !r.key.draft {
		r.key.stands = shown.Stands
	}
	people, _, err := g.InClass(a.Class)
	if err != nil {
		return r, err
	}
	if len(people) > mostAsked {
		r.key.person = a.Alone
	}
	r.gather = func(ctx context.Context, g *Gym) (Asked, rests, error) { return g.gather(ctx, a, r.key) }
	return r, nil
}

// InClass are those who have a place in a class, and when it begins; all who come for an
// empty id.
func (g *Gym) InClass(class string) ([]roomful.Athlete, time.Duration, error) {
	if class == "" {
		return g.People, 0, nil
	}
	in, err := g.placesIn(class)
	if err != nil {
		return nil, 0, err
	}
	people := in.in(g.People)
	if len(people) == 0 {
		return nil, 0, &roomful.Error{Summary: "nobody has a place in that class yet", Hint: "ask again when somebody has, or about everybody"}
	}
	return people, in.start, nil
}

// gather gathers the question that a key stands for.
func (g *Gym) gather(ctx context.Context, a Ask, k key) (q Asked, on rests, err error) {
	sheet, err := g.sheetOf(a, k)
	if err != nil {
		return q, on, err
	}
	people, start, err := g.InClass(k.class)
	if err != nil {
		return q, on, err
	}
	if k.person != "" {
		people = slices.DeleteFunc(slices.Clone(people), func(a roomful.Athlete) bool { return a.ID != k.person })
	}
	if err := few(people); err != nil {
		return q, on, err
	}
	session, faults := g.session(ctx, sheet.Text, !k.draft)
	if err := fit(sheet.Name, session, faults); err != nil {
		return q, on, err
	}
	q.Day, q.Sheet, q.Start, q.Home = g.Day, store.Document{ID: sheet.ID, Name: sheet.Name, Text: sheet.Text}, start, k.home
	q.Stands = k.stands
	if q.Question, err = g.question(session, people, k.stands); err != nil {
		return q, on, err
	}
	q.Piece = k.piece
	if sheet.ID != "" {
		q.ByHand, err = g.ByHand(sheet.ID)
	}
	return q, g.restsOf(sheet.ID, k.class, people), err
}

// page is the sheet that is asked about.
func (g *Gym) page(a Ask) (Page, error) {
	out, err := g.Seen(a.Sheet, !a.Shown)
	if a.Anew {
		out.Stands = 0
	}
	return out, err
}

// sheetOf is the sheet of a key with the text that the key stands for.
func (g *Gym) sheetOf(a Ask, k key) (store.Document, error) {
	if k.draft {
		sheet := store.Document{Name: a.Sheet}
		if saved, err := g.Sheet(a.Sheet); err == nil {
			sheet = saved.Document
		}
		sheet.Text = a.Text
		return sheet, nil
	}
	page, err := g.page(a)
	if err == nil && (page.ID != k.sheet || string(page.sum[:]) != k.text || page.Stands != k.stands) {
		err = errMoved
	}
	return page.Document, err
}

// few refuses more people than a day is worked out for.
func few(people []roomful.Athlete) error {
	if len(people) > mostAsked {
		return &roomful.Error{Summary: fmt.Sprintf("working a day out for %d people", len(people)), Hint: fmt.Sprintf("name a class: up to %d fit into one answer", mostAsked)}
	}
	return nil
}

// fit refuses a sheet that cannot be worked out.
func fit(name string, session roomful.Session, faults int) error {
	if faults > 0 {
		return &roomful.Error{Summary: "working out " + name + ": the sheet has faults", Hint: "save it once more: the answer lists them"}
	}
	for _, p := range session.Pieces() {
		if n := len(p.Once) + len(p.Round) + len(p.Last); n > mostLines {
			return &roomful.Error{Summary: fmt.Sprintf("working out %s: %s has %d lines", name, p.Name(), n), Hint: fmt.Sprintf("write it in up to %d", mostLines)}
		}
	}
	return nil
}

// restsOf are what a day rests on, its text apart, which its key names. One that stands is
// gathered anew as well when something is learnt, and is then the same question, unless
// the gym is still learning from all its scores for the first time.
func (g *Gym) restsOf(sheet, class string, people []roomful.Athlete) rests {
	on := rests{
		now:  []topic{{kind: "gym"}, {kind: store.Settings}, {kind: store.Kit}, {kind: "erased"}, {"override", sheet}},
		soon: []topic{{kind: store.Sheet}, {kind: "person"}, {kind: "account"}},
	}
	if class == "" {
		on.now = append(on.now, topic{kind: "person"})
	} else {
		on.now = append(on.now, topic{"class", class})
		if in, err := g.placesIn(class); err == nil {
			for _, id := range in.people { // those too who have left the gym: they may come back
				on.now = append(on.now, topic{"person", id})
			}
		}
	}
	for _, a := range people {
		on.now = append(on.now, topic{"person", a.ID})
		on.soon = append(on.soon, topic{"learnt", a.ID}, topic{"read", a.ID})
	}
	return on
}

// work works a day out; its hour too where the last one had been asked for.
func work(ctx context.Context, q Asked, was **Worked) (*Worked, error) {
	out := &Worked{Question: q.Question, Day: q.Day, Sheet: q.Sheet, Start: q.Start, home: q.Home, stands: q.Stands}
	var err error
	if out.Versions, err = q.Day.Versions(ctx, q.Question, q.Home); err != nil {
		return nil, err
	}
	if was != nil {
		if _, wanted := (*was).part(hourly); wanted {
			if hour, err := out.lay(ctx); err == nil { // else whoever asks for it is told why
				out.hold(hourly, hour)
			}
		}
	}
	return out, nil
}
