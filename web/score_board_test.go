package web_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"roomful"
	"roomful/catalogue"
	"roomful/notation"
	"roomful/store"
)

// resolved keeps what was done by a score, as work in the background does.
func (g *gym) resolved(person, id string, score float64) {
	g.t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		g.t.Fatal(err)
	}
	session, _ := notation.Read(drip, lex)
	g.update(func(tx *store.Tx) error {
		a, err := tx.In("ours").Attempt(id)
		if err != nil {
			return err
		}
		round := []roomful.Task{{Movement: "burpee", Amount: 10, Unit: roomful.Rep}, {Movement: "air-squat", Amount: 12, Unit: roomful.Rep}}
		done := roomful.Done{Piece: session.Pieces()[0], Score: score, Work: roomful.Work{Round: round}}
		return tx.In("ours").PutResolved(person, map[string]store.Resolved{id: {Read: *a.Read, Done: []roomful.Done{done}}})
	})
}

// TestScorePages: a day's scores come a page at a time, the latest first, each once; those
// of a class come at once.
func TestScorePages(t *testing.T) {
	g := open(t)
	const many = 60
	for i := range many {
		g.must("mo", "POST", "/scores", map[string]any{"id": fmt.Sprintf("s%03d", i), "sheet": "drip", "text": "5+20"})
	}
	g.must("bo", "POST", "/scores", map[string]any{"id": "bo", "sheet": "drip", "text": "6+1"})
	seen, path := map[string]bool{}, "/sheets/drip/scores"
	for pages := 1; ; pages++ {
		got := g.must("bo", "GET", path, nil)
		for _, s := range got["scores"].([]any) {
			id := s.(map[string]any)["id"].(string)
			if seen[id] || len(seen) == 0 && id != "bo" {
				t.Errorf("page %d has %s", pages, id)
			}
			seen[id] = true
		}
		older, more := got["older"].(string)
		if more != (pages == 1) {
			t.Fatalf("page %d: older %q", pages, older)
		}
		if path = "/sheets/drip/scores?before=" + older; !more {
			break
		}
	}
	if len(seen) != many+1 {
		t.Errorf("%d scores of %d", len(seen), many+1)
	}
	g.must("coach", "PUT", "/classes/c1", map[string]any{"date": "2027-03-04", "start": "17:30", "sheet": "drip"})
	g.must("bo", "PUT", "/classes/c1/places/bo", nil)
	if got := g.must("coach", "GET", "/sheets/drip/scores?class=c1", nil)["scores"].([]any); len(got) != 1 {
		t.Errorf("in the class there are %v", got)
	}
}

// TestBoardsServed shows a day's scores in places to everybody, what came of it to coaches,
// and a comparison to whose it is and to coaches, without figures of what they can do to
// them.
func TestBoardsServed(t *testing.T) {
	g := open(t)
	for i, who := range []string{"mo", "bo"} {
		g.must(who, "POST", "/scores", map[string]any{"id": who, "sheet": "drip", "text": fmt.Sprintf("%d+1, back tight", 5+i)})
		g.resolved(who, who, float64(5+i))
	}
	for who, want := range map[string]map[string]int{
		"coach": {"standings": 200, "after": 200, "compare/mo": 200}, "mo": {"standings": 200, "after": 403, "compare/mo": 200},
		"bo": {"standings": 200, "after": 403, "compare/mo": 403}, "screen": {"standings": 200, "after": 403, "compare/mo": 403},
		"stranger": {"standings": 404, "after": 403, "compare/mo": 404},
	} {
		for path, status := range want {
			got, text, _ := g.ask(who, "GET", "/sheets/drip/"+path, nil)
			if got != status {
				t.Errorf("%s asks for %s: %d %.300s", who, path, got, text)
			}
			if path == "standings" && got == 200 && (!strings.Contains(text, `"place": 1`) || strings.Contains(text, "tight")) {
				t.Errorf("%s sees the board %s", who, text)
			}
			if path == "after" && got == 200 && !strings.Contains(text, `"scored": 2`) {
				t.Errorf("a coach is told %s", text)
			}
			if path == "compare/mo" && who == "mo" && (!strings.Contains(text, `"p_improved": null`) || !strings.Contains(text, `"beat"`)) {
				t.Errorf("Mo is told %s", text)
			}
		}
	}
	g.must("mo", "PUT", "/people/mo", map[string]any{"revision": 1, "told": map[string]string{"unlisted": "yes"}})
	if _, text, _ := g.ask("bo", "GET", "/sheets/drip/standings", nil); strings.Contains(text, `"Mo"`) || !strings.Contains(text, `"Bo"`) {
		t.Errorf("Mo has asked to be left out, and Bo sees %s", text)
	}
	g.must("coach", "PUT", "/sheets/none", map[string]any{"text": strings.Replace(drip, "Drip", "None", 1)})
	if status, text, _ := g.ask("mo", "GET", "/sheets/none/standings", nil); status != http.StatusOK || strings.Contains(text, "place") {
		t.Errorf("a day without scores: %d %s", status, text)
	}
}
