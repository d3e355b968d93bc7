package desk

import (
	"crypto/sha256"
	"math"

	"roomful"
	"roomful/store"
)

// Page is a sheet as somebody sees it.
type Page struct {
	store.Document        // with the text that is shown, and its title and day
	Edition        string // whose text it is, by its id; empty for what is saved and was not published
	Shown          bool   // members see it, or an edition of it
	// Stands is the change that published it, while it rests on what was known then;
	// nought where it rests on what is known now.
	Stands int64
	sum    [sha256.Size]byte
}

// pages are the sheets of a gym as they were found, by name.
type pages struct {
	made int64
	by   map[string]Page
}

// editions are the last editions of a gym's sheets.
type editions struct {
	made int64
	of   map[string]store.Edition // by sheet
}

// Sheet finds a sheet by its name as it is saved: what those see who write sheets.
func (g *Gym) Sheet(name string) (Page, error) {
	d := g.desk
	d.mu.Lock()
	if g.shelf.changed(g.shelf.pages.made, topic{kind: store.Sheet}) {
		g.shelf.pages = pages{g.seq, map[string]Page{}}
	}
	one, known := g.shelf.pages.by[name]
	d.mu.Unlock()
	if known {
		return one, nil
	}
	doc, err := g.books.Named(store.Sheet, name)
	if err != nil {
		return one, err
	}
	one = Page{Document: doc, sum: sha256.Sum256([]byte(doc.Text))}
	d.mu.Lock()
	defer d.mu.Unlock()
	if g.shelf.pages.made <= g.seq { // else somebody has seen something later
		if len(g.shelf.pages.by) >= mostSessions {
			clear(g.shelf.pages.by)
		}
		g.shelf.pages.by[name] = one
	}
	return one, nil
}

// Seen finds a sheet by its name as those see it who write sheets, or as all others do.
func (g *Gym) Seen(name string, writes bool) (Page, error) {
	if !writes {
		return g.Shown(name)
	}
	saved, err := g.Sheet(name)
	if err != nil {
		return saved, err
	}
	all, err := g.editions()
	return g.marked(saved, all), err
}

// Of is a sheet that was found as it is saved, as those see it who write sheets or as all
// others do; false when it is not theirs to see.
func (g *Gym) Of(saved store.Document, writes bool) (page Page, theirs bool, err error) {
	all, err := g.editions()
	page = Page{Document: saved}
	if writes {
		return g.marked(page, all), true, err
	}
	page, theirs = g.shown(page, all)
	return page, theirs, err
}

// marked is what is saved, with what others see of it.
func (g *Gym) marked(saved Page, all map[string]store.Edition) Page {
	if e, ok := all[saved.ID]; ok && e.Text == saved.Text {
		saved.Edition, saved.Stands = e.ID, g.stands(e)
	}
	_, saved.Shown = g.shown(saved, all)
	return saved
}

// Shown finds a sheet by its name as members and screens see it: as it was published last,
// or, when it never was, as it is saved once its day has come and it has no faults. What
// lies ahead is not theirs to see, and for them is not there.
func (g *Gym) Shown(name string) (Page, error) {
	saved, err := g.Sheet(name)
	if err != nil {
		return saved, err
	}
	all, err := g.editions()
	if err != nil {
		return saved, err
	}
	if page, ok := g.shown(saved, all); ok {
		return page, nil
	}
	return Page{}, store.ErrMissing
}

// Scored finds a sheet by its name as scores of it are read: as it is shown, and until
// then as it is saved.
func (g *Gym) Scored(name string) (Page, error) {
	page, err := g.Shown(name)
	if err == store.ErrMissing {
		return g.Sheet(name)
	}
	return page, err
}

// shown is a sheet as it is shown, if it is.
func (g *Gym) shown(saved Page, all map[string]store.Edition) (Page, bool) {
	e, published := all[saved.ID]
	saved.Shown = true
	switch {
	case published && e.Text == saved.Text:
		saved.Edition, saved.Stands = e.ID, g.stands(e)
		return saved, true
	case published:
		said := g.said(e.Text)
		saved.Text, saved.Title, saved.Day, saved.Edition, saved.Stands, saved.sum = e.Text, said.title, said.day, e.ID, g.stands(e), sha256.Sum256([]byte(e.Text))
		return saved, true
	case saved.Day.IsZero() || saved.Day.Days(g.Today) > 0:
		return saved, false
	}
	return saved, g.said(saved.Text).faults == 0
}

// stands is the change that published an edition, as long as that stands today.
func (g *Gym) stands(e store.Edition) int64 {
	if !e.Stands(g.Today) {
		return 0
	}
	return e.Seq
}

// Sheets lists the sheets by day and name: all of them as they are saved, or those that
// members and screens see as they see them.
func (g *Gym) Sheets(saved bool) ([]Page, error) {
	docs, err := g.books.Documents(store.Sheet)
	if err != nil {
		return nil, err
	}
	all, err := g.editions()
	var out []Page
	for _, doc := range docs {
		page, ok := Page{Document: doc}, true
		if saved {
			page = g.marked(page, all)
		} else {
			page, ok = g.shown(page, all)
		}
		if ok {
			out = append(out, page)
		}
	}
	return out, err
}

// editions are the last editions of all sheets.
func (g *Gym) editions() (map[string]store.Edition, error) {
	d := g.desk
	d.mu.Lock()
	held := g.shelf.editions
	known := held.of != nil && !g.shelf.changed(held.made, topic{kind: "edition"})
	d.mu.Unlock()
	if known {
		return held.of, nil
	}
	last, err := g.books.LastEditions()
	if err != nil {
		return nil, err
	}
	of := map[string]store.Edition{}
	for _, e := range last {
		of[e.Document] = e
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if g.shelf.editions.made <= g.seq {
		g.shelf.editions = editions{g.seq, of}
	}
	return of, nil
}

// said is what a text says of itself.
type said struct {
	title  string
	day    roomful.Date
	faults int
}

// said reads what a text says of itself.
func (g *Gym) said(text string) said {
	d, sum := g.desk, sha256.Sum256([]byte(text))
	d.mu.Lock()
	one, known := d.said[sum]
	d.mu.Unlock()
	if known {
		return one
	}
	session, ds := g.Read(text)
	one = said{title: session.Title, day: session.Date, faults: faults(ds)}
	d.mu.Lock()
	defer d.mu.Unlock()
	if len(d.said) >= mostSaid {
		clear(d.said)
	}
	d.said[sum] = one
	return one
}

// mostSaid is of how many texts it is held what they say of themselves: a hundred bytes
// each.
const mostSaid = 20_000

// faults counts what has to be mended.
func faults(ds []roomful.Diagnostic) (n int) {
	for _, d := range ds {
		if d.Severity == roomful.Fault {
			n++
		}
	}
	return n
}

// apart is a shelf for books that may be undone: nothing of it is held.
func apart() *shelf {
	return &shelf{floor: math.MaxInt64, last: map[topic]int64{}, pages: pages{by: map[string]Page{}}, places: map[string]places{}}
}
