package web_test

import (
	"net/http"
	"strings"
	"testing"

	"roomful"
	"roomful/store"
)

// limitsOf are what is kept of somebody's limits, by id.
func limitsOf(g *gym, who string) map[string]store.Limit {
	out := map[string]store.Limit{}
	g.update(func(tx *store.Tx) error {
		all, err := tx.In("ours").Limits(who)
		for _, l := range all {
			out[l.ID] = l
		}
		return err
	})
	return out
}

// stops fails unless somebody has one limit that stops them today, in their own word.
func (g *gym) stops(what, who string, all map[string]store.Limit) {
	g.t.Helper()
	today, n := roomful.DateOf(now), 0
	for _, l := range all {
		if l.What == "stop" && l.Word == store.Theirs && l.Since == today && l.Until == today {
			n++
		}
	}
	if n != 1 {
		g.t.Errorf("%s: %s has %d stops of her own today: %v", what, who, n, all)
	}
}

// TestRedFlagAlwaysStops says yes with all else amiss, twice: each time the answer is a
// stop, and it is written down once.
func TestRedFlagAlwaysStops(t *testing.T) {
	for what, c := range map[string]struct {
		path string
		body map[string]any
	}{
		"no place in that class": {"/sheets/bars/sore/mo?class=c1", map[string]any{"where": "knee", "pain": 3, "red_flag": true}},
		"no such class":          {"/sheets/bars/sore/mo?class=none", map[string]any{"flags": []string{"chest"}}},
		"no such sheet":          {"/sheets/none/sore/mo", map[string]any{"flags": []string{"chest"}}},
		"no such piece":          {"/sheets/bars/sore/mo", map[string]any{"flags": []string{"blow"}, "piece": "main z"}},
		"before time":            {"/sheets/bars/sore/mo", map[string]any{"red_flag": true, "at_seconds": -1}},
		"nowhere":                {"/sheets/bars/sore/mo", map[string]any{"red_flag": true, "where": "soul", "pain": 11}},
		"an unknown question":    {"/sheets/bars/sore/mo", map[string]any{"flags": []string{"x", "faint"}}},
		"a ninth way":            {"/sheets/bars/sore/mo", map[string]any{"red_flag": true, "take": 9}},
		"a bad id":               {"/sheets/bars/sore/mo", map[string]any{"red_flag": true, "id": "../x"}},
	} {
		g := lifting(t)
		g.must("coach", "PUT", "/classes/c1", map[string]any{"date": "2027-03-04", "start": "17:30", "sheet": "bars"})
		for range 2 {
			got := g.must("mo", "POST", c.path, c.body)
			if limit, _ := got["limit"].(map[string]any); got["stop"] == nil || limit["what"] != "stop" || len(got["options"].([]any)) != 0 {
				t.Errorf("%s: %v", what, got)
			}
		}
		g.stops(what, "mo", limitsOf(g, "mo"))
	}
}

// TestRedFlagByForm answers a yes by leading on to where it stands, which shows it whatever
// has become of the place or the sheet since the page was opened, and sends nothing again.
func TestRedFlagByForm(t *testing.T) {
	for what, c := range map[string]struct {
		text string // of the sheet meanwhile; empty for as it was
		form map[string]string
		word string
	}{
		"the place given back":  {"", map[string]string{"class": "c1", "where": "knee", "pain": "3", "some": "yes"}, "call your coach over now"},
		"a typo in the sheet":   {strings.Replace(bars, "front squats", "frunt sqats", 1), map[string]string{"where": "knee", "pain": "3", "flag-weight": "yes", "some": "yes"}, "No more exercise today"},
		"a way that is none":    {"", map[string]string{"where": "knee", "pain": "3", "take": "first", "some": "yes"}, "call your coach over now"},
		"a way under a kept id": {"", map[string]string{"id": "x9", "where": "knee", "pain": "4", "take": "1", "flag-blow": "yes"}, "No more exercise today"},
	} {
		g := lifting(t)
		g.must("coach", "PUT", "/classes/c1", map[string]any{"date": "2027-03-04", "start": "17:30", "sheet": "bars"})
		if c.text != "" {
			g.must("coach", "PUT", "/sheets/bars", map[string]any{"text": c.text, "revision": 1})
		}
		status, text, to := g.sends("mo", "/sheets/bars/sore/mo", c.form)
		if status != http.StatusSeeOther || strings.Contains(to, "weight") || strings.Contains(to, "blow") {
			t.Fatalf("%s: %d to %s: %s", what, status, to, mainOf(text))
		}
		for range 2 { // reloaded
			g.shows("mo", to, "Stop here", c.word, "your coach sees it")
		}
		g.stops(what, "mo", limitsOf(g, "mo"))
	}
}

// TestStopWritesNothingOver has a yes, and a way that is taken, come under the ids of other
// limits: all of those stay as they were.
func TestStopWritesNothingOver(t *testing.T) {
	g := lifting(t)
	g.must("coach", "PUT", "/people/mo/limits/clin1", map[string]any{"what": "overhead", "word": store.AClinician, "review": "2027-04-10", "note": "after the scan"})
	g.must("bo", "PUT", "/people/bo/limits/bo1", map[string]any{"what": "wrist"})
	g.must("mo", "POST", "/sheets/bars/sore/mo", map[string]any{"where": "knee", "pain": 4, "red_flag": false, "take": 1, "id": "x9"})
	before, other := limitsOf(g, "mo"), limitsOf(g, "bo")
	for _, id := range []string{"clin1", "bo1", "x9"} {
		if id != "x9" {
			if status, text, _ := g.ask("mo", "POST", "/sheets/bars/sore/mo", map[string]any{"where": "knee", "pain": 4, "red_flag": false, "take": 1, "id": id}); status != http.StatusConflict {
				t.Errorf("a way is taken under %s: %d %s", id, status, text)
			}
			if status, text, _ := g.sends("mo", "/sheets/bars/sore/mo", map[string]string{"where": "knee", "pain": "4", "none": "yes", "take": "1", "id": id}); status != http.StatusConflict || !strings.Contains(text, "noted from this page before") || strings.Contains(text, `value="`+id) {
				t.Errorf("by form under %s: %d %s", id, status, mainOf(text))
			}
		}
	}
	for _, id := range []string{"clin1", "bo1", "x9"} {
		got := g.must("mo", "POST", "/sheets/bars/sore/mo", map[string]any{"where": "knee", "pain": 2, "red_flag": true, "take": 1, "id": id})
		if limit := got["limit"].(map[string]any); got["taken"] != 0.0 || limit["id"] == id || limit["what"] != "stop" {
			t.Errorf("a yes under %s: %v", id, got)
		}
	}
	after := limitsOf(g, "mo")
	for id, l := range before {
		if after[id] != l {
			t.Errorf("%s was %v, is %v", id, l, after[id])
		}
	}
	if now := limitsOf(g, "bo"); now["bo1"] != other["bo1"] {
		t.Errorf("Bo's was %v, is %v", other, now)
	}
	g.stops("under kept ids", "mo", after)
	if status, _, _ := g.ask("mo", "DELETE", "/people/mo/limits/clin1", nil); status != http.StatusForbidden {
		t.Errorf("Mo takes a clinician's limit away: %d", status)
	}
}

// TestStopExtended sends a stop again that a coach has set for longer since: it stays so.
func TestStopExtended(t *testing.T) {
	g := lifting(t)
	sent := map[string]any{"where": "knee", "pain": 2, "red_flag": true, "id": "s1"}
	g.must("mo", "POST", "/sheets/bars/sore/mo", sent)
	g.must("coach", "PUT", "/people/mo/limits/s1", map[string]any{"word": store.ACoachs, "until": "2027-03-18", "note": "see somebody first"})
	before := limitsOf(g, "mo")
	g.must("mo", "POST", "/sheets/bars/sore/mo", sent)
	if after := limitsOf(g, "mo"); len(after) != 1 || after["s1"] != before["s1"] || after["s1"].Until.String() != "2027-03-18" {
		t.Errorf("was %v, is %v", before, after)
	}
}
