package web_test

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"roomful"
	"roomful/web"
)

// listening is a server of its own over a gym, in a hurry, at an address.
func (g *gym) listening(change func(*web.Server)) string {
	g.t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		g.t.Fatal(err)
	}
	srv := &web.Server{Store: g.store, Plain: true, Now: time.Now, Log: slog.New(slog.NewTextHandler(g.log, nil)), NewID: func() (string, error) { return "id", nil }}
	srv.Now = func() time.Time { return now }
	web.Hurry(srv)
	if change != nil {
		change(srv)
	}
	ctx, stop := context.WithCancel(g.t.Context())
	ended := make(chan error, 1)
	go func() { ended <- srv.Serve(ctx, l) }()
	g.t.Cleanup(func() { stop(); <-ended })
	return l.Addr().String()
}

// TestSlow: whoever sends a letter now and then is hung up on, before the head of a
// request is whole and after.
func TestSlow(t *testing.T) {
	g := open(t)
	at := g.listening(nil)
	for what, start := range map[string]string{
		"a head": "GET / HTTP/1.1\r\nHost: x\r\nX-Slow: ",
		"a body": "POST /enter HTTP/1.1\r\nHost: x\r\nContent-Length: 100000\r\n\r\n{",
	} {
		conn, err := net.Dial("tcp", at)
		if err != nil {
			t.Fatal(err)
		}
		began := time.Now()
		_, _ = io.WriteString(conn, start)
		gone := make(chan string, 1)
		go func() { all, _ := io.ReadAll(conn); gone <- string(all) }()
		for hungUp := false; !hungUp; {
			select {
			case said := <-gone:
				hungUp = true
				if strings.Contains(said, " 200 ") {
					t.Errorf("%s: answered %q", what, said)
				}
			case <-time.After(20 * time.Millisecond):
				_, _ = io.WriteString(conn, "a")
			}
			if time.Since(began) > 10*web.Patience {
				t.Fatalf("%s: nobody hangs up", what)
			}
		}
		conn.Close()
	}
}

// TestLargeHead: a head of a megabyte is refused.
func TestLargeHead(t *testing.T) {
	g := open(t)
	q, _ := http.NewRequestWithContext(t.Context(), "GET", "http://"+g.listening(nil)+"/healthz", nil)
	q.Header.Set("X-Large", strings.Repeat("x", 1<<20))
	got, err := http.DefaultClient.Do(q)
	if err == nil {
		got.Body.Close()
		if got.StatusCode != http.StatusRequestHeaderFieldsTooLarge {
			t.Errorf("%d", got.StatusCode)
		}
	}
}

// TestStreamStays: a page that follows is not taken for a slow request: it hears signs of
// life, and changes, long after any other request would have ended.
func TestStreamStays(t *testing.T) {
	g := open(t)
	at := g.listening(nil)
	ctx, stop := context.WithTimeout(t.Context(), 20*time.Second)
	defer stop()
	q, _ := http.NewRequestWithContext(ctx, "GET", "http://"+at+"/changes", nil)
	q.AddCookie(&http.Cookie{Name: "roomful", Value: g.keys["bo"]})
	got, err := http.DefaultClient.Do(q)
	if err != nil {
		t.Fatal(err)
	}
	defer got.Body.Close()
	var posted sync.WaitGroup
	defer posted.Wait()
	posted.Go(func() {
		time.Sleep(2 * web.Patience)
		g.ask("mo", "POST", "/sheets/drip/notes", map[string]any{"id": "n1", "text": "well"})
	})
	lines, beats, told := bufio.NewScanner(got.Body), 0, false
	for !told && lines.Scan() {
		if strings.HasPrefix(lines.Text(), ": still here") {
			beats++
		}
		told = strings.Contains(lines.Text(), `"kind": "note"`)
	}
	if !told || beats < 2 {
		t.Errorf("told %v after %d signs of life", told, beats)
	}
}

// TestManyStreams: one account does not take all of the server.
func TestManyStreams(t *testing.T) {
	g := open(t)
	ctx, stop := context.WithCancel(t.Context())
	defer stop()
	open, refused := 0, 0
	for range 40 {
		q, _ := http.NewRequestWithContext(ctx, "GET", g.server.URL+"/changes", nil)
		q.AddCookie(&http.Cookie{Name: "roomful", Value: g.keys["bo"]})
		got, err := http.DefaultClient.Do(q)
		if err != nil {
			t.Fatal(err)
		}
		defer got.Body.Close()
		switch got.StatusCode {
		case http.StatusOK:
			open++
		case http.StatusTooManyRequests:
			refused++
		}
	}
	if open != 30 || refused != 10 {
		t.Errorf("%d are open, %d refused", open, refused)
	}
	if _, text, _ := g.ask("", "GET", "/metrics", nil); !strings.Contains(text, "\nroomful_listeners 30\n") {
		t.Error("the figures do not tell of 30 listeners")
	}
}

// TestGuarded: what no route answers is guarded too, and over https browsers come back
// over nothing else.
func TestGuarded(t *testing.T) {
	g := open(t)
	for _, c := range []struct {
		method, path string
		header       []string
		want         int
	}{
		{"GET", "/nothing", nil, 404}, {"PATCH", "/kit", nil, 405}, {"GET", "//evil.example/", nil, 404},
		{"POST", "/out", []string{"Sec-Fetch-Site", "cross-site"}, 403}, {"POST", "/out", []string{"Origin", "null"}, 403},
	} {
		status, _, header := g.ask("mo", c.method, c.path, nil, c.header...)
		if status == http.StatusTemporaryRedirect || status == http.StatusMovedPermanently || status == http.StatusPermanentRedirect {
			if to := header.Get("Location"); strings.HasPrefix(to, "//") || strings.Contains(to, "://") {
				t.Errorf("%s leads to %s", c.path, to)
			}
		} else if status != c.want {
			t.Errorf("%s %s: %d, want %d", c.method, c.path, status, c.want)
		}
		for name, want := range map[string]string{"Content-Security-Policy": "default-src 'none'", "X-Content-Type-Options": "nosniff", "Cross-Origin-Resource-Policy": "same-origin", "Cache-Control": "no-store"} {
			if !strings.Contains(header.Get(name), want) {
				t.Errorf("%s %s: %s is %q", c.method, c.path, name, header.Get(name))
			}
		}
	}
	at := g.listening(func(s *web.Server) { s.URL = "https://gym.example" })
	got, err := http.Get("http://" + at + "/healthz")
	if err != nil {
		t.Fatal(err)
	}
	got.Body.Close()
	if got.Header.Get("Strict-Transport-Security") == "" {
		t.Error("nothing keeps browsers on https")
	}
}

// TestNames: a device or a person is called what they say, without what cannot be seen.
func TestNames(t *testing.T) {
	g := open(t)
	link := g.invite("owner", "coach", "")
	status, text, header := g.ask("", "POST", link, "name=%20A%0Ada%E2%80%AE%00%FF<b>", "Content-Type", "application/x-www-form-urlencoded", "User-Agent", "phone\xff "+strings.Repeat("雨", 300))
	cookie, err := http.ParseSetCookie(header.Get("Set-Cookie"))
	if status != http.StatusSeeOther || err != nil {
		t.Fatalf("%d %s", status, text)
	}
	g.keys["ada"] = cookie.Value
	me := g.must("ada", "GET", "/me", nil)
	if name := me["account"].(map[string]any)["name"]; name != "A da<b>" {
		t.Errorf("called %q", name)
	}
	if name := me["devices"].([]any)[0].(map[string]any)["name"].(string); !strings.HasPrefix(name, "phone 雨") || len([]rune(name)) != 200 {
		t.Errorf("on %q", name)
	}
	if _, page := g.page("ada", "/me"); !strings.Contains(page, "A da&lt;b&gt;") {
		t.Errorf("a name is markup: %s", page)
	}
	if status, text, _ := g.ask("mo", "POST", "/scores", `{"id":"s1","sheet":"drip","day":"2027-03-04","text":"5+20 \u0000"}`); status != 400 {
		t.Errorf("a score with what is no letter: %d %s", status, text)
	}
	for _, id := range []string{"", "../x", "a/b", strings.Repeat("x", 200), "<b>"} {
		if status, _, _ := g.ask("mo", "POST", "/scores", map[string]any{"id": id, "sheet": "drip", "text": "5+20"}); status != 400 {
			t.Errorf("a score under the id %q: %d", id, status)
		}
	}
	if status, _, _ := g.ask("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "text": strings.Repeat("5+20 ", 30_000)}); status != 400 {
		t.Errorf("a score of 150 kB: %d", status)
	}
}

// stumbling is a list of movements that stops with somebody's words.
type stumbling struct{ roomful.Lexicon }

func (stumbling) Match([]string) (*roomful.Movement, int) { panic("the knee of Mo") }

// TestLog: nothing that anybody sends makes a line of its own in the log, or stands in it.
func TestLog(t *testing.T) {
	g := open(t)
	at := g.listening(func(s *web.Server) { s.Lexicon = stumbling{} })
	before := strings.Count(g.log.String(), "\n")
	q, _ := http.NewRequestWithContext(t.Context(), "PUT", "http://"+at+"/sheets/other", strings.NewReader(`{"text":"X\n\nmain: for time\n  5 burpees\n"}`))
	q.AddCookie(&http.Cookie{Name: "roomful", Value: g.keys["coach"]})
	got, err := http.DefaultClient.Do(q)
	if err != nil {
		t.Fatal(err)
	}
	got.Body.Close()
	if got.StatusCode != http.StatusInternalServerError {
		t.Errorf("stumbled to %d", got.StatusCode)
	}
	g.ask("", "GET", "/in/evil%0alevel=ERROR%20msg=hacked", nil, "User-Agent", "evil", "X-Forwarded-For", "evil\tx")
	g.ask("", "GET", "/evil%0d%0ahacked", nil)
	g.ask("", "POST", "/enter", map[string]string{"gym": "evil", "account": "evil\nhacked", "password": "evil"})
	said := g.log.String()
	for _, word := range []string{"knee", "Mo", "evil", "hacked"} {
		if strings.Contains(said, word) {
			t.Errorf("the log says %q", word)
		}
	}
	if lines := strings.Count(said, "\n") - before; lines != 5 {
		t.Errorf("%d lines for four requests, one of which stopped", lines)
	}
	if !strings.Contains(said, "notation") {
		t.Error("the log does not say where it stopped")
	}
}

// TestElsewhere: an owner of another gym finds nothing of ours under any id, on any route.
func TestElsewhere(t *testing.T) {
	g, _ := crowded(t)
	g.must("coach", "PUT", "/sheets/ours-alone", map[string]any{"text": drip})
	accounts := g.must("owner", "GET", "/accounts", nil)["accounts"].([]any)
	ours := accounts[0].(map[string]any)["id"].(string)
	for _, r := range slices.Concat(web.Routes(), web.Pages()) {
		method, pattern, _ := strings.Cut(r.Pattern, " ")
		if r.Accept != "" && method != "GET" || strings.HasPrefix(pattern, "/assets") {
			continue // what a form changes, a route does
		}
		if !strings.Contains(pattern, "{") || strings.Contains(pattern, "{secret}") || strings.Contains(pattern, "$") {
			continue
		}
		path := strings.NewReplacer("{name}", "ours-alone", "{person}", "cy", "{limit}", "l-cy", "{class}", "c1", "{account}", ours, "{passkey}", "none").Replace(pattern)
		body := map[string]any{"revision": 7, "id": "x", "text": "well", "work": map[string]any{"round": []any{map[string]any{"movement": "burpee", "unit": "rep"}}}}
		switch {
		case strings.HasSuffix(pattern, "/editions"):
			body = map[string]any{"revision": 1}
		case strings.HasSuffix(pattern, "/limits/{limit}"):
			body = map[string]any{"what": "knee"}
		case strings.HasSuffix(pattern, "/overrides/{person}"):
			delete(body, "revision")
			delete(body, "id")
			delete(body, "text")
		case strings.HasSuffix(pattern, "/choices/{person}"):
			body = map[string]any{"option": "As written"}
		case strings.HasSuffix(pattern, "/sore/{person}"):
			body = map[string]any{"where": "knee", "pain": 3}
		case strings.HasSuffix(pattern, "/scores/reading"):
			body = map[string]any{"text": "Cy: 5+20"}
		case strings.HasSuffix(pattern, "/scores"):
			body = map[string]any{"scores": []any{map[string]any{"id": "x", "person": "cy", "text": "5+20"}}}
		case strings.HasSuffix(pattern, "/reading"):
			body = map[string]any{"text": "5+20", "person": "cy"}
		case strings.HasSuffix(pattern, "/notes"):
			delete(body, "revision")
			delete(body, "work")
		case strings.HasSuffix(pattern, "/people/{person}"):
			body = map[string]any{"revision": 7}
		case pattern == "/classes/{class}", pattern == "/sheets/{name}":
			if method == "PUT" {
				continue // makes one of their own
			}
		}
		var sent any = body
		if method == "GET" || method == "DELETE" {
			sent = nil
		}
		if status, text, _ := g.ask("their owner", method, path, sent, "Accept", r.Accept); status != http.StatusNotFound {
			t.Errorf("%s %s: %d %s", method, path, status, fmt.Sprintf("%.200s", text))
		}
	}
}
