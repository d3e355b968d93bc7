package desk

import (
	"context"
	"slices"

	"roomful"
	"roomful/day"
	"roomful/store"
)

// Record is somebody's scores with what was done.
type Record struct {
	roomful.Record
	// Fresh are scores of which it was not kept yet what was done, by id.
	Fresh map[string]store.Resolved
}

// ReadBy are the versions of what reads scores here.
func (g *Gym) ReadBy() store.Readers {
	out := store.Readers{Notation: day.NotationEdition, Model: day.ModelEdition}
	if c, ok := g.Lexicon.(interface{ Version() string }); ok {
		out.Catalogue = c.Version()
	}
	return out
}

// Record returns somebody's scores up to a change, all of them for nought. What was done
// is as it was kept; of the rest it is resolved now, unless their sheet has faults.
func (g *Gym) Record(ctx context.Context, person string, upTo int64) (Record, error) {
	attempts, err := g.books.OfPerson(person)
	if err != nil {
		return Record{}, err
	}
	done, err := g.books.DoneBy(person)
	if err != nil {
		return Record{}, err
	}
	if upTo > 0 {
		attempts = slices.DeleteFunc(attempts, func(a store.Attempt) bool { return a.Seq > upTo })
	}
	return g.resolve(ctx, person, attempts, done)
}

// resolve makes a record of somebody's scores: what was done is as it was kept, and found
// out now where it was not.
func (g *Gym) resolve(ctx context.Context, person string, attempts []store.Attempt, done map[string][]roomful.Done) (Record, error) {
	var err error
	q := day.RecordQuestion{People: g.all, Sheets: map[string]roomful.Session{}, Others: g.others, ByHand: map[string][]day.ByHand{}}
	for i, a := range attempts {
		sheet, err := g.sheet(a.Document)
		if err != nil {
			return Record{}, err
		}
		if kept := done[a.ID]; kept != nil && a.Read != nil {
			q.Known = append(q.Known, g.entries(a, sheet, kept)...)
			continue
		}
		page, err := g.Scored(sheet.Name)
		if err != nil {
			return Record{}, err
		}
		session, faults := g.Session(ctx, page.Document)
		if faults > 0 {
			continue // what such a sheet asks for is not known until it is mended
		}
		q.Sheets[sheet.Name] = session
		if q.ByHand[sheet.Name], err = g.set(sheet); err != nil {
			return Record{}, err
		}
		q.Logged = append(q.Logged, roomful.Logged{Athlete: person, On: a.Day, Sheet: sheet.Name, Piece: a.Piece, Text: a.Text, Line: i + 1})
	}
	record, unread := g.Day.Record(q) // what could not be read stays as it was typed
	if slices.ContainsFunc(record, func(e roomful.Entry) bool { return e.Line > 0 && e.Reading.SameAs == "last time" }) {
		for i := range q.Known { // which sheets are the same piece is asked now alone: it takes reading them all
			if q.Known[i].Again, err = g.again(ctx, q.Known[i].Sheet); err != nil {
				return Record{}, err
			}
		}
		record, unread = g.Day.Record(q)
	}
	return Record{record, g.fresh(attempts, record, unread)}, nil
}

// set are the versions of a sheet that were set by hand, as far as a score is of them.
func (g *Gym) set(sheet store.Document) (out []day.ByHand, err error) {
	all, err := g.books.Overrides(sheet.ID)
	for _, o := range all {
		out = append(out, day.ByHand{Athlete: o.Person, Piece: o.Piece, Work: o.Work, Written: o.Written, Segments: o.Segments})
	}
	return out, err
}

// fresh are the scores that were resolved now, by id. One that could not be, or not yet,
// since the score that it is the same as has not come, is not kept: it is tried again.
func (g *Gym) fresh(attempts []store.Attempt, record roomful.Record, unread []day.Unread) map[string]store.Resolved {
	out := map[string]store.Resolved{}
	for _, e := range record {
		if e.Line == 0 || slices.ContainsFunc(unread, func(u day.Unread) bool { return u.Line == e.Line }) {
			continue
		}
		id := attempts[e.Line-1].ID
		f := out[id]
		f.Read.By = g.ReadBy()
		f.Read.Readings, f.Done = append(f.Read.Readings, e.Reading), append(f.Done, e.Done)
		out[id] = f
	}
	return out
}

// entries are a score's readings with what was kept of each.
func (g *Gym) entries(a store.Attempt, sheet store.Document, done []roomful.Done) (out []roomful.Entry) {
	who := roomful.Athlete{ID: a.Person}
	for i := range g.all {
		if g.all[i].ID == a.Person {
			who = g.all[i]
		}
	}
	on := a.Day
	if on.IsZero() {
		on = sheet.Day
	}
	for i := range min(len(done), len(a.Read.Readings)) {
		out = append(out, roomful.Entry{Athlete: who.ID, Name: who.Name, Division: who.Division, Unit: who.Unit, On: on,
			Sheet: sheet.Name, Title: sheet.Title, Reading: a.Read.Readings[i], Done: done[i]})
	}
	return out
}

// others are all scores of a sheet, by its name.
func (g *Gym) others(sheet string) (roomful.Record, error) {
	d, err := g.books.Named(store.Sheet, sheet)
	if err != nil {
		return nil, err
	}
	return g.scored(d)
}

// scored are all scores of a sheet of which it is kept what was done.
func (g *Gym) scored(d store.Document) (roomful.Record, error) {
	attempts, err := g.books.OfSheet(d.ID)
	if err != nil {
		return nil, err
	}
	done, err := g.books.DoneOn(d.ID)
	if err != nil {
		return nil, err
	}
	var out roomful.Record
	for _, a := range attempts {
		if a.Read != nil {
			out = append(out, g.entries(a, d, done[a.ID])...)
		}
	}
	return out, nil
}

// again is the title of the sheet that a sheet repeats.
func (g *Gym) again(ctx context.Context, name string) (string, error) {
	d, err := g.books.Named(store.Sheet, name)
	if err != nil {
		return "", err
	}
	session, _ := g.Session(ctx, d)
	return session.Again, nil
}

// sheet finds a sheet by its id.
func (g *Gym) sheet(id string) (store.Document, error) {
	if d, ok := g.names[id]; ok {
		return d, nil
	}
	d, err := g.books.Document(id)
	if err != nil {
		return d, err
	}
	g.names[id] = d
	return d, nil
}
