package postgres

import (
	"bytes"
	"context"
	"io"
	"io/fs"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"
	"github.com/pressly/goose/v3"

	"roomful/store"
)

// migrating is the number of the lock that a server holds while it makes the tables, so
// that several may start at once.
const migrating = 7_366_427

// migrate makes the tables, or brings them up to date.
func migrate(ctx context.Context, config *pgx.ConnConfig) error {
	lock, err := pgx.ConnectConfig(ctx, config)
	if err != nil {
		return err
	}
	defer lock.Close(context.WithoutCancel(ctx)) // which lets go of it
	if _, err := lock.Exec(ctx, `SELECT pg_advisory_lock($1)`, migrating); err != nil {
		return err
	}
	db := stdlib.OpenDB(*config)
	defer db.Close()
	p, err := goose.NewProvider(goose.DialectPostgres, db, collated{store.Migrations()})
	if err != nil {
		return err
	}
	var have []string
	if err := lock.QueryRow(ctx, `SELECT COALESCE(array_agg(relname::text ORDER BY relname), '{}') FROM pg_class c
		WHERE relkind = 'r' AND relnamespace = current_schema()::regnamespace
		AND NOT EXISTS (SELECT 1 FROM pg_depend WHERE objid = c.oid AND deptype = 'e')`).Scan(&have); err != nil { // but those of extensions
		return err
	}
	return store.Migrate(ctx, p, have)
}

// collated are migrations whose texts are put in the order of their bytes, as the other
// database does, in place of the order of the language that a server was set up in.
type collated struct{ fs.FS }

// Open implements [fs.FS].
func (c collated) Open(name string) (fs.File, error) {
	f, err := c.FS.Open(name)
	if err != nil || name == "." {
		return f, err
	}
	text, err := io.ReadAll(f)
	if err != nil {
		return nil, err
	}
	text = bytes.ReplaceAll(text, []byte(" TEXT"), []byte(` TEXT COLLATE "C"`))
	return &file{f, bytes.NewReader(text)}, nil
}

// file is one with another text in it.
type file struct {
	fs.File
	text *bytes.Reader
}

// Read implements [io.Reader].
func (f *file) Read(p []byte) (int, error) { return f.text.Read(p) }
