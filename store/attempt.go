package store

import (
	"database/sql"
	"fmt"
	"strings"
	"time"

	"roomful"
)

// Attempt is a score as somebody typed it, kept for ever, and beside it what it was
// read as.
type Attempt struct {
	ID       string // made where it was typed: sent twice it is stored once
	Person   string
	Document string // the sheet
	Edition  string // as it was published, empty when it never was
	Piece    string // empty for the main one
	Class    string // empty for none
	Day      roomful.Date
	Text     string
	TypedAt  time.Time
	Read     *Read // nil until it is read
	// The rest is the store's to say.
	Sheet       string // the name of the sheet
	Account     string // who sent it
	Seq         int64  // of the change that brought it
	WithdrawnAt time.Time
}

// Read is what a text was read as.
type Read struct {
	Readings []roomful.Reading
	By       Readers
}

// PutAttempt stores a score as it was typed, and what it was read as when that is known.
// The same attempt sent again changes nothing and is no error; another under its id is
// [ErrTaken].
func (b *Books) PutAttempt(a Attempt) (stored bool, err error) {
	reading, by := "", ""
	if a.Read != nil {
		if reading, err = encode(*a.Read); err != nil {
			return false, err
		}
		by = a.Read.By.String()
	}
	if _, err := b.lock(); err != nil {
		return false, err
	}
	n, err := b.tx.do(`INSERT INTO attempts (gym_id, id, person_id, document_id, edition_id, piece, class_id, day, text, account_id, typed_at, seq, reading, read_by)
		VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14) ON CONFLICT DO NOTHING`,
		b.gym, a.ID, a.Person, a.Document, orNull(a.Edition), a.Piece, orNull(a.Class), a.Day.String(), a.Text, b.tx.by.Account, micro(a.TypedAt), b.tx.seqs[b.gym]+1,
		orNull(reading), by)
	if err != nil {
		return false, fmt.Errorf("storing a score: %w", err)
	}
	if n == 0 {
		was, err := b.Attempt(a.ID)
		if err == nil && (was.Person != a.Person || was.Document != a.Document || was.Piece != a.Piece || was.Text != a.Text) {
			err = ErrTaken
		}
		return false, err
	}
	_, err = b.change("attempt", a.ID)
	return true, err
}

// String names the versions in one word each.
func (r Readers) String() string { return r.Notation + " " + r.Catalogue + " " + r.Model }

// Withdraw takes a score out of every list; its text stays.
func (b *Books) Withdraw(id string) error {
	a, err := b.Attempt(id)
	if err != nil {
		return err
	}
	if _, err := b.change("attempt", id); err != nil {
		return err
	}
	if _, err := b.change("read", a.Person); err != nil { // of them less is known now
		return err
	}
	return b.needed(b.tx.do(`UPDATE attempts SET withdrawn_at = $1 WHERE gym_id = $2 AND id = $3`, micro(b.tx.by.At), b.gym, id))
}

// Attempt returns a score by id.
func (b *Books) Attempt(id string) (Attempt, error) {
	return one(b.tx, readAttempt, attempts+`AND id = $2`, b.gym, id)
}

// Place is where a page of somebody's scores ends, and the next begins behind it.
type Place struct {
	Day roomful.Date
	Seq int64
}

// Place returns where a score stands among those of its person.
func (a Attempt) Place() Place { return Place{a.Day, a.Seq} }

// Latest lists the latest of somebody's scores, the last first and withdrawn ones left
// out: so many of those before a place, or before the end of time for the zero place.
// Most who ask for a record look at its first page.
func (b *Books) Latest(person string, before Place, limit int) ([]Attempt, error) {
	return b.latest(`person_id`, person, before, limit)
}

// LatestOn lists the latest scores of a sheet in the same way.
func (b *Books) LatestOn(document string, before Place, limit int) ([]Attempt, error) {
	return b.latest(`document_id`, document, before, limit)
}

// latest lists the latest scores that a column says are meant.
func (b *Books) latest(column, of string, before Place, limit int) ([]Attempt, error) {
	day := before.Day.String()
	if before == (Place{}) {
		day = "~" // after every day
	}
	return many(b.tx, readAttempt, attempts+`AND `+column+` = $2 AND withdrawn_at IS NULL AND day <= $3 AND (day < $3 OR seq < $4)
		ORDER BY day DESC, seq DESC LIMIT $5`, b.gym, of, day, before.Seq, limit)
}

// OfPerson lists all of somebody's scores by day, withdrawn ones left out.
func (b *Books) OfPerson(person string) ([]Attempt, error) {
	return many(b.tx, readAttempt, attempts+`AND person_id = $2 AND withdrawn_at IS NULL ORDER BY day, seq`, b.gym, person)
}

// OfSheet lists the scores of a sheet by day, withdrawn ones left out.
func (b *Books) OfSheet(document string) ([]Attempt, error) {
	return many(b.tx, readAttempt, attempts+`AND document_id = $2 AND withdrawn_at IS NULL ORDER BY day, seq`, b.gym, document)
}

// OfSheetBy lists the scores of a sheet in the same way, of some people alone.
func (b *Books) OfSheetBy(document string, people ...string) ([]Attempt, error) {
	if len(people) == 0 {
		return nil, nil
	}
	in, args := these([]any{b.gym, document}, people)
	return many(b.tx, readAttempt, attempts+`AND document_id = $2 AND withdrawn_at IS NULL AND person_id IN (`+in+`) ORDER BY day, seq`, args...)
}

// Scorers lists who has a score on a sheet, by their ids.
func (b *Books) Scorers(document string) ([]string, error) {
	return many(b.tx, func(r row) (id string, err error) { return id, r.Scan(&id) },
		`SELECT DISTINCT person_id FROM attempts WHERE gym_id = $1 AND document_id = $2 AND withdrawn_at IS NULL ORDER BY person_id`, b.gym, document)
}

// these adds values to the arguments of a statement, and names them in it.
func these(args []any, values []string) (in string, all []any) {
	var at []string
	for _, v := range values {
		args = append(args, v)
		at = append(at, fmt.Sprintf("$%d", len(args)))
	}
	return strings.Join(at, ", "), args
}

// Come tells how many scores of a sheet have come, withdrawn ones left out, and the change
// that brought the last.
func (b *Books) Come(document string) (n int, last int64, err error) {
	type come struct {
		n    int
		last int64
	}
	c, err := one(b.tx, func(r row) (c come, err error) { return c, r.Scan(&c.n, &c.last) },
		`SELECT COUNT(*), COALESCE(MAX(seq), 0) FROM attempts WHERE gym_id = $1 AND document_id = $2 AND withdrawn_at IS NULL`, b.gym, document)
	return c.n, c.last, err
}

// Attempts lists scores in the order in which they came, after a change, up to a limit:
// all of a gym, in pieces. Withdrawn ones are among them.
func (b *Books) Attempts(after int64, limit int) ([]Attempt, error) {
	return many(b.tx, readAttempt, attempts+`AND seq > $2 ORDER BY seq LIMIT $3`, b.gym, after, limit)
}

// Scores counts the scores of a gym, withdrawn ones too.
func (b *Books) Scores() (int, error) {
	return one(b.tx, func(r row) (n int, err error) { return n, r.Scan(&n) }, `SELECT COUNT(*) FROM attempts WHERE gym_id = $1`, b.gym)
}

const attempts = `SELECT id, person_id, document_id, COALESCE(edition_id, ''), piece, COALESCE(class_id, ''), day, text, account_id, typed_at, seq,
	withdrawn_at, reading, (SELECT name FROM documents d WHERE d.gym_id = attempts.gym_id AND d.id = attempts.document_id) FROM attempts WHERE gym_id = $1 `

func readAttempt(r row) (a Attempt, err error) {
	var on string
	var typed int64
	var withdrawn sql.NullInt64
	var reading sql.NullString
	if err := r.Scan(&a.ID, &a.Person, &a.Document, &a.Edition, &a.Piece, &a.Class, &on, &a.Text, &a.Account, &typed, &a.Seq, &withdrawn, &reading, &a.Sheet); err != nil {
		return a, err
	}
	a.Day, a.TypedAt, a.WithdrawnAt = day(on), instant(typed), instantOf(withdrawn)
	if reading.Valid {
		a.Read = new(Read)
		err = decode(reading.String, a.Read)
	}
	return a, err
}
