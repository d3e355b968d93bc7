package store

import (
	"time"

	"roomful"
)

// Edition is a sheet as it was published, with the versions of what read it then.
type Edition struct {
	ID       string
	Document string
	Text     string
	Read     Readers
	Account  string
	At       time.Time
	Day      roomful.Date // that it is for, the sheet's own or when it was published; that of the last class that does it, where that is later
	Seq      int64        // of the change that published it, 0 where that was not kept
}

// standsFor is for how many days more than its own an edition stands.
const standsFor = 1

// Stands reports whether, on a day by the gym's clock, an edition rests on what was known
// when it was published: to the end of the day after its own.
func (e Edition) Stands(today roomful.Date) bool { return e.Seq > 0 && today.Days(e.Day) <= standsFor }

// Readers are the versions of what turns a text into figures.
type Readers struct{ Notation, Catalogue, Model string }

// Publish freezes a sheet as it stands, and what is known of everybody for its day and the
// classes that do it. What was put aside for days that are over goes.
func (b *Books) Publish(id, document string, read Readers) error {
	seq, err := b.change("edition", id)
	if err != nil {
		return err
	}
	today, err := b.today()
	if err != nil {
		return err
	}
	if err := b.letGo(today); err != nil {
		return err
	}
	last, err := one(b.tx, func(r row) (on string, err error) { return on, r.Scan(&on) },
		`SELECT COALESCE(MAX(day), '') FROM classes WHERE gym_id = $1 AND document_id = $2 AND day >= $3`, b.gym, document, standing(today))
	if err != nil {
		return err
	}
	if err := b.needed(b.tx.do(`INSERT INTO editions (gym_id, id, document_id, text, notation, catalogue, model, account_id, at, day, seq)
		SELECT d.gym_id, $1, d.id, r.text, $2, $3, $4, $5, $6, CASE WHEN d.day = '' THEN $10 ELSE d.day END, $11 FROM documents d
		JOIN revisions r ON r.gym_id = d.gym_id AND r.document_id = d.id AND r.n = d.revision
		WHERE d.gym_id = $7 AND d.id = $8 AND d.kind = $9`, id, read.Notation, read.Catalogue, read.Model, b.tx.by.Account, micro(b.tx.by.At), b.gym, document, Sheet, today.String(), seq)); err != nil {
		return err
	}
	_, err = b.tx.do(`UPDATE editions SET day = $1 WHERE gym_id = $2 AND id = $3 AND day < $1`, last, b.gym, id)
	return err
}

// prolong has the editions of a sheet that stand do so for a class on a later day too.
func (b *Books) prolong(document string, on roomful.Date) error {
	today, err := b.today()
	if err != nil {
		return err
	}
	all, err := many(b.tx, func(r row) (id string, err error) { return id, r.Scan(&id) },
		`SELECT id FROM editions WHERE gym_id = $1 AND document_id = $2 AND day >= $3 AND day < $4 ORDER BY id`, b.gym, document, standing(today), on.String())
	if err != nil {
		return err
	}
	for _, id := range all {
		if _, err := b.change("edition", id); err != nil {
			return err
		}
		if _, err := b.tx.do(`UPDATE editions SET day = $1 WHERE gym_id = $2 AND id = $3`, on.String(), b.gym, id); err != nil {
			return err
		}
	}
	return nil
}

// Editions lists the editions of a sheet, the oldest first.
func (b *Books) Editions(document string) ([]Edition, error) {
	return many(b.tx, readEdition, editions+`WHERE gym_id = $1 AND document_id = $2 ORDER BY at, id`, b.gym, document)
}

// LastEditions lists the last edition of each sheet that was published.
func (b *Books) LastEditions() ([]Edition, error) {
	return many(b.tx, readEdition, editions+`WHERE gym_id = $1 AND NOT EXISTS (SELECT 1 FROM editions l WHERE l.gym_id = $1 AND l.document_id = editions.document_id
		AND (l.at > editions.at OR l.at = editions.at AND l.id > editions.id)) ORDER BY document_id`, b.gym)
}

// editions is the question that [readEdition] reads the answer of.
const editions = `SELECT id, document_id, text, notation, catalogue, model, account_id, at, day, seq FROM editions `

func readEdition(r row) (e Edition, err error) {
	var at int64
	var on string
	err = r.Scan(&e.ID, &e.Document, &e.Text, &e.Read.Notation, &e.Read.Catalogue, &e.Read.Model, &e.Account, &at, &on, &e.Seq)
	e.At, e.Day = instant(at), day(on)
	return e, err
}
