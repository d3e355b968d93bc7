package desk_test

import (
	"context"
	"maps"
	"slices"
	"testing"
	"time"

	"roomful"
	"roomful/catalogue"
	"roomful/day"
	"roomful/desk"
	"roomful/store"
	"roomful/store/sqlite"
)

// now is late on the third of March in London, and the fourth in Tokyo.
var now = time.Date(2027, 3, 3, 23, 30, 0, 0, time.UTC)

// day3 and day4 are the days on either side of midnight.
var (
	day3 = roomful.Date{Year: 2027, Month: 3, Day: 3}
	day4 = roomful.Date{Year: 2027, Month: 3, Day: 4}
)

const drip = "Drip\n2027-03-04, 60 min\n\nmain: as many rounds as possible in 12 min\n  10 burpees\n  12 deadlifts 60/40 kg\n"

// laid lays a gym out in a zone, filled by a function.
func laid(t *testing.T, zone string, fill func(*store.Books) error, look func(*store.Books, *desk.Gym)) {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	s, err := sqlite.Open(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if err := s.Update(t.Context(), store.By{At: now}, func(tx *store.Tx) error {
		if err := tx.MakeGym(store.Gym{ID: "g", Name: "G", Zone: zone, MadeAt: now}); err != nil {
			return err
		}
		b := tx.In("g")
		for _, id := range []string{"bo", "mo", "ola"} {
			if err := b.PutPerson(store.Person{Athlete: roomful.Athlete{ID: id, Name: id}}); err != nil {
				return err
			}
		}
		return fill(b)
	}); err != nil {
		t.Fatal(err)
	}
	if err := s.View(t.Context(), func(tx *store.Tx) error {
		g, err := desk.New(day.New(lex), s).Open(tx.In("g"), now)
		if err == nil {
			look(tx.In("g"), g)
		}
		return err
	}); err != nil {
		t.Fatal(err)
	}
}

// TestOpen lays out who comes, with the limits of the day on the gym's own clock, its
// settings and what it owns.
func TestOpen(t *testing.T) {
	fill := func(b *store.Books) error {
		if err := b.PutPerson(store.Person{Athlete: roomful.Athlete{ID: "ola", Name: "ola"}, Revision: 1, LeftAt: now}); err != nil {
			return err
		}
		for _, l := range []store.Limit{
			{ID: "l1", Person: "mo", Limit: roomful.Limit{What: "back"}, Since: day3, Until: day3},
			{ID: "l2", Person: "bo", Limit: roomful.Limit{What: "knee"}, Since: day4},
		} {
			if err := b.PutLimit(l); err != nil {
				return err
			}
		}
		for kind, text := range map[string]string{store.Settings: "unit: lb\n", store.Kit: "bars:\n  - {mass: 20, count: 3}\n"} {
			if _, _, err := b.Save(store.Document{ID: kind, Kind: kind, Name: kind, Text: text}); err != nil {
				return err
			}
		}
		return nil
	}
	for zone, want := range map[string]struct {
		today roomful.Date
		sore  string
	}{"Europe/London": {day3, "mo"}, "Asia/Tokyo": {day4, "bo"}, "No/Where": {day3, "mo"}} {
		laid(t, zone, fill, func(_ *store.Books, g *desk.Gym) {
			if g.Today != want.today {
				t.Errorf("%s: today is %s", zone, g.Today)
			}
			var names []string
			for _, a := range g.People {
				names = append(names, a.ID)
				if sore := len(a.Limits) > 0; sore != (a.ID == want.sore) {
					t.Errorf("%s: %s has %v", zone, a.ID, a.Limits)
				}
			}
			if !slices.Equal(names, []string{"bo", "mo"}) || len(g.Everybody()) != 3 {
				t.Errorf("%s: there come %v of %d", zone, names, len(g.Everybody()))
			}
			if g.Gym.Unit != roomful.Pound || g.Kit == nil {
				t.Errorf("%s: the gym thinks in %v and owns %v", zone, g.Gym.Unit, g.Kit)
			}
		})
	}
}

// TestSessionOfWhoLeft holds no sheet that was half read for somebody who went: its effort
// would be missing for all who come after.
func TestSessionOfWhoLeft(t *testing.T) {
	laid(t, "UTC", func(b *store.Books) error { return nil }, func(_ *store.Books, g *desk.Gym) {
		sheet := store.Document{ID: "d1", Name: "drip", Text: drip, Revision: 1}
		gone, cancel := context.WithCancel(t.Context())
		cancel()
		if half, _ := g.Session(gone, sheet); half.Effort.Stated() {
			t.Fatal("it was read whole, so nothing is proved")
		}
		if whole, _ := g.Session(t.Context(), sheet); !whole.Effort.Stated() {
			t.Errorf("whoever comes after finds no effort: %+v", whole.Effort)
		}
	})
}

// TestRecord resolves what is typed, leaves what was resolved before as it was kept, and
// finds what "same as" stands for.
func TestRecord(t *testing.T) {
	odd := roomful.Done{Score: 99}
	laid(t, "UTC", func(b *store.Books) error {
		for _, d := range []store.Document{
			{ID: "d1", Kind: store.Sheet, Name: "drip", Title: "Drip", Day: day4, Text: drip},
			{ID: "d2", Kind: store.Sheet, Name: "half", Title: "Half", Day: day4, Text: "Half\n\nmain: as many rounds as possible\n"},
		} {
			if _, _, err := b.Save(d); err != nil {
				return err
			}
		}
		for _, a := range []store.Attempt{
			{ID: "a1", Person: "mo", Document: "d1", Day: day3, Text: "5+3"},
			{ID: "a2", Person: "mo", Document: "d1", Day: day4, Text: "same as last time"},
			{ID: "a3", Person: "mo", Document: "d2", Day: day4, Text: "7"},
			{ID: "a4", Person: "bo", Document: "d1", Day: day4, Text: "6+1 with 30 kg"},
			{ID: "a5", Person: "ola", Document: "d1", Day: day4, Text: "same as bo"},
			{ID: "a6", Person: "ola", Document: "d1", Day: day3, Text: "same as mo"}, // whose score was not read yet
		} {
			if _, err := b.PutAttempt(a); err != nil {
				return err
			}
		}
		read := store.Read{Readings: []roomful.Reading{{Raw: "6+1 with 30 kg", Piece: "main", Kind: roomful.RoundsScore}}}
		done := odd
		done.Piece = roomful.Part{Kind: roomful.Main}
		return b.PutResolved("bo", map[string]store.Resolved{"a4": {Read: read, Done: []roomful.Done{done}}})
	}, func(_ *store.Books, g *desk.Gym) {
		record := func(person string, upTo int64) desk.Record {
			t.Helper()
			got, err := g.Record(t.Context(), person, upTo)
			if err != nil {
				t.Fatal(err)
			}
			return got
		}
		mo := record("mo", 0)
		if len(mo.Record) != 2 || len(mo.Fresh) != 2 || mo.Record[0].Done.Score != mo.Record[1].Done.Score {
			t.Errorf("Mo's: %d scores, %d fresh: %+v", len(mo.Record), len(mo.Fresh), mo.Record)
		}
		if by := mo.Fresh["a1"].Read.By; by.Notation == "" || by.Catalogue == "" || by.Model == "" {
			t.Errorf("read by %+v", by)
		}
		if early := record("mo", 1); len(early.Record) != 0 {
			t.Errorf("before all scores there are %d", len(early.Record))
		}
		bo := record("bo", 0)
		if len(bo.Fresh) != 0 || len(bo.Record) != 1 || bo.Record[0].Done.Score != odd.Score {
			t.Errorf("what was kept is not as it was: %+v", bo)
		}
		ola := record("ola", 0)
		if len(ola.Record) != 2 || !slices.Contains(ola.Record[1].Done.Assumed, "the same as bo") {
			t.Errorf("Ola's: %+v", ola.Record)
		}
		if got := slices.Collect(maps.Keys(ola.Fresh)); !slices.Equal(got, []string{"a5"}) {
			t.Errorf("of Ola's scores %v are kept for good: what is the same as a score that has not come yet waits for it", got)
		}
	})
}
