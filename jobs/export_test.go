package jobs

import (
	"context"
	"time"

	"github.com/riverqueue/river"

	"roomful/store"
)

// Nightly does the work of a night as the queue would.
func (c *Crew) Nightly(ctx context.Context, gym string, asked time.Time) error {
	return (&nights{Crew: c}).Work(ctx, &river.Job[nightArgs]{Args: nightArgs{Gym: gym, Asked: asked.UnixMilli()}})
}

// Called names the run of a program that has not been started.
func (c *Crew) Called(run string) { c.run = run }

// Missed lists the kinds of what a round finds to do in a gym.
func (c *Crew) Missed(b *store.Books, g store.Gym) (kinds []string, err error) {
	all, err := (&rounds{Crew: c}).missed(b, g)
	for _, one := range all {
		kinds = append(kinds, one.Args.Kind())
	}
	return kinds, err
}
