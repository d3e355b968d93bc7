package sqlite_test

import (
	"context"
	"fmt"
	"sync/atomic"
	"testing"
	"time"

	"roomful"
	"roomful/store"
	"roomful/store/sqlite"
	"roomful/store/storetest"
)

// BenchmarkPost stores scores durably, sixteen senders at once, beside eight who read a
// record all the while.
func BenchmarkPost(b *testing.B) {
	s, err := sqlite.Open(b.Context(), b.TempDir())
	if err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	if err := s.Update(b.Context(), store.By{At: storetest.Now}, func(tx *store.Tx) error {
		if err := tx.MakeGym(store.Gym{ID: "g", Name: "G", Zone: "UTC", MadeAt: storetest.Now}); err != nil {
			return err
		}
		if _, _, err := tx.In("g").Save(store.Document{ID: "d", Kind: store.Sheet, Name: "d"}); err != nil {
			return err
		}
		for i := range 500 {
			if err := tx.In("g").PutPerson(store.Person{Athlete: roomful.Athlete{ID: fmt.Sprint(i)}}); err != nil {
				return err
			}
		}
		return nil
	}); err != nil {
		b.Fatal(err)
	}
	ctx, stop := context.WithCancel(b.Context())
	defer stop()
	var reads, ids atomic.Int64
	for range 8 {
		go func() {
			for ctx.Err() == nil {
				if err := s.View(ctx, func(tx *store.Tx) error {
					_, err := tx.In("g").OfPerson(fmt.Sprint(reads.Add(1) % 500))
					return err
				}); err == nil {
					time.Sleep(time.Millisecond)
				}
			}
		}()
	}
	b.SetParallelism(8)
	b.ResetTimer()
	b.RunParallel(func(pb *testing.PB) {
		for pb.Next() {
			n := ids.Add(1)
			if err := s.Update(context.Background(), store.By{At: storetest.Now}, func(tx *store.Tx) error {
				_, err := tx.In("g").PutAttempt(store.Attempt{ID: fmt.Sprint(n), Person: fmt.Sprint(n % 500), Document: "d", Text: "5+20", TypedAt: storetest.Now})
				return err
			}); err != nil {
				b.Error(err)
			}
		}
	})
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "scores/s")
	b.ReportMetric(float64(reads.Load())/b.Elapsed().Seconds(), "reads/s")
}
