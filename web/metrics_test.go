package web_test

import (
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/prometheus/client_golang/prometheus/testutil/promlint"
	"github.com/prometheus/common/expfmt"
	"github.com/prometheus/common/model"
)

// TestMetrics reads what was counted with the reader and the lint of the Prometheus
// project, and looks for what must not be there.
func TestMetrics(t *testing.T) {
	g := open(t)
	g.must("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "day": "2027-03-04", "text": "5+20, back tight"})
	g.ask("", "GET", "/nothing-of-the-kind", nil)
	g.ask("bo", "GET", "/record/mo", nil)
	status, text, header := g.ask("", "GET", "/metrics", nil)
	if status != 200 || !strings.HasPrefix(header.Get("Content-Type"), "text/plain; version=0.0.4") {
		t.Fatalf("%d %s", status, header.Get("Content-Type"))
	}
	parser := expfmt.NewTextParser(model.LegacyValidation)
	all, err := parser.TextToMetricFamilies(strings.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	count := func(name string, labels ...string) (n float64) {
		for _, m := range all[name].GetMetric() {
			var got []string
			for _, l := range m.GetLabel() {
				got = append(got, l.GetName(), l.GetValue())
			}
			if slices.Equal(got, labels) {
				n = m.GetCounter().GetValue() + m.GetGauge().GetValue() + float64(m.GetHistogram().GetSampleCount())
			}
		}
		return n
	}
	for _, c := range []struct {
		name   string
		labels []string
		want   float64
	}{
		{"roomful_http_requests_total", []string{"route", "POST /scores", "status", "200"}, 1},
		{"roomful_http_requests_total", []string{"route", "none", "status", "404"}, 1},
		{"roomful_http_requests_total", []string{"route", "GET /record/{person}", "status", "403"}, 1},
		{"roomful_http_request_duration_seconds", []string{"route", "POST /scores"}, 1},
		{"roomful_listeners", nil, 0},
	} {
		if got := count(c.name, c.labels...); got != c.want {
			t.Errorf("%s %v is %v, want %v", c.name, c.labels, got, c.want)
		}
	}
	updates, commits := count("roomful_store_updates_total"), count("roomful_store_commits_total")
	if updates < 10 || commits < 2 || commits > updates || count("process_resident_memory_bytes") < 1<<20 {
		t.Errorf("%v updates in %v commits", updates, commits)
	}
	found, err := promlint.New(strings.NewReader(text)).Lint()
	if err != nil || len(found) > 0 {
		t.Errorf("the lint says %v, %v", found, err)
	}
	for _, word := range []string{"tight", "Mo", "mo\"", "drip", "Gym", "ours", "nothing-of"} {
		if strings.Contains(text, word) {
			t.Errorf("the figures tell of %q", word)
		}
	}
}

// TestMetricsFromElsewhere: what stands in front of the server does not open the figures
// to everybody, and neither does a page that calls this machine by another name.
func TestMetricsFromElsewhere(t *testing.T) {
	g := open(t)
	for _, header := range [][]string{{"X-Forwarded-For", "192.0.2.7"}, {"Forwarded", "for=192.0.2.7"}, {"Host", "gym.example"}} {
		for who, want := range map[string]int{"": 401, "mo": 403, "coach": 403, "screen": 403, "owner": 200} {
			if status, _, _ := g.ask(who, "GET", "/metrics", nil, header...); status != want {
				t.Errorf("%q with %v: %d, want %d", who, header, status, want)
			}
		}
	}
	if status, _, _ := g.ask("mo", "GET", "/metrics", nil, "Host", "localhost"); status != http.StatusOK {
		t.Errorf("on this machine: %d", status)
	}
}
