package crowd_test

import (
	"bytes"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"roomful/store"
	"roomful/store/sqlite"
)

// pageOfScores is how many scores a server answers with when it is asked for a record.
const pageOfScores = 50

// BenchmarkAsk asks what a day, a record and a day's scores are made of, of 500 members
// with five years of scores and what those were read as, and reports the middle and the
// slowest of a hundred. Whoever asks for a record gets its latest page; whole ones are for export.
func BenchmarkAsk(b *testing.B) {
	s, scores, _ := made(b, 500, 5)
	b.Logf("%d scores", scores)
	random := rand.New(rand.NewPCG(1, 1))
	var sheets []store.Document
	var people []store.Person
	if err := s.View(b.Context(), func(tx *store.Tx) (err error) {
		if sheets, err = tx.In("crowd-1-0").Documents(store.Sheet); err == nil {
			people, err = tx.In("crowd-1-0").People(false)
		}
		return err
	}); err != nil {
		b.Fatal(err)
	}
	somebody := func() string { return people[random.IntN(len(people))].ID }
	for _, c := range []struct {
		name string
		ask  func(*store.Books) error
	}{
		{"day", func(g *store.Books) error {
			on := sheets[random.IntN(len(sheets))].Day
			_, err := g.OnDay(on)
			if err == nil {
				_, err = g.Classes(on, on)
			}
			return err
		}},
		{"record", func(g *store.Books) error { _, err := g.Latest(somebody(), store.Place{}, pageOfScores); return err }},
		{"scores", func(g *store.Books) error { _, err := g.OfSheet(sheets[random.IntN(len(sheets))].ID); return err }},
		{"wholerecord", func(g *store.Books) error { _, err := g.OfPerson(somebody()); return err }},
	} {
		b.Run(c.name, func(b *testing.B) {
			var took []time.Duration
			for b.Loop() {
				began := time.Now()
				if err := s.View(b.Context(), func(tx *store.Tx) error { return c.ask(tx.In("crowd-1-0")) }); err != nil {
					b.Fatal(err)
				}
				took = append(took, time.Since(began))
			}
			slices.Sort(took)
			b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "ms-p50")
			b.ReportMetric(float64(took[len(took)*99/100].Microseconds())/1000, "ms-p99")
		})
	}
}

// BenchmarkRestore archives that gym and restores it into an empty file.
func BenchmarkRestore(b *testing.B) {
	s, _, _ := made(b, 500, 5)
	for b.Loop() {
		var out bytes.Buffer
		if err := s.View(b.Context(), func(tx *store.Tx) error { return tx.In("crowd-1-0").Archive(&out) }); err != nil {
			b.Fatal(err)
		}
		other, err := sqlite.Open(b.Context(), b.TempDir())
		if err != nil {
			b.Fatal(err)
		}
		began := time.Now()
		err = other.Update(b.Context(), store.By{At: time.Now()}, func(tx *store.Tx) error {
			_, err := tx.Restore(bytes.NewReader(out.Bytes()), int64(out.Len()))
			return err
		})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(time.Since(began).Seconds(), "restore-s")
		b.ReportMetric(float64(out.Len())/1e6, "MB")
		other.Close()
	}
}
