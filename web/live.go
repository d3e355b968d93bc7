package web

import (
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"time"

	"roomful"
	"roomful/store"
)

// A stream writes within so long, or its reader is taken for gone.
const writeWithin = 10 * time.Second

// changes tells of what happens in the gym as it happens, as server-sent events (the
// HTML standard, 9.2). A reader that comes back says with Last-Event-ID where it was, and
// misses nothing; one that is far behind gets the event "again" and reads all anew. An
// event says what kind of thing has changed, not whose.
func (s *Server) changes(w http.ResponseWriter, q *http.Request, v visit) error {
	var after int64
	var err error
	if last := q.Header.Get("Last-Event-ID"); last != "" {
		if after, err = strconv.ParseInt(last, 10, 64); err != nil || after < 0 {
			return &roomful.Error{Summary: "following changes: Last-Event-ID is no number", Hint: "send the id of the last event, or none"}
		}
	} else if err := s.Store.View(q.Context(), func(tx *store.Tx) (err error) {
		after, err = tx.In(v.Gym).Seq()
		return err
	}); err != nil {
		return err
	}
	s.figures.streams.Inc()
	defer s.figures.streams.Dec()
	w.Header().Set("Content-Type", "text/event-stream")
	stream := http.NewResponseController(w)
	send := func(format string, args ...any) error {
		if err := stream.SetWriteDeadline(time.Now().Add(writeWithin)); err != nil && !errors.Is(err, http.ErrNotSupported) {
			return err
		}
		if _, err := fmt.Fprintf(w, format, args...); err != nil {
			return err
		}
		return stream.Flush()
	}
	if err := send("retry: 2000\nid: %d\n\n", after); err != nil {
		return nil // gone
	}
	err = s.Store.Follow(q.Context(), v.Gym, after, func(changes []store.Change) error {
		for _, c := range changes {
			if err := send("id: %d\nevent: change\ndata: {\"seq\": %d, \"kind\": %q}\n\n", c.Seq, c.Seq, c.Kind); err != nil {
				return err
			}
		}
		return nil
	})
	if errors.Is(err, store.ErrBehind) {
		_ = send("event: again\ndata: {}\n\n")
	}
	return nil
}
