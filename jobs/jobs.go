package jobs

import (
	"context"
	"crypto/rand"
	"database/sql"
	"fmt"
	"log/slog"
	"sync"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/riverqueue/river"
	"github.com/riverqueue/river/riverdriver"
	"github.com/riverqueue/river/riverdriver/riverdatabasesql"
	"github.com/riverqueue/river/riverdriver/riversqlite"
	"github.com/riverqueue/river/rivermigrate"
	"github.com/riverqueue/river/rivertype"

	"roomful/desk"
	"roomful/store"
)

// How work is spread. A person is learnt of in a second or so; a night can take many
// minutes and leaves room for the day's scores beside it.
const (
	roundEvery   = 3 * time.Minute
	gatherFor    = 200 * time.Millisecond // scores that come together are queued together
	learnWithin  = 5 * time.Minute
	nightWithin  = 6 * time.Hour
	nightQueue   = "night"
	keptFor      = 24 * time.Hour // of what is done, for whoever looks into it
	stopsWithin  = 3 * time.Second
	attemptsMost = 5 // then a round finds it again
)

// Crew does the work of a store.
type Crew struct {
	Store *store.Store
	Desk  *desk.Desk
	Now   func() time.Time
	Log   *slog.Logger // without names and health
	// Metrics is where work is counted; nil for nowhere.
	Metrics *prometheus.Registry

	client  *river.Client[*sql.Tx]
	run     string // names this run of the program
	arrived chan learnArgs
	wait    sync.WaitGroup
	cancel  context.CancelFunc
}

// Start makes the queue, when there is none yet, and begins to work.
func (c *Crew) Start(ctx context.Context) error {
	log := slog.New(loud{c.Log.Handler()})
	var driver riverdriver.Driver[*sql.Tx] = riversqlite.New(c.Store.Queue())
	if c.Store.Engine() == "postgres" {
		driver = riverdatabasesql.New(c.Store.Queue())
	}
	m, err := rivermigrate.New(driver, &rivermigrate.Config{Logger: log})
	if err != nil {
		return fmt.Errorf("making the queue of background work: %w", err)
	}
	if _, err := m.Migrate(ctx, rivermigrate.DirectionUp, nil); err != nil {
		return fmt.Errorf("making the queue of background work: %w", err)
	}
	workers := river.NewWorkers()
	river.AddWorker(workers, &learner{Crew: c})
	river.AddWorker(workers, &rounds{Crew: c})
	river.AddWorker(workers, &nights{Crew: c})
	c.client, err = river.NewClient(driver, &river.Config{
		Queues:  map[string]river.QueueConfig{river.QueueDefault: {MaxWorkers: 1}, nightQueue: {MaxWorkers: 1}},
		Workers: workers, Logger: log, MaxAttempts: attemptsMost,
		Middleware: []rivertype.Middleware{counting(c.Metrics)},
		JobTimeout: learnWithin, RescueStuckJobsAfter: learnWithin, CompletedJobRetentionPeriod: keptFor,
		PeriodicJobs: []*river.PeriodicJob{river.NewPeriodicJob(river.PeriodicInterval(roundEvery),
			func() (river.JobArgs, *river.InsertOpts) { return roundArgs{}, nil }, &river.PeriodicJobOpts{RunOnStart: true})},
	})
	if err != nil {
		return fmt.Errorf("making the queue of background work: %w", err)
	}
	c.run, c.arrived = rand.Text(), make(chan learnArgs, 1024)
	work, cancel := context.WithCancel(context.WithoutCancel(ctx))
	if err := c.client.Start(work); err != nil {
		cancel()
		return fmt.Errorf("beginning background work: %w", err)
	}
	c.cancel = cancel
	c.wait.Go(func() { c.gather(work) })
	return nil
}

// Stop lets go of what is under way: the queue has it still.
func (c *Crew) Stop() {
	c.cancel()
	c.wait.Wait()
	ctx, cancel := context.WithTimeout(context.Background(), stopsWithin)
	defer cancel()
	if err := c.client.StopAndCancel(ctx); err != nil {
		c.Log.Warn("background work did not end in time", "why", err)
	}
}

// Arrived says that somebody's score has come, by the change that brought it. It never
// waits: what is not noted here is found by the next round.
func (c *Crew) Arrived(gym, person string, seq int64) {
	select {
	case c.arrived <- learnArgs{Gym: gym, Person: person, Seq: seq}:
	default:
	}
}

// Night has a gym learn from all its scores now.
func (c *Crew) Night(ctx context.Context, gym string) error {
	_, err := c.client.Insert(ctx, nightArgs{Gym: gym, Asked: c.Now().UnixMilli(), Run: c.run}, nil)
	return err
}

// gather queues scores as they come, those of a moment together: a room of people sends
// theirs within a few seconds.
func (c *Crew) gather(ctx context.Context) {
	for {
		var all []river.InsertManyParams
		noted := map[learnArgs]bool{} // a score sent twice would have the queue refuse them all
		note := func(one learnArgs) {
			if !noted[one] {
				noted[one] = true
				all = append(all, river.InsertManyParams{Args: one})
			}
		}
		select {
		case <-ctx.Done():
			return
		case one := <-c.arrived:
			note(one)
		}
		over := time.After(gatherFor)
		for waiting := true; waiting; {
			select {
			case one := <-c.arrived:
				note(one)
			case <-over:
				waiting = false
			}
		}
		if _, err := c.client.InsertMany(ctx, all); err != nil && ctx.Err() == nil {
			c.Log.Warn("scores wait for the next round to be learnt from", "scores", len(all), "why", err)
		}
	}
}

// update changes the books of a gym.
func (c *Crew) update(ctx context.Context, gym string, f func(*store.Books) error) error {
	return c.Store.Update(ctx, store.By{At: c.Now()}, func(tx *store.Tx) error { return f(tx.In(gym)) })
}

// loud passes on what somebody should know of: what goes well is no news.
type loud struct{ slog.Handler }

// Enabled implements [slog.Handler].
func (l loud) Enabled(ctx context.Context, level slog.Level) bool {
	return level >= slog.LevelWarn && l.Handler.Enabled(ctx, level)
}
