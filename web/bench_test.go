package web_test

import (
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/account"
	"roomful/catalogue"
	"roomful/crowd"
	"roomful/day"
	"roomful/demo"
	"roomful/desk"
	"roomful/store"
	"roomful/store/sqlite"
	"roomful/transfer"
	"roomful/web"
)

// BenchmarkPages asks for the pages that a gym of 500 members with five years of scores
// looks at most, packed as browsers ask for them, one after another: what a page costs
// once its day is worked out. How long pages take when many ask at once is measured by
// bench/serve.
func BenchmarkPages(b *testing.B) {
	g := benched(b)
	in := "/sheets/" + g.last
	for _, c := range []struct {
		name, who string
		path      func() string
	}{
		{"coach's day", "owner", at(in + "?class=measured")},
		{"my day", "member", at(in + "?class=measured")},
		{"my record", "member", at("/record/" + g.people[0].ID)},
		{"record", "owner", func() string { return "/record/" + g.people[g.random.IntN(len(g.people))].ID }},
		{"scores", "owner", func() string { return "/sheets/" + g.sheets[g.random.IntN(len(g.sheets))].Name + "/scores" }},
		{"class scores", "owner", at(in + "/scores?class=measured")},
		{"classes", "member", at("/classes")},
		{"sheets", "owner", at("/sheets")},
	} {
		b.Run(c.name, func(b *testing.B) {
			g.look(c.who, c.path())
			for b.Loop() {
				g.look(c.who, c.path())
			}
		})
	}
}

// at is one address.
func at(path string) func() string { return func() string { return path } }

// benchGym is a gym with many people and scores, asked without a network.
type benchGym struct {
	*testing.B
	handler http.Handler
	keys    map[string]*http.Cookie // of its owner and a member
	random  *rand.Rand
	people  []struct{ ID string }
	sheets  []struct{ Name string }
	last    string // the last sheet
}

// benched makes that gym, with a class of 26 on its last day.
func benched(b *testing.B) *benchGym {
	b.Helper()
	lex, err := catalogue.Load()
	g := &benchGym{B: b, keys: map[string]*http.Cookie{}, random: rand.New(rand.NewPCG(1, 1))}
	g.must(err)
	s, err := sqlite.Open(b.Context(), b.TempDir())
	g.must(err)
	b.Cleanup(func() { s.Close() })
	like, err := transfer.Open(demo.Files)
	g.must(err)
	works, until := day.New(lex), roomful.Date{Year: now.Year(), Month: now.Month(), Day: now.Day()}
	g.must(crowd.Make(b.Context(), s, works, crowd.Plan{Gyms: 1, Members: 500, Years: 5, Seed: 1, Until: until, Like: like}, func(int) {}))
	random, ids := new(counting), 0
	g.handler = (&web.Server{Store: s, Lexicon: lex, Now: func() time.Time { return now }, Random: random, Plain: true, Log: slog.New(slog.NewTextHandler(io.Discard, nil)),
		NewID: func() (string, error) { ids++; return fmt.Sprint("id-", ids), nil }, Desk: desk.New(works, s)}).Handler()
	secret := ""
	g.must(s.Update(b.Context(), store.By{At: now}, func(tx *store.Tx) (err error) {
		secret, err = account.FirstOwner(tx.In("crowd-1-0"), now, random)
		return err
	}))
	g.comeIn("owner", "/in/"+secret)
	var all struct {
		People []struct{ ID string }
		Sheets []struct{ Name string }
	}
	for _, path := range []string{"/people", "/sheets"} {
		g.must(json.Unmarshal(g.ask("owner", "GET", path, "").Body.Bytes(), &all))
	}
	g.people, g.sheets, g.last = all.People, all.Sheets, all.Sheets[len(all.Sheets)-1].Name
	g.ask("owner", "PUT", "/classes/measured", `{"date":"2027-03-04","start":"17:30","sheet":"`+g.last+`"}`)
	for _, p := range g.people[:26] {
		g.ask("owner", "PUT", "/classes/measured/places/"+p.ID, "")
	}
	var link struct{ Link string }
	g.must(json.Unmarshal(g.ask("owner", "POST", "/invitations", `{"role":"member","person":"`+g.people[0].ID+`"}`).Body.Bytes(), &link))
	g.comeIn("member", link.Link)
	return g
}

// must expects that something went well.
func (g *benchGym) must(err error) {
	if err != nil {
		g.Helper()
		g.Fatal(err)
	}
}

// comeIn follows a link and keeps the cookie.
func (g *benchGym) comeIn(who, link string) {
	cookie, err := http.ParseSetCookie(g.ask("", "POST", link, "").Header().Get("Set-Cookie"))
	g.must(err)
	g.keys[who] = cookie
}

// look asks for a page as a browser does.
func (g *benchGym) look(who, path string) {
	g.ask(who, "GET", path, "", "Accept", "text/html", "Accept-Encoding", "gzip")
}

// ask asks as somebody and expects an answer.
func (g *benchGym) ask(who, method, path, body string, header ...string) *httptest.ResponseRecorder {
	q := httptest.NewRequest(method, path, strings.NewReader(body))
	for i := 0; i+1 < len(header); i += 2 {
		q.Header.Set(header[i], header[i+1])
	}
	if key := g.keys[who]; key != nil {
		q.AddCookie(key)
	}
	w := httptest.NewRecorder()
	g.handler.ServeHTTP(w, q)
	if w.Code >= http.StatusBadRequest {
		g.Helper()
		g.Fatalf("%s %s as %s: %d %s", method, path, who, w.Code, w.Body)
	}
	return w
}
