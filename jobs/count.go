package jobs

import (
	"context"
	"errors"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/riverqueue/river"
	"github.com/riverqueue/river/rivertype"
)

// upTo are the bounds in seconds of how long work takes: a person a second or so, a
// night many minutes.
var upTo = []float64{.01, .03, .1, .3, 1, 3, 10, 30, 100, 300, 1000, 3000}

// counting counts work by its kind and how it ended, and how long it took.
func counting(registry *prometheus.Registry) rivertype.Middleware {
	took := prometheus.NewHistogramVec(prometheus.HistogramOpts{Name: "roomful_jobs_duration_seconds",
		Help: "How long background work took, by its kind and how it ended.", Buckets: upTo}, []string{"kind", "ended"})
	if registry != nil {
		registry.MustRegister(took)
	}
	return river.WorkerMiddlewareFunc(func(ctx context.Context, job *rivertype.JobRow, work func(context.Context) error) error {
		began, ended := time.Now(), "well"
		err := work(ctx)
		switch {
		case ctx.Err() != nil:
			ended = "stopped"
		case errors.As(err, new(*river.JobSnoozeError)):
			ended = "put off"
		case err != nil:
			ended = "failed"
		}
		took.WithLabelValues(job.Kind, ended).Observe(time.Since(began).Seconds())
		return err
	})
}
