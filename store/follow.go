package store

import (
	"context"
	"errors"
	"sync"
	"time"
)

// Change is something that was done in a gym.
type Change struct {
	Seq     int64 // from 1, without gaps
	At      time.Time
	Account string // empty for the program itself
	Kind    string // "person", "sheet", "attempt"
	Subject string // the id of what changed
}

// ErrBehind says that more has happened than is worth telling one by one: whoever
// follows had better read all anew.
var ErrBehind = errors.New("too much has happened meanwhile")

// mostTold is how many changes a follower is told one by one.
const mostTold = 500

// Changes lists what happened in a gym after a number, the oldest first; all of it, up
// to a limit.
func (b *Books) Changes(after int64, limit int) ([]Change, error) {
	return many(b.tx, func(r row) (c Change, err error) {
		var at int64
		err = r.Scan(&c.Seq, &at, &c.Account, &c.Kind, &c.Subject)
		c.At = instant(at)
		return c, err
	}, `SELECT seq, at, account_id, kind, subject FROM changes WHERE gym_id = $1 AND seq > $2 ORDER BY seq LIMIT $3`, b.gym, after, limit)
}

// ChangedByOthers reports whether anybody but an account has ever changed a subject of a kind.
func (b *Books) ChangedByOthers(kind, subject, account string) (bool, error) {
	n, err := one(b.tx, func(r row) (n int64, err error) { return n, r.Scan(&n) },
		`SELECT COUNT(*) FROM changes WHERE gym_id = $1 AND kind = $2 AND subject = $3 AND account_id <> $4`, b.gym, kind, subject, account)
	return n > 0, err
}

// Seq is the number of the last change of a gym.
func (b *Books) Seq() (int64, error) {
	if seq, ok := b.tx.seqs[b.gym]; ok {
		return seq, nil
	}
	return one(b.tx, func(r row) (n int64, err error) { return n, r.Scan(&n) }, `SELECT seq FROM gyms WHERE id = $1`, b.gym)
}

// Follow tells of what happens in a gym after a change, in order and without gaps,
// until the context ends or tell fails. A follower who is too far behind gets
// [ErrBehind]: it reads all anew, and follows from there.
func (s *Store) Follow(ctx context.Context, gym string, after int64, tell func([]Change) error) error {
	for {
		more := s.hub.next(gym)
		var got []Change
		if err := s.View(ctx, func(tx *Tx) (err error) {
			got, err = tx.In(gym).Changes(after, mostTold+1)
			return err
		}); err != nil {
			return err
		}
		if len(got) > mostTold {
			return ErrBehind
		}
		if len(got) > 0 {
			if err := tell(got); err != nil {
				return err
			}
			after = got[len(got)-1].Seq
			continue
		}
		select {
		case <-more:
		case <-ctx.Done():
			return ctx.Err()
		case <-s.done:
			return ErrClosed
		}
	}
}

// hear wakes followers of gyms that other processes have changed.
func (s *Store) hear(ctx context.Context) {
	for ctx.Err() == nil {
		_ = s.engine.Hear(ctx, func(gym string) {
			if gym == "" {
				s.hub.all()
				return
			}
			s.hub.changed(gym)
		})
		s.hub.all() // something may have been missed
		select {
		case <-time.After(hearAgain):
		case <-ctx.Done():
		}
	}
}

// hearAgain is how long to wait before listening anew when that has failed.
const hearAgain = time.Second

// hub wakes those who wait for a gym to change.
type hub struct {
	mu    sync.Mutex
	waits map[string]chan struct{}
}

func newHub() *hub { return &hub{waits: map[string]chan struct{}{}} }

// next returns a channel that is closed when a gym changes next.
func (h *hub) next(gym string) <-chan struct{} {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.waits[gym] == nil {
		h.waits[gym] = make(chan struct{})
	}
	return h.waits[gym]
}

// changed wakes those who wait for some gyms.
func (h *hub) changed(gyms ...string) {
	h.mu.Lock()
	defer h.mu.Unlock()
	for _, gym := range gyms {
		if c := h.waits[gym]; c != nil {
			close(c)
			delete(h.waits, gym)
		}
	}
}

// all wakes everybody.
func (h *hub) all() {
	h.mu.Lock()
	defer h.mu.Unlock()
	for _, c := range h.waits {
		close(c)
	}
	clear(h.waits)
}
