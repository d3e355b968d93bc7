package store_test

import (
	"database/sql"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	_ "github.com/ncruces/go-sqlite3/driver"

	"roomful/store"
	"roomful/store/sqlite"
)

// TestArchiveColumns holds what an archive keeps against the tables themselves: a table or
// a column that is added later must not be left out of it.
func TestArchiveColumns(t *testing.T) {
	dir := t.TempDir()
	s, err := sqlite.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	db, err := sql.Open("sqlite3", "file:"+filepath.Join(dir, "roomful.db"))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	rows, err := db.Query(`SELECT m.name, c.name FROM sqlite_master m JOIN pragma_table_info(m.name) c WHERE m.type = 'table' ORDER BY m.name, c.cid`)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	have := map[string][]string{}
	for rows.Next() {
		var table, column string
		if err := rows.Scan(&table, &column); err != nil {
			t.Fatal(err)
		}
		if !strings.HasPrefix(table, "goose_") && !strings.HasPrefix(table, "sqlite_") {
			have[table] = append(have[table], column)
		}
	}
	if err := rows.Err(); err != nil {
		t.Fatal(err)
	}
	delete(have, "emulators") // they can always be made again
	sorted := func(tables map[string][]string) map[string][]string {
		out := map[string][]string{}
		for table, columns := range tables {
			out[table] = slices.Sorted(slices.Values(columns))
		}
		return out
	}
	if diff := cmp.Diff(sorted(have), sorted(store.Columns())); diff != "" {
		t.Errorf("(-tables +archive)\n%s", diff)
	}
}
