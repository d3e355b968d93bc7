package jobs

import (
	"context"
	"time"

	"github.com/riverqueue/river"

	"roomful/day"
	"roomful/store"
)

// roundArgs asks to look around.
type roundArgs struct{}

// Kind implements [river.JobArgs].
func (roundArgs) Kind() string { return "round" }

// rounds finds what was missed: scores whose program was killed before they were queued,
// and nights that are due.
type rounds struct {
	river.WorkerDefaults[roundArgs]
	*Crew
}

// nightHour is the hour of the clock, in a gym, from which on it is night.
const nightHour = 3

// Work implements [river.Worker].
func (w *rounds) Work(ctx context.Context, _ *river.Job[roundArgs]) error {
	var all []river.InsertManyParams
	if err := w.Store.View(ctx, func(tx *store.Tx) error {
		gyms, err := tx.Gyms()
		if err != nil {
			return err
		}
		for _, g := range gyms {
			more, err := w.missed(tx.In(g.ID), g)
			if err != nil {
				return err
			}
			all = append(all, more...)
		}
		return nil
	}); err != nil || len(all) == 0 {
		return err
	}
	_, err := w.client.InsertMany(ctx, all)
	return err
}

// missed lists what there is to do in a gym. Where a night is due it does it all.
func (w *rounds) missed(b *store.Books, g store.Gym) (all []river.InsertManyParams, err error) {
	l, err := b.Learning()
	if err != nil {
		return nil, err
	}
	waiting, err := b.Unlearnt(l.Seq)
	if err != nil {
		return nil, err
	}
	asked := lastNight(g, w.Now())
	switch {
	case l.Model != day.ModelEdition && len(waiting) > 0: // never, or by another edition
		asked = w.Now()
		if w.underWay(l) {
			return nil, nil
		}
		fallthrough
	case l.DoneAt.Before(asked) && l.Seq > 0:
		return []river.InsertManyParams{{Args: nightArgs{Gym: g.ID, Asked: asked.UnixMilli(), Run: w.run}}}, nil
	}
	for _, u := range waiting {
		all = append(all, river.InsertManyParams{Args: learnArgs{Gym: g.ID, Person: u.Person, Seq: u.Seq, Run: w.run}})
	}
	return all, nil
}

// lastNight is when it last began to be night in a gym.
func lastNight(g store.Gym, now time.Time) time.Time {
	now = g.Clock(now)
	y, m, d := now.Date()
	night := time.Date(y, m, d, nightHour, 0, 0, 0, now.Location())
	if night.After(now) {
		night = time.Date(y, m, d-1, nightHour, 0, 0, 0, now.Location())
	}
	return night
}
