package store

import (
	"errors"
	"fmt"
	"time"

	"roomful"
)

// The kinds of documents.
const (
	Sheet    = "sheet"
	Kit      = "kit"
	Settings = "settings"
)

// Document is a text that people write, as it holds.
type Document struct {
	ID       string
	Kind     string // [Sheet], [Kit] or [Settings]
	Name     string // of its file without the ending; one of a kind has it
	Title    string
	Day      roomful.Date // of a sheet, zero for none
	Revision int64
	Text     string
	At       time.Time // of the revision
	Account  string    // who wrote it
}

// documents is the question that [readDocument] reads the answer of.
const documents = `SELECT d.id, d.kind, d.name, d.title, d.day, d.revision, r.text, r.at, r.account_id
	FROM documents d JOIN revisions r ON r.gym_id = d.gym_id AND r.document_id = d.id AND r.n = d.revision WHERE d.gym_id = $1 `

func readDocument(r row) (d Document, err error) {
	var on string
	var at int64
	err = r.Scan(&d.ID, &d.Kind, &d.Name, &d.Title, &on, &d.Revision, &d.Text, &at, &d.Account)
	d.Day, d.At = day(on), instant(at)
	return d, err
}

// Documents lists the documents of a kind, by day and name.
func (b *Books) Documents(kind string) ([]Document, error) {
	return many(b.tx, readDocument, documents+`AND d.kind = $2 ORDER BY d.day, d.name`, b.gym, kind)
}

// OnDay lists the sheets of a day. The day stands as a span, for which SQLite looks under
// the day: for one value it goes through the names of all sheets, to save a sort of two.
func (b *Books) OnDay(on roomful.Date) ([]Document, error) { return b.SheetsBetween(on, on) }

// SheetsBetween lists the sheets of the days from one to another.
func (b *Books) SheetsBetween(from, to roomful.Date) ([]Document, error) {
	return many(b.tx, readDocument, documents+`AND d.kind = $2 AND d.day >= $3 AND d.day <= $4 ORDER BY d.day, d.name`, b.gym, Sheet, from.String(), to.String())
}

// Titled lists the sheets with one of two titles, by day and name.
func (b *Books) Titled(title, or string) ([]Document, error) {
	return many(b.tx, readDocument, documents+`AND d.kind = $2 AND d.title <> '' AND d.title IN ($3, $4) ORDER BY d.day, d.name`, b.gym, Sheet, title, or)
}

// Document returns a document by id.
func (b *Books) Document(id string) (Document, error) {
	return one(b.tx, readDocument, documents+`AND d.id = $2`, b.gym, id)
}

// Named returns a document by its kind and name.
func (b *Books) Named(kind, name string) (Document, error) {
	return one(b.tx, readDocument, documents+`AND d.kind = $2 AND d.name = $3`, b.gym, kind, name)
}

// Save writes a text down. Its revision is the one that it was written from, 0 for a new
// document. When somebody else has saved another meanwhile the text is kept aside for
// its writer to merge, once however often it is sent, and stale says so: what then holds
// is returned.
func (b *Books) Save(d Document) (saved Document, stale bool, err error) {
	if _, err := b.lock(); err != nil {
		return d, false, err
	}
	now, err := b.Document(d.ID)
	if errors.Is(err, ErrMissing) && d.Revision == 0 {
		return b.create(d)
	}
	switch {
	case err != nil:
		return d, false, err
	case now.Kind != d.Kind:
		return d, false, ErrTaken
	case now.Text == d.Text && now.Title == d.Title && now.Day == d.Day && now.Name == d.Name:
		return now, false, nil
	}
	base, last := d.Revision, int64(0)
	if last, err = b.last(d.ID); err != nil {
		return d, false, err
	}
	if stale = now.Revision != base; stale {
		if waits, err := b.waits(d, base); err != nil || waits {
			return now, true, err
		}
	}
	d.Revision = last + 1
	if err := b.revise(d, base, stale); err != nil || stale {
		return now, stale, err
	}
	return d, false, b.taken(b.tx.do(`UPDATE documents SET name = $1, title = $2, day = $3, revision = $4 WHERE gym_id = $5 AND id = $6
		AND NOT EXISTS (SELECT 1 FROM documents o WHERE o.gym_id = $5 AND o.kind = $7 AND o.name = $1 AND o.id <> $6)`,
		d.Name, d.Title, d.Day.String(), d.Revision, b.gym, d.ID, d.Kind))
}

// waits reports whether a text waits aside already, as the same account wrote it from the
// same revision: sent twice it is kept once.
func (b *Books) waits(d Document, base int64) (bool, error) {
	n, err := one(b.tx, func(r row) (n int64, err error) { return n, r.Scan(&n) },
		`SELECT COUNT(*) FROM revisions WHERE gym_id = $1 AND document_id = $2 AND aside = 1 AND base = $3 AND account_id = $4 AND text = $5`,
		b.gym, d.ID, base, b.tx.by.Account, d.Text)
	return n > 0, err
}

// create writes a new document down.
func (b *Books) create(d Document) (Document, bool, error) {
	if err := b.taken(b.tx.do(`INSERT INTO documents (gym_id, id, kind, name, title, day, revision) VALUES ($1, $2, $3, $4, $5, $6, 1) ON CONFLICT DO NOTHING`,
		b.gym, d.ID, d.Kind, d.Name, d.Title, d.Day.String())); err != nil {
		return d, false, fmt.Errorf("the %s %s: %w", d.Kind, d.Name, err)
	}
	d.Revision = 1
	return d, false, b.revise(d, 0, false)
}

// taken is the outcome of a statement that touches no row when an id or name is taken.
func (b *Books) taken(n int64, err error) error {
	if err == nil && n == 0 {
		err = ErrTaken
	}
	return err
}

// last is the number of a document's last revision, aside or not.
func (b *Books) last(id string) (int64, error) {
	return one(b.tx, func(r row) (n int64, err error) { return n, r.Scan(&n) },
		`SELECT MAX(n) FROM revisions WHERE gym_id = $1 AND document_id = $2`, b.gym, id)
}

// revise writes a revision down.
func (b *Books) revise(d Document, base int64, aside bool) error {
	if _, err := b.change(d.Kind, d.ID); err != nil {
		return err
	}
	_, err := b.tx.do(`INSERT INTO revisions (gym_id, document_id, n, base, aside, text, account_id, at) VALUES ($1, $2, $3, $4, $5, $6, $7, $8)`,
		b.gym, d.ID, d.Revision, base, yes(aside), d.Text, b.tx.by.Account, micro(b.tx.by.At))
	return err
}

// Revision is a text that a document was, or that waits beside it.
type Revision struct {
	N, Base int64 // its number, and of which it was written
	Aside   bool
	Text    string
	Account string
	At      time.Time
}

// Revisions lists all that a document was, the oldest first.
func (b *Books) Revisions(document string) ([]Revision, error) {
	return many(b.tx, func(r row) (v Revision, err error) {
		var aside, at int64
		err = r.Scan(&v.N, &v.Base, &aside, &v.Text, &v.Account, &at)
		v.Aside, v.At = aside == 1, instant(at)
		return v, err
	}, `SELECT n, base, aside, text, account_id, at FROM revisions WHERE gym_id = $1 AND document_id = $2 ORDER BY n`, b.gym, document)
}
