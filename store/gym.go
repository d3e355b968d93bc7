package store

import (
	"fmt"
	"time"
)

// Gym is one gym of an installation.
type Gym struct {
	ID     string
	Name   string
	Zone   string // of its clock, by its name in the time zone database
	MadeAt time.Time
}

// Clock is an instant by the clock on the gym's wall; that of UTC where its zone is none
// that is known here.
func (g Gym) Clock(at time.Time) time.Time {
	zone, err := time.LoadLocation(g.Zone)
	if err != nil {
		zone = time.UTC
	}
	return at.In(zone)
}

// Gyms lists the gyms of the installation, the oldest first.
func (t *Tx) Gyms() ([]Gym, error) {
	return many(t, readGym, `SELECT id, name, zone, made_at FROM gyms ORDER BY made_at, id`)
}

// MakeGym opens the books of a new gym; [ErrTaken] when there is one of that id.
func (t *Tx) MakeGym(g Gym) error {
	n, err := t.do(`INSERT INTO gyms (id, name, zone, seq, made_at) VALUES ($1, $2, $3, 0, $4) ON CONFLICT DO NOTHING`, g.ID, g.Name, g.Zone, micro(g.MadeAt))
	switch {
	case err != nil:
		return fmt.Errorf("making the gym %s: %w", g.Name, err)
	case n == 0:
		return fmt.Errorf("making the gym %s: %w", g.Name, ErrTaken)
	}
	_, err = t.In(g.ID).change("gym", g.ID)
	return err
}

// DropGym takes a gym away with all that is kept of it.
func (t *Tx) DropGym(id string) error {
	if _, err := t.In(id).lock(); err != nil {
		return err
	}
	delete(t.seqs, id)
	for _, table := range tables { // in an order in which nothing points at what has gone
		if _, err := t.do(`DELETE FROM `+table+` WHERE gym_id = $1`, id); err != nil {
			return fmt.Errorf("emptying %s: %w", table, err)
		}
	}
	_, err := t.do(`DELETE FROM gyms WHERE id = $1`, id)
	return err
}

// tables are those with rows of a gym, what points before what is pointed at.
var tables = []string{"passkeys", "signins", "invitations", "accounts", "notes", "learning", "abilities_before", "abilities", "overrides", "done", "pieces", "attempts", "signups",
	"classes", "editions", "revisions", "documents", "limits", "people", "changes"}

// Gym returns the gym itself.
func (b *Books) Gym() (Gym, error) {
	return one(b.tx, readGym, `SELECT id, name, zone, made_at FROM gyms WHERE id = $1`, b.gym)
}

// Rename gives a gym another name and zone.
func (b *Books) Rename(name, zone string) error {
	if _, err := b.change("gym", b.gym); err != nil {
		return err
	}
	_, err := b.tx.do(`UPDATE gyms SET name = $1, zone = $2 WHERE id = $3`, name, zone, b.gym)
	return err
}

func readGym(r row) (g Gym, err error) {
	var at int64
	err = r.Scan(&g.ID, &g.Name, &g.Zone, &at)
	g.MadeAt = instant(at)
	return g, err
}
