package store

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"io/fs"
	"time"

	"roomful"
)

// Engine is a database, opened and migrated, and what differs between them.
type Engine struct {
	Name  string
	Write *sql.DB // one connection
	Read  *sql.DB // as many as there are readers
	// Queue is for background work, which keeps tables of its own beside.
	Queue *sql.DB
	// Dollar says that places for values are written $1; else ?1.
	Dollar bool
	// Steady is the isolation in which a view sees one state throughout.
	Steady sql.IsolationLevel
	// Lock at the end of a question for a gym has other processes wait until the
	// transaction ends before they write to it; empty where there is only one.
	Lock string
	// Tell lets other processes know, when the transaction commits, that a gym has
	// changed; nil where there is only one.
	Tell func(ctx context.Context, tx *sql.Tx, gym string) error
	// Hear calls back for each gym that another process has changed, and with "" when
	// some may have been missed, until the context ends; nil where there is only one.
	Hear func(ctx context.Context, changed func(gym string)) error
	// Again reports whether what failed so may go well the next time, because another
	// process was in the way; nil where there is none.
	Again func(error) bool
	// Unsure reports whether a commit that failed so may have happened all the same; nil
	// where it never has.
	Unsure func(error) bool
	// Plain says in words for people what is the matter with the database; nil for an
	// error that is about what was asked.
	Plain func(error) *roomful.Error
	// Doctor looks for damage and lists what it finds.
	Doctor func(ctx context.Context) ([]string, error)
	Close  func() error
}

// Migrations returns the files that make the tables, in the order of their numbers.
func Migrations() fs.FS {
	files, err := fs.Sub(migrations, "migrations")
	if err != nil {
		panic(err) // the folder is part of the program
	}
	return files
}

//go:embed migrations/*.sql
var migrations embed.FS

// Store is the memory of one or many gyms.
type Store struct {
	engine Engine
	hub    *hub
	queue  chan *update
	stop   context.CancelFunc
	done   chan struct{}
	counts counts
}

// New makes a store of an engine and begins to write for it.
func New(e Engine) *Store {
	ctx, stop := context.WithCancel(context.Background())
	s := &Store{engine: e, hub: newHub(), queue: make(chan *update), stop: stop, done: make(chan struct{})}
	go s.write(ctx)
	if e.Hear != nil {
		go s.hear(ctx)
	}
	return s
}

// Close waits for what is being written and closes the database.
func (s *Store) Close() error {
	s.stop()
	<-s.done
	return s.engine.Close()
}

// Engine names the database.
func (s *Store) Engine() string { return s.engine.Name }

// Queue is the database for background work, which keeps tables of its own beside.
func (s *Store) Queue() *sql.DB { return s.engine.Queue }

// Doctor looks for damage in the database and lists what it finds.
func (s *Store) Doctor(ctx context.Context) ([]string, error) {
	found, err := s.engine.Doctor(ctx)
	return found, s.plain(err)
}

// By is who does something, and when.
type By struct {
	Account string // empty for the program itself
	At      time.Time
}

// View reads in one consistent view of the database. What fails since the context has
// ended fails by the context's error, whatever the database says of being interrupted.
func (s *Store) View(ctx context.Context, f func(*Tx) error) error {
	err := s.view(ctx, f)
	if err != nil && ctx.Err() != nil && roomful.HintOf(err) == "" {
		return ctx.Err()
	}
	return s.plain(err)
}

// view reads, with the errors that the database has.
func (s *Store) view(ctx context.Context, f func(*Tx) error) error {
	tx, err := s.look(ctx)
	if err != nil {
		return err
	}
	defer tx.Rollback()
	return f(&Tx{ctx: ctx, tx: tx, store: s})
}

// mostDead is how many connections that are gone are passed over, as all of a pool are
// when the database was started anew.
const mostDead = 20

// look begins to read.
func (s *Store) look(ctx context.Context) (tx *sql.Tx, err error) {
	for range mostDead {
		tx, err = s.engine.Read.BeginTx(ctx, &sql.TxOptions{ReadOnly: true, Isolation: s.engine.Steady})
		if !s.again(err) {
			break
		}
	}
	return tx, err
}

// Update changes the database: all that f does or, when it fails, nothing.
func (s *Store) Update(ctx context.Context, by By, f func(*Tx) error) error {
	u := &update{by: by, f: f, result: make(chan error, 1)}
	select {
	case s.queue <- u:
	case <-ctx.Done():
		return ctx.Err()
	case <-s.done:
		return ErrClosed
	}
	// What has been taken is carried out: it answers within the time of a commit.
	return s.plain(<-u.result)
}

// What a store refuses.
var (
	ErrClosed  = errors.New("the store is closed")
	ErrMissing = errors.New("there is no such thing in this gym")
	ErrStale   = errors.New("somebody else has changed it meanwhile")
	ErrTaken   = errors.New("that id or name is taken")
	ErrText    = errors.New("a text holds bytes that no database keeps as letters")
)
