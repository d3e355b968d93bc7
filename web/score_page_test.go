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

// TestScoresOfNamesakes: of two people of one name each is scored by their field, by the
// button that asks which, and by a line; a name may have a digit, a colon or words in brackets.
func TestScoresOfNamesakes(t *testing.T) {
	names := map[string]string{"t1a": "Twin Peak", "t2b": "Twin Peak", "a7": "Ann 7", "c1": "Cy: Gannet", "d1": "Di (the tall)", "d2": "Di (the tall)"}
	g := open(t)
	g.must("coach", "PUT", "/classes/c1", map[string]any{"date": "2027-03-04", "start": "06:00", "sheet": "drip"})
	for id, name := range names {
		g.must("coach", "PUT", "/people/"+id, map[string]any{"told": map[string]string{"name": name}})
		g.must("coach", "PUT", "/classes/c1/places/"+id, nil)
	}
	for id := range names {
		status, text, to := g.sends("coach", "/sheets/drip/scores", map[string]string{"batch": "field", "class": "c1", "s." + id: "5+20"})
		if status != http.StatusSeeOther || to != "/sheets/drip/scores?said=scores&class=c1" {
			t.Errorf("the field of %s, %s: %d %s", id, names[id], status, words(text))
		}
	}
	_, text, _ := g.sends("coach", "/sheets/drip/scores/reading", map[string]string{"batch": "b", "text": "Twin Peak: 6+1"})
	has(t, "two of one name", words(text), "Which Twin Peak?", "Twin Peak (t1a)", "Twin Peak (t2b)")
	for line, fix := range map[string]string{"Twin Peak: 6+1": "1 name Twin Peak (t2b)", "Ann 7: 6+2": "", "Twin Peak (t1a): 6+3": "", "Di (the tall) (d2): 6+4": ""} {
		status, text, _ := g.sends("coach", "/sheets/drip/scores", map[string]string{"batch": "line", "text": line, "fix": fix})
		if status != http.StatusSeeOther {
			t.Errorf("%s: %d %s", line, status, words(text))
		}
	}
	_, text, _ = g.sends("coach", "/sheets/drip/scores/reading", map[string]string{"batch": "b", "text": "Ann 12:40"})
	has(t, "a time after a name", words(text), "Whose is it?")
	of := map[any]int{}
	for _, one := range g.must("coach", "GET", "/sheets/drip/scores", nil)["scores"].([]any) {
		of[one.(map[string]any)["person"]]++
	}
	for id, n := range map[string]int{"t1a": 2, "t2b": 2, "a7": 2, "c1": 1, "d1": 1, "d2": 2} {
		if of[id] != n {
			t.Errorf("%s has %d scores, want %d", id, of[id], n)
		}
	}
}
