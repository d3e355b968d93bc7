package jobs

import (
	"context"
	"errors"
	"time"

	"github.com/riverqueue/river"

	"roomful"
	"roomful/day"
	"roomful/desk"
	"roomful/store"
)

// nightArgs asks a gym to learn from all its scores.
type nightArgs struct {
	Gym string `json:"gym"`
	// Asked is the hour of the night in ms since 1970, or when somebody asked.
	Asked int64  `json:"asked"`
	Run   string `json:"run"`
}

// Kind implements [river.JobArgs].
func (nightArgs) Kind() string { return "night" }

// InsertOpts implements [river.JobArgsWithInsertOpts].
func (nightArgs) InsertOpts() river.InsertOpts {
	return river.InsertOpts{Queue: nightQueue, UniqueOpts: river.UniqueOpts{ByArgs: true}}
}

// nights learns from everybody's scores.
type nights struct {
	river.WorkerDefaults[nightArgs]
	*Crew
}

// Timeout implements [river.Worker].
func (*nights) Timeout(*river.Job[nightArgs]) time.Duration { return nightWithin }

// abandoned is how long a night that gets no further is left to whoever began it. A step
// takes seconds.
const abandoned = 2 * time.Minute

// givenUp is how long a night gets no further that this program began and will not try
// again: longer than the queue waits between the last of its attempts, some four minutes.
const givenUp = 10 * time.Minute

// underWay reports whether a night is being had, by this program or by another.
func (c *Crew) underWay(l store.Learning) bool {
	still := abandoned
	switch {
	case l.Run == c.run:
		still = givenUp
	case c.Store.Engine() != "postgres":
		return false // a file is one program's alone: the other was killed
	}
	return l.Percent < 100 && c.Now().Sub(l.TouchedAt) < still
}

// The shares of a night, in percent: reading what was not read yet, emulators, learning.
const (
	readTo     = 20
	preparedTo = 50
)

// Work implements [river.Worker].
func (w *nights) Work(ctx context.Context, job *river.Job[nightArgs]) error {
	n := &night{Crew: w.Crew, gym: job.Args.Gym}
	due, err := n.begin(ctx, time.UnixMilli(job.Args.Asked))
	if due && err == nil {
		err = n.learn(ctx)
	}
	switch {
	case errors.Is(err, errOthers):
		return river.JobSnooze(abandoned) // whoever is at it may be killed
	case errors.Is(err, store.ErrMissing):
		return nil // the gym has gone
	}
	return err
}

// errOthers says that another program has taken the night over.
var errOthers = errors.New("another program is at it")

// night is the work of one night in one gym.
type night struct {
	*Crew
	gym      string
	learning store.Learning
	seq      int64 // that it rests on
	desk     *desk.Gym
}

// begin takes the night on when it is due; while another program is at it that is
// [errOthers].
func (n *night) begin(ctx context.Context, asked time.Time) (due bool, err error) {
	now := n.Now()
	err = n.update(ctx, n.gym, func(b *store.Books) (err error) {
		if n.learning, err = b.Learning(); err != nil {
			return err
		}
		if due = n.learning.DoneAt.Before(asked); !due {
			return nil
		}
		if n.learning.Run != n.run && n.underWay(n.learning) {
			return errOthers
		}
		if n.seq, err = b.Seq(); err != nil {
			return err
		}
		n.learning.Percent, n.learning.Run, n.learning.BeganAt, n.learning.TouchedAt = 0, n.run, now, now
		return b.PutLearning(n.learning)
	})
	return due, err
}

// reach says how far the night is, while it is ours.
func (n *night) reach(ctx context.Context, percent int) error {
	now := n.Now()
	if percent <= n.learning.Percent && now.Sub(n.learning.TouchedAt) < abandoned/4 {
		return nil
	}
	return n.update(ctx, n.gym, func(b *store.Books) error {
		l, err := b.Learning()
		if err != nil {
			return err
		}
		if l.Run != n.run {
			return errOthers
		}
		l.Percent, l.TouchedAt = max(percent, l.Percent), now
		n.learning = l
		return b.PutLearning(l)
	})
}

// learn does the night's work.
func (n *night) learn(ctx context.Context) error {
	var asks day.GymQuestion
	failed := error(nil) // of telling how far it is
	progress := func(share float64) {
		if failed == nil {
			failed = n.reach(ctx, readTo+int(share*(preparedTo-readTo)))
		}
	}
	if err := n.Store.View(ctx, func(tx *store.Tx) (err error) {
		if n.desk, err = n.Desk.Open(tx.In(n.gym), n.Now()); err == nil {
			asks, err = n.desk.AsksAll(func(person string) (roomful.Record, error) { return n.record(ctx, person) }, progress)
		}
		return err
	}); err != nil {
		return err
	}
	if err := n.read(ctx); err != nil {
		return err
	}
	kept := 0
	taught, err := n.desk.LearnGym(ctx, asks, func(l day.Lesson) error {
		kept++
		if err := errors.Join(failed, n.keep(ctx, l)); err != nil {
			return err
		}
		return n.reach(ctx, preparedTo+(99-preparedTo)*kept/len(asks.People))
	})
	if err != nil {
		return err
	}
	return n.end(ctx, taught)
}

// read reads the scores that were not read yet, so that learning finds them kept.
func (n *night) read(ctx context.Context) error {
	all := n.desk.Everybody()
	for i, a := range all {
		record, err := n.look(ctx, a.ID)
		if err != nil {
			return err
		}
		if err := n.update(ctx, n.gym, func(b *store.Books) error { return keep(b, a.ID, record) }); err != nil && !errors.Is(err, store.ErrMissing) {
			return err
		}
		if err := n.reach(ctx, readTo*(i+1)/len(all)); err != nil {
			return err
		}
	}
	return nil
}

// look reads somebody's scores up to the change that the night rests on.
func (n *night) look(ctx context.Context, person string) (out desk.Record, err error) {
	err = n.Store.View(ctx, func(tx *store.Tx) error {
		out, err = n.desk.With(tx.In(n.gym)).Record(ctx, person, n.seq)
		return err
	})
	return out, err
}

// record is what somebody is learnt from.
func (n *night) record(ctx context.Context, person string) (roomful.Record, error) {
	if err := n.reach(ctx, 0); err != nil { // we are still at it
		return nil, err
	}
	got, err := n.look(ctx, person)
	return got.Record, err
}

// keep keeps what was learnt of somebody, unless they were erased meanwhile.
func (n *night) keep(ctx context.Context, l day.Lesson) error {
	return n.update(ctx, n.gym, func(b *store.Books) error {
		_, err := b.Person(l.Person)
		if errors.Is(err, store.ErrMissing) {
			return nil
		}
		return errors.Join(err, b.PutLearnt(learnt(l, n.seq)))
	})
}

// end keeps what the next day's scores are learnt from by.
func (n *night) end(ctx context.Context, t day.Taught) error {
	emulators, err := desk.Emulators(t)
	if err != nil {
		return err
	}
	return n.update(ctx, n.gym, func(b *store.Books) error {
		l, err := b.Learning()
		if err != nil {
			return err
		}
		if l.Run != n.run {
			return errOthers
		}
		l.Percent, l.TouchedAt, l.DoneAt = 100, n.Now(), n.Now()
		l.Seq, l.Model, l.Shift = n.seq, day.ModelEdition, t.Shift
		return errors.Join(b.PutEmulators(emulators), b.PutLearning(l))
	})
}
