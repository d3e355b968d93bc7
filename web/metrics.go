package web

import (
	"net"
	"net/http"
	"net/netip"
	"strconv"
	"strings"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"
	"github.com/prometheus/common/expfmt"

	"roomful/account"
	"roomful/store"
)

// figures are what is counted while the server runs. They tell routes by their patterns
// and nothing of whom or what was asked for.
type figures struct {
	registry *prometheus.Registry
	asked    *prometheus.CounterVec
	took     *prometheus.HistogramVec
	streams  prometheus.Gauge
}

// upTo are the bounds in seconds of how long an answer takes: pages are meant to take
// less than 20 ms.
var upTo = []float64{.001, .0025, .005, .01, .02, .05, .1, .25, .5, 1, 2.5, 10}

// newFigures begins to count, in a registry that others may count in too.
func newFigures(registry *prometheus.Registry, s *store.Store) *figures {
	if registry == nil {
		registry = prometheus.NewRegistry()
	}
	f := &figures{
		registry: registry,
		asked:    prometheus.NewCounterVec(prometheus.CounterOpts{Name: "roomful_http_requests_total", Help: "What was asked, by route and status."}, []string{"route", "status"}),
		took:     prometheus.NewHistogramVec(prometheus.HistogramOpts{Name: "roomful_http_request_duration_seconds", Help: "How long answers took, by route.", Buckets: upTo}, []string{"route"}),
		streams:  prometheus.NewGauge(prometheus.GaugeOpts{Name: "roomful_listeners", Help: "Open pages that follow what happens."}),
	}
	stored := func(name, help string, of func(store.Counts) int64) prometheus.Collector {
		return prometheus.NewCounterFunc(prometheus.CounterOpts{Name: name, Help: help}, func() float64 { return float64(of(s.Counts())) })
	}
	registry.MustRegister(f.asked, f.took, f.streams, collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}),
		stored("roomful_store_updates_total", "Updates that were made.", func(c store.Counts) int64 { return c.Updates }),
		stored("roomful_store_refused_total", "Updates that were undone, each with its reason told.", func(c store.Counts) int64 { return c.Refused }),
		stored("roomful_store_commits_total", "Transactions, each with one or more updates.", func(c store.Counts) int64 { return c.Commits }))
	return f
}

// count counts an answer.
func (f *figures) count(route string, status int, took time.Duration) {
	if route == "" {
		route = "none"
	}
	f.asked.WithLabelValues(route, strconv.Itoa(status)).Inc()
	f.took.WithLabelValues(route).Observe(took.Seconds())
}

// metrics tells what was counted, in the text format of Prometheus: to whoever asks on
// this machine, and to an owner from anywhere.
func (s *Server) metrics(w http.ResponseWriter, q *http.Request, _ visit) error {
	if !fromHere(q) {
		v, err := s.who(q)
		if err != nil {
			return err
		}
		if !v.May(account.EditSettings) {
			return errNotYours
		}
	}
	all, err := s.figures.registry.Gather()
	if err != nil {
		return err
	}
	form := expfmt.NewFormat(expfmt.TypeTextPlain)
	w.Header().Set("Content-Type", string(form))
	e := expfmt.NewEncoder(w, form)
	for _, one := range all {
		if err := e.Encode(one); err != nil {
			return nil // nobody listens
		}
	}
	return nil
}

// handedOn are headers that a request has which somebody else has handed on.
var handedOn = []string{"Forwarded", "X-Forwarded-For", "X-Forwarded-Host", "X-Real-Ip", "Via"}

// fromHere reports whether a request was made on this machine, to this machine by its
// own name, and not handed on from elsewhere by whatever stands in front of the server.
func fromHere(q *http.Request) bool {
	for _, name := range handedOn {
		if q.Header.Get(name) != "" {
			return false
		}
	}
	return loopback(q.RemoteAddr) && loopback(q.Host)
}

// loopback reports whether a host, with or without a port, is this machine.
func loopback(host string) bool {
	if bare, _, err := net.SplitHostPort(host); err == nil {
		host = bare
	}
	address, err := netip.ParseAddr(strings.Trim(host, "[]"))
	return strings.EqualFold(host, "localhost") || err == nil && address.Unmap().IsLoopback()
}
