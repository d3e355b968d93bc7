package postgres_test

import (
	"database/sql"
	"os"
	"testing"

	_ "github.com/jackc/pgx/v5/stdlib"

	"roomful/store/postgres/pgtest"
	"roomful/store/storetest"
)

// TestSchema holds schema.sql against the tables of a new database, and against the
// tables that it makes itself.
func TestSchema(t *testing.T) {
	address := pgtest.Database(t)
	openAt(t, address)
	tables := tablesOf(t, database(t, address))
	storetest.Schema(t, "PostgreSQL", tables)
	schema, err := os.ReadFile("schema.sql")
	if err != nil {
		t.Fatal(err)
	}
	made := database(t, pgtest.Database(t))
	if _, err := made.Exec(string(schema)); err != nil {
		t.Fatal(err)
	}
	storetest.SameTables(t, tablesOf(t, made), tables)
}

// database opens a database past the store.
func database(t *testing.T, address string) *sql.DB {
	t.Helper()
	db, err := sql.Open("pgx", address)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	return db
}

// tablesOf asks a database what tables it has.
func tablesOf(t *testing.T, db *sql.DB) (out []storetest.Table) {
	t.Helper()
	for _, name := range storetest.Words(t, db, `SELECT relname::text FROM pg_class WHERE relkind = 'r' AND relnamespace = 'public'::regnamespace ORDER BY 1`) {
		of := storetest.Table{Name: name}
		of.Columns = storetest.Words(t, db, `SELECT a.attname || ' ' || upper(format_type(a.atttypid, a.atttypmod))
				|| CASE WHEN c.collname <> 'default' THEN ' COLLATE "' || c.collname || '"' ELSE '' END
				|| CASE WHEN a.attnotnull THEN ' NOT NULL' ELSE '' END || coalesce(' DEFAULT ' || pg_get_expr(d.adbin, d.adrelid), '')
			FROM pg_attribute a LEFT JOIN pg_collation c ON c.oid = a.attcollation LEFT JOIN pg_attrdef d ON d.adrelid = a.attrelid AND d.adnum = a.attnum
			WHERE a.attrelid = $1::regclass AND a.attnum > 0 AND NOT a.attisdropped ORDER BY a.attnum`, name)
		of.Keys = storetest.Words(t, db, `SELECT regexp_replace(pg_get_constraintdef(oid), '(REF\w+) (\w+)\(', 'references \2 (')
			FROM pg_constraint WHERE conrelid = $1::regclass AND contype IN ('p', 'u', 'f') ORDER BY position(contype IN 'puf'), pg_get_constraintdef(oid) COLLATE "C"`, name)
		of.Indexes = storetest.Words(t, db, `SELECT replace(replace(pg_get_indexdef(indexrelid), ' ON public.', ' ON '), ' USING btree', '')
			FROM pg_index WHERE indrelid = $1::regclass AND NOT EXISTS (SELECT 1 FROM pg_constraint WHERE conindid = indexrelid AND contype IN ('p', 'u')) ORDER BY 1`, name)
		out = append(out, of)
	}
	return out
}
