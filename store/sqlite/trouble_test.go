package sqlite_test

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	_ "github.com/ncruces/go-sqlite3/driver"

	"roomful"
	"roomful/store"
	"roomful/store/sqlite"
	"roomful/store/storetest"
)

// furnished makes a folder with a gym of some people in it, and closes it.
func furnished(t *testing.T) (dir, file string) {
	t.Helper()
	dir = t.TempDir()
	s, err := sqlite.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	err = s.Update(context.Background(), store.By{At: storetest.Now}, func(tx *store.Tx) error {
		if err := tx.MakeGym(store.Gym{ID: "g", Name: "G", Zone: "UTC", MadeAt: storetest.Now}); err != nil {
			return err
		}
		for i := range 500 {
			if err := tx.In("g").PutPerson(store.Person{Athlete: roomful.Athlete{ID: fmt.Sprint(i), Name: strings.Repeat("x", 200)}}); err != nil {
				return err
			}
		}
		return nil
	})
	if err := errors.Join(err, s.Close()); err != nil {
		t.Fatal(err)
	}
	return dir, filepath.Join(dir, "roomful.db")
}

// TestTrouble: what is the matter with a file is said in plain words, with the next step.
func TestTrouble(t *testing.T) {
	for _, c := range []struct {
		what string
		do   func(t *testing.T, dir, file string)
		want string
	}{
		{"two programs", func(t *testing.T, dir, _ string) {
			first, err := sqlite.Open(t.Context(), dir)
			if err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() { first.Close() })
		}, "another program has it open"},
		{"a newer program's", func(t *testing.T, _, file string) {
			db, err := sql.Open("sqlite3", "file:"+file)
			if err != nil {
				t.Fatal(err)
			}
			defer db.Close()
			if _, err := db.Exec("INSERT INTO goose_db_version (version_id, is_applied) VALUES (999, 1)"); err != nil {
				t.Fatal(err)
			}
		}, "newer program"},
		{"another program's", func(t *testing.T, _, file string) {
			if err := os.Remove(file); err != nil {
				t.Fatal(err)
			}
			db, err := sql.Open("sqlite3", "file:"+file)
			if err != nil {
				t.Fatal(err)
			}
			defer db.Close()
			if _, err := db.Exec("CREATE TABLE invoices (n INTEGER)"); err != nil {
				t.Fatal(err)
			}
		}, "it holds tables of another program: invoices"},
		{"another file", func(t *testing.T, _, file string) { put(t, file, 0, []byte(strings.Repeat("bars: 7\n", 1000))) }, "damaged, or no database"},
		{"a damaged first page", func(t *testing.T, _, file string) { put(t, file, 100, make([]byte, 3000)) }, "damaged, or no database"},
		{"a folder in its place", func(t *testing.T, _, file string) {
			if err := errors.Join(os.Remove(file), os.Mkdir(file, 0o700)); err != nil {
				t.Fatal(err)
			}
		}, "opening"},
	} {
		t.Run(c.what, func(t *testing.T) {
			dir, file := furnished(t)
			c.do(t, dir, file)
			s, err := sqlite.Open(t.Context(), dir)
			if err == nil {
				s.Close()
			}
			var refusal *roomful.Error
			if !errors.As(err, &refusal) || refusal.Hint == "" || !strings.Contains(refusal.Summary, c.want) {
				t.Errorf("%v, want %s and a hint", err, c.want)
			}
		})
	}
}

// TestDoctor finds a page that was damaged, and nothing in a file that is whole.
func TestDoctor(t *testing.T) {
	dir, file := furnished(t)
	for _, damaged := range []bool{false, true} {
		if damaged {
			info, err := os.Stat(file)
			if err != nil {
				t.Fatal(err)
			}
			put(t, file, info.Size()/2/4096*4096, []byte(strings.Repeat("\xff", 8192)))
		}
		s, err := sqlite.Open(t.Context(), dir)
		if err != nil {
			t.Fatal(err)
		}
		found, err := s.Doctor(t.Context())
		if err != nil || (len(found) > 0) != damaged {
			t.Errorf("damaged %v: found %q, %v", damaged, found, err)
		}
		s.Close()
	}
}

// put writes bytes over a file.
func put(t *testing.T, file string, at int64, bytes []byte) {
	t.Helper()
	f, err := os.OpenFile(file, os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	_, err = f.WriteAt(bytes, at)
	if err := errors.Join(err, f.Close()); err != nil {
		t.Fatal(err)
	}
}
