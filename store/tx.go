package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"
	"unicode/utf8"
)

// Tx is a view of the database, or an update in the making.
type Tx struct {
	ctx     context.Context
	tx      *sql.Tx
	store   *Store
	by      By
	seqs    map[string]int64 // the last changes of the gyms that are written to; nil in a view
	changed []string         // gyms with something to tell
}

// In opens the books of a gym.
func (t *Tx) In(gym string) *Books { return &Books{tx: t, gym: gym} }

// Books are all that is kept of one gym. Their methods fail with [ErrMissing] for what
// the gym does not have.
type Books struct {
	tx  *Tx
	gym string
}

// ID is the id of the gym.
func (b *Books) ID() string { return b.gym }

// Changing reports whether the books are those of an update, which may yet be undone.
func (b *Books) Changing() bool { return b.tx.seqs != nil }

// row is what a question answers with, one line at a time.
type row interface{ Scan(...any) error }

// many asks a question and reads every line of the answer.
func many[T any](t *Tx, read func(row) (T, error), question string, args ...any) (out []T, err error) {
	rows, err := t.tx.QueryContext(t.ctx, t.store.spelt(question), args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	for rows.Next() {
		one, err := read(rows)
		if err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	return out, rows.Err()
}

// manyOf asks a question about a person of the gym, or about everybody for an empty id.
// Asked as one question with an "or" it would go through everybody each time.
func manyOf[T any](b *Books, read func(row) (T, error), question, person, order string) ([]T, error) {
	if person == "" {
		return many(b.tx, read, question+order, b.gym)
	}
	return many(b.tx, read, question+`AND person_id = $2 `+order, b.gym, person)
}

// one asks a question with at most one line of answer, [ErrMissing] for none.
func one[T any](t *Tx, read func(row) (T, error), question string, args ...any) (T, error) {
	out, err := read(t.tx.QueryRowContext(t.ctx, t.store.spelt(question), args...))
	if errors.Is(err, sql.ErrNoRows) {
		err = ErrMissing
	}
	return out, err
}

// do changes rows and says how many.
func (t *Tx) do(statement string, args ...any) (int64, error) {
	if t.seqs == nil {
		return 0, errors.New("nothing can be changed in a view")
	}
	for _, arg := range args {
		if text, ok := arg.(string); ok && (!utf8.ValidString(text) || strings.ContainsRune(text, 0)) {
			return 0, ErrText
		}
	}
	got, err := t.tx.ExecContext(t.ctx, t.store.spelt(statement), args...)
	if err != nil {
		return 0, err
	}
	return got.RowsAffected()
}

// spelt writes the places for values as the database has them.
func (s *Store) spelt(question string) string {
	if s.engine.Dollar {
		return question
	}
	if known, ok := questionMarks.Load(question); ok {
		return known.(string)
	}
	out := strings.ReplaceAll(question, "$", "?")
	if len(question) < longQuestion {
		questionMarks.Store(question, out)
	}
	return out
}

// longQuestion is one with many rows in it, which is asked once.
const longQuestion = 2000

// questionMarks remembers questions with ?1 for $1.
var questionMarks sync.Map

// change notes in the book of changes that something was done to a subject, and returns
// its number.
func (b *Books) change(kind, subject string) (int64, error) {
	t := b.tx
	seq, err := b.lock()
	if err != nil {
		return 0, err
	}
	seq++
	if _, err := t.do(`INSERT INTO changes (gym_id, seq, at, account_id, kind, subject) VALUES ($1, $2, $3, $4, $5, $6)`,
		b.gym, seq, micro(t.by.At), t.by.Account, kind, subject); err != nil {
		return 0, fmt.Errorf("noting a change: %w", err)
	}
	t.seqs[b.gym] = seq
	if !slices.Contains(t.changed, b.gym) {
		t.changed = append(t.changed, b.gym)
	}
	return seq, nil
}

// settle writes down the number of the last change of each gym that was changed: once
// for all updates that are committed together.
func (t *Tx) settle() error {
	for _, gym := range t.changed {
		if seq, ok := t.seqs[gym]; ok {
			if _, err := t.do(`UPDATE gyms SET seq = $1 WHERE id = $2`, seq, gym); err != nil {
				return fmt.Errorf("numbering changes: %w", err)
			}
		}
	}
	return nil
}

// lock has other processes wait with this gym, and returns the number of its last
// change.
func (b *Books) lock() (int64, error) {
	t := b.tx
	if seq, ok := t.seqs[b.gym]; ok {
		return seq, nil
	}
	seq, err := one(t, func(r row) (n int64, err error) { return n, r.Scan(&n) }, `SELECT seq FROM gyms WHERE id = $1`+t.store.engine.Lock, b.gym)
	if err != nil {
		return 0, err
	}
	if t.seqs != nil {
		t.seqs[b.gym] = seq
	}
	return seq, nil
}

// micro is an instant as it is stored.
func micro(t time.Time) int64 { return t.UnixMicro() }

// instant reads one.
func instant(n int64) time.Time { return time.UnixMicro(n).UTC() }

// maybe is an instant that may not be set.
func maybe(t time.Time) any {
	if t.IsZero() {
		return nil
	}
	return micro(t)
}

// instantOf reads one that may not be set.
func instantOf(n sql.NullInt64) time.Time {
	if !n.Valid {
		return time.Time{}
	}
	return instant(n.Int64)
}

// orNull is a reference that may lead nowhere.
func orNull(id string) any {
	if id == "" {
		return nil
	}
	return id
}

// yes is a truth as it is stored.
func yes(b bool) int64 {
	if b {
		return 1
	}
	return 0
}
