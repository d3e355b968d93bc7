package web

import (
	"context"
	"crypto/rand"
	"errors"
	"io"
	"log/slog"
	"net"
	"net/http"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"roomful"
	"roomful/account"
	"roomful/store"
)

// Server answers for the gyms of a store.
type Server struct {
	Store   *store.Store
	Lexicon roomful.Lexicon
	Now     func() time.Time
	Random  io.Reader // for secrets
	NewID   func() (string, error)
	Log     *slog.Logger // without names and health
	// Plain says that the server is reached without TLS, on this machine alone: then
	// cookies are sent that way too.
	Plain bool
	// URL is the address by which people reach the server, "https://gym.example"; empty
	// when it is reached by what it listens on.
	URL string

	// Metrics is where figures are counted; nil for a place of the server's own.
	Metrics *prometheus.Registry

	pace       account.Pace
	ceremonies account.Ceremonies
	figures    *figures
}

// mostBody bounds what somebody may send; a sheet has a few kilobytes.
const mostBody = 1 << 20

// visit is a request by somebody who may make it.
type visit struct {
	account.Visitor        // zero for a route that anybody may use
	nonce           string // of what the page may run and style itself with
}

// Handler is the server for net/http: no other origin may change anything, nothing may
// be framed or loaded from elsewhere, and what is asked is logged without who asks.
func (s *Server) Handler() http.Handler {
	s.figures = newFigures(s.Metrics, s.Store)
	mux := http.NewServeMux()
	for _, r := range routes {
		mux.Handle(r.pattern, s.serve(r))
	}
	origin := http.NewCrossOriginProtection()
	if s.URL != "" {
		if err := origin.AddTrustedOrigin(s.URL); err != nil {
			s.Log.Error("the address by which people reach the server is none", "why", err)
		}
	}
	return s.logged(origin.Handler(mux))
}

// serve answers one route.
func (s *Server) serve(r route) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, q *http.Request) {
		v := visit{nonce: rand.Text()}
		guard(w.Header(), v.nonce)
		q.Body = http.MaxBytesReader(w, q.Body, mostBody)
		err := error(nil)
		if r.action != "" {
			v.Visitor, err = s.who(q)
		}
		if err == nil && r.action != "" && !v.May(r.action) {
			err = errNotYours
		}
		if err == nil {
			err = r.answer(s, w, q, v)
		}
		if err != nil {
			s.refuse(w, q, err)
		}
	})
}

// guard sets what holds for every answer.
func guard(h http.Header, nonce string) {
	h.Set("Content-Security-Policy", "default-src 'none'; style-src 'nonce-"+nonce+"'; script-src 'nonce-"+nonce+"'; img-src 'self' data:; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer") // a link may hold a secret
	h.Set("Cache-Control", "no-store")
}

// cookieName is the cookie that a device is known by. Over https its name has a browser
// refuse it from any other host, its own parents included (RFC 6265bis, 4.1.3).
func (s *Server) cookieName(q *http.Request) string {
	if s.secure(q) {
		return "__Host-roomful"
	}
	return "roomful"
}

// who finds out who asks, and writes down now and then that they were seen.
func (s *Server) who(q *http.Request) (v account.Visitor, err error) {
	c, err := q.Cookie(s.cookieName(q))
	if err != nil {
		return v, errNotIn
	}
	now := s.Now()
	if err := s.Store.View(q.Context(), func(tx *store.Tx) (err error) {
		v, err = account.Who(tx, c.Value, now)
		return err
	}); err != nil {
		if roomful.HintOf(err) != "" {
			err = errNotIn
		}
		return v, err
	}
	if v.ToRenew() {
		err = s.Store.Update(q.Context(), store.By{At: now}, func(tx *store.Tx) error { return v.Renew(tx.In(v.Gym)) })
	}
	return v, err
}

// by is who changes something, for the book of changes.
func (s *Server) by(v visit) store.By { return store.By{Account: v.Account.ID, At: s.Now()} }

// What a server refuses.
var (
	errNotIn    = &refusal{http.StatusUnauthorized, roomful.Error{Summary: "nobody is signed in here", Hint: "open the link of your invitation, or ask your coach for one"}}
	errNotYours = &refusal{http.StatusForbidden, roomful.Error{Summary: "that is not yours to do", Hint: "ask a coach"}}
	errTooMany  = &refusal{http.StatusTooManyRequests, roomful.Error{Summary: "that was tried too often", Hint: "wait a minute and try again"}}
)

// refusal is an error with the status that it is answered with.
type refusal struct {
	status int
	say    roomful.Error
}

// Error implements error.
func (r *refusal) Error() string { return r.say.Summary }

// Unwrap gives the error with its hint.
func (r *refusal) Unwrap() error { return &r.say }

// logged notes each request: what was asked by its pattern, never by its path, which may
// hold a secret or a name.
func (s *Server) logged(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, q *http.Request) {
		began := s.Now()
		seen := &statusWriter{ResponseWriter: w, status: http.StatusOK}
		defer func() {
			if p := recover(); p != nil {
				s.Log.Error("a request stopped", "route", q.Pattern, "why", p)
				if !seen.wrote {
					http.Error(seen, "something went wrong here; nothing that you typed was stored", http.StatusInternalServerError)
				}
			}
			took := s.Now().Sub(began)
			s.figures.count(q.Pattern, seen.status, took)
			s.Log.Info("asked", "route", q.Pattern, "status", seen.status, "ms", took.Milliseconds())
		}()
		next.ServeHTTP(seen, q)
	})
}

// statusWriter remembers the status of an answer.
type statusWriter struct {
	http.ResponseWriter
	status int
	wrote  bool
}

// WriteHeader implements [http.ResponseWriter].
func (w *statusWriter) WriteHeader(status int) {
	w.status, w.wrote = status, true
	w.ResponseWriter.WriteHeader(status)
}

// Write implements io.Writer.
func (w *statusWriter) Write(p []byte) (int, error) {
	w.wrote = true
	return w.ResponseWriter.Write(p)
}

// Unwrap lets [http.ResponseController] reach the connection.
func (w *statusWriter) Unwrap() http.ResponseWriter { return w.ResponseWriter }

// shutdownIn is how long requests that are under way may take to end.
const shutdownIn = 5 * time.Second

// Serve answers on a listener until the context ends, and lets what is under way end.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	end, cancel := context.WithCancel(context.Background())
	defer cancel()
	server := &http.Server{Handler: s.Handler(), ReadHeaderTimeout: 10 * time.Second, ReadTimeout: time.Minute, IdleTimeout: 2 * time.Minute,
		ErrorLog: slog.NewLogLogger(s.Log.Handler(), slog.LevelWarn), BaseContext: func(net.Listener) context.Context { return end }}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(l) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	wait, stop := context.WithTimeout(context.Background(), shutdownIn)
	defer stop()
	go func() { // streams of changes never end by themselves
		<-time.After(shutdownIn / 5)
		cancel()
	}()
	err := server.Shutdown(wait)
	if errors.Is(err, context.DeadlineExceeded) {
		err = server.Close()
	}
	return err
}
