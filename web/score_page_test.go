package web_test

import (
	"html"
	"net/http"
	"strings"
	"testing"
)

// TestScoreCorrectedTwice: of two corrections of one score the first holds, by a coach and
// by whose it is. The second is given back to be typed where the score now stands, and the
// first sent again changes nothing.
func TestScoreCorrectedTwice(t *testing.T) {
	for what, c := range map[string]struct {
		who, path string
		fields    func(id, text string) map[string]string
	}{
		"a coach": {"coach", "/sheets/drip/scores/s1", func(id, text string) map[string]string {
			return map[string]string{"do": "correct", "new": id, "text": text}
		}},
		"whose it is": {"mo", "/scores", func(id, text string) map[string]string {
			return map[string]string{"id": id, "sheet": "drip", "text": text, "instead": "s1"}
		}},
	} {
		g := open(t)
		g.must("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "day": "2027-03-04", "text": "5+20"})
		for _, one := range []struct {
			id, text string
			want     int
		}{{"n1", "6+10", 303}, {"n2", "6+12", 409}, {"n2", "5+20", 409}, {"n1", "6+10", 303}} {
			status, text, _ := g.sends(c.who, c.path, c.fields(one.id, one.text))
			if status != one.want || status == http.StatusConflict && !strings.Contains(html.UnescapeString(text), one.text) {
				t.Errorf("%s corrects it under %s to %s: %d %s", what, one.id, one.text, status, mainOf(text))
			}
		}
		got := g.must("mo", "GET", "/sheets/drip/scores", nil)["scores"].([]any)
		if len(got) != 1 || got[0].(map[string]any)["text"] != "6+10" {
			t.Errorf("%s: there stand %v", what, got)
		}
	}
}

// TestScoreTakenBack: a score that was taken back and is sent again stays taken back, and
// whoever sends it is told so.
func TestScoreTakenBack(t *testing.T) {
	g := open(t)
	sent := map[string]string{"id": "s1", "sheet": "drip", "text": "5+20"}
	g.must("mo", "POST", "/scores", sent)
	g.ask("mo", "POST", "/scores/s1/withdraw", nil)
	if got := g.must("mo", "POST", "/scores", sent); got["taken_back"] != true {
		t.Errorf("a program is told %v", got)
	}
	status, _, to := g.sends("mo", "/scores", sent)
	if status != http.StatusSeeOther || to != "/sheets/drip?said=score-was-back#score" {
		t.Errorf("sent again: %d %s", status, to)
	}
	text := g.shows("mo", to, "That score was taken back before, and stays so.", "How did it go?")
	if strings.Contains(text, "Your score is kept.") || strings.Contains(text, "Take it back") {
		t.Errorf("what was taken back stands: %s", mainOf(text))
	}
	class := map[string]string{"batch": "b", "text": "Mo: 5+20\nBo: 6+1"}
	g.sends("coach", "/sheets/drip/scores", class)
	for _, one := range g.must("coach", "GET", "/sheets/drip/scores", nil)["scores"].([]any) {
		if score := one.(map[string]any); score["person"] == "mo" {
			g.ask("coach", "POST", "/scores/"+score["id"].(string)+"/withdraw", nil)
		}
	}
	if _, _, to := g.sends("coach", "/sheets/drip/scores", class); to != "/sheets/drip/scores?said=scores-but-one" {
		t.Errorf("a class sent again leads to %q", to)
	}
}
