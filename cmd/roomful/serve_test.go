package main

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"path/filepath"
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
	got, err := r.clients[who].PostForm(link, url.Values{"name": {"Olu"}})
	if err != nil {
		r.t.Fatal(err)
	}
	defer got.Body.Close()
	if text, _ := io.ReadAll(got.Body); got.StatusCode != 200 || !strings.Contains(string(text), "You are") {
		r.t.Fatalf("%s comes in: %d %s", who, got.StatusCode, text)
	}
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

// TestGym makes a gym by script: brought in from files, its owner and a member let in, a
// score sent twice and read back, all of it backed up, restored elsewhere and the same.
func TestGym(t *testing.T) {
	dir := t.TempDir()
	data, elsewhere := filepath.Join(dir, "gym"), filepath.Join(dir, "elsewhere")
	do(t, "import", "../../demo", "--data", data)
	r := serving(t, "serve", "--data", data)
	if len(r.said.Links) != 1 {
		t.Fatalf("links %v", r.said.Links)
	}
	r.comeIn("owner", r.said.Links["the owner of The Drying Floor"])
	link := r.ask("owner", "POST", "/invitations", `{"role":"member","person":"rhona"}`)["link"].(string)
	r.comeIn("rhona", r.said.Address+link)
	score := `{"id":"01930000-0000-7000-8000-000000000001","sheet":"drip-drop","day":"2027-02-03","text":"14+20, shoulder grumpy"}`
	first := r.ask("rhona", "POST", "/scores", score)
	if second := r.ask("rhona", "POST", "/scores", score); fmt.Sprint(first) != fmt.Sprint(second) {
		t.Errorf("sent twice: %v", second)
	}
	typed, err := os.ReadFile("../../demo/attempts.csv")
	if err != nil {
		t.Fatal(err)
	}
	if all, want := r.ask("rhona", "GET", "/record/rhona", "")["scores"].([]any), strings.Count(string(typed), "\nRhona,")+1; len(all) != want {
		t.Errorf("%d scores of Rhona's, want %d", len(all), want)
	}
	r.end()
	for _, word := range []string{"grumpy", "Rhona", "rhona", strings.TrimPrefix(link, "/in/")} {
		if strings.Contains(r.stderr.String(), word) {
			t.Errorf("the log says %q", word)
		}
	}
	do(t, "backup", filepath.Join(dir, "a.zip"), "--data", data)
	do(t, "restore", filepath.Join(dir, "a.zip"), "--data", elsewhere)
	for _, one := range []string{data, elsewhere} {
		do(t, "export", one+".files", "--data", one)
	}
	for _, name := range []string{"people.csv", "attempts.csv"} {
		a, err := os.ReadFile(filepath.Join(data+".files", name))
		if err != nil {
			t.Fatal(err)
		}
		b, err := os.ReadFile(filepath.Join(elsewhere+".files", name))
		if err != nil || string(a) != string(b) {
			t.Errorf("%s is not the same elsewhere: %v", name, err)
		}
		if name == "attempts.csv" && strings.Count(string(a), "shoulder grumpy") != 1 {
			t.Error("the score is not there once")
		}
	}
	if r := serving(t, "serve", "--data", elsewhere); len(r.said.Links) != 0 {
		t.Errorf("a second first owner: %v", r.said.Links)
	} else {
		r.end()
	}
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
