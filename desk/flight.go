package desk

import (
	"context"
	"fmt"
	"sync"
)

// flights are the works under way, each once however many wait for it. One that nobody
// waits for any more is broken off, which is why golang.org/x/sync/singleflight would not
// do: whoever goes spoils nothing for those who stay, and leaves no work behind.
type flights[K comparable, T any] struct {
	mu    sync.Mutex
	under map[K]*flight[T]
}

// flight is work under way.
type flight[T any] struct {
	done    chan struct{} // closed when the rest is there
	value   T
	err     error
	waiting int
	end     context.CancelCauseFunc
}

// do works, or waits for whoever is at the same work.
func (f *flights[K, T]) do(ctx context.Context, key K, work func(context.Context) (T, error)) (T, error) {
	f.mu.Lock()
	one := f.under[key]
	if one == nil {
		one = f.begin(key, work)
	}
	one.waiting++
	f.mu.Unlock()
	select {
	case <-one.done:
		return one.value, one.err
	case <-ctx.Done():
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	if one.waiting--; one.waiting == 0 {
		f.drop(key, one, context.Canceled)
	}
	var none T
	return none, ctx.Err()
}

// begin begins work; the lock is held.
func (f *flights[K, T]) begin(key K, work func(context.Context) (T, error)) *flight[T] {
	ctx, end := context.WithCancelCause(context.Background())
	one := &flight[T]{done: make(chan struct{}), end: end}
	if f.under == nil {
		f.under = map[K]*flight[T]{}
	}
	f.under[key] = one
	go func() {
		defer end(nil)
		one.value, one.err = safely(ctx, work)
		if cause := context.Cause(ctx); cause != nil && one.err != nil {
			one.err = cause // why it was broken off
		}
		f.mu.Lock()
		f.drop(key, one, nil)
		f.mu.Unlock()
		close(one.done)
	}()
	return one
}

// stop breaks the work of a key off for all who wait for it, and says why.
func (f *flights[K, T]) stop(key K, why error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if one := f.under[key]; one != nil {
		f.drop(key, one, why)
	}
}

// drop ends a work, so that whoever comes next begins anew; the lock is held.
func (f *flights[K, T]) drop(key K, one *flight[T], why error) {
	if f.under[key] == one {
		delete(f.under, key)
	}
	if why != nil {
		one.end(why)
	}
}

// safely calls work; a panic becomes its error, since nobody else would catch it.
func safely[T any](ctx context.Context, work func(context.Context) (T, error)) (value T, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("working something out stopped: %v", p)
		}
	}()
	return work(ctx)
}
