package jobs_test

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"roomful"
	"roomful/catalogue"
	"roomful/day"
	"roomful/demo"
	"roomful/desk"
	"roomful/jobs"
	"roomful/store"
	"roomful/store/postgres"
	"roomful/store/postgres/pgtest"
	"roomful/store/sqlite"
	"roomful/transfer"
)

// now is when the tests take place: an evening after the last score of the demo.
var now = time.Date(2027, 4, 2, 18, 0, 0, 0, time.UTC)

const gym = "g"

// worksIn names the folder in which a test's own child works until it is killed.
const worksIn = "ROOMFUL_TEST_WORKS_IN"

// TestMain runs the tests beside a database server, or is such a child.
func TestMain(m *testing.M) {
	if dir := os.Getenv(worksIn); dir != "" {
		if err := workOn(dir); err != nil {
			fmt.Fprintln(os.Stderr, err)
		}
		os.Exit(1)
	}
	pgtest.Main(m)
}

// newDay is a day with the whole catalogue.
func newDay() (*day.Day, error) {
	c, err := catalogue.Load()
	if err != nil {
		return nil, err
	}
	return day.New(c), nil
}

// crew begins to work on a store.
func crew(ctx context.Context, s *store.Store) (*jobs.Crew, error) {
	d, err := newDay()
	if err != nil {
		return nil, err
	}
	began := time.Now()
	c := &jobs.Crew{Store: s, Desk: desk.New(d, s), Log: slog.New(slog.NewTextHandler(os.Stderr, nil)),
		Now: func() time.Time { return now.Add(time.Since(began)) }}
	return c, c.Start(ctx)
}

// small is a part of the demo: four people on three sheets, of whom one did the same as
// another and one the same as last time.
func small() (transfer.Folder, error) {
	f, err := transfer.Open(demo.Files)
	if err != nil {
		return f, err
	}
	people, sheets := []string{"Marit,", "Odo,", "Rhona,", "Kwabena,"}, []string{",the-long-drizzle,", ",the-long-drizzle-again,", ",the-pattern-cabinet,"}
	f.People.Text = kept(f.People.Text, func(line string) bool {
		return slices.ContainsFunc(people, func(name string) bool { return strings.Contains(line, ","+name) })
	})
	f.Attempts.Text = kept(f.Attempts.Text, func(line string) bool {
		return slices.ContainsFunc(people, func(name string) bool { return strings.HasPrefix(line, name) }) &&
			slices.ContainsFunc(sheets, func(name string) bool { return strings.Contains(line, name) })
	})
	f.Sheets = slices.DeleteFunc(f.Sheets, func(f transfer.File) bool {
		return !strings.Contains(f.Name, "the-long-drizzle") && !strings.Contains(f.Name, "the-pattern-cabinet")
	})
	return f, nil
}

// kept is the first line of a text and those of the others that are to be kept.
func kept(text string, keep func(line string) bool) string {
	var out strings.Builder
	for line := range strings.Lines(text) {
		if out.Len() == 0 || keep(line) {
			out.WriteString(line)
		}
	}
	return out.String()
}

// fill makes the gym.
func fill(ctx context.Context, s *store.Store) error {
	f, err := small()
	if err != nil {
		return err
	}
	d, err := newDay()
	if err != nil {
		return err
	}
	return s.Update(ctx, store.By{At: now}, func(tx *store.Tx) error {
		if err := tx.MakeGym(store.Gym{ID: gym, Name: "G", Zone: "Europe/London", MadeAt: now}); err != nil {
			return err
		}
		_, err := transfer.Import(tx.In(gym), f, d.Lexicon, now)
		return err
	})
}

// look reads the books.
func look[T any](t testing.TB, s *store.Store, f func(*store.Books) (T, error)) (out T) {
	t.Helper()
	if err := s.View(t.Context(), func(tx *store.Tx) (err error) {
		out, err = f(tx.In(gym))
		return err
	}); err != nil {
		t.Fatal(err)
	}
	return out
}

// patience is how long a test waits for what takes a second or two.
const patience = time.Minute

// until waits until something is so.
func until(t testing.TB, what string, so func() bool) {
	t.Helper()
	for end := time.Now().Add(patience); !so(); time.Sleep(20 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatalf("waited in vain for %s", what)
		}
	}
}

// abilities are what is known of everybody.
func abilities(t testing.TB, s *store.Store) map[string]roomful.Abilities {
	t.Helper()
	out := map[string]roomful.Abilities{}
	for _, l := range look(t, s, func(b *store.Books) ([]store.Learnt, error) { return b.Learnt("") }) {
		out[l.Person] = l.Abilities
	}
	return out
}

// nightOver reports whether a gym has learnt from all its scores since a moment.
func nightOver(t testing.TB, s *store.Store, since time.Time) func() bool {
	return func() bool {
		l := look(t, s, (*store.Books).Learning)
		return l.Percent == 100 && l.DoneAt.After(since)
	}
}

// databases opens an empty store of each kind.
var databases = map[string]func(t *testing.T) *store.Store{
	"sqlite": func(t *testing.T) *store.Store {
		s, err := sqlite.Open(t.Context(), t.TempDir())
		if err != nil {
			t.Fatal(err)
		}
		return s
	},
	"postgres": func(t *testing.T) *store.Store {
		s, err := postgres.Open(t.Context(), pgtest.Database(t))
		if err != nil {
			t.Fatal(err)
		}
		return s
	},
}

// atWork opens a store of a kind with the gym in it, and a crew that has had its first
// night.
func atWork(t *testing.T, kind string) (*store.Store, *jobs.Crew) {
	t.Helper()
	s := databases[kind](t)
	t.Cleanup(func() { s.Close() })
	if err := fill(t.Context(), s); err != nil {
		t.Fatal(err)
	}
	c, err := crew(t.Context(), s)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(c.Stop)
	until(t, "the first night", nightOver(t, s, time.Time{}))
	return s, c
}

// TestCrew has a gym that was brought in learn from all its scores, and from the next
// one as it comes.
func TestCrew(t *testing.T) {
	for name := range databases {
		t.Run(name, func(t *testing.T) {
			s, c := atWork(t, name)

			// What was learnt is what the program learns from the same files.
			got := abilities(t, s)
			if diff := cmp.Diff(inMemory(t), got, cmpopts.EquateNaNs()); diff != "" {
				t.Errorf("(-from files +kept)\n%s", diff)
			}
			if all := look(t, s, (*store.Books).Emulators); len(all) < 3 {
				t.Errorf("%d emulators are kept", len(all))
			}

			// A score that comes moves its person, and nobody else.
			var arrived store.Attempt
			if err := s.Update(t.Context(), store.By{At: now}, func(tx *store.Tx) (err error) {
				b := tx.In(gym)
				d, err := b.Named(store.Sheet, "the-long-drizzle")
				if err != nil {
					return err
				}
				if _, err := b.PutAttempt(store.Attempt{ID: "new", Person: "kwabena", Document: d.ID, Day: roomful.Date{Year: 2027, Month: 4, Day: 2}, Text: "13:50 as written", TypedAt: now}); err != nil {
					return err
				}
				arrived, err = b.Attempt("new")
				return err
			}); err != nil {
				t.Fatal(err)
			}
			c.Arrived(gym, "kwabena", arrived.Seq)
			c.Arrived(gym, "kwabena", arrived.Seq) // sent twice, as a script does that heard no answer
			until(t, "the score that came", func() bool {
				all := look(t, s, func(b *store.Books) ([]store.Learnt, error) { return b.Learnt("kwabena") })
				return len(all) > 0 && all[0].Seq >= arrived.Seq
			})
			after := abilities(t, s)
			was, is := got["kwabena"], after["kwabena"]
			if before, _ := was.Median(roomful.CapVO2max); !(value(is, roomful.CapVO2max) > before) {
				t.Errorf("oxygen was %v and is %v after a fast score", before, value(is, roomful.CapVO2max))
			}
			delete(got, "kwabena")
			delete(after, "kwabena")
			if diff := cmp.Diff(got, after, cmpopts.EquateNaNs()); diff != "" {
				t.Errorf("others moved too\n%s", diff)
			}
			a := look(t, s, func(b *store.Books) (store.Attempt, error) { return b.Attempt("new") })
			if a.Read == nil || a.Read.By.Model != day.ModelEdition || a.Read.By.Catalogue == "" {
				t.Errorf("it was read as %+v", a.Read)
			}
			done := look(t, s, func(b *store.Books) (map[string][]roomful.Done, error) { return b.DoneBy("kwabena") })
			if d := done["new"]; len(d) != 1 || d[0].Score != 830 {
				t.Errorf("done: %+v", d)
			}
		})
	}
}

// value is a median.
func value(a roomful.Abilities, c roomful.Capacity) float64 {
	v, _ := a.Median(c)
	return v
}

// inMemory is what is learnt from the same files without a store.
func inMemory(t *testing.T) map[string]roomful.Abilities {
	t.Helper()
	s := databases["sqlite"](t)
	defer s.Close()
	if err := fill(t.Context(), s); err != nil {
		t.Fatal(err)
	}
	d, err := newDay()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]roomful.Abilities{}
	if err := s.View(t.Context(), func(tx *store.Tx) error {
		b := tx.In(gym)
		g, err := desk.New(d, s).Open(b, now)
		if err != nil {
			return err
		}
		q := day.RecordQuestion{People: g.Everybody(), Sheets: map[string]roomful.Session{}}
		sheets, err := b.Documents(store.Sheet)
		names := map[string]string{}
		for _, sheet := range sheets {
			q.Sheets[sheet.Name], _ = g.Session(t.Context(), sheet)
			names[sheet.ID] = sheet.Name
		}
		all, more := b.Attempts(0, 10_000)
		for _, a := range all {
			q.Logged = append(q.Logged, roomful.Logged{Athlete: a.Person, On: a.Day, Sheet: names[a.Document], Piece: a.Piece, Text: a.Text})
		}
		record, unread := g.Day.Record(q)
		if len(unread) > 0 {
			t.Errorf("%d scores cannot be read: %v", len(unread), unread[0].Err)
		}
		learnt, failed := g.Day.Learn(t.Context(), day.LearnQuestion{People: g.Everybody(), Record: record, Today: g.Today, Seed: 1})
		for id, a := range learnt.Abilities {
			out[id] = *a
		}
		return errors.Join(err, more, failed)
	}); err != nil {
		t.Fatal(err)
	}
	return out
}

// TestNightTwice has all scores learnt from a second time show the same.
func TestNightTwice(t *testing.T) {
	s, c := atWork(t, "sqlite")
	first, at := abilities(t, s), look(t, s, (*store.Books).Learning).DoneAt
	if err := c.Night(t.Context(), gym); err != nil {
		t.Fatal(err)
	}
	until(t, "the second night", nightOver(t, s, at))
	if diff := cmp.Diff(first, abilities(t, s), cmpopts.EquateNaNs()); diff != "" {
		t.Errorf("(-first +second)\n%s", diff)
	}
}

// TestStrangers has work for what is not there end quietly.
func TestStrangers(t *testing.T) {
	s, c := atWork(t, "sqlite")
	before := slices.Sorted(maps.Keys(abilities(t, s)))
	c.Arrived(gym, "nobody", 1<<40)
	c.Arrived("no gym", "marit", 1<<40)
	if err := c.Night(t.Context(), "no gym"); err != nil {
		t.Fatal(err)
	}
	waiting := func() int64 {
		var n int64
		if err := s.Queue().QueryRow(`SELECT COUNT(*) FROM river_job WHERE state <> 'completed'`).Scan(&n); err != nil {
			t.Fatal(err)
		}
		return n
	}
	until(t, "the work to end", func() bool { return waiting() == 0 })
	if after := slices.Sorted(maps.Keys(abilities(t, s))); !slices.Equal(before, after) {
		t.Errorf("known were %v, are %v", before, after)
	}
}

// TestTwoServers has two programs over one database share the work: whichever hears of a
// score, it is learnt from, and a night is had once.
func TestTwoServers(t *testing.T) {
	address := pgtest.Database(t)
	var crews []*jobs.Crew
	var stores []*store.Store
	for i := range 2 {
		s, err := postgres.Open(t.Context(), address)
		if err != nil {
			t.Fatal(err)
		}
		defer s.Close()
		if i == 0 {
			if err := fill(t.Context(), s); err != nil {
				t.Fatal(err)
			}
		}
		c, err := crew(t.Context(), s)
		if err != nil {
			t.Fatal(err)
		}
		defer c.Stop()
		crews, stores = append(crews, c), append(stores, s)
	}
	s := stores[0]
	until(t, "the first night", nightOver(t, s, time.Time{}))
	began := look(t, s, (*store.Books).Learning).BeganAt
	for i, c := range crews {
		id, person := fmt.Sprint("new", i), []string{"marit", "odo"}[i]
		var seq int64
		if err := stores[i].Update(t.Context(), store.By{At: now}, func(tx *store.Tx) error {
			b := tx.In(gym)
			d, err := b.Named(store.Sheet, "the-long-drizzle")
			if err != nil {
				return err
			}
			if _, err := b.PutAttempt(store.Attempt{ID: id, Person: person, Document: d.ID, Text: "19:20", TypedAt: now}); err != nil {
				return err
			}
			seq, err = b.Seq()
			return err
		}); err != nil {
			t.Fatal(err)
		}
		c.Arrived(gym, person, seq)
		until(t, "the score that came to one of the servers", func() bool {
			all := look(t, s, func(b *store.Books) ([]store.Learnt, error) { return b.Learnt(person) })
			return len(all) > 0 && all[0].Seq >= seq
		})
	}
	if l := look(t, s, (*store.Books).Learning); !l.BeganAt.Equal(began) {
		t.Errorf("a second night began at %v", l.BeganAt)
	}
}
