package store

import (
	"context"
	"errors"
	"fmt"
	"time"
)

// update is a change that waits to be made.
type update struct {
	by     By
	f      func(*Tx) error
	result chan error
	tries  int
}

// mostTries is how often an update is made that got into another's way.
const mostTries = 4

// mostTogether is how many updates are committed at once: by then the disk is no longer
// what is waited for.
const mostTogether = 64

// patience is how long updates that are committed together may take: a whole gym that
// is restored takes seconds.
const patience = 2 * time.Minute

// write makes updates until the store closes, those that wait together in one
// transaction.
func (s *Store) write(ctx context.Context) {
	defer close(s.done)
	for {
		select {
		case u := <-s.queue:
			s.commit(s.waiting(u))
		case <-ctx.Done():
			return
		}
	}
}

// waiting gathers an update and those that wait behind it.
func (s *Store) waiting(first *update) []*update {
	all := []*update{first}
	for len(all) < mostTogether {
		select {
		case u := <-s.queue:
			all = append(all, u)
		default:
			return all
		}
	}
	return all
}

// commit makes updates in one transaction. When it cannot be committed they are made
// one by one, so that each gets its own answer. Those that got into the way of another
// process are made again.
func (s *Store) commit(all []*update) {
	results, gyms, err := s.together(all)
	if err == nil {
		s.counts.commits.Add(1)
		s.hub.changed(gyms...)
	}
	alone := err != nil && len(all) > 1 && !errors.As(err, new(unsure))
	for i, u := range all {
		if results[i] == nil {
			results[i] = err
		}
		u.tries++
		if alone || s.again(results[i]) && u.tries < mostTries {
			time.Sleep(time.Duration(u.tries-1) * 20 * time.Millisecond)
			s.commit([]*update{u})
			continue
		}
		s.counts.made(results[i])
		u.result <- results[i]
	}
}

// again reports whether what failed so may go well the next time, and has surely not
// been done.
func (s *Store) again(err error) bool {
	return err != nil && s.engine.Again != nil && !errors.As(err, new(unsure)) && s.engine.Again(err)
}

// unsure is the error of a commit that may have happened all the same.
type unsure struct{ error }

// Unwrap returns the cause.
func (u unsure) Unwrap() error { return u.error }

// together makes updates, each within its own savepoint, and says how each went and
// which gyms have changed. An error concerns all of them.
func (s *Store) together(all []*update) (results []error, gyms []string, err error) {
	results = make([]error, len(all))
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	raw, err := s.engine.Write.BeginTx(ctx, nil)
	if err != nil {
		return results, nil, fmt.Errorf("beginning to write: %w", err)
	}
	defer raw.Rollback()
	tx := &Tx{ctx: ctx, tx: raw, store: s, seqs: map[string]int64{}}
	for i, u := range all {
		if results[i], err = tx.apart(u); err != nil {
			return results, nil, err
		}
	}
	if err := tx.settle(); err != nil {
		return results, nil, err
	}
	for _, gym := range tx.changed {
		if s.engine.Tell != nil {
			if err := s.engine.Tell(ctx, raw, gym); err != nil {
				return results, nil, fmt.Errorf("telling of changes: %w", err)
			}
		}
	}
	if err := raw.Commit(); err != nil {
		err = fmt.Errorf("committing: %w", err)
		if s.engine.Unsure != nil && s.engine.Unsure(err) {
			err = unsure{err}
		}
		return results, nil, err
	}
	return results, tx.changed, nil
}

// apart makes one update within a savepoint: what it refuses is undone alone.
func (t *Tx) apart(u *update) (refused, err error) {
	if _, err := t.tx.ExecContext(t.ctx, "SAVEPOINT one"); err != nil {
		return nil, fmt.Errorf("beginning an update: %w", err)
	}
	t.by = u.by
	before := len(t.changed)
	seqs := map[string]int64{}
	for gym, n := range t.seqs {
		seqs[gym] = n
	}
	if refused = u.safely(t); refused != nil {
		t.changed, t.seqs = t.changed[:before], seqs
		if _, err := t.tx.ExecContext(t.ctx, "ROLLBACK TO SAVEPOINT one"); err != nil {
			return refused, fmt.Errorf("undoing an update: %w", err)
		}
	}
	if _, err := t.tx.ExecContext(t.ctx, "RELEASE SAVEPOINT one"); err != nil {
		return refused, fmt.Errorf("ending an update: %w", err)
	}
	return refused, nil
}

// safely calls the function of an update; a panic becomes its error, since others are
// committed beside it.
func (u *update) safely(t *Tx) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("an update stopped: %v", p)
		}
	}()
	return u.f(t)
}
