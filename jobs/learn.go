package jobs

import (
	"context"
	"errors"

	"github.com/riverqueue/river"

	"roomful/day"
	"roomful/desk"
	"roomful/store"
)

// learnArgs asks to learn from somebody's scores up to a change.
type learnArgs struct {
	Gym    string `json:"gym"`
	Person string `json:"person"`
	Seq    int64  `json:"seq"`
	// Run is of the program whose round asks; empty for a score that has just come. So
	// what was under way when a program was killed is asked for again.
	Run string `json:"run"`
}

// Kind implements [river.JobArgs].
func (learnArgs) Kind() string { return "learn" }

// InsertOpts implements [river.JobArgsWithInsertOpts]: the same is not asked for twice.
func (learnArgs) InsertOpts() river.InsertOpts {
	return river.InsertOpts{UniqueOpts: river.UniqueOpts{ByArgs: true}}
}

// learner learns from one person's scores.
type learner struct {
	river.WorkerDefaults[learnArgs]
	*Crew
}

// Work implements [river.Worker].
func (w *learner) Work(ctx context.Context, job *river.Job[learnArgs]) error {
	gym, person := job.Args.Gym, job.Args.Person
	var seq int64
	var record desk.Record
	var g *desk.Gym
	var asks day.PersonQuestion
	known := false
	err := w.Store.View(ctx, func(tx *store.Tx) error {
		b := tx.In(gym)
		before, err := b.Learnt(person)
		if err != nil {
			return err
		}
		if known = len(before) > 0 && before[0].Seq >= job.Args.Seq; known {
			return nil
		}
		if seq, err = b.Seq(); err != nil {
			return err
		}
		g, err = w.Desk.Open(b, w.Now())
		if err != nil {
			return err
		}
		if record, err = g.Record(ctx, person, 0); err != nil {
			return err
		}
		asks, err = g.Asks(person, record.Record)
		return err
	})
	if errors.Is(err, store.ErrMissing) || known {
		return nil // they were erased, or somebody was quicker
	}
	if err != nil {
		return err
	}
	lesson, err := g.LearnPerson(ctx, asks)
	if err != nil {
		return err
	}
	err = w.update(ctx, gym, func(b *store.Books) error {
		if _, err := b.Person(person); err != nil {
			return err
		}
		if err := keep(b, person, record); err != nil {
			return err
		}
		return b.PutLearnt(learnt(lesson, seq))
	})
	if errors.Is(err, store.ErrMissing) {
		return nil
	}
	return err
}

// keep keeps what somebody's scores were read as, for those of which it was not kept.
func keep(b *store.Books, person string, record desk.Record) error {
	if len(record.Fresh) == 0 {
		return nil
	}
	return b.PutResolved(person, record.Fresh)
}

// learnt is a lesson as it is kept.
func learnt(l day.Lesson, seq int64) store.Learnt {
	return store.Learnt{Person: l.Person, Abilities: *l.Abilities, Shift: l.Shift, Seq: seq, Model: day.ModelEdition}
}
