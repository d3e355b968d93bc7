package jobs_test

import (
	"errors"
	"slices"
	"testing"
	"time"

	"github.com/riverqueue/river"

	"roomful/jobs"
	"roomful/store"
)

// TestRound asks for the first night of a gym: not while it is under way, and again when
// it ended in the middle, whichever program began it.
func TestRound(t *testing.T) {
	for what, c := range map[string]struct {
		learning store.Learning
		want     []string
	}{
		"never begun":         {store.Learning{}, []string{"night"}},
		"under way":           {store.Learning{Percent: 40, Run: "ours", BeganAt: now, TouchedAt: now.Add(-time.Minute)}, nil},
		"given up":            {store.Learning{Percent: 40, Run: "ours", BeganAt: now, TouchedAt: now.Add(-time.Hour)}, []string{"night"}},
		"of one that is gone": {store.Learning{Percent: 40, Run: "another", BeganAt: now, TouchedAt: now}, []string{"night"}},
	} {
		s := databases["sqlite"](t)
		defer s.Close()
		if err := fill(t.Context(), s); err != nil {
			t.Fatal(err)
		}
		if err := s.Update(t.Context(), store.By{At: now}, func(tx *store.Tx) error { return tx.In(gym).PutLearning(c.learning) }); err != nil {
			t.Fatal(err)
		}
		crew := &jobs.Crew{Store: s, Now: func() time.Time { return now }}
		crew.Called("ours")
		got := look(t, s, func(b *store.Books) ([]string, error) { return crew.Missed(b, store.Gym{ID: gym, Zone: "UTC"}) })
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: a round finds %v, want %v", what, got, c.want)
		}
	}
}

// TestNightOfOthers leaves a night to the server that is at it, and comes back in case
// that is killed; once it is over there is nothing to do.
func TestNightOfOthers(t *testing.T) {
	s := databases["postgres"](t)
	defer s.Close()
	if err := fill(t.Context(), s); err != nil {
		t.Fatal(err)
	}
	crew := &jobs.Crew{Store: s, Now: func() time.Time { return now }}
	crew.Called("ours")
	for _, c := range []struct {
		learning store.Learning
		putOff   bool
	}{
		{store.Learning{Percent: 40, Run: "another", BeganAt: now, TouchedAt: now.Add(-time.Minute)}, true},
		{store.Learning{Percent: 100, Run: "another", BeganAt: now, TouchedAt: now, DoneAt: now}, false},
	} {
		if err := s.Update(t.Context(), store.By{At: now}, func(tx *store.Tx) error { return tx.In(gym).PutLearning(c.learning) }); err != nil {
			t.Fatal(err)
		}
		err := crew.Nightly(t.Context(), gym, now.Add(-time.Hour))
		if later := errors.As(err, new(*river.JobSnoozeError)); later != c.putOff || !later && err != nil {
			t.Errorf("%+v: %v", c.learning, err)
		}
	}
}
