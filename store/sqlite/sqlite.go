// Package sqlite keeps gyms in one file on one machine.
//
// The file is written ahead (WAL) and every commit waits until the disk has it: a score
// that was acknowledged survives a power cut. One connection writes, a pool of others
// reads beside it. A lock file keeps a second program out.
package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	_ "github.com/ncruces/go-sqlite3/driver" // the database
	"github.com/pressly/goose/v3"

	"roomful"
	"roomful/store"
)

// errLocked says that another program has the lock.
var errLocked = errors.New("another program has it")

// fileName is what the database is called in its folder.
const fileName = "roomful.db"

// Open opens the gyms in a folder, which it makes when there is none.
func Open(ctx context.Context, dir string) (*store.Store, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, &roomful.Error{Summary: "opening " + dir + ": " + reason(err), Hint: "name a folder that you may write to"}
	}
	file := filepath.Join(dir, fileName)
	unlock, err := lock(file + ".lock")
	switch {
	case errors.Is(err, errLocked):
		return nil, &roomful.Error{Summary: "opening " + file + ": another program has it open", Hint: "stop the other one first (Ctrl-C where it runs), or use --database for several"}
	case err != nil:
		return nil, &roomful.Error{Summary: "opening " + file + ": " + reason(err), Hint: hint(err)}
	}
	e, err := open(ctx, file)
	if err != nil {
		unlock()
		return nil, err
	}
	shut := e.Close
	e.Close = func() error { defer unlock(); return shut() }
	return store.New(e), nil
}

// Kept reports whether gyms have been kept in a folder.
func Kept(dir string) bool {
	_, err := os.Stat(filepath.Join(dir, fileName))
	return !errors.Is(err, os.ErrNotExist)
}

// open opens a file and brings its tables up to date.
func open(ctx context.Context, file string) (store.Engine, error) {
	fail := func(err error) (store.Engine, error) {
		return store.Engine{}, &roomful.Error{Summary: "opening " + file + ": " + reason(err), Hint: hint(err)}
	}
	write, err := sql.Open("sqlite3", address(file, "rwc", "_txlock=immediate"))
	if err != nil {
		return fail(err)
	}
	write.SetMaxOpenConns(1)
	if err := migrate(ctx, write); err != nil {
		write.Close()
		return fail(err)
	}
	if err := os.Chmod(file, 0o600); err != nil { // what hurts somebody stands in it
		write.Close()
		return fail(err)
	}
	read, err := sql.Open("sqlite3", address(file, "ro"))
	if err != nil {
		write.Close()
		return fail(err)
	}
	read.SetMaxOpenConns(max(4, 2*runtime.NumCPU()))
	return store.Engine{
		Name: "sqlite", Write: write, Read: read, Queue: write,
		Plain:  func(err error) *roomful.Error { return plain(file, err) },
		Doctor: func(ctx context.Context) ([]string, error) { return doctor(ctx, read) },
		Close: func() error {
			_, checkpoint := write.Exec("PRAGMA wal_checkpoint(TRUNCATE)")
			return errors.Join(checkpoint, read.Close(), write.Close())
		},
	}, nil
}

// address is how the driver is asked for a file.
func address(file, mode string, more ...string) string {
	pragmas := []string{"busy_timeout(10000)", "foreign_keys(1)"}
	if mode != "ro" {
		// With two megabytes, as it comes, a gym that is restored is written three times.
		pragmas = append(pragmas, "journal_mode(wal)", "synchronous(full)", "cache_size(-32000)", "temp_store(memory)")
	}
	q := append([]string{"mode=" + mode}, more...)
	for _, p := range pragmas {
		q = append(q, "_pragma="+url.QueryEscape(p))
	}
	return "file:" + (&url.URL{Path: file}).EscapedPath() + "?" + strings.Join(q, "&")
}

// migrate makes the tables, or brings them up to date. A database that is newer than
// the program is left alone.
func migrate(ctx context.Context, db *sql.DB) error {
	p, err := goose.NewProvider(goose.DialectSQLite3, db, store.Migrations())
	if err != nil {
		return err
	}
	have, err := words(ctx, db, `SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name`)
	if err != nil {
		return err
	}
	return store.Migrate(ctx, p, have)
}

// words asks a question and returns each line of the answer as words.
func words(ctx context.Context, db *sql.DB, question string) (out []string, err error) {
	rows, err := db.QueryContext(ctx, question)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	columns, err := rows.Columns()
	if err != nil {
		return nil, err
	}
	values := make([]sql.NullString, len(columns))
	into := make([]any, len(columns))
	for i := range values {
		into[i] = &values[i]
	}
	for rows.Next() {
		if err := rows.Scan(into...); err != nil {
			return out, err
		}
		var line []string
		for _, v := range values {
			line = append(line, v.String)
		}
		out = append(out, strings.Join(line, " "))
	}
	return out, rows.Err()
}

// doctor has the database look at every page and every reference.
func doctor(ctx context.Context, read *sql.DB) (found []string, err error) {
	for _, question := range []string{"PRAGMA integrity_check", "PRAGMA foreign_key_check"} {
		said, err := words(ctx, read, question)
		if err != nil {
			said = append(said, reason(err))
		}
		found = append(found, slices.DeleteFunc(said, func(line string) bool { return line == "ok" })...)
	}
	return found, ctx.Err()
}
