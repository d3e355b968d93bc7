package sqlite

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/store"
)

var (
	then = time.Date(2027, 3, 4, 5, 6, 7, 0, time.UTC)
	by   = store.By{At: then}
)

// bounded opens an empty store whose file may have so many pages: the database answers
// as it does when the disk takes no more. With more there is room again.
func bounded(t *testing.T, pages int) (s *store.Store, more func(pages int)) {
	t.Helper()
	e, err := open(t.Context(), filepath.Join(t.TempDir(), fileName))
	if err != nil {
		t.Fatal(err)
	}
	more = func(pages int) {
		t.Helper()
		if _, err := e.Write.Exec(fmt.Sprint("PRAGMA max_page_count = ", pages)); err != nil {
			t.Fatal(err)
		}
	}
	more(pages)
	s = store.New(e)
	t.Cleanup(func() { s.Close() })
	return s, more
}

// score sends a score.
func score(s *store.Store, id string) error {
	return s.Update(context.Background(), by, func(tx *store.Tx) error {
		_, err := tx.In("g").PutAttempt(store.Attempt{ID: id, Person: "mo", Document: "d", Text: strings.Repeat("5+20 ", 200), TypedAt: then})
		return err
	})
}

// furnish makes a gym with somebody and a sheet.
func furnish(t *testing.T, s *store.Store) {
	t.Helper()
	if err := s.Update(t.Context(), by, func(tx *store.Tx) error {
		if err := tx.MakeGym(store.Gym{ID: "g", Name: "G", Zone: "UTC", MadeAt: then}); err != nil {
			return err
		}
		_, _, err := tx.In("g").Save(store.Document{ID: "d", Kind: store.Sheet, Name: "d"})
		return errors.Join(err, tx.In("g").PutPerson(store.Person{Athlete: roomful.Athlete{ID: "mo"}}))
	}); err != nil {
		t.Fatal(err)
	}
}

// full fails unless an error says that the disk is full, and what to do.
func full(t *testing.T, err error) {
	t.Helper()
	var trouble *store.Trouble
	if !errors.As(err, &trouble) || trouble.Unsure || !strings.Contains(err.Error(), "full") || !strings.Contains(trouble.Said.Hint, "make room") {
		t.Errorf("%v, want that the disk is full and what to do", err)
	}
}

// TestFull: when the disk is full a score is refused in plain words, what was
// acknowledged stays and is read, and with room everything goes on.
func TestFull(t *testing.T) {
	s, more := bounded(t, 200)
	furnish(t, s)
	var kept []string
	var err error
	for n := 0; err == nil && n < 10_000; n++ {
		id := fmt.Sprint("a", n)
		if err = score(s, id); err == nil {
			kept = append(kept, id)
		}
	}
	full(t, err)
	full(t, score(s, "another"))
	more(10_000)
	if err := score(s, "later"); err != nil {
		t.Errorf("with room again: %v", err)
	}
	if err := s.View(t.Context(), func(tx *store.Tx) error {
		for _, id := range append(kept, "later") {
			if _, err := tx.In("g").Attempt(id); err != nil {
				return fmt.Errorf("%s was acknowledged: %w", id, err)
			}
		}
		if _, err := tx.In("g").Attempt("another"); !errors.Is(err, store.ErrMissing) {
			return fmt.Errorf("what was refused: %v", err)
		}
		return nil
	}); err != nil {
		t.Error(err)
	}
	if found, err := s.Doctor(t.Context()); err != nil || len(found) > 0 || len(kept) < 50 {
		t.Errorf("damage %q, %v after %d scores", found, err, len(kept))
	}
}

// TestRestoreFull: an archive that does not fit on the disk is not called damaged, and
// leaves nothing.
func TestRestoreFull(t *testing.T) {
	s, _ := bounded(t, 10_000)
	furnish(t, s)
	for n := range 500 {
		if err := score(s, fmt.Sprint("a", n)); err != nil {
			t.Fatal(err)
		}
	}
	var archive bytes.Buffer
	if err := s.View(t.Context(), func(tx *store.Tx) error { return tx.In("g").Archive(&archive) }); err != nil {
		t.Fatal(err)
	}
	small, _ := bounded(t, 200)
	full(t, small.Update(t.Context(), by, func(tx *store.Tx) error {
		_, err := tx.Restore(bytes.NewReader(archive.Bytes()), int64(archive.Len()))
		return err
	}))
	if err := small.View(t.Context(), func(tx *store.Tx) error {
		gyms, err := tx.Gyms()
		if len(gyms) > 0 {
			t.Errorf("%+v is left", gyms)
		}
		return err
	}); err != nil {
		t.Error(err)
	}
}
