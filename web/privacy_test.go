package web_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

	"roomful"
	"roomful/account"
	"roomful/store"
	"roomful/web"
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

// TestPrivacy asks for everything as everybody, and searches the answers for what is
// known of everybody else. Coaches may read of health and abilities, nobody of another's
// body mass.
func TestPrivacy(t *testing.T) {
	g, known := crowded(t)
	roles := map[string]string{"": "", "owner": store.Owner, "coach": store.Coach, "screen": store.Screen, "mo": store.Member, "bo": store.Member, "cy": store.Member, "di": store.Member, "stranger": store.Member}
	asked := 0
	for _, r := range slices.Concat(web.Routes(), web.Pages()) {
		method, pattern, _ := strings.Cut(r.Pattern, " ")
		if method != "GET" || strings.HasPrefix(pattern, "/assets") || pattern == "/changes" {
			continue // what is changed answers as what is read does; the stream has a test of its own
		}
		paths := map[string]bool{}
		for id := range known {
			paths[strings.NewReplacer("{$}", "", "{secret}", "no", "{name}", "drip", "{person}", id, "{limit}", "l-"+id, "{class}", "c1", "{account}", "no", "{passkey}", "no").Replace(pattern)] = true
		}
		for path := range paths {
			if strings.HasPrefix(path, "/classes") {
				path += "?from=2027-03-01&to=2027-03-08"
			}
			for who, role := range roles {
				status, text, _ := g.ask(who, method, path, nil, "Accept", r.Accept)
				asked++
				for id, s := range known {
					if id == who {
						continue
					}
					hidden := s.body
					if !account.May(role, account.SeeHealth) {
						hidden = slices.Concat(s.body, s.health, s.able)
					}
					for _, word := range hidden {
						if strings.Contains(text, word) {
							t.Errorf("%s %s tells %q of %s: %d %s", method, path, word, who, status, text)
						}
					}
				}
			}
		}
	}
	if asked < 300 {
		t.Errorf("only %d answers were searched", asked)
	}
	for id, s := range known {
		for _, word := range slices.Concat(s.health, s.able, []string{"=" + id, "/" + id}) {
			if strings.Contains(g.log.String(), word) {
				t.Errorf("the log tells %q of %s", word, id)
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
