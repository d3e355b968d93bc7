package postgres_test

import (
	"context"
	"errors"
	"net/url"
	"os"
	"strings"
	"testing"

	"roomful"
	"roomful/store"
	"roomful/store/postgres"
	"roomful/store/postgres/pgtest"
)

// TestTrouble: what is the matter with a database, or on the way to it, is said in plain
// words with the next step, and without the password.
func TestTrouble(t *testing.T) {
	for _, c := range []struct {
		what       string
		at         func(t *testing.T) (address string)
		want, hint string
	}{
		{"no server", func(t *testing.T) string { return elsewhere(t, pgtest.Database(t), t.TempDir()) }, "no answer", "whether it runs"},
		{"a wrong password", func(t *testing.T) string {
			address := pgtest.Database(t)
			pgtest.Exec(t, address, "DROP ROLE IF EXISTS "+pgtest.Guarded)
			pgtest.Exec(t, address, "CREATE ROLE "+pgtest.Guarded+" LOGIN PASSWORD 'right'")
			return strings.Replace(address, "postgres@", pgtest.Guarded+":topsecret@", 1)
		}, `password authentication failed for user "guarded"`, "the user and the password"},
		{"no such database", func(t *testing.T) string {
			address, err := url.Parse(pgtest.Database(t))
			if err != nil {
				t.Fatal(err)
			}
			address.Path = "/nowhere"
			return address.String()
		}, `database "nowhere" does not exist`, "make it first"},
		{"a newer program's", func(t *testing.T) string {
			address := pgtest.Database(t)
			openAt(t, address)
			pgtest.Exec(t, address, "INSERT INTO goose_db_version (version_id, is_applied) VALUES (999, true)")
			return address
		}, "newer program", "run the newer program"},
		{"another program's", func(t *testing.T) string {
			address := pgtest.Database(t)
			pgtest.Exec(t, address, "CREATE TABLE invoices (n INTEGER)")
			return address
		}, "it holds tables of another program: invoices", "an empty database"},
		{"to be read only", func(t *testing.T) string { return readOnly(t, pgtest.Database(t)) }, "read-only transaction", "that may be written to"},
		{"no address", func(t *testing.T) string { return "postgres://user:topsecret@%zz/" }, "reading the address", "postgres://user@host"},
	} {
		t.Run(c.what, func(t *testing.T) {
			s, err := postgres.Open(t.Context(), c.at(t))
			if err == nil {
				s.Close()
			}
			told(t, err, c.want, c.hint)
		})
	}
}

// told fails unless an error says what is the matter and what to do next, in plain words.
func told(t *testing.T, err error, want, hint string) {
	t.Helper()
	var said *roomful.Error
	var trouble *store.Trouble
	if errors.As(err, &trouble) {
		said = trouble.Said
	}
	if said == nil && !errors.As(err, &said) || !strings.Contains(said.Summary, want) || !strings.Contains(said.Hint, hint) {
		t.Errorf("%v (%q), want %s (%s)", err, roomful.HintOf(err), want, hint)
	}
	if err != nil && strings.Contains(err.Error(), "topsecret") {
		t.Errorf("the password is told: %v", err)
	}
}

// readOnly has a database refuse to be written to, as one that follows another does.
func readOnly(t *testing.T, address string) string {
	t.Helper()
	at, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	pgtest.Exec(t, address, "ALTER DATABASE "+at.Path[1:]+" SET default_transaction_read_only = on")
	return address
}

// TestReadOnly: a database that has become one to read is read, and says why it keeps
// nothing.
func TestReadOnly(t *testing.T) {
	address, _ := servers(t, 1)
	s := openAt(t, readOnly(t, address))
	err := put(s, "mo", gyms[0])
	told(t, err, "read-only transaction", "that may be written to")
	var trouble *store.Trouble
	if !errors.As(err, &trouble) || trouble.Unsure {
		t.Errorf("%v is no trouble of the database, or nobody knows what came of it", err)
	}
	if err := s.View(t.Context(), func(tx *store.Tx) error { _, err := tx.In(gyms[0]).Gym(); return err }); err != nil {
		t.Error(err)
	}
}

// TestServerGoes: while a server cannot be reached each question says so and nothing is
// lost; when it is back everything goes on.
func TestServerGoes(t *testing.T) {
	address, all := servers(t, 1)
	way := newWay(t, address)
	s := openAt(t, way.address)
	for n, id := range []string{"first", "second"} {
		if err := put(s, id, gyms[0]); err != nil {
			t.Fatal(err)
		}
		way.close()
		told(t, put(s, "meanwhile", gyms[0]), "no answer", "whether it runs")
		told(t, s.View(t.Context(), func(tx *store.Tx) error { _, err := tx.Gyms(); return err }), "no answer", "whether it runs")
		way.open(t)
		if _, missing := person(s, "meanwhile"); !errors.Is(missing, store.ErrMissing) {
			t.Errorf("time %d: what was refused: %v", n, missing)
		}
	}
	for _, id := range []string{"first", "second"} {
		if _, err := person(all[0], id); err != nil {
			t.Errorf("%s: %v", id, err)
		}
	}
}

// person looks somebody up in the first gym.
func person(s *store.Store, id string) (p store.Person, err error) {
	err = s.View(context.Background(), func(tx *store.Tx) error { p, err = tx.In(gyms[0]).Person(id); return err })
	return p, err
}

// TestCutInCommit: when the connection breaks before the server can say that it has
// committed, nobody is told that nothing was kept; sent again it is kept once.
func TestCutInCommit(t *testing.T) {
	address, all := servers(t, 1)
	way := newWay(t, address)
	s := openAt(t, way.address)
	a := store.Attempt{ID: "a", Person: "mo", Document: "d", Text: "5+20", TypedAt: by.At}
	send := func(ctx context.Context) (stored bool, err error) {
		err = s.Update(ctx, by, func(tx *store.Tx) error { stored, err = tx.In(gyms[0]).PutAttempt(a); return err })
		return stored, err
	}
	if err := errors.Join(put(all[0], "mo", gyms[0]), all[0].Update(t.Context(), by, func(tx *store.Tx) error {
		_, _, err := tx.In(gyms[0]).Save(store.Document{ID: "d", Kind: store.Sheet, Name: "d"})
		return err
	})); err != nil {
		t.Fatal(err)
	}
	way.cutBefore.Store("COMMIT") // as the server says that it has
	_, err := send(t.Context())
	told(t, err, "asking the database", "send it again, which keeps it once")
	var trouble *store.Trouble
	if !errors.As(err, &trouble) || !trouble.Unsure {
		t.Errorf("%v: somebody is sure what came of it", err)
	}
	way.cutBefore.Store("")
	if stored, err := send(t.Context()); err != nil || stored {
		t.Errorf("sent again: stored %v, %v; the server had kept it", stored, err)
	}
}

// elsewhere is an address with another folder for the socket.
func elsewhere(t *testing.T, address, dir string) string {
	t.Helper()
	at, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	at.RawQuery = url.Values{"host": {dir}}.Encode()
	return at.String()
}

// socketDir makes a folder for a socket, whose path must be short.
func socketDir(t *testing.T) string {
	t.Helper()
	dir, err := os.MkdirTemp("", "way")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}
