package web_test

import (
	"encoding/json"
	"net/http"
	"strings"
	"testing"
	"time"
)

// troubles are ways in which the database takes nothing more, with what undoes each; nil
// where nothing does.
var troubles = map[string]func(*gym) (mend func()){
	"it may only be read": func(g *gym) func() {
		g.pragma("query_only = 1")
		return func() { g.pragma("query_only = 0") }
	},
	"somebody else writes and does not end": func(g *gym) func() {
		held, err := g.store.Queue().Conn(g.t.Context())
		if err != nil {
			g.t.Fatal(err)
		}
		return func() { held.Close() }
	},
	"it is closed": func(g *gym) func() {
		g.store.Close()
		return nil
	},
}

// pragma sets something of the connection that writes.
func (g *gym) pragma(what string) {
	g.t.Helper()
	if _, err := g.store.Queue().Exec("PRAGMA " + what); err != nil {
		g.t.Fatal(err)
	}
}

// TestRedFlagUnwritten: whoever says yes is told to stop though nothing can be written, or
// even read, over a page and by a script, soon; and that a coach has to be told by mouth.
// Once it can be written again the same is written down once.
func TestRedFlagUnwritten(t *testing.T) {
	for what, breaks := range troubles {
		t.Run(what, func(t *testing.T) {
			g := lifting(t)
			mend := breaks(g)
			began := time.Now()
			status, text, _ := g.ask("mo", "POST", "/sheets/bars/sore/mo", map[string]any{"where": "knee", "pain": 3, "flags": []string{"chest"}, "id": "x1"})
			var got map[string]any
			if err := json.Unmarshal([]byte(text), &got); err != nil || status != http.StatusOK || !strings.Contains(text, "Stop now and call for medical help") || got["unwritten"] != true || got["limit"] != nil {
				t.Errorf("a script is told %d %s", status, text)
			}
			form := map[string]string{"id": "x1", "where": "knee", "pain": "3", "flag-chest": "yes", "some": "yes"}
			status, text, to := g.sends("mo", "/sheets/bars/sore/mo", form)
			for _, word := range []string{"Stop here", "call your coach over now", "It could not be written down just now.", "Tell the coach in the room", `name="flag-chest" value="yes"`, "Try to write it down again"} {
				if status != http.StatusOK || to != "" || !strings.Contains(text, word) {
					t.Errorf("%d to %q without %q: %s", status, to, word, mainOf(text))
				}
			}
			if strings.Contains(text, "It is written down") {
				t.Errorf("it is said to be written down: %s", mainOf(text))
			}
			if took := time.Since(began); took > 10*time.Second { // twice three seconds, on a busy machine
				t.Errorf("two answers took %v", took)
			}
			if mend == nil {
				return
			}
			mend()
			status, _, to = g.sends("mo", "/sheets/bars/sore/mo", form)
			if status != http.StatusSeeOther || !strings.Contains(to, "stopped=help") {
				t.Errorf("sent again: %d to %s", status, to)
			}
			g.stops(what, "mo", limitsOf(g, "mo"))
		})
	}
}

// TestRedFlagInTheMorning: the first that a device asks of a morning is noted too; whoever
// has to stop does not wait for that.
func TestRedFlagInTheMorning(t *testing.T) {
	g := lifting(t)
	g.later(25 * time.Hour)
	defer troubles["somebody else writes and does not end"](g)()
	began := time.Now()
	status, text, _ := g.ask("mo", "POST", "/sheets/bars/sore/mo", map[string]any{"where": "knee", "pain": 3, "flags": []string{"chest"}, "id": "x1"})
	if status != http.StatusOK || !strings.Contains(text, "Stop now and call for medical help") {
		t.Errorf("%d %s", status, text)
	}
	if took := time.Since(began); took > 6*time.Second { // three, and a busy machine
		t.Errorf("it took %v", took)
	}
}

// TestRedFlagUnwrittenForOther has a coach say yes for somebody; TestRedFlagUnwritten's
// words would be addressed to the wrong one.
func TestRedFlagUnwrittenForOther(t *testing.T) {
	g := lifting(t)
	g.pragma("query_only = 1")
	status, text, _ := g.sends("coach", "/sheets/bars/sore/mo", map[string]string{"where": "knee", "pain": "9", "none": "yes"})
	for _, word := range []string{"Sore today: Mo", "Say: “We stop here today.", "could not be written down", "Tell the other coaches yourself"} {
		if status != http.StatusOK || !strings.Contains(text, word) {
			t.Errorf("%d without %q: %s", status, word, mainOf(text))
		}
	}
}

// TestUnwrittenElse: whatever stops nobody is refused as ever, and pages can be read though
// nothing can be written.
func TestUnwrittenElse(t *testing.T) {
	g := lifting(t)
	g.later(20 * 24 * time.Hour) // by when devices are noted as seen
	g.pragma("query_only = 1")
	if status, _ := g.page("mo", "/sheets/bars"); status != http.StatusOK {
		t.Errorf("Mo reads her day: %d", status)
	}
	if status, text, _ := g.sends("mo", "/sheets/bars/sore/mo", map[string]string{"where": "knee", "pain": "3", "none": "yes", "take": "1", "id": "x1"}); status != http.StatusServiceUnavailable || strings.Contains(text, "Stop here") {
		t.Errorf("a way is taken: %d %s", status, mainOf(text))
	}
	for _, path := range []string{"/sheets/bars/sore/bo", "/sheets/bars/sore/mo"} {
		who := "mo"
		if path == "/sheets/bars/sore/mo" {
			who = "nobody"
		}
		if status, _, _ := g.ask(who, "POST", path, map[string]any{"flags": []string{"chest"}}); status < 400 {
			t.Errorf("%s answers %s: %d", path, who, status)
		}
	}
}
