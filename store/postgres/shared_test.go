package postgres_test

import (
	"context"
	"errors"
	"fmt"
	"sync"
	"testing"
	"time"

	"roomful"
	"roomful/store"
	"roomful/store/postgres"
	"roomful/store/postgres/pgtest"
)

// These are about what only a shared database has: other servers.

var (
	by   = store.By{Account: "coach", At: time.Date(2027, 3, 4, 5, 6, 7, 0, time.UTC)}
	gyms = []string{"gym-1", "gym-2"}
)

// servers opens stores on one database with two gyms.
func servers(t *testing.T, n int) (address string, all []*store.Store) {
	t.Helper()
	address = pgtest.Database(t)
	for range n {
		all = append(all, openAt(t, address))
	}
	for _, gym := range gyms {
		if err := all[0].Update(t.Context(), by, func(tx *store.Tx) error {
			return tx.MakeGym(store.Gym{ID: gym, Name: gym, Zone: "UTC", MadeAt: by.At})
		}); err != nil {
			t.Fatal(err)
		}
	}
	return address, all
}

// put puts somebody into some gyms, in one update.
func put(s *store.Store, id string, gyms ...string) error {
	return s.Update(context.Background(), by, func(tx *store.Tx) error {
		for _, gym := range gyms {
			if err := tx.In(gym).PutPerson(store.Person{Athlete: roomful.Athlete{ID: id, Name: id}}); err != nil {
				return err
			}
		}
		return nil
	})
}

// followed is what a follower hears.
type followed struct {
	heard chan int64
	stop  context.CancelFunc
	ended chan error
}

func follow(s *store.Store) *followed {
	ctx, stop := context.WithCancel(context.Background())
	f := &followed{heard: make(chan int64, 1000), stop: stop, ended: make(chan error, 1)}
	go func() {
		f.ended <- s.Follow(ctx, gyms[0], 0, func(cs []store.Change) error {
			for _, c := range cs {
				f.heard <- c.Seq
			}
			return nil
		})
	}()
	return f
}

// want waits until all changes to a number were heard once and in order.
func (f *followed) want(t *testing.T, from, to int64) {
	t.Helper()
	for want := from; want <= to; want++ {
		select {
		case got := <-f.heard:
			if got != want {
				t.Fatalf("heard of change %d, want %d", got, want)
			}
		case <-time.After(15 * time.Second):
			t.Fatalf("nothing was heard of change %d", want)
		}
	}
}

// end stops following.
func (f *followed) end(t *testing.T) {
	t.Helper()
	f.stop()
	if err := <-f.ended; !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}

// TestOthersAreHeard: two servers write to one gym at once; whoever follows on either
// hears all of it, numbered without gaps.
func TestOthersAreHeard(t *testing.T) {
	_, all := servers(t, 2)
	f, g := follow(all[0]), follow(all[1])
	const each = 60
	var wait sync.WaitGroup
	for i, s := range all {
		for k := range each {
			wait.Go(func() {
				if err := put(s, fmt.Sprint(i, "-", k), gyms[0]); err != nil {
					t.Error(err)
				}
			})
		}
	}
	wait.Wait()
	f.want(t, 1, 1+2*each)
	g.want(t, 1, 1+2*each)
	f.end(t)
	g.end(t)
}

// TestListenerIsKilled: a server whose listening connection breaks listens again, and
// misses nothing that happened meanwhile.
func TestListenerIsKilled(t *testing.T) {
	address, all := servers(t, 2)
	f := follow(all[1])
	f.want(t, 1, 1)
	for n := range int64(2) {
		kill(t, address, "query LIKE 'LISTEN%'")
		if err := put(all[0], fmt.Sprint("meanwhile-", n), gyms[0]); err != nil {
			t.Fatal(err)
		}
		f.want(t, 2+n, 2+n)
	}
	f.end(t)
}

// TestConnectionsAreKilled: when the database drops every connection, as one that is
// started anew does, servers go on with new ones.
func TestConnectionsAreKilled(t *testing.T) {
	address, all := servers(t, 1)
	for n := range 3 {
		kill(t, address, "true")
		if err := put(all[0], fmt.Sprint(n), gyms[0]); err != nil {
			t.Error(err)
		}
		kill(t, address, "true")
		if err := all[0].View(t.Context(), func(tx *store.Tx) error {
			_, err := tx.In(gyms[0]).Person(fmt.Sprint(n))
			return err
		}); err != nil {
			t.Error(err)
		}
	}
}

// kill ends connections to a database, all but its own.
func kill(t *testing.T, address, which string) {
	t.Helper()
	if n := pgtest.Exec(t, address, `SELECT pg_terminate_backend(pid, 5000) FROM pg_stat_activity
		WHERE datname = current_database() AND pid <> pg_backend_pid() AND `+which); n == 0 {
		t.Fatal("there was no connection to end")
	}
}

// TestCrossedUpdates: updates that take two gyms in opposite orders on two servers wait
// for each other; neither is refused.
func TestCrossedUpdates(t *testing.T) {
	address, all := servers(t, 2)
	pgtest.Exec(t, address, "ALTER ROLE postgres SET deadlock_timeout = '20ms'")
	all = append(all, openAt(t, address), openAt(t, address)) // which notice a deadlock soon
	var wait sync.WaitGroup
	for i, s := range all[2:] {
		for k := range 20 {
			wait.Go(func() {
				if err := put(s, fmt.Sprint(i, "-", k), gyms[i], gyms[1-i]); err != nil {
					t.Errorf("server %d, update %d: %v", i, k, err)
				}
			})
		}
	}
	wait.Wait()
}

// TestManyStart: servers that start at once on an empty database make its tables once.
func TestManyStart(t *testing.T) {
	address := pgtest.Database(t)
	var wait sync.WaitGroup
	for range 4 {
		wait.Go(func() {
			s, err := postgres.Open(context.Background(), address)
			if err != nil {
				t.Error(err)
				return
			}
			if err := s.Close(); err != nil {
				t.Error(err)
			}
		})
	}
	wait.Wait()
}
