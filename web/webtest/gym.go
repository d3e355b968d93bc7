package webtest

import (
	"fmt"
	"io"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"roomful"
	"roomful/account"
	"roomful/catalogue"
	"roomful/day"
	"roomful/demo"
	"roomful/desk"
	"roomful/store"
	"roomful/store/sqlite"
	"roomful/transfer"
	"roomful/web"
	"roomful/web/browser"
)

// Now is when everything happens: before the first class of the demo's day that nobody
// has scored on yet.
var Now = time.Date(2027, 4, 9, 4, 5, 0, 0, time.UTC)

// Member is who members are in the demo: somebody of its people, by their id.
const Member = "rhona"

// usual is what the only gym is called in its store, unless package crowd made it.
const usual = "gym"

// Gym is a served gym.
type Gym struct {
	URL   string
	Store *store.Store

	id     string
	random io.Reader
	owner  account.Visitor
	mu     sync.Mutex
	keys   map[string]string // cookies, by role
}

// Demo serves the invented gym, with classes on its day.
func Demo(t testing.TB) *Gym {
	t.Helper()
	return serve(t, "The Drying Floor", func(b *store.Books, lex roomful.Lexicon) error {
		folder, err := transfer.Open(demo.Files)
		if err != nil {
			return err
		}
		if _, err := transfer.Import(b, folder, lex, Now); err != nil {
			return err
		}
		return classes(b)
	})
}

// Empty serves a gym on its first day: it has an owner and nothing else.
func Empty(t testing.TB) *Gym {
	t.Helper()
	return serve(t, "The Empty Floor", func(*store.Books, roomful.Lexicon) error { return nil })
}

// serve serves a gym that a function fills.
func serve(t testing.TB, name string, fill func(*store.Books, roomful.Lexicon) error) *Gym {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	g := bare(t, usual)
	g.Update(t, func(b *store.Books) error { return fill(b, lex) }, name)
	g.open(t, lex)
	return g
}

// bare is a gym that is not made yet, in a database that goes away with the test. The same
// is random every time, so that pictures of two days can be compared.
func bare(t testing.TB, id string) *Gym {
	t.Helper()
	s, err := sqlite.Open(t.Context(), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return &Gym{Store: s, id: id, random: &steady{from: rand.NewChaCha8([32]byte{1})}, keys: map[string]string{},
		owner: account.Visitor{Gym: id, Account: store.Account{Role: store.Owner}}}
}

// open opens the gym to browsers.
func (g *Gym) open(t testing.TB, lex roomful.Lexicon) {
	var made atomic.Int64
	server := &web.Server{Store: g.Store, Lexicon: lex, Now: func() time.Time { return Now }, Random: g.random, Plain: true,
		NewID: func() (string, error) { return fmt.Sprint("id-", made.Add(1)), nil },
		Log:   slog.New(slog.DiscardHandler), Desk: desk.New(day.New(lex), g.Store)}
	at := httptest.NewServer(server.Handler())
	// Passkeys are made for names, not for numbers.
	g.URL = strings.Replace(at.URL, "127.0.0.1", "localhost", 1)
	t.Cleanup(func() { at.CloseClientConnections(); at.Close() })
}

// steady is randomness that repeats, for several at once.
type steady struct {
	mu   sync.Mutex
	from io.Reader
}

// Read implements io.Reader.
func (s *steady) Read(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.from.Read(p)
}

// classes gives the day three classes and the people of the gym places in them.
func classes(b *store.Books) error {
	today := roomful.DateOf(Now)
	people, err := b.People(false)
	if err != nil {
		return err
	}
	sheets, err := b.OnDay(today)
	if err != nil {
		return err
	}
	if len(sheets) == 0 {
		return fmt.Errorf("the demo has no sheet on %s", today)
	}
	for i, start := range []string{"06:00", "12:15", "17:30"} {
		c := store.Class{ID: fmt.Sprint("class-", i+1), Day: today, Start: start, Minutes: 60, Capacity: 18, Document: sheets[0].ID}
		if err := b.PutClass(c); err != nil {
			return err
		}
		for j, p := range people {
			if j%3 != i {
				continue
			}
			if _, err := b.SignUp(c.ID, p.ID); err != nil {
				return err
			}
		}
	}
	return nil
}

// Update changes what is kept, as an owner might.
func (g *Gym) Update(t testing.TB, change func(*store.Books) error, newName ...string) {
	t.Helper()
	if err := g.Store.Update(t.Context(), store.By{At: Now}, func(tx *store.Tx) error {
		for _, name := range newName {
			if err := tx.MakeGym(store.Gym{ID: g.id, Name: name, Zone: "Europe/London", MadeAt: Now}); err != nil {
				return err
			}
		}
		return change(tx.In(g.id))
	}); err != nil {
		t.Fatal(err)
	}
}

// Invite makes an invitation for a role and gives its secret. A member is [Member].
func (g *Gym) Invite(t testing.TB, role string) (secret string) {
	t.Helper()
	g.Update(t, func(b *store.Books) (err error) {
		person := ""
		if role == store.Member {
			person = Member
		}
		secret, err = g.owner.Invite(b, role, person, Now, g.random)
		return err
	})
	return secret
}

// Tab opens a tab that has come in with a role by an invitation; "" is nobody.
func (g *Gym) Tab(t testing.TB, role string, v browser.View) *browser.Tab {
	t.Helper()
	tab := browser.Open(t, v)
	if role != "" {
		tab.Cookie(g.URL, "roomful", g.Key(t, role))
	}
	return tab
}

// Key is the cookie of a device that has come in with a role, once for each.
func (g *Gym) Key(t testing.TB, role string) string {
	t.Helper()
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.keys[role] == "" {
		client := &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
		got, err := client.PostForm(g.URL+"/in/"+g.Invite(t, role), url.Values{"name": {"Olu"}})
		if err != nil {
			t.Fatal(err)
		}
		defer got.Body.Close()
		for _, c := range got.Cookies() {
			g.keys[role] = c.Value
		}
		if got.StatusCode != http.StatusSeeOther || g.keys[role] == "" {
			t.Fatalf("coming in as %s: %s", role, got.Status)
		}
	}
	return g.keys[role]
}

// Fetch is what htmx gets as a role from an address within a page: of a form that is
// posted, or without one.
func (g *Gym) Fetch(t testing.TB, role, path string, form url.Values) string {
	t.Helper()
	method, body := http.MethodGet, io.Reader(nil)
	if form != nil {
		method, body = http.MethodPost, strings.NewReader(form.Encode())
	}
	q, err := http.NewRequestWithContext(t.Context(), method, g.URL+path, body)
	if err != nil {
		t.Fatal(err)
	}
	q.Header.Set("HX-Request", "true")
	if form != nil {
		q.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	q.AddCookie(&http.Cookie{Name: "roomful", Value: g.Key(t, role)})
	got, err := http.DefaultClient.Do(q)
	if err != nil {
		t.Fatal(err)
	}
	defer got.Body.Close()
	text, err := io.ReadAll(got.Body)
	if err != nil || got.StatusCode != http.StatusOK {
		t.Fatalf("%s as %s: %s %v", path, role, got.Status, err)
	}
	return string(text)
}
