package postgres_test

import (
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"roomful/store/postgres/pgtest"
	"roomful/store/storetest"
)

// These hold what we write against psql and pg_dump, which have never heard of us.

// psql asks psql about a database, and returns the words of the answer.
func psql(t *testing.T, address, question string) []string {
	t.Helper()
	return strings.Fields(storetest.Say(t, pgtest.Tool("psql", "--no-psqlrc", "--quiet", "--tuples-only", "--no-align", "--set=ON_ERROR_STOP=1", address), question))
}

// TestReadOutside: psql finds as many rows of each table as the archive of the gym says,
// and reads the archive's own rows, of which each is the same.
func TestReadOutside(t *testing.T) {
	address := pgtest.Database(t)
	archive := storetest.Furnish(t, openAt(t, address))
	dir := t.TempDir()
	storetest.Unpacked(t, archive, dir)
	counted := storetest.Counted(t, archive)
	// A line is one value: no letter in it parts or quotes.
	const load = "CREATE TEMPORARY TABLE lines (row jsonb);\n\\copy lines FROM '%s' WITH (FORMAT csv, DELIMITER E'\\x02', QUOTE E'\\x01')\n"
	for _, table := range slices.Sorted(maps.Keys(counted)) {
		of := "gym_id"
		if table == "gyms" {
			of = "id"
		}
		got := psql(t, address, fmt.Sprintf(load+"SELECT count(*) FROM lines;\nSELECT count(*) FROM %s WHERE %s = 'gym-1';\n", filepath.Join(dir, table+".jsonl"), table, of))
		want := fmt.Sprint(counted[table])
		if len(got) != 2 || got[0] != want || got[1] != want {
			t.Errorf("%s: in the archive and in the database %v, want %s", table, got, want)
		}
	}
	got := psql(t, address, fmt.Sprintf(load+"SELECT a.text = row ->> 8 FROM lines JOIN attempts a ON a.id = row ->> 1;\n", filepath.Join(dir, "attempts.jsonl")))
	if strings.Join(got, "") != "t" {
		t.Errorf("what was typed, in the database as in the archive: %v", got)
	}
}

// TestDumpOutside: what pg_dump writes and psql reads again is the same gym.
func TestDumpOutside(t *testing.T) {
	address, again := pgtest.Database(t), pgtest.Database(t)
	archive := storetest.Furnish(t, openAt(t, address))
	dump := storetest.Say(t, pgtest.Tool("pg_dump", "--no-owner", address), "")
	psql(t, again, dump)
	storetest.SameGym(t, openAt(t, again), archive)
}
