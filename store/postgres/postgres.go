// Package postgres keeps gyms in a database that many servers share.
package postgres

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/stdlib"
	"github.com/pressly/goose/v3"

	"roomful"
	"roomful/store"
)

// channel is what servers tell each other of changes on.
const channel = "roomful"

// Open opens the gyms in a database by its URL.
func Open(ctx context.Context, url string) (*store.Store, error) {
	config, err := pgx.ParseConfig(url)
	if err != nil {
		return nil, &roomful.Error{Summary: "reading the address of the database", Hint: "it looks like postgres://user@host:5432/name"}
	}
	fail := func(err error) (*store.Store, error) {
		hint := "look whether it runs, and whether the user may make tables"
		if errors.Is(err, store.ErrNewer) {
			hint = "run the newer program on it; this one would not understand it"
		}
		return nil, &roomful.Error{Summary: fmt.Sprintf("opening the database %s on %s: %s", config.Database, config.Host, plain(err)), Hint: hint}
	}
	write := stdlib.OpenDB(*config)
	write.SetMaxOpenConns(1)
	p, err := goose.NewProvider(goose.DialectPostgres, write, store.Migrations())
	if err == nil {
		err = store.Migrate(ctx, p)
	}
	if err != nil {
		write.Close()
		return fail(err)
	}
	read := stdlib.OpenDB(*config)
	read.SetMaxOpenConns(16)
	read.SetMaxIdleConns(16)
	return store.New(store.Engine{
		Name: "postgres", Write: write, Read: read, Dollar: true,
		Lock: func(ctx context.Context, tx *sql.Tx, gym string) error {
			_, err := tx.ExecContext(ctx, `SELECT 1 FROM gyms WHERE id = $1 FOR UPDATE`, gym)
			return err
		},
		Tell: func(ctx context.Context, tx *sql.Tx, gym string) error {
			_, err := tx.ExecContext(ctx, `SELECT pg_notify($1, $2)`, channel, gym)
			return err
		},
		Hear: func(ctx context.Context, changed func(string)) error { return hear(ctx, config, changed) },
		Backup: func(ctx context.Context, path string) error {
			return &roomful.Error{Summary: "backing up a database that is shared", Hint: "export each gym, or use the database's own tools"}
		},
		Doctor: func(ctx context.Context) ([]string, error) { return nil, read.PingContext(ctx) },
		Close:  func() error { return errors.Join(read.Close(), write.Close()) },
	}), nil
}

// hear listens on a connection of its own.
func hear(ctx context.Context, config *pgx.ConnConfig, changed func(string)) error {
	conn, err := pgx.ConnectConfig(ctx, config)
	if err != nil {
		return err
	}
	defer conn.Close(context.WithoutCancel(ctx))
	if _, err := conn.Exec(ctx, "LISTEN "+channel); err != nil {
		return err
	}
	changed("") // what happened before is missed
	for {
		n, err := conn.WaitForNotification(ctx)
		if err != nil {
			return err
		}
		changed(n.Payload)
	}
}

// plain is an error without the address, which may hold a password.
func plain(err error) string {
	text := err.Error()
	if _, after, found := strings.Cut(text, "failed to connect to"); found {
		if i := strings.LastIndex(after, ": "); i >= 0 {
			return "no answer: " + after[i+2:]
		}
	}
	return text
}
