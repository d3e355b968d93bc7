package sqlite_test

import (
	"database/sql"
	"os"
	"path/filepath"
	"testing"

	"roomful/store/sqlite"
	"roomful/store/storetest"
)

// TestSchema holds schema.sql against the tables of a new file, and against the tables
// that it makes itself.
func TestSchema(t *testing.T) {
	dir := t.TempDir()
	s, err := sqlite.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	tables := tablesOf(t, file(t, filepath.Join(dir, "roomful.db")))
	storetest.Schema(t, "SQLite", tables)
	schema, err := os.ReadFile("schema.sql")
	if err != nil {
		t.Fatal(err)
	}
	made := file(t, filepath.Join(t.TempDir(), "made.db"))
	if _, err := made.Exec(string(schema)); err != nil {
		t.Fatal(err)
	}
	storetest.SameTables(t, tablesOf(t, made), tables)
}

// file opens a file past the store.
func file(t *testing.T, path string) *sql.DB {
	t.Helper()
	db, err := sql.Open("sqlite3", "file:"+path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	return db
}

// tablesOf asks a file what tables it has.
func tablesOf(t *testing.T, db *sql.DB) (out []storetest.Table) {
	t.Helper()
	for _, name := range storetest.Words(t, db, `SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name`) {
		of := storetest.Table{Name: name}
		of.Columns = storetest.Words(t, db, `SELECT name || ' ' || type || iif("notnull", ' NOT NULL', '') || coalesce(' DEFAULT ' || dflt_value, '')
			FROM pragma_table_info(?1) ORDER BY cid`, name)
		for _, question := range []string{
			`SELECT 'PRIMARY KEY (' || group_concat(name, ', ') || ')' FROM (SELECT name FROM pragma_table_info(?1) WHERE pk > 0 ORDER BY pk)`,
			`SELECT 'UNIQUE (' || (SELECT group_concat(name, ', ') FROM (SELECT name FROM pragma_index_info(i.name) ORDER BY seqno)) || ')' AS u
				FROM pragma_index_list(?1) i WHERE origin = 'u' ORDER BY u`,
			`SELECT 'FOREIGN KEY (' || group_concat("from", ', ') || ') references ' || "table" || ' (' || group_concat("to", ', ') || ')'
				|| iif(on_delete = 'NO ACTION', '', ' ON DELETE ' || on_delete) AS f
				FROM (SELECT * FROM pragma_foreign_key_list(?1) ORDER BY id, seq) GROUP BY id ORDER BY f`,
		} {
			of.Keys = append(of.Keys, storetest.Words(t, db, question, name)...)
		}
		of.Indexes = storetest.Words(t, db, `SELECT sql FROM sqlite_master WHERE type = 'index' AND tbl_name = ?1 AND sql IS NOT NULL ORDER BY name`, name)
		out = append(out, of)
	}
	return out
}
