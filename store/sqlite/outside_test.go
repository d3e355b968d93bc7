package sqlite_test

import (
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"roomful/store/sqlite"
	"roomful/store/storetest"
)

// These hold what we write against the sqlite3 command, which has never heard of us.

// asked asks the sqlite3 command about a file, and returns the words of the answer.
func asked(t *testing.T, file, question string) []string {
	t.Helper()
	return strings.Fields(storetest.Say(t, exec.Command("sqlite3", "-readonly", "-bail", file), question))
}

// TestReadOutside: the command finds the file whole, with as many rows of each table as
// the archive of its gym says, and reads the archive itself row by row.
func TestReadOutside(t *testing.T) {
	storetest.Have(t, "sqlite3", "sqlite3")
	dir := t.TempDir()
	s, err := sqlite.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	archive := storetest.Furnish(t, s)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	file, zip := filepath.Join(dir, "roomful.db"), filepath.Join(dir, "gym.zip")
	if err := os.WriteFile(zip, archive, 0o600); err != nil {
		t.Fatal(err)
	}
	if got := asked(t, file, "PRAGMA integrity_check; PRAGMA foreign_key_check;"); len(got) != 1 || got[0] != "ok" {
		t.Errorf("the file: %q", got)
	}
	counted := storetest.Counted(t, archive)
	for _, table := range slices.Sorted(maps.Keys(counted)) {
		of := "gym_id"
		if table == "gyms" {
			of = "id"
		}
		got := asked(t, file, fmt.Sprintf("SELECT count(*) FROM %s WHERE %s = 'gym-1'; SELECT count(*) %s;", table, of, rows(zip, table)))
		want := fmt.Sprint(counted[table])
		if len(got) != 2 || got[0] != want || got[1] != want {
			t.Errorf("%s: in the file and in the archive %v, want %s", table, got, want)
		}
	}
	if got := asked(t, file, "SELECT (SELECT text FROM attempts WHERE id = row.value ->> 1) = row.value ->> 8 "+rows(zip, "attempts")+";"); strings.Join(got, "") != "1" {
		t.Errorf("what was typed, in the file as in the archive: %v", got)
	}
}

// rows are the lines of a table's file in an archive, which are JSON without a break in it.
func rows(zip, table string) string {
	return fmt.Sprintf("FROM zipfile('%s') z, json_each('[' || rtrim(replace(z.data, char(10), ','), ',') || ']') row WHERE z.name = '%s.jsonl'", zip, table)
}

// TestDumpOutside: what the command dumps and reads again is the same gym.
func TestDumpOutside(t *testing.T) {
	storetest.Have(t, "sqlite3", "sqlite3")
	dir, again := t.TempDir(), t.TempDir()
	s, err := sqlite.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	archive := storetest.Furnish(t, s)
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	dump := storetest.Say(t, exec.Command("sqlite3", "-readonly", filepath.Join(dir, "roomful.db"), ".dump"), "")
	storetest.Say(t, exec.Command("sqlite3", "-bail", filepath.Join(again, "roomful.db")), dump)
	s, err = sqlite.Open(t.Context(), again)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	storetest.SameGym(t, s, archive)
}
