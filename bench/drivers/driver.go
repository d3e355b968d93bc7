package main

import (
	"context"
	"database/sql"
	"errors"
	"net/url"
	"runtime"

	_ "github.com/ncruces/go-sqlite3/driver" // as sqlite3
	"github.com/pressly/goose/v3"
	_ "modernc.org/sqlite" // as sqlite

	"roomful"
	"roomful/store"
)

// driver is one way to SQLite. Both take settings in the address in the same words.
type driver struct{ name, as string }

// drivers are those without cgo.
var drivers = []driver{{"ncruces", "sqlite3"}, {"modernc", "sqlite"}}

// open opens a store over a file as package sqlite does: written ahead, each commit on
// the disk, one connection that writes and some that read.
func (d driver) open(ctx context.Context, file string) (*store.Store, error) {
	pragmas := []string{"busy_timeout(10000)", "foreign_keys(1)"}
	writes := []string{"journal_mode(wal)", "synchronous(full)", "cache_size(-32000)", "temp_store(memory)"}
	write, err := sql.Open(d.as, address(file, url.Values{"mode": {"rwc"}, "_txlock": {"immediate"}, "_pragma": append(writes, pragmas...)}))
	if err != nil {
		return nil, err
	}
	write.SetMaxOpenConns(1)
	p, err := goose.NewProvider(goose.DialectSQLite3, write, store.Migrations())
	if err == nil {
		err = store.Migrate(ctx, p, nil)
	}
	if err != nil {
		return nil, errors.Join(err, write.Close())
	}
	read, err := sql.Open(d.as, address(file, url.Values{"mode": {"ro"}, "_pragma": pragmas}))
	if err != nil {
		return nil, errors.Join(err, write.Close())
	}
	read.SetMaxOpenConns(max(4, 2*runtime.NumCPU()))
	return store.New(store.Engine{Name: d.name, Write: write, Read: read,
		Plain: func(error) *roomful.Error { return nil },
		Close: func() error { return errors.Join(read.Close(), write.Close()) }}), nil
}

// address is how a driver is asked for a file.
func address(file string, settings url.Values) string {
	return "file:" + (&url.URL{Path: file}).EscapedPath() + "?" + settings.Encode()
}
