package web_test

import (
	"fmt"
	"strings"
	"testing"
)

// TestNote: what a member says under a day is for everybody when each word is harmless,
// else for them and for coaches; the coach answers, as privately as was asked.
func TestNote(t *testing.T) {
	g := open(t)
	if out := g.must("mo", "POST", "/sheets/drip/notes", map[string]any{"id": "n1", "text": "loved the last round"}); out["private"] != false || out["name"] != "Mo" {
		t.Errorf("kept as %v", out)
	}
	if out := g.must("mo", "POST", "/sheets/drip/notes", map[string]any{"id": "n2", "text": "my knee clicked all the way"}); out["private"] != true {
		t.Errorf("kept as %v", out)
	}
	if out := g.must("mo", "POST", "/sheets/drip/notes", map[string]any{"id": "n3", "text": "thanks", "private": true}); out["private"] != true {
		t.Errorf("kept as %v", out)
	}
	for _, c := range []struct {
		text          string
		open, private bool
	}{
		{"the windows were open, lovely", false, false},             // everyday words
		{"the frobnicator squeaked", false, true},                   // a word that nobody knows
		{"the frobnicator squeaked", true, false},                   // and whose writer does
		{"the frobnicator squeaked and so did my knee", true, true}, // but a body is a body
	} {
		id := fmt.Sprintf("w%v%v%d", c.open, c.private, len(c.text))
		if out := g.must("bo", "POST", "/sheets/drip/notes", map[string]any{"id": id, "text": c.text, "open": c.open}); out["private"] != c.private {
			t.Errorf("%q, open %v: kept as %v", c.text, c.open, out)
		}
	}
	for n, text := range []string{"had a stroke", "seizure last night", "blood in my urine", "passed out after the run", "in hospital yesterday", "my rotator cuff went",
		"anorexia is back", "just lost the baby", "mri is on friday"} {
		if out := g.must("mo", "POST", "/sheets/drip/notes", map[string]any{"id": fmt.Sprint("h", n), "text": text, "open": true}); out["private"] != true {
			t.Errorf("%q is for everybody", text)
		}
	}
	if out := g.must("coach", "POST", "/sheets/drip/notes", map[string]any{"id": "a0", "answers": "n1", "text": "after your frobnication that was good", "open": true}); out["private"] != true {
		t.Errorf("a coach says of another's body that there is nothing: %v", out)
	}
	first := g.must("coach", "POST", "/sheets/drip/notes", map[string]any{"id": "a1", "answers": "n2", "text": "well done, see me before next time"})
	if again := g.must("coach", "POST", "/sheets/drip/notes", map[string]any{"id": "a1", "answers": "n2", "text": "well done, see me before next time"}); fmt.Sprint(first) != fmt.Sprint(again) || first["private"] != true || first["person"] != "mo" || first["by"] != "Olu" {
		t.Errorf("answered %v, then %v", first, again)
	}
	g.must("coach", "POST", "/sheets/drip/notes", map[string]any{"id": "a2", "answers": "n1", "text": "great pace"})
	for who, want := range map[string]string{"mo": "n1 n2 n3 a1 a2", "coach": "n1 n2 n3 a1 a2", "owner": "n1 n2 n3 a1 a2", "bo": "n1 a2"} {
		seen := map[string]bool{}
		for _, n := range g.must(who, "GET", "/sheets/drip/notes", nil)["notes"].([]any) {
			seen[n.(map[string]any)["id"].(string)] = true
		}
		for _, id := range []string{"n1", "n2", "n3", "a1", "a2"} {
			if seen[id] != strings.Contains(want, id) {
				t.Errorf("%s sees %s: %v", who, id, seen[id])
			}
		}
	}
	for _, c := range []struct {
		who  string
		body map[string]any
		want int
	}{
		{"mo", map[string]any{"id": "n1", "text": "something else"}, 409},
		{"bo", map[string]any{"id": "n1", "text": "loved the last round"}, 409},
		{"bo", map[string]any{"id": "n4", "answers": "n1", "text": "me too"}, 403},
		{"bo", map[string]any{"id": "n4", "answers": "n2", "text": "me too"}, 403},
		{"coach", map[string]any{"id": "n4", "answers": "nothing", "text": "well"}, 404},
		{"coach", map[string]any{"id": "n4", "text": "well"}, 400}, // a coach who is nobody of the people answers
		{"bo", map[string]any{"id": "n4", "text": ""}, 400},
		{"bo", map[string]any{"id": "", "text": "hello"}, 400},
		{"bo", map[string]any{"id": "<b>", "text": "hello"}, 400},
		{"bo", map[string]any{"id": "n4", "text": strings.Repeat("round ", 5000)}, 400},
		{"screen", map[string]any{"id": "n4", "text": "hello"}, 403},
		{"stranger", map[string]any{"id": "n4", "text": "hello"}, 404}, // their gym has no such day
	} {
		if status, text, _ := g.ask(c.who, "POST", "/sheets/drip/notes", c.body); status != c.want {
			t.Errorf("%v as %s: %d %.200s, want %d", c.body, c.who, status, text, c.want)
		}
	}
}

// TestOverride: what a coach sets by hand is kept; who replaces it sees what stood there.
func TestOverride(t *testing.T) {
	g := open(t)
	work := func(amount int) map[string]any {
		return map[string]any{"work": map[string]any{"round": []any{
			map[string]any{"movement": "burpee", "amount": amount, "unit": "rep"},
			map[string]any{"movement": "dumbbell-snatch", "amount": 8, "unit": "rep", "load": map[string]any{"mass": 35, "unit": "lb"}, "implements": 1},
		}}}
	}
	if out := g.must("coach", "PUT", "/sheets/drip/overrides/mo", work(6)); out["replaced"] != nil {
		t.Errorf("set %v", out)
	}
	out := g.must("owner", "PUT", "/sheets/drip/overrides/mo", work(7))
	if text := fmt.Sprint(out["replaced"]); !strings.Contains(text, "amount:6") {
		t.Errorf("replaced %s", text)
	}
	listed := fmt.Sprint(g.must("coach", "GET", "/sheets/drip/overrides", nil))
	if !strings.Contains(listed, "amount:7") || !strings.Contains(listed, "map[mass:35 unit:lb]") || strings.Contains(listed, "amount:6") {
		t.Errorf("listed %s", listed)
	}
	for _, who := range []string{"coach", "mo"} {
		for _, v := range g.must(who, "GET", "/sheets/drip/versions", nil)["athletes"].([]any) {
			mo := v.(map[string]any)
			if line := mo["elements"].([]any)[0].(map[string]any); mo["id"] == "mo" && (line["amount"] != 7.0 || line["why"] != "Olu's word") {
				t.Errorf("%s sees that Mo does %v", who, line)
			}
			if forecast := mo["forecast"]; (forecast == nil) != (who == "mo") {
				t.Errorf("%s sees probabilities: %v", who, forecast)
			}
		}
	}
	one := func(fields ...any) map[string]any {
		task := map[string]any{"movement": "burpee", "amount": 5, "unit": "rep"}
		for i := 0; i < len(fields); i += 2 {
			task[fields[i].(string)] = fields[i+1]
		}
		return map[string]any{"work": map[string]any{"round": []any{task}}}
	}
	for _, c := range []struct {
		who, method, path string
		body              any
		want              int
	}{
		{"mo", "PUT", "/sheets/drip/overrides/mo", work(1), 403},
		{"mo", "GET", "/sheets/drip/overrides", nil, 403},
		{"coach", "PUT", "/sheets/drip/overrides/nobody", work(1), 404},
		{"coach", "PUT", "/sheets/nothing/overrides/mo", work(1), 404},
		{"coach", "PUT", "/sheets/drip/overrides/mo", map[string]any{"work": map[string]any{}}, 400},
		{"coach", "PUT", "/sheets/drip/overrides/mo", one("movement", "burpeee"), 400},
		{"coach", "PUT", "/sheets/drip/overrides/mo", one("unit", "furlong"), 400},
		{"coach", "PUT", "/sheets/drip/overrides/mo", one("amount", -5), 400},
		{"coach", "PUT", "/sheets/drip/overrides/mo", one("load_kg", 9000), 400},
		{"coach", "PUT", "/sheets/drip/overrides/mo", one("load", map[string]any{"mass": 5, "unit": "stone"}), 400},
		{"coach", "PUT", "/sheets/drip/overrides/mo", map[string]any{"piece": "none", "work": work(1)["work"]}, 400},
		{"coach", "PUT", "/sheets/drip/overrides/mo", one(), 400}, // the day has two lines
		{"coach", "DELETE", "/sheets/drip/overrides/bo", nil, 404},
		{"coach", "DELETE", "/sheets/drip/overrides/mo", nil, 204},
		{"coach", "DELETE", "/sheets/drip/overrides/mo", nil, 404},
	} {
		if status, text, _ := g.ask(c.who, c.method, c.path, c.body); status != c.want {
			t.Errorf("%s %s %v as %s: %d %.200s, want %d", c.method, c.path, c.body, c.who, status, text, c.want)
		}
	}
}
