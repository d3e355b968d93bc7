package desk

import (
	"context"
	"runtime"
)

// turns bound what is worked out at once: as many as there are processors for, and of
// what nobody waits for one at a time. Others wait their turn, with nothing at hand yet.
type turns struct{ all, aside chan struct{} }

// newTurns returns turns for this machine.
func newTurns() turns {
	return turns{make(chan struct{}, runtime.GOMAXPROCS(0)), make(chan struct{}, 1)}
}

// wait waits until something can be worked out, and returns what ends it.
func (t turns) wait(ctx context.Context) (end func(), err error) { return enter(ctx, t.all) }

// Turn waits until something can be worked out, and returns what ends it.
func (d *Desk) Turn(ctx context.Context) (end func(), err error) { return d.turns.wait(ctx) }

// waitAside is wait for what nobody waits for: there is always a place left beside it
// where there are two processors.
func (t turns) waitAside(ctx context.Context) (end func(), err error) {
	leave, err := enter(ctx, t.aside)
	if err != nil {
		return nil, err
	}
	work, err := enter(ctx, t.all)
	if err != nil {
		leave()
		return nil, err
	}
	return func() { work(); leave() }, nil
}

// enter takes a place, and returns what gives it back.
func enter(ctx context.Context, places chan struct{}) (leave func(), err error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	select {
	case places <- struct{}{}:
		return func() { <-places }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}
