package storetest

import (
	"context"
	"fmt"
	"sync/atomic"
	"testing"
	"time"

	"roomful"
	"roomful/store"
)

// BenchmarkPost stores scores durably in an empty store, sixteen senders at once, beside
// eight who read the first page of a record all the while.
func BenchmarkPost(b *testing.B, s *store.Store) {
	if err := s.Update(b.Context(), store.By{At: Now}, func(tx *store.Tx) error {
		if err := tx.MakeGym(store.Gym{ID: "g", Name: "G", Zone: "UTC", MadeAt: Now}); err != nil {
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
					_, err := tx.In("g").Latest(fmt.Sprint(reads.Add(1)%500), store.Place{}, 50)
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
			if err := s.Update(context.Background(), store.By{At: Now}, func(tx *store.Tx) error {
				_, err := tx.In("g").PutAttempt(store.Attempt{ID: fmt.Sprint(n), Person: fmt.Sprint(n % 500), Document: "d", Text: "5+20", TypedAt: Now})
				return err
			}); err != nil {
				b.Error(err)
			}
		}
	})
	b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "scores/s")
	b.ReportMetric(float64(reads.Load())/b.Elapsed().Seconds(), "reads/s")
}
