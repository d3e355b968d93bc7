//go:build unix && !race

package web_test

import (
	"fmt"
	"io"
	"net/http"
	"net/url"
	"strings"
	"syscall"
	"testing"
	"time"

	"roomful/store"
	"roomful/web/webtest"
)

// BenchmarkTyped sends the text of a day, each time with a line that was never asked about
// before, and waits for everybody's version, as the page does when a coach stops typing: 26
// people with a year of scores. Beside the time it reports what all processors spent on it.
func BenchmarkTyped(b *testing.B) {
	g := webtest.Crowd(b)
	for _, c := range []struct{ sheet, what, line, typed string }{
		{"eight-ribs", "amount", "8 push-ups", "%d push-ups"},
		{"eight-ribs", "load", "80/55 kg", "%d/55 kg"},
		{"eight-ribs", "words", "An umbrella stands on eight ribs", "An umbrella stands on %d ribs"},
		{"the-long-drizzle", "amount", "50 sit-ups", "%d sit-ups"},
		{"oilskin", "amount", "10 kettlebell swings", "%d kettlebell swings"},
		{"the-tall-gamp", "load", "40/27.5 kg", "%d/27.5 kg"},
	} {
		b.Run(c.sheet+"/"+c.what, func(b *testing.B) {
			text := written(b, g, c.sheet)
			if !strings.Contains(text, c.line) {
				b.Fatalf("%s has no %q", c.sheet, c.line)
			}
			spent, n := processorTime(b), 0
			for b.Loop() {
				n++
				got := draft(b, g, c.sheet, strings.Replace(text, c.line, fmt.Sprintf(c.typed, 5+n), 1))
				if people := strings.Count(got, `id="p-`); people != 26 {
					b.Fatalf("%d people of 26: %s", people, got)
				}
			}
			b.ReportMetric(float64((processorTime(b)-spent).Microseconds())/1000/float64(n), "cpu-ms/op")
		})
	}
}

// draft posts a text that is not saved and returns what is shown.
func draft(t testing.TB, g *webtest.Gym, sheet, text string) string {
	t.Helper()
	q, err := http.NewRequestWithContext(t.Context(), "POST", g.URL+"/sheets/"+sheet+"/draft", strings.NewReader(url.Values{"text": {text}, "revision": {"1"}}.Encode()))
	if err != nil {
		t.Fatal(err)
	}
	q.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	q.Header.Set("HX-Request", "true")
	return sent(t, g, q)
}

// sent sends a request as a coach and returns what is answered.
func sent(t testing.TB, g *webtest.Gym, q *http.Request) string {
	t.Helper()
	q.AddCookie(&http.Cookie{Name: "roomful", Value: g.Key(t, store.Coach)})
	got, err := http.DefaultClient.Do(q)
	if err != nil {
		t.Fatal(err)
	}
	defer got.Body.Close()
	body, err := io.ReadAll(got.Body)
	if err != nil || got.StatusCode != http.StatusOK {
		t.Fatalf("%s %s: %v %s", q.URL, got.Status, err, body)
	}
	return string(body)
}

// processorTime is what this program has spent of all processors.
func processorTime(t testing.TB) time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		t.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// BenchmarkOwn asks what a member asks between two sets, each time somebody else, while
// their day is at hand: how heavy, what to match or beat, what else there is.
func BenchmarkOwn(b *testing.B) {
	g := webtest.Crowd(b)
	var people []store.Person
	g.Update(b, func(books *store.Books) (err error) {
		people, err = books.People(false)
		return err
	})
	for _, what := range []string{"load", "beat", "choices"} {
		b.Run(what, func(b *testing.B) {
			page(b, g, "/sheets/eight-ribs/versions")
			spent, n := processorTime(b), 0
			for b.Loop() {
				page(b, g, "/sheets/eight-ribs/"+what+"/"+people[n%len(people)].ID)
				n++
			}
			b.ReportMetric(float64((processorTime(b)-spent).Microseconds())/1000/float64(n), "cpu-ms/op")
		})
	}
}

// page gets an address as a script does.
func page(t testing.TB, g *webtest.Gym, path string) string {
	t.Helper()
	q, err := http.NewRequestWithContext(t.Context(), "GET", g.URL+path, nil)
	if err != nil {
		t.Fatal(err)
	}
	return sent(t, g, q)
}
