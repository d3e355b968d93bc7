package store

import (
	"database/sql"
	"encoding/base64"
	"fmt"
	"time"

	"roomful"
)

// Shift is how far the people of a gym are from what published figures say, by capacity.
type Shift = map[roomful.Capacity]float64

// Learnt is what is known of a person's abilities, and how much it rests on.
type Learnt struct {
	Person    string
	Abilities roomful.Abilities
	Shift     Shift  // how the others moved what was believed of them
	Seq       int64  // of the last change that it rests on
	Model     string // the version of what learnt it
	At        time.Time
}

// Learnt lists what is known of everybody, or of one person for an id.
func (b *Books) Learnt(person string) ([]Learnt, error) {
	return manyOf(b, func(r row) (l Learnt, err error) {
		var learnt, shift string
		var at int64
		if err := r.Scan(&l.Person, &learnt, &shift, &l.Seq, &l.Model, &at); err != nil {
			return l, err
		}
		l.At = instant(at)
		if shift != "" {
			if err := decode(shift, &l.Shift); err != nil {
				return l, err
			}
		}
		return l, decode(learnt, &l.Abilities)
	}, `SELECT person_id, learnt, shift, seq, model, at FROM abilities WHERE gym_id = $1 `, person, `ORDER BY person_id`)
}

// PutLearnt writes down what was learnt of a person, unless something later is known
// already. What was known before is put aside where a published day rests on it.
func (b *Books) PutLearnt(l Learnt) error {
	learnt, err := encode(l.Abilities)
	if err != nil {
		return err
	}
	shift, err := encode(l.Shift)
	if err != nil {
		return err
	}
	seq, err := b.change("learnt", l.Person)
	if err != nil {
		return err
	}
	if err := b.putAside(l.Person, seq, l.Seq); err != nil {
		return err
	}
	_, err = b.tx.do(`INSERT INTO abilities (gym_id, person_id, learnt, shift, seq, model, at) VALUES ($1, $2, $3, $4, $5, $6, $7)
		ON CONFLICT (gym_id, person_id) DO UPDATE SET learnt = excluded.learnt, shift = excluded.shift, seq = excluded.seq, model = excluded.model, at = excluded.at
		WHERE abilities.seq <= excluded.seq`, b.gym, l.Person, learnt, shift, l.Seq, l.Model, micro(b.tx.by.At))
	return err
}

// Unlearnt is somebody of whom scores have come that were not learnt from yet.
type Unlearnt struct {
	Person string
	Seq    int64 // of their last score
}

// Unlearnt lists everybody whose last score came after what is known of them, of the
// scores that came after a change.
func (b *Books) Unlearnt(after int64) ([]Unlearnt, error) {
	return many(b.tx, func(r row) (u Unlearnt, err error) { return u, r.Scan(&u.Person, &u.Seq) },
		`SELECT a.person_id, MAX(a.seq) FROM attempts a LEFT JOIN abilities k ON k.gym_id = a.gym_id AND k.person_id = a.person_id
		WHERE a.gym_id = $1 AND a.seq > $2 GROUP BY a.person_id HAVING MAX(a.seq) > COALESCE(MAX(k.seq), 0) ORDER BY a.person_id`, b.gym, after)
}

// Learning is learning from all scores of a gym.
type Learning struct {
	Percent   int       // of what is under way, 100 when nothing is
	Run       string    // of the program that is at it, or was last
	BeganAt   time.Time // the last time
	TouchedAt time.Time // when it last got further
	DoneAt    time.Time // the last time it came to its end
	Seq       int64     // of the last change that it then rested on
	Model     string
	Shift     Shift // of who comes new
}

// Learning says how far learning from all scores is; zero when it never began.
func (b *Books) Learning() (l Learning, err error) {
	all, err := many(b.tx, func(r row) (l Learning, err error) {
		var began, touched int64
		var done sql.NullInt64
		var shift string
		if err := r.Scan(&l.Percent, &l.Run, &began, &touched, &done, &l.Seq, &l.Model, &shift); err != nil {
			return l, err
		}
		l.BeganAt, l.TouchedAt, l.DoneAt = instant(began), instant(touched), instantOf(done)
		return l, decode(shift, &l.Shift)
	}, `SELECT percent, run, began_at, touched_at, done_at, seq, model, shift FROM learning WHERE gym_id = $1`, b.gym)
	if len(all) > 0 {
		l = all[0]
	}
	return l, err
}

// PutLearning says how far learning from all scores is.
func (b *Books) PutLearning(l Learning) error {
	shift, err := encode(l.Shift)
	if err != nil {
		return err
	}
	if _, err := b.change("learning", b.gym); err != nil {
		return err
	}
	_, err = b.tx.do(`INSERT INTO learning (gym_id, percent, run, began_at, touched_at, done_at, seq, model, shift) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9)
		ON CONFLICT (gym_id) DO UPDATE SET percent = excluded.percent, run = excluded.run, began_at = excluded.began_at, touched_at = excluded.touched_at,
		done_at = excluded.done_at, seq = excluded.seq, model = excluded.model, shift = excluded.shift`,
		b.gym, l.Percent, l.Run, micro(l.BeganAt), micro(l.TouchedAt), maybe(l.DoneAt), l.Seq, l.Model, shift)
	return err
}

// Emulator is what stands in for the model on one structure of piece.
type Emulator struct {
	Structure, Model string
	Kept             []byte
}

// Emulators lists the emulators of a gym.
func (b *Books) Emulators() ([]Emulator, error) {
	return many(b.tx, func(r row) (e Emulator, err error) {
		var kept string
		if err := r.Scan(&e.Structure, &e.Model, &kept); err != nil {
			return e, err
		}
		if e.Kept, err = base64.StdEncoding.DecodeString(kept); err != nil {
			err = fmt.Errorf("reading the emulator of %s: %w", e.Structure, err)
		}
		return e, err
	}, `SELECT structure, model, kept FROM emulators WHERE gym_id = $1 ORDER BY structure`, b.gym)
}

// PutEmulators keeps emulators in the place of all there were.
func (b *Books) PutEmulators(all []Emulator) error {
	if _, err := b.change("emulators", b.gym); err != nil {
		return err
	}
	if _, err := b.tx.do(`DELETE FROM emulators WHERE gym_id = $1`, b.gym); err != nil {
		return err
	}
	for _, e := range all {
		if _, err := b.tx.do(`INSERT INTO emulators (gym_id, structure, model, kept) VALUES ($1, $2, $3, $4)`,
			b.gym, e.Structure, e.Model, base64.StdEncoding.EncodeToString(e.Kept)); err != nil {
			return err
		}
	}
	return nil
}
