package sqlite_test

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"roomful"
	"roomful/store"
	"roomful/store/sqlite"
	"roomful/store/storetest"
)

// writesIn names the folder in which a test's own child writes until it is killed.
const writesIn = "ROOMFUL_TEST_WRITES_IN"

// TestMain runs the tests, or is such a child.
func TestMain(m *testing.M) {
	if dir := os.Getenv(writesIn); dir != "" {
		if err := writeOn(dir); err != nil {
			fmt.Fprintln(os.Stderr, err)
		}
		os.Exit(1)
	}
	os.Exit(m.Run())
}

// writeOn stores scores without end, by four at once, and says the id of each that was
// acknowledged.
func writeOn(dir string) error {
	s, err := sqlite.Open(context.Background(), dir)
	if err != nil {
		return err
	}
	update := func(f func(*store.Books) error) error {
		return s.Update(context.Background(), store.By{At: storetest.Now}, func(tx *store.Tx) error { return f(tx.In("g")) })
	}
	if err := s.Update(context.Background(), store.By{At: storetest.Now}, func(tx *store.Tx) error {
		err := tx.MakeGym(store.Gym{ID: "g", Name: "G", Zone: "UTC", MadeAt: storetest.Now})
		if errors.Is(err, store.ErrTaken) {
			return nil
		}
		b := tx.In("g")
		_, _, saved := b.Save(store.Document{ID: "d", Kind: store.Sheet, Name: "d"})
		return errors.Join(err, saved, b.PutPerson(store.Person{Athlete: roomful.Athlete{ID: "mo"}}))
	}); err != nil {
		return err
	}
	var say sync.Mutex
	var wait sync.WaitGroup
	for n := range 4 {
		wait.Go(func() {
			for i := 0; ; i++ {
				id := fmt.Sprintf("%d-%d-%d", os.Getpid(), n, i)
				if err := update(func(b *store.Books) error {
					_, err := b.PutAttempt(store.Attempt{ID: id, Person: "mo", Document: "d", Text: "5+20", TypedAt: storetest.Now})
					return err
				}); err != nil {
					fmt.Fprintln(os.Stderr, err)
					return
				}
				say.Lock()
				fmt.Println(id)
				say.Unlock()
			}
		})
	}
	wait.Wait()
	return errors.New("nobody killed me")
}

// TestKilled kills a program that stores scores, twenty times at any moment: every score
// that was acknowledged is there, and the file is whole.
func TestKilled(t *testing.T) {
	dir := t.TempDir()
	random := rand.New(rand.NewPCG(1, 2))
	var acknowledged []string
	for range 20 {
		child := exec.CommandContext(t.Context(), os.Args[0])
		child.Env = append(os.Environ(), writesIn+"="+dir)
		child.Stderr = os.Stderr
		out, err := child.StdoutPipe()
		if err == nil {
			err = child.Start()
		}
		if err != nil {
			t.Fatal(err)
		}
		lines := bufio.NewScanner(out)
		after := 1 + random.IntN(60)
		for n := 0; lines.Scan(); n++ {
			if acknowledged = append(acknowledged, lines.Text()); n == after {
				time.Sleep(time.Duration(random.IntN(3000)) * time.Microsecond)
				if err := child.Process.Kill(); err != nil {
					t.Fatal(err)
				}
			}
		}
		if err := child.Wait(); err == nil || !strings.Contains(err.Error(), "killed") {
			t.Fatalf("the child ended by itself: %v", err)
		}
	}
	s, err := sqlite.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	if err := s.View(t.Context(), func(tx *store.Tx) error {
		for _, id := range acknowledged {
			if _, err := tx.In("g").Attempt(id); err != nil {
				return fmt.Errorf("%s was acknowledged: %w", id, err)
			}
		}
		return nil
	}); err != nil {
		t.Error(err)
	}
	if found, err := s.Doctor(t.Context()); err != nil || len(found) > 0 {
		t.Errorf("damage: %q, %v", found, err)
	}
	if len(acknowledged) < 100 {
		t.Errorf("only %d scores were acknowledged before the kills", len(acknowledged))
	}
}
