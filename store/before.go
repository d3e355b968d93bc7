package store

import (
	"fmt"
	"time"

	"roomful"
)

// today is the day of an update by the gym's clock.
func (b *Books) today() (roomful.Date, error) {
	g, err := b.Gym()
	return roomful.DateOf(g.Clock(b.tx.by.At)), err
}

// standing is the first day whose editions stand on a day.
func standing(today roomful.Date) string { return today.Plus(-standsFor).String() }

// putAside keeps what is known of somebody before a change brings something later, where
// an edition that stands rests on it and nothing was put aside since that was published.
// What is known stays where it rests on more than a change; then nothing is put aside.
// Before a gym has learnt from all its scores once there is nothing to rest on.
func (b *Books) putAside(person string, until, rests int64) error {
	today, err := b.today()
	if err != nil {
		return err
	}
	if _, err := b.tx.do(`INSERT INTO abilities_before (gym_id, person_id, until, learnt, model)
		SELECT p.gym_id, p.id, $1, COALESCE(k.learnt, ''), COALESCE(k.model, '') FROM people p
		LEFT JOIN abilities k ON k.gym_id = p.gym_id AND k.person_id = p.id WHERE p.gym_id = $2 AND p.id = $3 AND COALESCE(k.seq, 0) <= $5
		AND EXISTS (SELECT 1 FROM learning l WHERE l.gym_id = $2 AND l.done_at IS NOT NULL)
		AND EXISTS (SELECT 1 FROM editions e WHERE e.gym_id = $2 AND e.day >= $4 AND e.seq >
			COALESCE((SELECT MAX(o.until) FROM abilities_before o WHERE o.gym_id = $2 AND o.person_id = $3), 0))`,
		until, b.gym, person, standing(today), rests); err != nil {
		return fmt.Errorf("putting aside what was known of somebody: %w", err)
	}
	return nil
}

// letGo drops what was put aside and no edition that stands rests on: none was published
// after it was learnt and before the later came.
func (b *Books) letGo(today roomful.Date) error {
	if _, err := b.tx.do(`DELETE FROM abilities_before WHERE gym_id = $1 AND NOT EXISTS (
		SELECT 1 FROM editions e WHERE e.gym_id = $1 AND e.day >= $2 AND e.seq < abilities_before.until AND e.seq >=
			COALESCE((SELECT MAX(o.until) FROM abilities_before o WHERE o.gym_id = $1 AND o.person_id = abilities_before.person_id AND o.until < abilities_before.until), 0))`,
		b.gym, standing(today)); err != nil {
		return fmt.Errorf("letting go of what no published day rests on: %w", err)
	}
	return nil
}

// LearntBefore is what was known of somebody when an edition that stands was published, by
// the change that published it: their abilities, and the model that learnt them. False for
// nothing.
func (b *Books) LearntBefore(person string, edition int64) (l Learnt, known bool, err error) {
	aside, err := many(b.tx, func(r row) (l Learnt, err error) {
		var learnt string
		if err := r.Scan(&learnt, &l.Model); err != nil || learnt == "" {
			return l, err
		}
		l.Person = person
		return l, decode(learnt, &l.Abilities)
	}, `SELECT learnt, model FROM abilities_before WHERE gym_id = $1 AND person_id = $2 AND until > $3 ORDER BY until LIMIT 1`, b.gym, person, edition)
	if err != nil {
		return l, false, err
	}
	if len(aside) > 0 {
		return aside[0], aside[0].Person != "", nil
	}
	now, err := b.Learnt(person)
	if err != nil || len(now) == 0 {
		return l, false, err
	}
	return now[0], true, nil
}

// Before is what was known of somebody until something later was learnt.
type Before struct {
	Abilities roomful.Abilities
	Until     time.Time
}

// PutAside lists what is kept of what was known of somebody before, since published days
// rest on it; the oldest first.
func (b *Books) PutAside(person string) ([]Before, error) {
	return many(b.tx, func(r row) (out Before, err error) {
		var learnt string
		var until int64
		if err := r.Scan(&learnt, &until); err != nil {
			return out, err
		}
		out.Until = instant(until)
		return out, decode(learnt, &out.Abilities)
	}, `SELECT k.learnt, c.at FROM abilities_before k JOIN changes c ON c.gym_id = k.gym_id AND c.seq = k.until
		WHERE k.gym_id = $1 AND k.person_id = $2 AND k.learnt <> '' ORDER BY k.until`, b.gym, person)
}

// LearntSince lists those of whom something was learnt since an edition that stands was
// published, by the change that published it.
func (b *Books) LearntSince(edition int64) ([]string, error) {
	return many(b.tx, func(r row) (person string, err error) { return person, r.Scan(&person) },
		`SELECT DISTINCT person_id FROM abilities_before WHERE gym_id = $1 AND until > $2 ORDER BY person_id`, b.gym, edition)
}
