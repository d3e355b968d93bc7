package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"strings"
	"testing"
	"time"

	"roomful/exchange"
)

// running is a program that serves, with a browser for each who came in.
type running struct {
	t       *testing.T
	said    exchange.Serving
	stop    context.CancelFunc
	ended   chan int
	stderr  *bytes.Buffer
	clients map[string]*http.Client
}

// serving starts the program and waits until it says where it answers.
func serving(t *testing.T, args ...string) *running {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	out, in := io.Pipe()
	r := &running{t: t, stop: stop, ended: make(chan int, 1), stderr: new(bytes.Buffer), clients: map[string]*http.Client{}}
	go func() {
		m := &Main{Args: append(args, "--listen", "127.0.0.1:0", "--json"), Stdin: strings.NewReader(""), Stdout: in, Stderr: r.stderr, Now: time.Now}
		r.ended <- m.Run(ctx)
		in.Close()
	}()
	line, err := bufio.NewReader(out).ReadBytes('\n')
	if err == nil {
		err = json.Unmarshal(line, &r.said)
	}
	if err != nil {
		t.Fatalf("serving: %v %s", err, line)
	}
	t.Cleanup(stop)
	return r
}

// end stops the program and waits for it.
func (r *running) end() {
	r.t.Helper()
	r.stop()
	select {
	case code := <-r.ended:
		if code != exitDone {
			r.t.Errorf("ended with %d", code)
		}
	case <-time.After(5 * time.Second):
		r.t.Error("still there after 5 s")
	}
}

// comeIn takes a link up.
func (r *running) comeIn(who, link string) {
	r.t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		r.t.Fatal(err)
	}
	r.clients[who] = &http.Client{Jar: jar}
	q, err := http.NewRequestWithContext(r.t.Context(), "POST", link, strings.NewReader(url.Values{"name": {"Olu"}}.Encode()))
	if err != nil {
		r.t.Fatal(err)
	}
	q.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	q.Header.Set("Accept", "text/html")
	got, err := r.clients[who].Do(q)
	if err != nil {
		r.t.Fatal(err)
	}
	defer got.Body.Close()
	if text, _ := io.ReadAll(got.Body); got.StatusCode != 200 || !strings.Contains(string(text), "You are") {
		r.t.Fatalf("%s comes in: %d %s", who, got.StatusCode, text)
	}
}

// keep has somebody carry a sign-in over from another server.
func (r *running) keep(who string, from *running) {
	r.t.Helper()
	old, err := url.Parse(from.said.Address)
	if err != nil {
		r.t.Fatal(err)
	}
	at, err := url.Parse(r.said.Address)
	if err != nil {
		r.t.Fatal(err)
	}
	jar, _ := cookiejar.New(nil)
	jar.SetCookies(at, from.clients[who].Jar.Cookies(old))
	r.clients[who] = &http.Client{Jar: jar}
}

// ask asks and expects an answer.
func (r *running) ask(who, method, path, body string) map[string]any {
	r.t.Helper()
	q, err := http.NewRequest(method, r.said.Address+path, strings.NewReader(body))
	if err != nil {
		r.t.Fatal(err)
	}
	got, err := r.clients[who].Do(q)
	if err != nil {
		r.t.Fatal(err)
	}
	defer got.Body.Close()
	out := map[string]any{}
	if err := json.NewDecoder(got.Body).Decode(&out); err != nil || got.StatusCode != 200 {
		r.t.Fatalf("%s %s as %s: %d %v %v", method, path, who, got.StatusCode, err, out)
	}
	return out
}

// do runs the program to its end.
func do(t *testing.T, args ...string) string {
	t.Helper()
	var out, complaint bytes.Buffer
	m := &Main{Args: args, Stdin: strings.NewReader(""), Stdout: &out, Stderr: &complaint, Now: time.Now}
	if code := m.Run(t.Context()); code != exitDone {
		t.Fatalf("%v: %d %s%s", args, code, out.String(), complaint.String())
	}
	return out.String()
}

// TestDemoServed serves the demo, with a link for each role that names who it is for.
func TestDemoServed(t *testing.T) {
	r := serving(t, "demo")
	for role, want := range map[string]string{"owner": "one person in, as owner", "coach": "one person in, as coach", "member": "for Rhona, as member", "screen": "one person in, as screen"} {
		got, err := http.Get(r.said.Links[role])
		if err != nil {
			t.Fatal(err)
		}
		text, _ := io.ReadAll(got.Body)
		got.Body.Close()
		if got.StatusCode != 200 || !strings.Contains(string(text), want) {
			t.Errorf("%s: %d %s", role, got.StatusCode, text)
		}
	}
	r.end()
}

// TestServeEmpty: where nothing is kept yet there is a gym all the same, and a way in for its
// owner; served again it is the same one.
func TestServeEmpty(t *testing.T) {
	dir := t.TempDir()
	first := serving(t, "serve", "--data", dir)
	link := first.said.Links["the owner of A new gym"]
	if link == "" {
		t.Fatalf("no way in: %v", first.said)
	}
	first.comeIn("owner", link)
	first.end()
	again := serving(t, "serve", "--data", dir)
	if len(again.said.Links) > 0 {
		t.Errorf("served again there is another gym: %v", again.said)
	}
	again.end()
}
