// Package postgres keeps gyms in a database that many servers share.
package postgres

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/stdlib"

	"roomful"
	"roomful/store"
)

// channel is what servers tell each other of changes on.
const channel = "roomful"

// Open opens the gyms in a database by its URL.
func Open(ctx context.Context, url string) (*store.Store, error) {
	config, err := pgx.ParseConfig(url)
	if err != nil {
		return nil, &roomful.Error{Summary: "reading the address of the database: it is not one of PostgreSQL", Hint: "it looks like postgres://user@host:5432/name"}
	}
	if err := migrate(ctx, config); err != nil {
		return nil, &roomful.Error{Summary: fmt.Sprintf("opening the database %s on %s: %s", config.Database, config.Host, words(err)), Hint: hint(err)}
	}
	return store.New(engine(config)), nil
}

// engine is what a store asks of the database.
func engine(config *pgx.ConnConfig) store.Engine {
	write, read := stdlib.OpenDB(*config), stdlib.OpenDB(*config)
	write.SetMaxOpenConns(1)
	read.SetMaxOpenConns(16)
	read.SetMaxIdleConns(16)
	return store.Engine{
		Name: "postgres", Write: write, Read: read, Queue: read, Dollar: true, Steady: sql.LevelRepeatableRead,
		Lock: " FOR UPDATE",
		Tell: func(ctx context.Context, tx *sql.Tx, gym string) error {
			_, err := tx.ExecContext(ctx, `SELECT pg_notify($1, $2)`, channel, gym)
			return err
		},
		Hear:  func(ctx context.Context, changed func(string)) error { return hear(ctx, config, changed) },
		Again: again, Unsure: unsure,
		Plain:  func(err error) *roomful.Error { return plain(config, err) },
		Doctor: func(ctx context.Context) ([]string, error) { return nil, read.PingContext(ctx) },
		Close:  func() error { return errors.Join(read.Close(), write.Close()) },
	}
}

// silence is how long nothing is heard before the connection is tried.
const silence = 20 * time.Second

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
		wait, cancel := context.WithTimeout(ctx, silence)
		n, err := conn.WaitForNotification(wait)
		cancel()
		switch {
		case err == nil:
			changed(n.Payload)
		case !pgconn.Timeout(err) || ctx.Err() != nil:
			return err
		default: // does it still listen?
			if err := conn.Ping(ctx); err != nil {
				return err
			}
			changed("")
		}
	}
}
