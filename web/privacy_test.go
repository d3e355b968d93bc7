package web_test

import (
	"archive/zip"
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"net/http"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"roomful"
	"roomful/account"
	"roomful/store"
)

// secrets are what is known of somebody: words of health, and figures of the body and of
// what they can do, as they are served to themselves.
type secrets struct{ health, body, able []string }

// crowded is a gym whose people have everything that must not be seen: Mo and Bo, Cy who
// wants to be left out of lists, and Di who is fifteen.
func crowded(t *testing.T) (*gym, map[string]secrets) {
	t.Helper()
	g := open(t)
	g.must("coach", "PUT", "/classes/c1", map[string]any{"date": "2027-03-04", "start": "17:30", "capacity": 3, "sheet": "drip"})
	for i, id := range []string{"mo", "bo", "cy", "di"} {
		name := strings.ToUpper(id[:1]) + id[1:]
		columns := map[string]string{"name": name}
		if id == "di" {
			columns["born"] = "2011-09-01"
		}
		revision := 1
		if id == "cy" || id == "di" {
			revision = 0
		}
		g.must("coach", "PUT", "/people/"+id, map[string]any{"revision": revision, "told": columns})
		if id == "cy" || id == "di" {
			g.comeIn(id, g.invite("coach", "member", id))
		}
		own := map[string]string{"mass_kg": fmt.Sprintf("7%d.37", i)}
		if id == "cy" {
			own["unlisted"] = "yes"
		}
		g.must(id, "PUT", "/people/"+id, map[string]any{"revision": revision + 1, "told": own})
		g.must(id, "PUT", "/people/"+id+"/limits/l-"+id, map[string]any{"what": "shoulder", "pain": 4, "note": "sprain-of-" + id})
		g.must(id, "POST", "/scores", map[string]any{"id": "s-" + id, "sheet": "drip", "day": "2027-03-04", "text": fmt.Sprintf("%d+1, migraine-of-%s", i+3, id)})
		g.must(id, "POST", "/sheets/drip/notes", map[string]any{"id": "n-" + id, "text": "asthma-of-" + id})
		g.must("coach", "POST", "/sheets/drip/notes", map[string]any{"id": "a-" + id, "answers": "n-" + id, "text": "inhaler-of-" + id})
		g.must("coach", "PUT", "/classes/c1/places/"+id, nil)
		g.must("coach", "PUT", "/sheets/drip/overrides/"+id, map[string]any{"work": map[string]any{"round": []any{map[string]any{"movement": "burpee", "amount": 7, "unit": "rep"}, map[string]any{"movement": "air-squat", "amount": 12, "unit": "rep"}}}})
		g.update(func(tx *store.Tx) error {
			return tx.In("ours").PutLearnt(store.Learnt{Person: id, Abilities: roomful.Abilities{MassKg: 70 + float64(i) + .37, Dims: []roomful.Dim{{Capacity: roomful.CapVO2max, Centre: 3.7 + float64(i)/97}}}})
		})
	}
	known := map[string]secrets{}
	for _, id := range []string{"mo", "bo", "cy", "di"} {
		me := g.must(id, "GET", "/me", nil)
		s := secrets{health: []string{"sprain-of-" + id, "migraine-of-" + id, "asthma-of-" + id, "inhaler-of-" + id}}
		s.body = []string{me["person"].(map[string]any)["told"].(map[string]any)["mass_kg"].(string)}
		for _, a := range me["learnt"].([]any) {
			for _, figure := range []string{"mean", "p05", "p95"} {
				text, _ := json.Marshal(a.(map[string]any)[figure])
				s.able = append(s.able, string(text))
			}
		}
		all, _ := json.Marshal(me)
		for _, word := range slices.Concat(s.health, s.body, s.able) {
			if len(word) < 4 || !strings.Contains(string(all), word) {
				t.Fatalf("%s does not see their own %q, so nothing is proved of others", id, word)
			}
		}
		known[id] = s
	}
	return g, known
}

// unpacked is what stands in an answer: of an archive, in each of its files.
func unpacked(t *testing.T, text string) string {
	t.Helper()
	archive, err := zip.NewReader(strings.NewReader(text), int64(len(text)))
	if err != nil {
		return text
	}
	var all strings.Builder
	for _, file := range archive.File {
		in, err := file.Open()
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.Copy(&all, in); err != nil {
			t.Fatal(err)
		}
	}
	return all.String()
}

// hiddenFrom is what somebody with a role may not read of somebody else: coaches may read of
// health and abilities, nobody of another's body mass.
func (s secrets) hiddenFrom(role string) []string {
	if account.May(role, account.SeeHealth) {
		return s.body
	}
	return slices.Concat(s.body, s.health, s.able)
}

// visitors are all who ask, with their roles.
var visitors = map[string]string{"": "", "owner": store.Owner, "coach": store.Coach, "screen": store.Screen, "mo": store.Member, "bo": store.Member, "cy": store.Member, "di": store.Member, "stranger": store.Member}

// TestPrivacy asks for everything as everybody, each page, part, feed and export, and
// searches the answers for what is known of everybody else. Each address is answered to
// somebody, or nothing would be proved of it.
func TestPrivacy(t *testing.T) {
	g, known := crowded(t)
	asked, told := 0, map[string]bool{}
	for _, q := range inquiries(t, slices.Sorted(maps.Keys(known))) {
		for who, role := range visitors {
			var body any
			if q.form != nil {
				body = q.form.Encode()
			}
			status, text, _ := g.ask(who, q.method, q.path, body, q.header...)
			text = unpacked(t, text)
			asked++
			told[q.pattern] = told[q.pattern] || status < 400
			if q.pattern == "GET /backup" { // all of the gym, and for that its owner's alone
				if (status == http.StatusOK) != (role == store.Owner) {
					t.Errorf("the backup is answered to %q with %d", who, status)
				}
				continue
			}
			for id, s := range known {
				if id == who {
					continue
				}
				for _, word := range s.hiddenFrom(role) {
					if strings.Contains(text, word) {
						t.Errorf("%s %s %v tells %q of %s: %d %s", q.method, q.path, q.header, word, who, status, text)
					}
				}
			}
		}
	}
	if asked < 3000 {
		t.Errorf("only %d answers were searched", asked)
	}
	never := []string{"GET /in/{secret}", "GET /in/{secret}/code"} // whose secret nobody knows here: what they tell has a test of its own
	for _, q := range inquiries(t, []string{"mo"}) {
		if !told[q.pattern] && !slices.Contains(never, q.pattern) {
			t.Errorf("%s is answered to nobody, so nothing is proved of it", q.pattern)
		}
	}
	for id, s := range known {
		for _, word := range slices.Concat(s.health, s.able, []string{"=" + id, "/" + id}) {
			if strings.Contains(g.log.String(), word) {
				t.Errorf("the log tells %q of %s", word, id)
			}
		}
	}
}

// TestPrivateChanges: whoever follows the gym hears that something has changed, and of what
// kind, but nothing of what it says and of whom.
func TestPrivateChanges(t *testing.T) {
	g, known := crowded(t)
	ctx, stop := context.WithCancel(t.Context())
	heard := map[string]*bytes.Buffer{}
	var listening sync.WaitGroup
	for who := range visitors {
		q, err := http.NewRequestWithContext(ctx, "GET", g.server.URL+"/changes", nil)
		if err != nil {
			t.Fatal(err)
		}
		q.AddCookie(&http.Cookie{Name: "roomful", Value: g.keys[who]})
		got, err := http.DefaultClient.Do(q)
		if err != nil {
			t.Fatal(err)
		}
		if (got.StatusCode == http.StatusOK) == (who == "") {
			t.Errorf("%q follows with %d", who, got.StatusCode)
		}
		heard[who] = new(bytes.Buffer)
		listening.Go(func() {
			defer got.Body.Close()
			_, _ = io.Copy(heard[who], got.Body) // until it is enough
		})
	}
	for id := range known {
		g.must(id, "POST", "/scores", map[string]any{"id": "t-" + id, "sheet": "drip", "day": "2027-03-04", "text": "9+1, migraine-of-" + id})
		g.must(id, "POST", "/sheets/drip/notes", map[string]any{"id": "m-" + id, "text": "asthma-of-" + id})
		g.must(id, "PUT", "/people/"+id+"/limits/k-"+id, map[string]any{"what": "knee", "pain": 5, "note": "sprain-of-" + id})
	}
	time.Sleep(time.Second) // what is told comes within a moment
	stop()
	listening.Wait()
	for who, text := range heard {
		if role := visitors[who]; role != "" && who != "stranger" && !strings.Contains(text.String(), `"kind": "limit"`) && !strings.Contains(text.String(), `"kind": "person"`) {
			t.Errorf("%s heard of no change, so nothing is proved: %q", who, text)
		}
		if who == "stranger" && strings.Contains(text.String(), "event: change") {
			t.Errorf("who is of another gym heard %q", text)
		}
		for id, s := range known {
			for _, word := range slices.Concat(s.body, s.health, s.able, []string{"t-" + id, "m-" + id, "k-" + id, `"` + id + `"`}) {
				if strings.Contains(text.String(), word) {
					t.Errorf("%s heard %q: %s", who, word, text)
				}
			}
		}
	}
}

// TestListedScores: whoever wants to be left out, and who is no adult, is in no list but
// their own and the coaches'; they come back when they like.
func TestListedScores(t *testing.T) {
	g, _ := crowded(t)
	seen := func(who string) (names []string) {
		for _, one := range g.must(who, "GET", "/sheets/drip/scores", nil)["scores"].([]any) {
			names = append(names, one.(map[string]any)["name"].(string))
		}
		slices.Sort(names)
		return names
	}
	for who, want := range map[string]string{"mo": "[Bo Mo]", "screen": "[Bo Mo]", "cy": "[Bo Cy Mo]", "di": "[Bo Di Mo]", "coach": "[Bo Cy Di Mo]", "owner": "[Bo Cy Di Mo]"} {
		if got := fmt.Sprint(seen(who)); got != want {
			t.Errorf("%s sees %s, want %s", who, got, want)
		}
	}
	g.must("cy", "PUT", "/people/cy", map[string]any{"revision": 2, "told": map[string]string{"unlisted": ""}})
	if got := fmt.Sprint(seen("mo")); got != "[Bo Cy Mo]" {
		t.Errorf("Cy came back, and Mo sees %s", got)
	}
	if status, _, _ := g.ask("di", "PUT", "/people/di", map[string]any{"revision": 2, "told": map[string]string{"born": "1990"}}); status != 403 {
		t.Errorf("Di makes herself older: %d", status)
	}
}
