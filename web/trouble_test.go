package web_test

import (
	"bytes"
	"fmt"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"roomful"
	"roomful/store"
	"roomful/web"
)

// TestTroubleOfTheDatabase: when the database is at fault whoever asks is told to keep
// what they typed, and not where the file lies or that they asked wrongly; the log says
// what it is.
func TestTroubleOfTheDatabase(t *testing.T) {
	var log bytes.Buffer
	s := &web.Server{Log: slog.New(slog.NewTextHandler(&log, nil))}
	trouble := &store.Trouble{Said: &roomful.Error{Summary: "using /home/ada/roomful.db: the disk is full", Hint: "make room"}}
	for _, accept := range []string{"application/json", "text/html"} {
		w := httptest.NewRecorder()
		q := httptest.NewRequest("POST", "/scores", nil)
		q.Header.Set("Accept", accept)
		s.Refuse(w, q, fmt.Errorf("keeping a score: %w", trouble))
		if said := w.Body.String(); w.Code != http.StatusServiceUnavailable || !strings.Contains(said, "send it again") || strings.Contains(said, "ada") {
			t.Errorf("%s: %d %s", accept, w.Code, said)
		}
	}
	if strings.Count(log.String(), "the disk is full") != 2 {
		t.Errorf("the log: %s", log.String())
	}
}

// TestExpected: what is not there and what has a next step may be passed over where a page
// stands without it; trouble of the database and faults may not.
func TestExpected(t *testing.T) {
	hint := &roomful.Error{Summary: "nobody comes", Hint: "name a class"}
	for err, want := range map[error]bool{
		hint: true, store.ErrMissing: true, fmt.Errorf("looking: %w", store.ErrMissing): true,
		&store.Trouble{Said: hint}: false, fmt.Errorf("a fault"): false,
	} {
		if got := web.Expected(err); got != want {
			t.Errorf("%v: %t", err, got)
		}
	}
}
