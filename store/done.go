package store

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"slices"

	"roomful"
)

// asked is what a score was of: its piece, and those before it on the same clock. It is
// the same for all who did it, so it is kept once.
type asked struct {
	Piece  roomful.Part
	Before []roomful.Part
}

// Resolved is what a score was read as, and what was done by each of its readings; none
// where that could not be told.
type Resolved struct {
	Read Read
	Done []roomful.Done
}

// PutResolved keeps what somebody's scores were read as, in the place of an earlier
// reading, and what was done by them, by the ids of the scores. What was kept before of
// what was done stays as it was.
func (b *Books) PutResolved(person string, all map[string]Resolved) error {
	if _, err := b.change("read", person); err != nil {
		return err
	}
	for _, id := range slices.Sorted(maps.Keys(all)) {
		one := all[id]
		reading, err := encode(one.Read)
		if err != nil {
			return err
		}
		if err := b.needed(b.tx.do(`UPDATE attempts SET reading = $1, read_by = $2 WHERE gym_id = $3 AND id = $4 AND person_id = $5`,
			reading, one.Read.By.String(), b.gym, id, person)); err != nil {
			return fmt.Errorf("keeping what a score was read as: %w", err)
		}
		for i, d := range one.Done {
			if err := b.putDone(id, i+1, d); err != nil {
				return fmt.Errorf("keeping what was done: %w", err)
			}
		}
	}
	return nil
}

// putDone keeps what was done by the n-th reading of a score.
func (b *Books) putDone(attempt string, n int, d roomful.Done) error {
	piece, err := encode(asked{d.Piece, d.Before})
	if err != nil {
		return err
	}
	sum := sha256.Sum256([]byte(piece))
	id := hex.EncodeToString(sum[:12])
	d.Piece, d.Before = roomful.Part{}, nil
	text, err := encode(d)
	if err != nil {
		return err
	}
	if _, err := b.tx.do(`INSERT INTO pieces (gym_id, id, piece) VALUES ($1, $2, $3) ON CONFLICT DO NOTHING`, b.gym, id, piece); err != nil {
		return err
	}
	_, err = b.tx.do(`INSERT INTO done (gym_id, attempt_id, n, piece_id, done) VALUES ($1, $2, $3, $4, $5) ON CONFLICT DO NOTHING`, b.gym, attempt, n, id, text)
	return err
}

// DoneBy returns what was done by somebody's scores, and DoneOn by those of a sheet, by
// their ids and in the order of their readings.
func (b *Books) DoneBy(person string) (map[string][]roomful.Done, error) {
	return b.done(`withdrawn_at IS NULL AND person_id = $2`, person)
}

// DoneOn is like [Books.DoneBy].
func (b *Books) DoneOn(document string) (map[string][]roomful.Done, error) {
	return b.done(`withdrawn_at IS NULL AND document_id = $2`, document)
}

// titled are the scores of a person on sheets with one of two titles.
const titled = `person_id = $2 AND document_id IN (SELECT d.id FROM documents d WHERE d.gym_id = $1 AND d.kind = 'sheet' AND d.title <> '' AND d.title IN ($3, $4))`

// Tried lists what somebody scored on sheets with one of two titles by day, withdrawn ones
// left out, and what was done by each.
func (b *Books) Tried(person, title, or string) ([]Attempt, map[string][]roomful.Done, error) {
	return b.tried(`withdrawn_at IS NULL AND `+titled, person, title, or)
}

// TriedBefore lists the same as it was when an edition was published, by the change that
// published it: with what was withdrawn since, and without what came since.
func (b *Books) TriedBefore(person, title, or string, edition int64) ([]Attempt, map[string][]roomful.Done, error) {
	return b.tried(`seq <= $5 AND (withdrawn_at IS NULL OR id IN (
		SELECT c.subject FROM changes c WHERE c.gym_id = $1 AND c.seq > $5 AND c.kind = 'attempt')) AND `+titled, person, title, or, edition)
}

// tried lists the scores that a condition says are meant by day, and what was done by each.
func (b *Books) tried(which string, of ...any) ([]Attempt, map[string][]roomful.Done, error) {
	all, err := many(b.tx, readAttempt, attempts+`AND id IN (SELECT id FROM attempts WHERE gym_id = $1 AND `+which+`) ORDER BY day, seq`, append([]any{b.gym}, of...)...)
	if err != nil || len(all) == 0 {
		return nil, nil, err
	}
	done, err := b.done(which, of...)
	return all, done, err
}

// done reads what was done by the scores that a condition says are meant.
func (b *Books) done(which string, of ...any) (map[string][]roomful.Done, error) {
	of = append([]any{b.gym}, of...)
	// By the ids of the scores, in so many words: joined, the whole table is walked.
	meant := ` FROM done WHERE gym_id = $1 AND attempt_id IN (SELECT id FROM attempts WHERE gym_id = $1 AND ` + which + `)`
	pieces := map[string]asked{}
	if _, err := many(b.tx, func(r row) (none struct{}, err error) {
		var id, text string
		var piece asked
		if err := r.Scan(&id, &text); err != nil {
			return none, err
		}
		err = decode(text, &piece)
		pieces[id] = piece
		return none, err
	}, `SELECT id, piece FROM pieces WHERE gym_id = $1 AND id IN (SELECT piece_id`+meant+`)`, of...); err != nil {
		return nil, err
	}
	out := map[string][]roomful.Done{}
	_, err := many(b.tx, func(r row) (none struct{}, err error) {
		var id, piece, text string
		var d roomful.Done
		if err := r.Scan(&id, &piece, &text); err != nil {
			return none, err
		}
		err = decode(text, &d)
		d.Piece, d.Before = pieces[piece].Piece, pieces[piece].Before
		out[id] = append(out[id], d)
		return none, err
	}, `SELECT attempt_id, piece_id, done`+meant+` ORDER BY attempt_id, n`, of...)
	return out, err
}
