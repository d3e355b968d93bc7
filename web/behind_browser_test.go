//go:build !race

package web_test

import (
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"sync/atomic"
	"testing"
	"time"

	"roomful/web/browser"
)

// TestBehind: a page that has missed more than can be told is fetched again, but never
// while somebody writes in it: then the parts that nobody writes in are.
func TestBehind(t *testing.T) {
	t.Parallel()
	g := lifting(t)
	to, err := url.Parse(g.server.URL)
	if err != nil {
		t.Fatal(err)
	}
	var behind atomic.Bool // the page that listens now
	var latest atomic.Int64
	through := &httputil.ReverseProxy{Rewrite: func(q *httputil.ProxyRequest) { q.SetURL(to) }}
	front := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, q *http.Request) {
		if q.URL.Path != "/changes" {
			through.ServeHTTP(w, q)
			return
		}
		w.Header().Set("Content-Type", "text/event-stream")
		for mine := latest.Add(1); q.Context().Err() == nil; time.Sleep(10 * time.Millisecond) {
			if mine == latest.Load() && behind.Swap(false) {
				_, _ = w.Write([]byte("event: again\ndata: {}\n\n"))
				return
			}
		}
	}))
	t.Cleanup(func() { front.CloseClientConnections(); front.Close() })
	tab := browser.Open(t, browser.View{Size: browser.Phone})
	tab.Cookie(local(front.URL), "roomful", g.keys["mo"])
	tab.Go(local(front.URL) + "/sheets/drip/scores")
	tab.See("Nobody has a score on this day yet.")
	g.must("bo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "text": "6+2"})
	behind.Store(true)
	tab.See("6+2")

	tab.Cookie(local(front.URL), "roomful", g.keys["coach"])
	tab.Go(local(front.URL) + "/sheets/bars?open=bo")
	tab.Click("Write it otherwise")
	tab.Fill("Why", "asked for less")
	g.must("mo", "POST", "/sheets/bars/notes", map[string]any{"id": "n1", "text": "I am late."})
	behind.Store(true)
	tab.See("I am late.")
	if got := tab.Value("Why"); got != "asked for less" {
		t.Errorf("the coach typed a reason, and finds %q", got)
	}
}
