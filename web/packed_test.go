package web_test

import (
	"compress/gzip"
	"io"
	"net/http"
	"strings"
	"testing"
)

// TestPacked: a long page goes out packed to who takes it so, a stream of changes never.
func TestPacked(t *testing.T) {
	g := open(t)
	asked := func(path string) *http.Response {
		t.Helper()
		q, err := http.NewRequestWithContext(t.Context(), "GET", g.server.URL+path, nil)
		if err != nil {
			t.Fatal(err)
		}
		q.Header.Set("Accept", "text/html")
		q.Header.Set("Accept-Encoding", "gzip")
		q.AddCookie(&http.Cookie{Name: "roomful", Value: g.keys["coach"]})
		got, err := g.server.Client().Do(q)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { got.Body.Close() })
		return got
	}
	got := asked("/sheets/drip")
	if got.Header.Get("Content-Encoding") != "gzip" || !strings.Contains(got.Header.Get("Vary"), "Accept-Encoding") {
		t.Fatalf("%d %v", got.StatusCode, got.Header)
	}
	z, err := gzip.NewReader(got.Body)
	if err != nil {
		t.Fatal(err)
	}
	if text, err := io.ReadAll(z); err != nil || !strings.HasSuffix(string(text), "</html>\n") {
		t.Errorf("%v %s", err, text)
	}
	if got := asked("/changes"); got.Header.Get("Content-Encoding") != "" || got.StatusCode != 200 {
		t.Errorf("%d %v", got.StatusCode, got.Header)
	}
}
