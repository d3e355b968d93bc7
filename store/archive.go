package store

import (
	"archive/zip"
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"roomful"
)

// An archive is a zip with one file to a table, a row to a line, and a list of what is in
// it. It is read by any program that reads zip and JSON, and never written to disk in
// parts, so the names in it can point nowhere.
const (
	archiveForm = 2
	listName    = "roomful.json"
)

// Bounds of what is read from an archive. A line is one row: the longest holds a sheet.
// Packed rows shrink to a twentieth; what shrinks a thousandfold is no gym.
const (
	mostLine   = 8 << 20
	mostShrink = 1000
	rowsAtOnce = 200
)

// archived is the list of what is in an archive.
type archived struct {
	Form   int   // of the archive
	Tables int64 // the number of the migration that made the tables
	Gym    Gym
	Rows   map[string]int // by table
	// Columns are those of each table in the order of their values: an older program had
	// fewer, and fewer tables.
	Columns map[string][]string
}

// columns are those of each table, in the order in which an archive has them.
var columns = map[string][]string{
	"gyms":             {"id", "name", "zone", "seq", "made_at"},
	"changes":          {"gym_id", "seq", "at", "account_id", "kind", "subject"},
	"people":           {"gym_id", "id", "name", "told", "revision", "left_at"},
	"limits":           {"gym_id", "id", "person_id", "what", "pain", "since", "until", "word", "review", "note"},
	"documents":        {"gym_id", "id", "kind", "name", "title", "day", "revision"},
	"revisions":        {"gym_id", "document_id", "n", "base", "aside", "text", "account_id", "at"},
	"editions":         {"gym_id", "id", "document_id", "text", "notation", "catalogue", "model", "account_id", "at", "day", "seq"},
	"classes":          {"gym_id", "id", "day", "start", "minutes", "capacity", "document_id", "called_off"},
	"signups":          {"gym_id", "class_id", "person_id", "turn", "state", "at"},
	"attempts":         {"gym_id", "id", "person_id", "document_id", "edition_id", "piece", "class_id", "day", "text", "account_id", "typed_at", "seq", "withdrawn_at", "reading", "read_by"},
	"overrides":        {"gym_id", "document_id", "piece", "person_id", "work", "account_id", "at"},
	"pieces":           {"gym_id", "id", "piece"},
	"done":             {"gym_id", "attempt_id", "n", "piece_id", "done"},
	"abilities":        {"gym_id", "person_id", "learnt", "shift", "seq", "model", "at"},
	"abilities_before": {"gym_id", "person_id", "until", "learnt", "model"},
	"learning":         {"gym_id", "percent", "run", "began_at", "touched_at", "done_at", "seq", "model", "shift"},
	"notes":            {"gym_id", "id", "document_id", "person_id", "answers", "text", "private", "account_id", "at"},
	"accounts":         {"gym_id", "id", "person_id", "name", "role", "password", "made_at", "closed_at"},
	"invitations":      {"hash", "gym_id", "person_id", "role", "account_id", "until", "used_at"},
	"signins":          {"hash", "gym_id", "account_id", "device", "made_at", "seen_at", "until"},
	"passkeys":         {"id", "gym_id", "account_id", "credential", "made_at"},
}

// archiveOrder is the order of the tables: what is pointed at before what points.
func archiveOrder() []string {
	order := slices.Clone(tables)
	slices.Reverse(order)
	return append([]string{"gyms"}, order...)
}

// ownerOf is the column of a table that says which gym a row is of.
func ownerOf(table string) string {
	if table == "gyms" {
		return "id"
	}
	return "gym_id"
}

// ordered are the columns that put the rows of a table in order.
func ordered(table string) string {
	switch keys := columns[table]; table {
	case "gyms", "invitations", "signins", "passkeys":
		return keys[0]
	case "revisions":
		return "document_id, n"
	case "signups":
		return "class_id, turn"
	case "overrides":
		return "document_id, piece, person_id"
	case "attempts":
		return "seq" // as they came: a day's scores lie together where they are restored
	case "done":
		return "attempt_id, n"
	case "abilities_before":
		return "person_id, until"
	default:
		return keys[1]
	}
}

// Archive writes all that is kept of the gym: the same gym gives the same rows on any
// database.
func (b *Books) Archive(w io.Writer) error {
	z := zip.NewWriter(w)
	list := archived{Form: archiveForm, Tables: TableVersion, Rows: map[string]int{}, Columns: columns}
	var err error
	if list.Gym, err = b.Gym(); err != nil {
		return err
	}
	if err := b.tx.settle(); err != nil {
		return err
	}
	for _, table := range archiveOrder() {
		f, err := z.Create(table + ".jsonl")
		if err != nil {
			return err
		}
		if list.Rows[table], err = b.dump(f, table); err != nil {
			return fmt.Errorf("archiving %s: %w", table, err)
		}
	}
	f, err := z.Create(listName)
	if err != nil {
		return err
	}
	e := json.NewEncoder(f)
	e.SetIndent("", "  ")
	return errors.Join(e.Encode(list), z.Close())
}

// dump writes the rows of a table, each a line of JSON with the columns in their order.
func (b *Books) dump(w io.Writer, table string) (n int, err error) {
	rows, err := b.tx.tx.QueryContext(b.tx.ctx, b.tx.store.spelt("SELECT "+strings.Join(columns[table], ", ")+" FROM "+table+" WHERE "+ownerOf(table)+" = $1 ORDER BY "+ordered(table)), b.gym)
	if err != nil {
		return 0, err
	}
	defer rows.Close()
	out := bufio.NewWriter(w)
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	for rows.Next() {
		values := make([]any, len(columns[table]))
		into := make([]any, len(values))
		for i := range values {
			into[i] = &values[i]
		}
		if err := rows.Scan(into...); err != nil {
			return n, err
		}
		for i, v := range values {
			if raw, ok := v.([]byte); ok {
				values[i] = string(raw)
			}
		}
		if err := e.Encode(values); err != nil {
			return n, err
		}
		n++
	}
	return n, errors.Join(rows.Err(), out.Flush())
}

// Restore makes a gym from an archive; [ErrTaken] when the installation has it already.
// Nothing is kept of an archive that is not whole.
func (t *Tx) Restore(r io.ReaderAt, size int64) (Gym, error) {
	z, err := zip.NewReader(r, size)
	if err != nil {
		return Gym{}, &roomful.Error{Summary: "reading the archive: it is no zip file, or not whole", Hint: "copy it again from where it was made"}
	}
	list, err := listOf(z)
	if err != nil {
		return Gym{}, err
	}
	if _, err := t.In(list.Gym.ID).Gym(); !errors.Is(err, ErrMissing) {
		return list.Gym, errors.Join(ErrTaken, err)
	}
	for _, table := range archiveOrder() {
		f := find(z, table+".jsonl")
		switch {
		case f == nil && list.Columns[table] == nil:
			continue // it came with a later program
		case f == nil:
			return Gym{}, damaged(table + " is missing")
		case list.Columns[table] == nil:
			return Gym{}, damaged("its list does not say what " + table + " has")
		}
		if err := t.load(f, table, list); err != nil {
			return Gym{}, err
		}
	}
	t.changed = append(t.changed, list.Gym.ID)
	return list.Gym, nil
}

// damaged is an archive that cannot be what was written.
func damaged(what string) error {
	return &roomful.Error{Summary: "reading the archive: " + what, Hint: "nothing was changed; copy it again from where it was made"}
}

// find returns a file of an archive.
func find(z *zip.Reader, name string) *zip.File {
	at := slices.IndexFunc(z.File, func(f *zip.File) bool { return f.Name == name })
	if at < 0 {
		return nil
	}
	return z.File[at]
}

// listOf reads what an archive says is in it, and refuses what it cannot have.
func listOf(z *zip.Reader) (list archived, err error) {
	for _, f := range z.File {
		table, ok := strings.CutSuffix(f.Name, ".jsonl")
		if f.Name != listName && (!ok || columns[table] == nil) {
			return list, damaged(fmt.Sprintf("it holds %q, which no gym has", f.Name))
		}
		if f.UncompressedSize64 > mostLine && f.UncompressedSize64/mostShrink > f.CompressedSize64 {
			return list, damaged(f.Name + " would unpack to a thousand times its size")
		}
	}
	f := find(z, listName)
	if f == nil {
		return list, damaged("it has no list of what is in it")
	}
	in, err := f.Open()
	if err != nil {
		return list, damaged(err.Error())
	}
	defer in.Close()
	if err := json.NewDecoder(io.LimitReader(in, mostLine)).Decode(&list); err != nil {
		return list, damaged("its list cannot be read")
	}
	for table, own := range list.Columns {
		if slices.ContainsFunc(own, func(c string) bool { return !slices.Contains(columns[table], c) }) || !slices.Contains(own, ownerOf(table)) {
			return list, damaged("its list has columns that no gym has")
		}
	}
	if list.Form > archiveForm || list.Tables > TableVersion {
		return list, &roomful.Error{Summary: "reading the archive: it was made by a newer program", Hint: "restore it with that program, or a later one"}
	}
	return list, nil
}

// load puts the rows of a table in, as many as the list says and no other gym's.
func (t *Tx) load(f *zip.File, table string, list archived) error {
	in, err := f.Open()
	if err != nil {
		return damaged(err.Error())
	}
	defer in.Close()
	lines := bufio.NewScanner(in)
	lines.Buffer(nil, mostLine)
	own := list.Columns[table]
	of := slices.Index(own, ownerOf(table))
	var rows [][]any
	n := 0
	for lines.Scan() {
		row, err := rowOf(lines.Bytes(), len(own))
		if err != nil || row[of] != list.Gym.ID {
			return damaged(fmt.Sprintf("line %d of %s is no row of this gym", n+1, f.Name))
		}
		if rows = append(rows, row); len(rows) == rowsAtOnce {
			if err := t.insert(table, own, rows); err != nil {
				return err
			}
			rows = rows[:0]
		}
		if n++; n > list.Rows[table] {
			return damaged(f.Name + " has more rows than its list says")
		}
	}
	if err := lines.Err(); err != nil {
		return damaged(f.Name + ": " + err.Error())
	}
	if n != list.Rows[table] {
		return damaged(fmt.Sprintf("%s has %d rows of %d", f.Name, n, list.Rows[table]))
	}
	return t.insert(table, own, rows)
}

// rowOf reads a line of JSON as the values of a row.
func rowOf(line []byte, width int) ([]any, error) {
	d := json.NewDecoder(bytes.NewReader(line))
	d.UseNumber()
	var row []any
	if err := d.Decode(&row); err != nil || len(row) != width {
		return nil, errors.New("no row")
	}
	for i, v := range row {
		switch of := v.(type) {
		case json.Number:
			n, err := of.Int64()
			if err != nil {
				return nil, err
			}
			row[i] = n
		case string, nil:
		default:
			return nil, errors.New("no row")
		}
	}
	return row, nil
}

// insert puts rows into a table with one statement.
func (t *Tx) insert(table string, columns []string, rows [][]any) error {
	if len(rows) == 0 {
		return nil
	}
	var places []string
	var args []any
	for _, row := range rows {
		var one []string
		for _, v := range row {
			args = append(args, v)
			one = append(one, fmt.Sprintf("$%d", len(args)))
		}
		places = append(places, "("+strings.Join(one, ", ")+")")
	}
	_, err := t.do("INSERT INTO "+table+" ("+strings.Join(columns, ", ")+") VALUES "+strings.Join(places, ", "), args...)
	if err != nil && t.store.engine.Plain(err) != nil {
		return err
	}
	if err != nil {
		return damaged("the rows of " + table + " do not fit together: " + err.Error())
	}
	return nil
}
