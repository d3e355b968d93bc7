// Command drivers compares the drivers of SQLite that need no C compiler at the store's
// own work: scores stored durably beside eight readers, what a day, a record and a day's
// scores are made of, and a gym restored. Each gets the same store, the same settings and
// the same gym.
//
// It is a module of its own, so that Roomful depends on one driver only:
//
//	go run -C bench/drivers .
package main

import (
	"bytes"
	"context"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"roomful"
	"roomful/catalogue"
	"roomful/crowd"
	"roomful/day"
	"roomful/demo"
	"roomful/store"
	"roomful/store/storetest"
	"roomful/transfer"
)

func main() {
	members := flag.Int("members", 200, "how many members the gym has")
	years := flag.Int("years", 2, "how many years of scores")
	rounds := flag.Int("rounds", 3, "how often each is measured; the one in the middle is told")
	flag.Parse()
	if err := compare(context.Background(), *members, *years, *rounds); err != nil {
		fmt.Fprintln(os.Stderr, "comparing drivers:", err)
		os.Exit(1)
	}
}

// gym is the id that crowd gives its first gym of seed 1.
const gym = "crowd-1-0"

// figures are what is measured of one driver, by name, of several rounds.
type figures map[string][]float64

// compare measures the drivers in turn, so that what else the machine does meets each.
func compare(ctx context.Context, members, years, rounds int) error {
	dir, err := os.MkdirTemp("", "drivers")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	made := filepath.Join(dir, "made.db")
	archive, err := makeGym(ctx, made, members, years)
	if err != nil {
		return err
	}
	told := map[string]figures{}
	for round := range rounds {
		for _, d := range drivers {
			if told[d.name] == nil {
				told[d.name] = figures{}
			}
			m := meter{driver: d, dir: filepath.Join(dir, fmt.Sprint(d.name, round)), made: made, archive: archive, told: told[d.name]}
			if err := errors.Join(os.Mkdir(m.dir, 0o700), m.measure(ctx)); err != nil {
				return fmt.Errorf("with %s: %w", d.name, err)
			}
		}
	}
	for _, name := range []string{"scores/s", "reads/s", "ms a day", "ms a record", "ms a day's scores", "s to restore"} {
		fmt.Printf("%-18s", name)
		for _, d := range drivers {
			all := told[d.name][name]
			slices.Sort(all)
			fmt.Printf("  %s %8.2f", d.name, all[len(all)/2])
		}
		fmt.Println()
	}
	return nil
}

// makeGym makes the gym that is asked about, and its archive.
func makeGym(ctx context.Context, file string, members, years int) ([]byte, error) {
	like, err := transfer.Open(demo.Files)
	if err != nil {
		return nil, err
	}
	lexicon, err := catalogue.Load()
	if err != nil {
		return nil, err
	}
	s, err := drivers[0].open(ctx, file)
	if err != nil {
		return nil, err
	}
	plan := crowd.Plan{Gyms: 1, Members: members, Years: years, Seed: 1, Until: roomful.Date{Year: 2027, Month: 3, Day: 4}, Like: like}
	var archive bytes.Buffer
	err = crowd.Make(ctx, s, day.New(lexicon), plan, nil)
	if err == nil {
		err = s.View(ctx, func(tx *store.Tx) error { return tx.In(gym).Archive(&archive) })
	}
	return archive.Bytes(), errors.Join(err, s.Close())
}

// meter measures one driver once.
type meter struct {
	driver
	dir     string // of its own
	made    string // the file with the gym
	archive []byte
	told    figures
}

// tell notes a figure.
func (m *meter) tell(name string, figure float64) { m.told[name] = append(m.told[name], figure) }

// measure measures everything.
func (m *meter) measure(ctx context.Context) error {
	for _, one := range []func(context.Context) error{m.post, m.ask, m.restore} {
		if err := one(ctx); err != nil {
			return err
		}
	}
	return nil
}

// post runs the store's own benchmark of scores that are sent, each time in an empty file.
func (m *meter) post(ctx context.Context) error {
	got := testing.Benchmark(func(b *testing.B) {
		s, err := m.open(ctx, filepath.Join(b.TempDir(), "post.db"))
		if err != nil {
			b.Fatal(err)
		}
		defer s.Close()
		storetest.BenchmarkPost(b, s)
	})
	if got.N == 0 {
		return errors.New("no scores were stored")
	}
	m.tell("scores/s", got.Extra["scores/s"])
	m.tell("reads/s", got.Extra["reads/s"])
	return nil
}

// asked is how often each question is asked.
const asked = 200

// ask asks what a day, a record and a day's scores are made of.
func (m *meter) ask(ctx context.Context) error {
	s, err := m.open(ctx, m.made)
	if err != nil {
		return err
	}
	defer s.Close()
	var sheets []store.Document
	var people []store.Person
	if err := s.View(ctx, func(tx *store.Tx) (err error) {
		if sheets, err = tx.In(gym).Documents(store.Sheet); err == nil {
			people, err = tx.In(gym).People(false)
		}
		return err
	}); err != nil {
		return err
	}
	for _, q := range []struct {
		name string
		ask  func(b *store.Books, n int) error
	}{
		{"ms a day", func(b *store.Books, n int) error { _, err := b.OnDay(sheets[n*7%len(sheets)].Day); return err }},
		{"ms a record", func(b *store.Books, n int) error {
			_, err := b.Latest(people[n*7%len(people)].ID, store.Place{}, 50)
			return err
		}},
		{"ms a day's scores", func(b *store.Books, n int) error { _, err := b.OfSheet(sheets[n*7%len(sheets)].ID); return err }},
	} {
		began := time.Now()
		for n := range asked {
			if err := s.View(ctx, func(tx *store.Tx) error { return q.ask(tx.In(gym), n) }); err != nil {
				return err
			}
		}
		m.tell(q.name, time.Since(began).Seconds()*1000/asked)
	}
	return nil
}

// restore restores the gym into an empty file.
func (m *meter) restore(ctx context.Context) error {
	s, err := m.open(ctx, filepath.Join(m.dir, "restored.db"))
	if err != nil {
		return err
	}
	defer s.Close()
	began := time.Now()
	if err := s.Update(ctx, store.By{At: began}, func(tx *store.Tx) error {
		_, err := tx.Restore(bytes.NewReader(m.archive), int64(len(m.archive)))
		return err
	}); err != nil {
		return err
	}
	m.tell("s to restore", time.Since(began).Seconds())
	return nil
}
