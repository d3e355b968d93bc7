package web_test

import (
	"fmt"
	"net/http"
	"testing"
	"time"
)

// TestClass fills a class of two: who comes later waits, moves up when somebody leaves,
// and is noted when they do not come.
func TestClass(t *testing.T) {
	g := open(t)
	g.must("coach", "PUT", "/people/cy", map[string]any{"told": map[string]string{"name": "Cy"}})
	made := g.must("coach", "PUT", "/classes/c1", map[string]any{"date": "2027-03-04", "start": "17:30", "capacity": 2, "sheet": "drip"})
	if made["minutes"] != 60.0 || made["sheet"] != "drip" {
		t.Errorf("made %v", made)
	}
	own := func(who string) string {
		t.Helper()
		all := g.must(who, "GET", "/classes?from=2027-03-04", nil)["classes"].([]any)
		c := all[0].(map[string]any)
		return fmt.Sprintf("%v in, %v waiting, own %v, places %v", c["in"], c["waiting"], c["own"], c["places"] != nil)
	}
	g.must("coach", "PUT", "/classes/c1/places/cy", nil)
	g.must("mo", "PUT", "/classes/c1/places/mo", nil)
	g.must("mo", "PUT", "/classes/c1/places/mo", nil) // twice is once
	g.must("bo", "PUT", "/classes/c1/places/bo", nil)
	for _, c := range []struct{ who, want string }{
		{"mo", "2 in, 1 waiting, own in, places false"}, {"bo", "2 in, 1 waiting, own waiting, places false"},
		{"coach", "2 in, 1 waiting, own <nil>, places true"}, {"screen", "2 in, 1 waiting, own <nil>, places false"},
	} {
		if got := own(c.who); got != c.want {
			t.Errorf("%s sees %s, want %s", c.who, got, c.want)
		}
	}
	g.must("mo", "DELETE", "/classes/c1/places/mo", nil)
	if got := own("bo"); got != "2 in, 0 waiting, own in, places false" {
		t.Errorf("after Mo left: %s", got)
	}
	g.must("coach", "POST", "/classes/c1/places/cy/missed", nil)
	if places := g.must("coach", "GET", "/classes?from=2027-03-04", nil)["classes"].([]any)[0].(map[string]any)["places"]; fmt.Sprint(places) !=
		"[map[name:Cy person:cy state:missed] map[name:Mo person:mo state:out] map[name:Bo person:bo state:in]]" {
		t.Errorf("the coach sees %v", places)
	}
	// Two coaches change different things of one class: both hold.
	g.must("coach", "PUT", "/classes/c1", map[string]any{"capacity": 5})
	if got := g.must("owner", "PUT", "/classes/c1", map[string]any{"start": "18:00"}); got["capacity"] != 5.0 || got["start"] != "18:00" || got["sheet"] != "drip" {
		t.Errorf("after both: %v", got)
	}
	g.must("coach", "PUT", "/classes/c1", map[string]any{"called_off": true})
	for _, c := range []struct {
		who, method, path string
		body              any
		want              int
	}{
		{"mo", "PUT", "/classes/c1/places/mo", nil, 400}, // called off
		{"mo", "PUT", "/classes/c1/places/bo", nil, 403},
		{"mo", "DELETE", "/classes/c1/places/bo", nil, 403},
		{"mo", "POST", "/classes/c1/places/bo/missed", nil, 403},
		{"mo", "PUT", "/classes/c1", map[string]any{"capacity": 1}, 403},
		{"screen", "PUT", "/classes/c1/places/mo", nil, 403},
		{"stranger", "PUT", "/classes/c1/places/mo", nil, 404},
		{"coach", "PUT", "/classes/c1/places/nobody", nil, 404},
		{"coach", "PUT", "/classes/nothing/places/mo", nil, 404},
		{"coach", "PUT", "/classes/c2", map[string]any{"start": "17:30"}, 400},
		{"coach", "PUT", "/classes/c2", map[string]any{"date": "2027-03-04", "start": "25:00"}, 400},
		{"coach", "PUT", "/classes/c2", map[string]any{"date": "2027-03-04", "start": "17:30", "minutes": 0}, 400},
		{"coach", "PUT", "/classes/c2", map[string]any{"date": "2027-03-04", "start": "17:30", "capacity": -1}, 400},
		{"coach", "PUT", "/classes/c2", map[string]any{"date": "2027-03-04", "start": "17:30", "sheet": "nothing"}, 404},
		{"coach", "PUT", "/classes/..%2F..%2Fc2", map[string]any{"date": "2027-03-04", "start": "17:30"}, 400},
		{"mo", "GET", "/classes?from=yesterday", nil, 400},
		{"mo", "GET", "/classes?from=2027-01-01&to=2029-01-01", nil, 400},
		{"mo", "GET", "/classes?to=9999-12-31", nil, 400},
	} {
		if status, text, _ := g.ask(c.who, c.method, c.path, c.body); status != c.want {
			t.Errorf("%s %s as %s: %d %.200s, want %d", c.method, c.path, c.who, status, text, c.want)
		}
	}
}

// TestClassOver: once a class is over its places are the coach's, by form and for programs
// alike, and so is somebody's who did not come from when that is noted.
func TestClassOver(t *testing.T) {
	g := open(t)
	for _, id := range []string{"c1", "c2"} {
		g.must("coach", "PUT", "/classes/"+id, map[string]any{"date": "2027-03-04", "start": "06:00", "sheet": "drip"})
		g.must("mo", "PUT", "/classes/"+id+"/places/mo", nil)
	}
	g.later(70 * time.Minute) // 06:10
	g.must("coach", "POST", "/classes/c1/places/mo/missed", nil)
	refused := func(when, who, class string) {
		t.Helper()
		for what, status := range map[string]int{
			"take":   first(g.sends(who, "/classes/"+class+"/places", map[string]string{"do": "take"})),
			"leave":  first(g.sends(who, "/classes/"+class+"/places", map[string]string{"do": "leave"})),
			"PUT":    first2(g.ask(who, "PUT", "/classes/"+class+"/places/"+who, nil)),
			"DELETE": first2(g.ask(who, "DELETE", "/classes/"+class+"/places/"+who, nil)),
		} {
			if status != http.StatusBadRequest {
				t.Errorf("%s, %s by %s: %d", when, what, who, status)
			}
		}
	}
	state := func(class string) string {
		for _, c := range g.must("coach", "GET", "/classes?from=2027-03-04", nil)["classes"].([]any) {
			if c := c.(map[string]any); c["id"] == class {
				return fmt.Sprint(c["places"])
			}
		}
		return ""
	}
	refused("while it runs", "mo", "c1")
	g.later(60 * time.Minute) // 07:10
	refused("when it is over", "mo", "c2")
	refused("when it is over", "bo", "c2")
	if c1, c2 := state("c1"), state("c2"); c1 != "[map[name:Mo person:mo state:missed]]" || c2 != "[map[name:Mo person:mo state:in]]" {
		t.Errorf("there are %s and %s", c1, c2)
	}
	hasNot(t, "Mo's day", g.shows("mo", "/sheets/drip", "You were in at 06:00."), "Give it back", "Take one")
	hasNot(t, "Bo's day", g.shows("bo", "/sheets/drip", "Drip"), "Take one", "06:00")
	g.must("coach", "DELETE", "/classes/c2/places/mo", nil) // who came is theirs to say
	g.must("coach", "PUT", "/classes/c1/places/mo", nil)
}

func first2(status int, _ string, _ http.Header) int { return status }

// TestToday is the day on the gym's own clock: at five in the evening in UTC it is
// tomorrow on the other side of the world.
func TestToday(t *testing.T) {
	g := open(t)
	g.later(12 * time.Hour) // 2027-03-04 17:00 in UTC
	g.must("owner", "PUT", "/settings", map[string]any{"text": "zone: Pacific/Auckland\n"})
	g.must("coach", "PUT", "/classes/c1", map[string]any{"date": "2027-03-04", "start": "06:00"})
	g.must("coach", "PUT", "/classes/c2", map[string]any{"date": "2027-03-05", "start": "06:00"})
	if got := g.must("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "text": "5+20"}); got["date"] != "2027-03-05" {
		t.Errorf("a score without a day is of %v", got["date"])
	}
	all := g.must("mo", "GET", "/classes", nil)["classes"].([]any)
	if len(all) != 1 || all[0].(map[string]any)["id"] != "c2" {
		t.Errorf("from today on there are %v", all)
	}
}
