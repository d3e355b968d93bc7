package storetest

import (
	"bufio"
	"database/sql"
	"flag"
	"fmt"
	"io/fs"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful/store"
)

var update = flag.Bool("update", false, "write the tables as they are into schema.sql")

// Table is a table as a database says it has it.
type Table struct {
	Name    string
	Columns []string // "name TEXT NOT NULL"
	Keys    []string // "PRIMARY KEY (gym_id, id)", then those that must be unique and those that point
	Indexes []string // "CREATE INDEX ..."
}

// Schema holds the tables of an up-to-date database against schema.sql in the folder of
// its engine. That file is the map of the store for people: what the database says of
// itself, in the order and with the comments of the migrations. Tables of libraries, such
// as the one that counts migrations, are not on it.
func Schema(t *testing.T, engine string, tables []Table) {
	t.Helper()
	said := comments(t)
	tables = slices.DeleteFunc(slices.Clone(tables), func(of Table) bool { return !slices.Contains(said.order, of.Name) })
	slices.SortFunc(tables, func(a, b Table) int { return slices.Index(said.order, a.Name) - slices.Index(said.order, b.Name) })
	var b strings.Builder
	fmt.Fprintf(&b, "-- The map of the store, as %s says it is after migration %d. A test compares it with an\n", engine, store.TableVersion)
	b.WriteString("-- up-to-date database. Migrations are what makes the tables; after a new one write it anew:\n")
	b.WriteString("--\n--   go test ./store/sqlite ./store/postgres -run TestSchema -update\n--\n")
	b.WriteString("-- Instants are microseconds since 1970 in UTC, days are ISO 8601 or empty, a truth is 1 or 0.\n")
	b.WriteString("-- What is in JSON is a noun of the root package, field by field: see store/form.go.\n--\n")
	b.WriteString("-- What belongs to what: a row goes with the one that it stands under, and with any other\n")
	b.WriteString("-- whose key it has ON DELETE CASCADE.\n--\n")
	tree(&b, tables, "", 0)
	for _, of := range tables {
		b.WriteString("\n")
		said.write(&b, t, of)
	}
	if *update {
		if err := os.WriteFile("schema.sql", []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile("schema.sql")
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(b.String(), "\n")); diff != "" {
		t.Errorf("schema.sql is not what the migrations make: go test ./store/sqlite ./store/postgres -run TestSchema -update (-schema.sql +database)\n%s", diff)
	}
}

// SameTables compares the tables that schema.sql makes with those that migrations make.
func SameTables(t *testing.T, schema, migrations []Table) {
	t.Helper()
	said := comments(t)
	migrations = slices.DeleteFunc(slices.Clone(migrations), func(of Table) bool { return !slices.Contains(said.order, of.Name) })
	if diff := cmp.Diff(migrations, schema); diff != "" {
		t.Errorf("schema.sql makes other tables (-migrations +schema.sql)\n%s", diff)
	}
}

// Words asks a database a question that has a list of words for an answer.
func Words(t *testing.T, db *sql.DB, question string, args ...any) (out []string) {
	t.Helper()
	rows, err := db.QueryContext(t.Context(), question, args...)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	for rows.Next() {
		var word sql.NullString
		if err := rows.Scan(&word); err != nil {
			t.Fatal(err)
		}
		if word.Valid {
			out = append(out, word.String)
		}
	}
	if err := rows.Err(); err != nil {
		t.Fatal(err)
	}
	return out
}

// owner finds the first table that the rows of another go with.
var owner = regexp.MustCompile(`references (\w+).* ON DELETE CASCADE`)

// tree writes the tables whose rows go with one, and theirs below them. A table with
// several such stands under the first.
func tree(b *strings.Builder, tables []Table, under string, depth int) {
	for _, of := range tables {
		first := ""
		for _, key := range of.Keys {
			if found := owner.FindStringSubmatch(key); found != nil && first == "" {
				first = found[1]
			}
		}
		if first == under {
			fmt.Fprintf(b, "--   %s%s\n", strings.Repeat("  ", depth), of.Name)
			tree(b, tables, of.Name, depth+1)
		}
	}
}

// commentary is what migrations say about tables and columns.
type commentary struct {
	order  []string // of the tables, as they came
	table  map[string][]string
	column map[string]string // by "table.column"
}

var (
	makesTable  = regexp.MustCompile(`^CREATE TABLE (\w+) \(`)
	makesColumn = regexp.MustCompile(`^  (\w+) [A-Z ]+.*?(?:-- (.*))?$`)
	addsColumn  = regexp.MustCompile(`^ALTER TABLE (\w+) ADD COLUMN (\w+)`)
)

// comments reads the migrations: the lines above a table and those beside its columns.
func comments(t *testing.T) commentary {
	t.Helper()
	said := commentary{table: map[string][]string{}, column: map[string]string{}}
	names, err := fs.Glob(store.Migrations(), "*.sql")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		text, err := fs.ReadFile(store.Migrations(), name)
		if err != nil {
			t.Fatal(err)
		}
		up, _, _ := strings.Cut(string(text), "-- +goose Down")
		said.read(up)
	}
	return said
}

// read reads one migration.
func (c *commentary) read(text string) {
	var above []string
	table := ""
	for lines := bufio.NewScanner(strings.NewReader(text)); lines.Scan(); {
		line := lines.Text()
		if made := makesTable.FindStringSubmatch(line); made != nil {
			table = made[1]
			c.order = append(c.order, table)
			c.table[table] = append([]string{}, above...)
		} else if added := addsColumn.FindStringSubmatch(line); added != nil {
			c.column[added[1]+"."+added[2]] = strings.Join(above, " ")
		} else if column := makesColumn.FindStringSubmatch(line); column != nil {
			c.column[table+"."+column[1]] = column[2]
		}
		if comment, ok := strings.CutPrefix(line, "-- "); ok && !strings.HasPrefix(comment, "+goose") {
			above = append(above, comment)
		} else {
			above = nil
		}
	}
}

// write writes a table as a statement that makes it.
func (c *commentary) write(b *strings.Builder, t *testing.T, of Table) {
	if len(c.table[of.Name]) == 0 {
		t.Errorf("no migration says what %s is for: write a line above it", of.Name)
	}
	for _, line := range c.table[of.Name] {
		b.WriteString("-- " + line + "\n")
	}
	fmt.Fprintf(b, "CREATE TABLE %s (\n", of.Name)
	lines := slices.Concat(of.Columns, of.Keys)
	for i, line := range lines {
		if i < len(lines)-1 {
			line += ","
		}
		name, _, _ := strings.Cut(line, " ")
		if comment := c.column[of.Name+"."+name]; comment != "" && i < len(of.Columns) {
			line = fmt.Sprintf("%-40s -- %s", line, comment)
		}
		b.WriteString("  " + line + "\n")
	}
	b.WriteString(");\n")
	for _, index := range of.Indexes {
		b.WriteString(index + ";\n")
	}
}
