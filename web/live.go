package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"sync"
	"time"

	"roomful"
	"roomful/store"
)

// A stream writes within so long, or its reader is taken for gone.
const writeWithin = 10 * time.Second

// mostStreams is how many pages of one account may follow at once (judgement: more than
// anybody has screens).
const mostStreams = 30

// streams counts the open pages of each account.
type streams struct {
	mu   sync.Mutex
	open map[string]int
}

// begin counts a page, and reports whether there may be one more.
func (s *streams) begin(account string) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.open == nil {
		s.open = map[string]int{}
	}
	if s.open[account] >= mostStreams {
		return false
	}
	s.open[account]++
	return true
}

// end counts a page off.
func (s *streams) end(account string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.open[account]--; s.open[account] == 0 {
		delete(s.open, account)
	}
}

// changes tells of what happens in the gym as it happens, as server-sent events (the
// HTML standard, 9.2). A reader that comes back says with Last-Event-ID where it was, and
// misses nothing; one that is far behind gets the event "again" and reads all anew. An
// event says what kind of thing has changed, not whose. A stream ends with the sign-in that
// it began with.
func (s *Server) changes(w http.ResponseWriter, q *http.Request, v visit) error {
	after, err := s.since(q, v)
	if err != nil {
		return err
	}
	if !s.streams.begin(v.Account.ID) {
		return errTooMany
	}
	defer s.streams.end(v.Account.ID)
	s.figures.streams.Inc()
	defer s.figures.streams.Dec()
	out := &stream{w: w, to: http.NewResponseController(w)}
	w.Header().Set("Content-Type", "text/event-stream")
	if err := out.send("retry: 2000\nid: %d\n\n", after); err != nil {
		return nil // gone
	}
	ctx, stop := context.WithCancel(q.Context())
	var beating sync.WaitGroup
	beating.Go(func() { out.beat(ctx, stop, s.patience.beat) })
	err = s.Store.Follow(ctx, v.Gym, after, func(changes []store.Change) error {
		if slices.ContainsFunc(changes, ofAccounts) {
			if _, err := s.who(q); err != nil {
				return err // whoever was signed out is told no more
			}
		}
		return out.tell(changes)
	})
	stop()
	beating.Wait()
	if errors.Is(err, store.ErrBehind) {
		_ = out.send("event: again\ndata: {}\n\n")
	}
	return nil
}

// ofAccounts reports whether a change may have ended a sign-in.
func ofAccounts(c store.Change) bool { return c.Kind == "account" || c.Kind == "erased" }

// since is the change that a reader knows of: the one it names, or the last there is.
func (s *Server) since(q *http.Request, v visit) (after int64, err error) {
	last := q.Header.Get("Last-Event-ID")
	if last == "" {
		return after, s.view(q, v, func(b *store.Books) (err error) {
			after, err = b.Seq()
			return err
		})
	}
	if after, err = strconv.ParseInt(last, 10, 64); err != nil || after < 0 {
		return 0, &roomful.Error{Summary: "following changes: Last-Event-ID is no number", Hint: "send the id of the last event, or none"}
	}
	return after, nil
}

// stream is an open page that is told of changes.
type stream struct {
	mu sync.Mutex
	w  http.ResponseWriter
	to *http.ResponseController
}

// send writes to the page, and fails when it is gone.
func (s *stream) send(format string, args ...any) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	if err := s.to.SetWriteDeadline(time.Now().Add(writeWithin)); err != nil && !errors.Is(err, http.ErrNotSupported) {
		return err
	}
	if _, err := fmt.Fprintf(s.w, format, args...); err != nil {
		return err
	}
	return s.to.Flush()
}

// tell tells of changes.
func (s *stream) tell(changes []store.Change) error {
	for _, c := range changes {
		if err := s.send("id: %d\nevent: change\ndata: {\"seq\": %d, \"kind\": %q}\n\n", c.Seq, c.Seq, c.Kind); err != nil {
			return err
		}
	}
	return nil
}

// beat gives a sign of life now and then, so that nothing on the way closes a stream for
// being quiet, and stops it when nobody is there any more.
func (s *stream) beat(ctx context.Context, stop func(), every time.Duration) {
	if every <= 0 {
		every = usualPatience.beat
	}
	tick := time.NewTicker(every)
	defer tick.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
			if s.send(": still here\n\n") != nil {
				stop()
				return
			}
		}
	}
}
