package desk

import (
	"context"
	"errors"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"
	"testing/synctest"
	"time"
)

// TestFlight works once for all who ask at once; whoever goes spoils nothing for the
// others, and what nobody waits for is broken off.
func TestFlight(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var f flights[string, int]
		var began, broken atomic.Int64
		work := func(ctx context.Context) (int, error) {
			began.Add(1)
			select {
			case <-time.After(time.Second):
				return 7, nil
			case <-ctx.Done():
				broken.Add(1)
				return 0, ctx.Err()
			}
		}
		gone, leave := context.WithCancel(t.Context())
		var all sync.WaitGroup
		for _, ctx := range []context.Context{gone, t.Context(), t.Context()} {
			all.Go(func() {
				got, err := f.do(ctx, "a", work)
				if ctx == gone && !errors.Is(err, context.Canceled) || ctx != gone && (got != 7 || err != nil) {
					t.Errorf("%d, %v", got, err)
				}
			})
		}
		synctest.Wait()
		leave()
		all.Wait()
		if began.Load() != 1 || broken.Load() != 0 {
			t.Errorf("worked %d times, broken off %d times", began.Load(), broken.Load())
		}

		alone, leave := context.WithTimeout(t.Context(), time.Millisecond)
		defer leave()
		if _, err := f.do(alone, "a", work); !errors.Is(err, context.DeadlineExceeded) {
			t.Errorf("whoever went got %v", err)
		}
		if got, err := f.do(t.Context(), "a", work); got != 7 || err != nil {
			t.Errorf("whoever comes after got %d, %v", got, err)
		}
		if began.Load() != 3 || broken.Load() != 1 {
			t.Errorf("worked %d times, broken off %d times", began.Load(), broken.Load())
		}
	})
}

// TestFlightStopped tells those who wait why their work was broken off, and a panic too.
func TestFlightStopped(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		var f flights[string, int]
		why := errors.New("something later came")
		go func() {
			time.Sleep(time.Second)
			f.stop("a", why)
		}()
		if _, err := f.do(t.Context(), "a", func(ctx context.Context) (int, error) { <-ctx.Done(); return 0, ctx.Err() }); err != why {
			t.Errorf("it ended with %v", err)
		}
		if _, err := f.do(t.Context(), "a", func(context.Context) (int, error) { panic("ouch") }); err == nil {
			t.Error("a panic is no error")
		}
	})
}

// TestTurns lets no more be worked out at once than there are processors, of what nobody
// waits for one, and whoever has gone waits no longer.
func TestTurns(t *testing.T) {
	now := newTurns()
	end, err := now.waitAside(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	soon, cancel := context.WithTimeout(t.Context(), 10*time.Millisecond)
	defer cancel()
	if _, err := now.waitAside(soon); err == nil {
		t.Error("two are worked out that nobody waits for")
	}
	end()
	var ends []func()
	for range runtime.GOMAXPROCS(0) {
		end, err := now.wait(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		ends = append(ends, end)
	}
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := now.wait(gone); err == nil {
		t.Error("one more is worked out")
	}
	if _, err := now.waitAside(gone); err == nil {
		t.Error("one more is worked out beside")
	}
	for _, end := range ends {
		end()
	}
	if end, err = now.waitAside(t.Context()); err != nil {
		t.Fatal(err)
	}
	end()
}
