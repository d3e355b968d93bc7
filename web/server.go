package web

import (
	"context"
	"io"
	"log/slog"
	"net/http"
	"strings"
	"sync/atomic"
	"time"

	"github.com/prometheus/client_golang/prometheus"

	"roomful"
	"roomful/account"
	"roomful/desk"
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
	// Desk lays a gym out for questions about a day.
	Desk *desk.Desk
	// Background does what need not be waited for; nil for nothing.
	Background Background

	pace       account.Pace
	ceremonies account.Ceremonies
	figures    *figures
	streams    streams
	described  map[string]any // the routes, for programs
	patience   patience
	renewals   atomic.Int32 // devices that are being noted as seen
}

// mostBody bounds what somebody may send; a sheet has a few kilobytes.
const mostBody = 1 << 20

// visit is a request by somebody who may make it.
type visit struct {
	account.Visitor // zero for a route that anybody may use
}

// Handler is the server for net/http: no other origin may change anything, nothing may
// be framed or loaded from elsewhere, and what is asked is logged without who asks.
func (s *Server) Handler() http.Handler {
	s.figures = newFigures(s.Metrics, s.Store)
	s.described = openAPI(routes)
	mux := http.NewServeMux()
	for pattern, one := range spots() {
		answers := s.serve(one)
		if !flows[pattern] {
			answers = pack(answers)
		}
		mux.Handle(pattern, answers)
	}
	origin := http.NewCrossOriginProtection()
	if s.URL != "" {
		if err := origin.AddTrustedOrigin(s.URL); err != nil {
			s.Log.Error("the address by which people reach the server is none", "why", err)
		}
	}
	return s.logged(s.guarded(origin.Handler(s.sorted(mux))))
}

// spot is what one pattern leads to: a route, a page, or both.
type spot struct{ route, page *route }

// spots are all patterns there are.
func spots() map[string]spot {
	out := map[string]spot{}
	for i, r := range routes {
		out[r.pattern] = spot{route: &routes[i]}
	}
	for i, r := range pages {
		both := out[r.pattern]
		both.page = &pages[i]
		out[r.pattern] = both
	}
	return out
}

// of is what a request asks for.
func (a spot) of(q *http.Request) *route {
	if a.route == nil || a.page != nil && wantsPage(q) {
		return a.page
	}
	return a.route
}

// serve answers at one address.
func (s *Server) serve(a spot) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, q *http.Request) {
		r, v := a.of(q), visit{}
		s.guard(w.Header())
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
		if err == errNotYours && v.Account.Role == store.Coach {
			err = errOwners
		}
		if failed(err) && s.heard(w, q) {
			s.unheard(q, err)
			return
		}
		if err != nil {
			s.refuse(w, q, err)
		}
	})
}

// guarded guards what no route answers too: refusals of other origins, and paths that
// lead nowhere.
func (s *Server) guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, q *http.Request) {
		s.guard(w.Header())
		next.ServeHTTP(w, q)
	})
}

// guard sets what holds for every answer.
func (s *Server) guard(h http.Header) {
	h.Set("Content-Security-Policy", "default-src 'none'; style-src 'self'; script-src 'self'; font-src 'self'; img-src 'self' data:; connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'")
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer") // a link may hold a secret
	h.Set("Cache-Control", "no-store")
	h.Set("Cross-Origin-Opener-Policy", "same-origin")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Permissions-Policy", "camera=(), geolocation=(), microphone=(), payment=(), usb=()")
	if strings.HasPrefix(s.URL, "https://") {
		h.Set("Strict-Transport-Security", "max-age=31536000")
	}
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
		s.renew(c.Value, now)
	}
	return v, nil
}

const (
	// renewWithin is how long a request waits for its device to be noted as seen: whoever
	// has to stop at the first look of a morning does not wait for a disk.
	renewWithin = 200 * time.Millisecond
	// mostRenewals is how many devices are being noted at once.
	mostRenewals = 32
)

// renew notes a device as seen, in its own time: whoever cannot be noted is answered all
// the same. Who signed out meanwhile stays so.
func (s *Server) renew(secret string, now time.Time) {
	if s.renewals.Add(1) > mostRenewals {
		s.renewals.Add(-1)
		return // the next request does it
	}
	done := make(chan struct{})
	go func() {
		defer close(done)
		defer s.renewals.Add(-1)
		if err := s.Store.Update(context.Background(), store.By{At: now}, func(tx *store.Tx) error {
			v, err := account.Who(tx, secret, now)
			if err != nil {
				return err
			}
			return v.Renew(tx.In(v.Gym))
		}); failed(err) {
			s.Log.Error("a device could not be noted as seen", "why", err)
		}
	}()
	select {
	case <-done:
	case <-time.After(renewWithin):
	}
}

// by is who changes something, for the book of changes.
func (s *Server) by(v visit) store.By { return store.By{Account: v.Account.ID, At: s.Now()} }

// What a server refuses.
var (
	errNotIn    = &refusal{http.StatusUnauthorized, roomful.Error{Summary: "nobody is signed in here", Hint: "open the link of your invitation, or ask your coach for one"}}
	errNotYours = &refusal{http.StatusForbidden, roomful.Error{Summary: "that is not yours to do", Hint: "ask a coach"}}
	errOwners   = &refusal{http.StatusForbidden, roomful.Error{Summary: "that is not yours to do", Hint: "ask the owner of the gym"}}
	errNoScore  = &refusal{http.StatusConflict, roomful.Error{Summary: "that score was changed or taken back meanwhile", Hint: "open the day again, and change the score that stands there now"}}
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
