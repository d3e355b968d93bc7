package web_test

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"roomful"
	"roomful/account"
	"roomful/catalogue"
	"roomful/day"
	"roomful/desk"
	"roomful/store"
	"roomful/store/sqlite"
	"roomful/web"
)

// counting is randomness that repeats.
type counting int

func (c *counting) Read(p []byte) (int, error) {
	for i := range p {
		*c++
		p[i] = byte(*c) ^ byte(*c>>8)
	}
	return len(p), nil
}

// gym is a server with two gyms, and a cookie for each who is signed in: owner, coach,
// mo, bo and screen of ours, and stranger, a member of theirs.
type gym struct {
	done   background // what was handed on to it
	t      *testing.T
	server *httptest.Server
	store  *store.Store
	log    *bytes.Buffer
	keys   map[string]string
	passed atomic.Int64 // since the clock began, in nanoseconds
}

// later moves the server's clock on.
func (g *gym) later(by time.Duration) { g.passed.Add(int64(by)) }

var now = time.Date(2027, 3, 4, 5, 0, 0, 0, time.UTC)

const drip = "Drip\n2027-03-04, 60 min\n\nmain: as many rounds as possible in 12 min\n  10 burpees\n  12 air squats\n"

func open(t *testing.T) *gym {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	s, err := sqlite.Open(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	g := &gym{t: t, store: s, log: new(bytes.Buffer), keys: map[string]string{}}
	random, ids := new(counting), 0
	srv := &web.Server{Store: s, Lexicon: lex, Now: func() time.Time { return now.Add(time.Duration(g.passed.Load())) }, Random: random, Plain: true,
		NewID: func() (string, error) { ids++; return fmt.Sprint("id-", ids), nil }, Log: slog.New(slog.NewTextHandler(g.log, nil)),
		Desk: desk.New(day.New(lex), s), Background: &g.done}
	g.server = httptest.NewServer(srv.Handler())
	t.Cleanup(func() { g.server.CloseClientConnections(); g.server.Close(); s.Close() })
	for _, one := range []string{"ours", "theirs"} {
		var secret string
		g.update(func(tx *store.Tx) (err error) {
			if err := tx.MakeGym(store.Gym{ID: one, Name: "Gym " + one, Zone: "UTC", MadeAt: now}); err != nil {
				return err
			}
			for _, id := range []string{"mo", "bo"} {
				if err := tx.In(one).PutPerson(store.Person{Athlete: roomful.Athlete{ID: id, Name: strings.ToUpper(id[:1]) + id[1:]}}); err != nil {
					return err
				}
			}
			secret, err = account.FirstOwner(tx.In(one), now, random)
			return err
		})
		owner := map[string]string{"ours": "owner", "theirs": "their owner"}[one]
		g.comeIn(owner, "/in/"+secret)
	}
	for who, role := range map[string]string{"coach": "coach", "screen": "screen", "mo": "member", "bo": "member"} {
		person := ""
		if role == "member" {
			person = who
		}
		g.comeIn(who, g.invite("owner", role, person))
	}
	g.comeIn("stranger", g.invite("their owner", "member", "mo"))
	g.must("coach", "PUT", "/sheets/drip", map[string]any{"text": drip})
	return g
}

func (g *gym) update(f func(*store.Tx) error) {
	g.t.Helper()
	if err := g.store.Update(context.Background(), store.By{At: now}, f); err != nil {
		g.t.Fatal(err)
	}
}

// ask asks as somebody, "" for nobody; a body is sent as JSON.
func (g *gym) ask(who, method, path string, body any, header ...string) (int, string, http.Header) {
	g.t.Helper()
	var in io.Reader
	switch of := body.(type) {
	case nil:
	case string:
		in = strings.NewReader(of)
	default:
		text, err := json.Marshal(of)
		if err != nil {
			g.t.Fatal(err)
		}
		in = bytes.NewReader(text)
	}
	q, err := http.NewRequestWithContext(g.t.Context(), method, g.server.URL+path, in)
	if err != nil {
		g.t.Fatal(err)
	}
	if key := g.keys[who]; key != "" {
		q.AddCookie(&http.Cookie{Name: "roomful", Value: key})
		q.AddCookie(&http.Cookie{Name: "__Host-roomful", Value: key}) // over https
	}
	for i := 0; i+1 < len(header); i += 2 {
		q.Header.Set(header[i], header[i+1])
		if header[i] == "Host" {
			q.Host = header[i+1]
		}
	}
	client := &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	got, err := client.Do(q)
	if err != nil {
		g.t.Fatal(err)
	}
	defer got.Body.Close()
	text, err := io.ReadAll(got.Body)
	if err != nil {
		g.t.Fatal(err)
	}
	if got.StatusCode == http.StatusOK && strings.HasPrefix(got.Header.Get("Content-Type"), "application/json") {
		g.described(method, path, string(text))
	}
	return got.StatusCode, string(text), got.Header
}

// page asks for a page as a browser does.
func (g *gym) page(who, path string) (status int, text string) {
	g.t.Helper()
	status, text, _ = g.ask(who, "GET", path, nil, "Accept", "text/html")
	return status, text
}

// must asks and expects an answer.
func (g *gym) must(who, method, path string, body any) map[string]any {
	g.t.Helper()
	status, text, _ := g.ask(who, method, path, body)
	out := map[string]any{}
	if err := json.Unmarshal([]byte(text), &out); status != 200 || err != nil {
		g.t.Fatalf("%s %s as %s: %d %s", method, path, who, status, text)
	}
	return out
}

// invite makes an invitation and returns its link.
func (g *gym) invite(by, role, person string) string {
	g.t.Helper()
	return g.must(by, "POST", "/invitations", map[string]string{"role": role, "person": person})["link"].(string)
}

// comeIn follows a link and keeps the cookie.
func (g *gym) comeIn(who, link string) {
	g.t.Helper()
	status, text, header := g.ask("", "POST", link, "name=Olu", "Content-Type", "application/x-www-form-urlencoded")
	cookie, err := http.ParseSetCookie(header.Get("Set-Cookie"))
	if status != http.StatusSeeOther || err != nil || !cookie.HttpOnly || cookie.SameSite != http.SameSiteLaxMode {
		g.t.Fatalf("%s comes in: %d %s %v", who, status, text, header)
	}
	g.keys[who] = cookie.Value
}

// TestRoutes walks every route as each role: nobody gets in where they may not, and a
// member of another gym finds nothing of ours.
func TestRoutes(t *testing.T) {
	g := open(t)
	roles := map[string]string{"owner": store.Owner, "coach": store.Coach, "mo": store.Member, "screen": store.Screen, "stranger": store.Member}
	for _, r := range slices.Concat(web.Routes(), web.Pages()) {
		method, path, _ := strings.Cut(r.Pattern, " ")
		path = strings.NewReplacer("{$}", "", "{secret}", "no-such-secret", "{name}", "drip", "{person}", "mo", "{asset}", "none").Replace(path)
		if path == "/changes" || strings.HasPrefix(path, "/out") { // streams, and ends of sign-ins, have tests of their own
			continue
		}
		if status, _, _ := g.ask("", method, path, nil, "Accept", r.Accept); r.Action != "" && status != http.StatusUnauthorized || r.Action == "" && status == http.StatusUnauthorized {
			t.Errorf("%s as nobody: %d", r.Pattern, status)
		}
		for who, role := range roles {
			status, text, header := g.ask(who, method, path, nil, "Accept", r.Accept)
			may := r.Action == "" || account.May(role, r.Action)
			if r.Action != "" && (status == http.StatusForbidden) == may && !(who == "stranger" && status == http.StatusNotFound) {
				t.Errorf("%s as %s: %d %s", r.Pattern, who, status, text)
			}
			if who == "stranger" && strings.Contains(text, "10 burpees") {
				t.Errorf("%s shows a stranger our sheet: %s", r.Pattern, text)
			}
			if policy := header.Get("Content-Security-Policy"); !strings.Contains(policy, "default-src 'none'") || header.Get("X-Content-Type-Options") != "nosniff" {
				t.Errorf("%s is not guarded: %q", r.Pattern, policy)
			}
		}
	}
}

// TestDay goes through a day by script: invited, a sheet published, scores sent twice,
// read back by each as far as they may see.
func TestDay(t *testing.T) {
	g := open(t)
	sent := map[string]any{"id": "s1", "sheet": "drip", "day": "2027-03-04", "text": "5+20 w/ singles, back tight"}
	first := g.must("mo", "POST", "/scores", sent)
	if first["score"] != "5+20" || first["person"] != "mo" {
		t.Errorf("read as %v", first)
	}
	if again := g.must("mo", "POST", "/scores", sent); fmt.Sprint(again) != fmt.Sprint(first) {
		t.Errorf("sent twice: %v", again)
	}
	sent["text"] = "6+1"
	if status, text, _ := g.ask("mo", "POST", "/scores", sent); status != http.StatusConflict {
		t.Errorf("another score under the same id: %d %s", status, text)
	}
	g.must("coach", "POST", "/scores", map[string]any{"id": "s2", "person": "bo", "sheet": "drip", "day": "2027-03-04", "text": "6+3"})
	if status, _, _ := g.ask("mo", "POST", "/scores", map[string]any{"id": "s3", "person": "bo", "sheet": "drip", "text": "1+1"}); status != http.StatusForbidden {
		t.Errorf("for somebody else: %d", status)
	}
	for who, private := range map[string]bool{"mo": true, "coach": true, "owner": true, "bo": false, "screen": false} {
		status, text, _ := g.ask(who, "GET", "/sheets/drip/scores", nil)
		if status != 200 || !strings.Contains(text, `"score": "5+20"`) || !strings.Contains(text, `"score": "6+3"`) {
			t.Errorf("%s sees %d %s", who, status, text)
		}
		if strings.Contains(text, "tight") != private {
			t.Errorf("%s sees what is private: %v", who, strings.Contains(text, "tight"))
		}
	}
	for who, want := range map[string]int{"mo": 200, "coach": 200, "bo": 403, "screen": 403, "stranger": 200} {
		status, text, _ := g.ask(who, "GET", "/record/mo", nil)
		if status != want || who == "stranger" && strings.Contains(text, "5+20") {
			t.Errorf("%s asks for Mo's record: %d %s", who, status, text)
		}
	}
	if log := g.log.String(); strings.Contains(log, "tight") || strings.Contains(log, "/in/id") || strings.Contains(log, "Mo") {
		t.Errorf("the log tells: %s", log)
	}
}

// TestPages: a record comes a page at a time, the latest first, and each score once.
func TestPages(t *testing.T) {
	g := open(t)
	const many = 120
	for i := range many {
		g.must("mo", "POST", "/scores", map[string]any{"id": fmt.Sprintf("s%03d", i), "sheet": "drip", "day": fmt.Sprintf("2027-03-%02d", 1+i/10), "text": "5+20"})
	}
	var ids []string
	older := ""
	for pages := 1; ; pages++ {
		status, text, _ := g.ask("mo", "GET", "/record/mo?before="+older, nil)
		var got struct {
			Scores []struct{ ID string }
			Older  string
		}
		if err := json.Unmarshal([]byte(text), &got); err != nil || status != http.StatusOK {
			t.Fatal(status, text, err)
		}
		for _, s := range got.Scores {
			ids = append(ids, s.ID)
		}
		if older = got.Older; older == "" {
			if pages != 3 {
				t.Errorf("%d scores on %d pages", many, pages)
			}
			break
		}
	}
	for i, id := range ids {
		if want := fmt.Sprintf("s%03d", many-1-i); id != want || len(ids) != many {
			t.Fatalf("%d of %d scores, number %d is %s, want %s", len(ids), many, i, id, want)
		}
	}
}

// TestTwoCoaches: of two who edit one sheet neither loses a word.
func TestTwoCoaches(t *testing.T) {
	g := open(t)
	g.must("coach", "PUT", "/sheets/drip", map[string]any{"text": drip + "\nmobility: 5 min\n  pigeon stretch\n", "revision": 1})
	status, text, _ := g.ask("owner", "PUT", "/sheets/drip", map[string]any{"text": strings.Replace(drip, "10", "11", 1), "revision": 1})
	if status != http.StatusConflict || !strings.Contains(text, `"stale": true`) || !strings.Contains(text, "pigeon") {
		t.Errorf("%d %s", status, text)
	}
	g.update(func(tx *store.Tx) error {
		d, err := tx.In("ours").Named(store.Sheet, "drip")
		if err != nil {
			return err
		}
		all, err := tx.In("ours").Revisions(d.ID)
		if len(all) != 3 || !all[2].Aside || !strings.Contains(all[2].Text, "11 burpees") {
			t.Errorf("kept are %+v", all)
		}
		return err
	})
	out := g.must("coach", "PUT", "/sheets/slip", map[string]any{"text": "New\n\nmain: for time\n  10 burpeees\n"})
	if ds := out["diagnostics"].([]any); len(ds) == 0 {
		t.Error("a sheet with a fault is saved without a word")
	}
}

// TestDoor: a link names who it is for, works once, and signing out ends it.
func TestDoor(t *testing.T) {
	g := open(t)
	link := g.invite("coach", "member", "mo")
	if status, text, _ := g.ask("", "GET", link, nil, "Accept", "text/html"); status != 200 || !strings.Contains(text, "This link is for Mo, as member.") {
		t.Errorf("%d %s", status, text)
	}
	old := g.keys["mo"]
	g.comeIn("mo", link)
	if status, text, _ := g.ask("", "POST", link, nil); status != http.StatusForbidden || !strings.Contains(text, "new invitation") {
		t.Errorf("used twice: %d %s", status, text)
	}
	if status, text := g.page("mo", "/me"); status != 200 || !strings.Contains(text, "You are Mo, member.") {
		t.Errorf("%d %s", status, text)
	}
	if status, _, _ := g.ask("mo", "POST", "/out", nil); status != http.StatusNoContent {
		t.Errorf("signing out: %d", status)
	}
	if status, _, _ := g.ask("mo", "GET", "/", nil); status != http.StatusUnauthorized {
		t.Errorf("signed out: %d", status)
	}
	g.keys["mo"] = old
	if status, _, _ := g.ask("mo", "POST", "/out/everywhere", nil); status != http.StatusNoContent {
		t.Errorf("the other device: %d", status)
	}
	if status, text, _ := g.ask("coach", "POST", "/invitations", map[string]string{"role": "coach"}); status == 200 {
		t.Errorf("a coach invites a coach: %s", text)
	}
	tries := 0
	for range 10 {
		if status, _, _ := g.ask("", "POST", "/in/guess", nil); status == http.StatusTooManyRequests {
			tries++
		}
	}
	if tries == 0 {
		t.Error("somebody may guess as often as they like")
	}
}

// TestPassword: an owner sets a password, which signs their other devices out, and comes
// in with it elsewhere; whoever guesses has to wait, and learns nothing.
func TestPassword(t *testing.T) {
	g := open(t)
	first := g.keys["coach"]
	set := g.must("coach", "POST", "/password", map[string]string{"password": "salt and pepper and rain"})
	if status, text, _ := g.ask("coach", "POST", "/password", map[string]string{"password": "short"}); status != 400 || !strings.Contains(text, "at least 10") {
		t.Errorf("a short one: %d %s", status, text)
	}
	enter := map[string]any{"gym": set["gym"], "account": set["account"], "password": "salt and pepper and rain"}
	status, _, header := g.ask("", "POST", "/enter", enter)
	cookie, err := http.ParseSetCookie(header.Get("Set-Cookie"))
	if status != http.StatusNoContent || err != nil {
		t.Fatalf("with the password: %d", status)
	}
	g.keys["coach"] = cookie.Value
	g.must("coach", "GET", "/people", nil)
	g.must("coach", "POST", "/password", map[string]string{"password": "another word or two"})
	g.keys["coach"] = first
	if status, _, _ := g.ask("coach", "GET", "/people", nil); status != http.StatusUnauthorized {
		t.Errorf("the other device after a new password: %d", status)
	}
	said := ""
	for _, guess := range []map[string]any{enter, {"gym": set["gym"], "account": "nobody", "password": "x"}, {"gym": "none", "account": set["account"], "password": ""}} {
		status, text, _ := g.ask("", "POST", "/enter", guess)
		if status != http.StatusUnauthorized || said != "" && text != said {
			t.Errorf("a guess: %d %s", status, text)
		}
		said = text
	}
	for range 5 {
		status, _, _ = g.ask("", "POST", "/enter", enter)
	}
	if status != http.StatusTooManyRequests {
		t.Errorf("after many guesses: %d", status)
	}
}

// TestCode draws a link that holds, and no other.
func TestCode(t *testing.T) {
	g := open(t)
	link := g.invite("coach", "member", "mo")
	if status, text, header := g.ask("", "GET", link+"/code", nil); status != 200 || header.Get("Content-Type") != "image/svg+xml" || !strings.HasPrefix(text, "<svg") {
		t.Errorf("%d %s", status, text)
	}
	if status, _, _ := g.ask("", "GET", "/in/other/code", nil); status != http.StatusForbidden {
		t.Errorf("of a link that does not hold: %d", status)
	}
}

// TestBadInput: what cannot be is refused with its status, and never with a failure.
func TestBadInput(t *testing.T) {
	g := open(t)
	for _, c := range []struct {
		who, method, path string
		body              any
		header            []string
		want              int
	}{
		{"mo", "POST", "/scores", "", nil, 400},
		{"mo", "POST", "/scores", "{", nil, 400},
		{"mo", "POST", "/scores", `{"id":"x","sheet":"drip","text":"5"} {}`, nil, 400},
		{"mo", "POST", "/scores", `{"id":"x","nonsense":1}`, nil, 400},
		{"mo", "POST", "/scores", `{"id":"x","sheet":"drip","text":""}`, nil, 400},
		{"mo", "POST", "/scores", `{"id":"x","sheet":"nothing","text":"5"}`, nil, 404},
		{"mo", "POST", "/scores", `{"id":"x","sheet":"drip","day":"yesterday","text":"5"}`, nil, 400},
		{"mo", "POST", "/scores", `{"text":"` + strings.Repeat("x", 2<<20) + `"}`, nil, 413},
		{"screen", "POST", "/scores", `{}`, nil, 403},
		{"coach", "POST", "/scores", `{"id":"x","person":"nobody","sheet":"drip","text":"5"}`, nil, 404},
		{"coach", "GET", "/record/nobody", nil, nil, 404},
		{"coach", "GET", "/record/mo?before=yesterday.7", nil, nil, 400},
		{"coach", "GET", "/record/mo?before=2027-03-04", nil, nil, 400},
		{"coach", "POST", "/invitations", map[string]string{"role": "member", "person": "nobody"}, nil, 404},
		{"owner", "POST", "/invitations", map[string]string{"role": "king"}, nil, 400},
		{"mo", "POST", "/out", nil, []string{"Origin", "https://elsewhere.example", "Sec-Fetch-Site", "cross-site"}, 403},
		{"mo", "GET", "/nothing", nil, nil, 404},
		{"mo", "DELETE", "/sheets/drip", nil, nil, 405},
		{"mo", "GET", "/changes", nil, []string{"Last-Event-ID", "x"}, 400},
	} {
		if status, text, _ := g.ask(c.who, c.method, c.path, c.body, c.header...); status != c.want {
			t.Errorf("%s %s %.60v: %d %.200s, want %d", c.method, c.path, c.body, status, text, c.want)
		}
	}
}

// TestPlainRefusals: why something was refused is said in words for whoever sent it, with
// the next step, and in one form for every address.
func TestPlainRefusals(t *testing.T) {
	g := open(t)
	for _, c := range []struct {
		who, method, path string
		body              any
		says              []string
	}{
		{"mo", "POST", "/scores", "", []string{"there is nothing"}},
		{"mo", "POST", "/scores", "{", []string{"it stops in the middle"}},
		{"mo", "POST", "/scores", "id=1", []string{"it is no JSON from byte 1 on"}},
		{"mo", "POST", "/scores", `[]`, []string{"it is no object"}},
		{"mo", "POST", "/scores", `{"text":12}`, []string{"text cannot be the number"}},
		{"mo", "POST", "/scores", `{"text":["12"]}`, []string{"text cannot be a list"}},
		{"mo", "POST", "/scores", `{"id":"x","sheet":"drip","text":"` + "\xff" + `"}`, []string{"bytes that are no letters", "UTF-8"}},
		{"owner", "POST", "/invitations", `{"role":"king"}`, []string{`no role is called \"king\"`, "owner, coach, member, screen"}},
		{"coach", "POST", "/invitations", `{"role":"owner"}`, []string{"not yours", "ask the owner"}},
		{"coach", "GET", "/accounts", nil, []string{"not yours", "ask the owner"}},
		{"mo", "GET", "/people", nil, []string{"not yours", "ask a coach"}},
		{"mo", "GET", "/nothing", nil, []string{"nothing at this address", "/openapi.json"}},
		{"mo", "DELETE", "/sheets/drip", nil, []string{"does not take DELETE", "it takes GET, HEAD, POST, PUT"}},
	} {
		status, text, header := g.ask(c.who, c.method, c.path, c.body)
		for _, says := range append(c.says, `"error"`, `"hint"`) {
			if status < 400 || !strings.Contains(text, says) || !strings.HasPrefix(header.Get("Content-Type"), "application/json") {
				t.Errorf("%s %s %.60v: %d %s, want %s", c.method, c.path, c.body, status, text, says)
			}
		}
	}
}

// TestChanges follows what happens; who comes back with the last id misses nothing.
func TestChanges(t *testing.T) {
	g := open(t)
	follow := func(after string, want int) (ids []string) {
		ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
		defer cancel()
		q, err := http.NewRequestWithContext(ctx, "GET", g.server.URL+"/changes", nil)
		if err != nil {
			t.Fatal(err)
		}
		q.AddCookie(&http.Cookie{Name: "roomful", Value: g.keys["bo"]})
		if after != "" {
			q.Header.Set("Last-Event-ID", after)
		}
		got, err := http.DefaultClient.Do(q)
		if err != nil {
			t.Fatal(err)
		}
		defer got.Body.Close()
		lines := bufio.NewScanner(got.Body)
		for len(ids) < want+1 && lines.Scan() {
			if id, ok := strings.CutPrefix(lines.Text(), "id: "); ok {
				if ids = append(ids, id); len(ids) == 1 && after == "" {
					for _, id := range []string{"s1", "s2"} {
						g.must("mo", "POST", "/scores", map[string]any{"id": id, "sheet": "drip", "day": "2027-03-04", "text": "5+20"})
					}
				}
			}
			if strings.Contains(lines.Text(), "mo") {
				t.Errorf("an event says whose: %s", lines.Text())
			}
		}
		return ids
	}
	live := follow("", 2) // a score each
	if len(live) != 3 {
		t.Fatalf("heard %v", live)
	}
	if again := follow(live[0], 2); fmt.Sprint(again) != fmt.Sprint(live) {
		t.Errorf("back with the last id: %v, want %v", again, live)
	}
}

// TestStreamEndsWithSignIn: a stream tells no more once its device was signed out.
func TestStreamEndsWithSignIn(t *testing.T) {
	g := open(t)
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Second)
	defer cancel()
	q, err := http.NewRequestWithContext(ctx, "GET", g.server.URL+"/changes", nil)
	if err != nil {
		t.Fatal(err)
	}
	q.AddCookie(&http.Cookie{Name: "roomful", Value: g.keys["mo"]})
	got, err := http.DefaultClient.Do(q)
	if err != nil {
		t.Fatal(err)
	}
	defer got.Body.Close()
	lines := bufio.NewScanner(got.Body)
	for lines.Scan() && !strings.HasPrefix(lines.Text(), "id: ") {
	}
	if status, _, _ := g.ask("mo", "POST", "/out", nil); status != http.StatusNoContent {
		t.Fatal(status)
	}
	for lines.Scan() {
	}
	if ctx.Err() != nil {
		t.Error("the stream goes on after its sign-in has ended")
	}
}

// TestShutdown: a stream that is open does not keep the server from ending.
func TestShutdown(t *testing.T) {
	g := open(t)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(t.Context())
	srv := &web.Server{Store: g.store, Plain: true, Now: func() time.Time { return now }, Log: slog.New(slog.DiscardHandler)}
	ended := make(chan error)
	go func() { ended <- srv.Serve(ctx, l) }()
	q, _ := http.NewRequestWithContext(t.Context(), "GET", "http://"+l.Addr().String()+"/changes", nil)
	q.AddCookie(&http.Cookie{Name: "roomful", Value: g.keys["bo"]})
	got, err := http.DefaultClient.Do(q)
	if err != nil || got.StatusCode != 200 {
		t.Fatal(err)
	}
	defer got.Body.Close()
	began := time.Now()
	stop()
	if err := <-ended; err != nil || time.Since(began) > 5*time.Second {
		t.Errorf("ended after %v: %v", time.Since(began), err)
	}
}

// within holds how long something took against a bound, in a test of its own: under the race
// detector it is skipped, and counted as such. ./check holds all of them without, in its
// step pages.
func within(t *testing.T, what string, took, most time.Duration) {
	t.Helper()
	t.Run(what+" in time", func(t *testing.T) {
		if raced {
			t.Skipf("%s: under the race detector %v says nothing of the %v that it may take", what, took, most)
		}
		if took > most {
			t.Errorf("%s took %v, it may take %v", what, took, most)
		}
	})
}
