package crowd_test

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/catalogue"
	"roomful/crowd"
	"roomful/day"
	"roomful/demo"
	"roomful/score"
	"roomful/store"
	"roomful/store/sqlite"
	"roomful/transfer"
)

// made makes one gym in a store of its own.
func made(t testing.TB, members, years int) (*store.Store, int, roomful.Lexicon) {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	like, err := transfer.Open(demo.Files)
	if err != nil {
		t.Fatal(err)
	}
	s, err := sqlite.Open(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	scores := 0
	if err := crowd.Make(t.Context(), s, day.New(lex), crowd.Plan{Gyms: 1, Members: members, Years: years, Seed: 1,
		Until: roomful.Date{Year: 2027, Month: 3, Day: 4}, Like: like}, func(n int) { scores = n }); err != nil {
		t.Fatal(err)
	}
	return s, scores, lex
}

// TestMake makes the same gym twice, of which every score can be read against its sheet
// without a question.
func TestMake(t *testing.T) {
	var archives [2]string
	for i := range archives {
		s, scores, lex := made(t, 30, 1)
		if scores < 2000 || scores > 5000 {
			t.Errorf("%d scores of 30 members in a year of 262 days", scores)
		}
		var out bytes.Buffer
		if err := s.View(t.Context(), func(tx *store.Tx) error {
			if err := tx.In("crowd-1-0").Archive(&out); err != nil {
				return err
			}
			all, err := tx.In("crowd-1-0").Attempts(0, 300)
			for _, a := range all {
				readable(t, tx, lex, a)
			}
			return err
		}); err != nil {
			t.Fatal(err)
		}
		archives[i] = out.String()
	}
	if archives[0] != archives[1] {
		t.Error("the same plan makes another gym")
	}
}

// readable fails unless a score is read as one.
func readable(t *testing.T, tx *store.Tx, lex roomful.Lexicon, a store.Attempt) {
	t.Helper()
	d, err := tx.In("crowd-1-0").Document(a.Document)
	if err != nil {
		t.Fatal(err)
	}
	session, _ := day.New(lex).Check(t.Context(), d.Text)
	if session.Date != a.Day {
		t.Errorf("%s is scored on %v", d.Name, a.Day)
	}
	who, err := tx.In("crowd-1-0").Person(a.Person)
	if err != nil {
		t.Fatal(err)
	}
	got, err := score.Read(score.Asked{Session: session, Piece: a.Piece, Division: who.Division, Unit: who.Unit, Lexicon: lex}, a.Text)
	if err != nil || score.Words(got.Readings[0]) == "no score" {
		t.Errorf("%s: %q: %v", d.Name, a.Text, err)
	}
	if diff := cmp.Diff(&store.Read{Readings: got.Readings}, a.Read); diff != "" {
		t.Errorf("%s: %q is kept as another reading\n%s", d.Name, a.Text, diff)
	}
}

// TestBounds refuses what is a mistake.
func TestBounds(t *testing.T) {
	for _, p := range []crowd.Plan{{}, {Gyms: 1, Members: 1}, {Gyms: 1, Members: 1 << 30, Years: 1}, {Gyms: -1, Members: 1, Years: 1}} {
		if err := crowd.Make(context.Background(), nil, nil, p, nil); err == nil || !strings.Contains(err.Error(), "making") || roomful.HintOf(err) == "" {
			t.Errorf("%+v: %v", p, err)
		}
	}
}
