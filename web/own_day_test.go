package web_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"roomful/catalogue"
	"roomful/day"
	"roomful/desk"
	"roomful/store"
)

// TestLoad asks how heavy: who knows their squat is told a load with why, and a set that
// they remember counts; what is no set, and no line of the sheet, is refused.
func TestLoad(t *testing.T) {
	g := lifting(t)
	got := g.must("mo", "GET", "/sheets/bars/load/mo", nil)
	if got["movement"] != "front-squat" || got["load_kg"] == nil || got["why"] == "" || got["confidence"] == nil {
		t.Errorf("Mo goes %v", got)
	}
	strong := g.must("bo", "GET", "/sheets/bars/load/bo?set=5x42kg", nil)["load_kg"].(float64)
	weak := g.must("bo", "GET", "/sheets/bars/load/bo?set=5x30kg", nil)["load_kg"].(float64)
	if weak >= strong {
		t.Errorf("after 5 x 30 kg %v, after 5 x 42 kg %v", weak, strong)
	}
	for _, c := range []struct {
		who, path string
		want      int
	}{
		{"mo", "mo?set=many", 400}, {"mo", "mo?set=" + strings.Repeat("9", 500), 400}, {"mo", "mo?movement=nonsense", 400}, {"mo", "mo?movement=deadlift", 400},
		{"mo", "mo?piece=none", 400}, {"coach", "mo", 200}, {"bo", "mo", 403}, {"screen", "mo", 403}, {"stranger", "mo", 404}, {"coach", "none", 404},
	} {
		if status, text, _ := g.ask(c.who, "GET", "/sheets/bars/load/"+c.path, nil); status != c.want {
			t.Errorf("%s asks %s: %d %s", c.who, c.path, status, text)
		}
	}
}

// attempted keeps an earlier score of Mo's with what was done, as learning does.
func attempted(t *testing.T, g *gym, text string) {
	t.Helper()
	g.must("coach", "PUT", "/sheets/earlier", map[string]any{"text": strings.Replace(bars, "2027-03-04", "2026-11-12", 1)})
	g.must("mo", "POST", "/scores", map[string]any{"id": "s-earlier", "sheet": "earlier", "day": "2026-11-12", "text": text})
	g.learnt("mo")
}

// TestReadTyped reads as somebody types, lays it beside the last time, and keeps nothing.
func TestReadTyped(t *testing.T) {
	g := lifting(t)
	attempted(t, g, "4+3, front squats 30 kg")
	before := g.must("owner", "GET", "/trail", nil)["last"]
	got := g.must("mo", "POST", "/sheets/bars/reading", map[string]any{"text": "5+4, front squats 35 kg, knee sore"})
	words := got["words"].(string)
	if !strings.HasPrefix(words, "Read as: 5 rounds + 4, ") || !strings.Contains(words, "35 kg") || strings.Contains(words, "knee") {
		t.Errorf("words %q", words)
	}
	all := got["beside"].([]any)
	if len(all) != 1 {
		t.Fatalf("beside the last time: %v", got)
	}
	one := all[0].(map[string]any)
	if one["date"] != "2026-11-12" || one["score"] != "4+3" || !strings.Contains(one["sentence"].(string), "12 November") {
		t.Errorf("beside %v", one)
	}
	quickest := time.Hour
	for range 10 {
		start := time.Now()
		g.must("mo", "POST", "/sheets/bars/reading", map[string]any{"text": "5+4, front squats 35 kg"})
		quickest = min(quickest, time.Since(start))
	}
	within(t, "a score is read", quickest, 50*time.Millisecond) // between two letters; the quickest of ten, for a machine that is shared
	if after := g.must("owner", "GET", "/trail", nil)["last"]; after != before {
		t.Errorf("something was kept: %v, before %v", after, before)
	}
	beat := g.must("mo", "GET", "/sheets/bars/beat/mo", nil)
	if beat["date"] != "2026-11-12" || !strings.Contains(fmt.Sprint(beat["beat"]), "4+4 beats it") {
		t.Errorf("to beat: %v", beat)
	}
	if none := g.must("bo", "GET", "/sheets/bars/beat/bo", nil); none["beat"] != nil || none["piece"] != "main" {
		t.Errorf("Bo has %v to beat", none)
	}
	for name, c := range map[string]struct {
		who  string
		body any
		want int
	}{
		"nothing": {"mo", map[string]any{"text": "  "}, 400}, "too much": {"mo", map[string]any{"text": strings.Repeat("5+4 ", 30_000)}, 400}, "a number": {"mo", map[string]any{"text": 5}, 400},
		"another's": {"bo", map[string]any{"text": "5+4", "person": "mo"}, 403}, "a coach for somebody": {"coach", map[string]any{"text": "5+4", "person": "mo"}, 200},
		"a coach for nobody": {"coach", map[string]any{"text": "5+4"}, 404}, "another gym": {"stranger", map[string]any{"text": "5+4"}, 404}, "another piece": {"mo", map[string]any{"text": "5+4", "piece": "main z"}, 400},
	} {
		if status, text, _ := g.ask(c.who, "POST", "/sheets/bars/reading", c.body); status != c.want {
			t.Errorf("%s: %d %s", name, status, text)
		}
	}
	for who, want := range map[string]int{"coach": 200, "bo": 403, "screen": 403, "stranger": 404} {
		if status, _, _ := g.ask(who, "GET", "/sheets/bars/beat/mo", nil); status != want {
			t.Errorf("%s asks what Mo has to beat: %d", who, status)
		}
	}
}

// TestSore has Mo say that her knee hurts: the questions first, then ways to go on, then
// one of them taken for today; nobody but her and coaches reads of it.
func TestSore(t *testing.T) {
	g := lifting(t)
	knee := map[string]any{"where": "knee", "pain": 4}
	first := g.must("mo", "POST", "/sheets/bars/sore/mo", knee)
	if len(first["ask"].([]any)) == 0 || len(first["options"].([]any)) != 0 || first["limit"] != nil {
		t.Errorf("before the questions were answered: %v", first)
	}
	knee["red_flag"] = false
	then := g.must("mo", "POST", "/sheets/bars/sore/mo", knee)
	options := then["options"].([]any)
	if len(options) != 3 || then["stop"] != nil || then["limit"] != nil || len(then["cautions"].([]any)) == 0 {
		t.Fatalf("ways to go on: %v", then)
	}
	if got := g.must("mo", "GET", "/people/mo/limits", nil)["limits"].([]any); len(got) != 0 {
		t.Errorf("written down unasked: %v", got)
	}
	knee["take"], knee["id"] = 1, "l-today"
	taken := g.must("mo", "POST", "/sheets/bars/sore/mo", knee)
	limit := taken["limit"].(map[string]any)
	if limit["what"] != "knee" || limit["pain"] != 4.0 || limit["until"] != "2027-03-04" || limit["word"] != "theirs" || taken["taken"] != 1.0 {
		t.Errorf("written down: %v", limit)
	}
	doing := g.must("mo", "GET", "/sheets/bars/choices/mo", nil)
	want := options[0].(map[string]any)
	if e := doing["now"].(map[string]any)["elements"].([]any)[0].(map[string]any); e["movement"] != want["movement"] || e["amount"] != want["amount"] {
		t.Errorf("Mo does %v, took %v", e, want)
	}
	g.must("mo", "POST", "/sheets/bars/sore/mo", knee)
	again := g.must("mo", "GET", "/sheets/bars/choices/mo", nil)
	if fmt.Sprint(again["now"]) != fmt.Sprint(doing["now"]) {
		t.Errorf("sent twice it was made gentler twice: %v", again["now"])
	}
	for _, who := range []string{"bo", "screen", "stranger"} {
		for _, path := range []string{"/sheets/bars/versions", "/sheets/bars/choices/bo", "/sheets/bars/scores"} {
			if _, text, _ := g.ask(who, "GET", path, nil); strings.Contains(text, "knee") {
				t.Errorf("%s reads of it in %s: %s", who, path, text)
			}
		}
	}
	if !strings.Contains(fmt.Sprint(g.must("coach", "GET", "/sheets/bars/versions", nil)["attention"]), "Knee 4 of 10 today") {
		t.Error("the coach is not told")
	}
}

// TestSoreStops: a yes, and pain of 6 or more, end it for the day whatever was set, and are
// written down as no more than that.
func TestSoreStops(t *testing.T) {
	for name, c := range map[string]struct {
		body   map[string]any
		urgent bool
		what   string
	}{
		"one yes":    {map[string]any{"where": "back", "pain": 2, "flags": []string{"blow"}}, false, "stop"},
		"pressing":   {map[string]any{"where": "back", "pain": 2, "flags": []string{"saddle"}}, true, "stop"},
		"a yes":      {map[string]any{"where": "back", "pain": 2, "red_flag": true}, true, "stop"},
		"where not":  {map[string]any{"flags": []string{"chest"}}, true, "stop"},
		"6 of 10":    {map[string]any{"where": "back", "pain": 6, "red_flag": false}, false, "back"},
		"6 and take": {map[string]any{"where": "back", "pain": 6, "red_flag": false, "take": 2, "id": "x"}, false, "back"},
	} {
		g := lifting(t)
		got := g.must("mo", "POST", "/sheets/bars/sore/mo", c.body)
		limit, _ := got["limit"].(map[string]any)
		if got["stop"] == nil || got["urgent"] != c.urgent || len(got["options"].([]any)) != 0 || limit["what"] != c.what || limit["note"] != "" {
			t.Errorf("%s: %v", name, got)
		}
		if now := g.must("mo", "GET", "/sheets/bars/choices/mo", nil)["now"]; now != nil {
			t.Errorf("%s, and Mo does %v", name, now)
		}
	}
}

// TestSoreRefused sends what is no complaint, and asks as those who may not.
func TestSoreRefused(t *testing.T) {
	g := lifting(t)
	for name, c := range map[string]struct {
		who  string
		body any
		want int
	}{
		"nothing": {"mo", map[string]any{}, 400}, "no figure": {"mo", map[string]any{"where": "knee", "red_flag": false}, 400}, "11 of 10": {"mo", map[string]any{"where": "knee", "pain": 11, "red_flag": false}, 400},
		"a soul": {"mo", map[string]any{"where": "soul", "pain": 3}, 400}, "a text": {"mo", map[string]any{"where": "knee", "pain": "much"}, 400}, "an unknown flag": {"mo", map[string]any{"where": "knee", "pain": 3, "flags": []string{"x"}}, 400},
		"a fourth way": {"mo", map[string]any{"where": "knee", "pain": 4, "red_flag": false, "take": 4, "id": "x"}, 400}, "no id": {"mo", map[string]any{"where": "knee", "pain": 4, "red_flag": false, "take": 1}, 400},
		"before time": {"mo", map[string]any{"where": "knee", "pain": 4, "at_seconds": -3}, 400}, "no way to take": {"mo", map[string]any{"where": "knee", "pain": 1, "red_flag": false, "take": 1, "id": "x"}, 400},
		"another's": {"bo", map[string]any{"where": "knee", "pain": 4}, 403}, "a screen": {"screen", map[string]any{"where": "knee", "pain": 4}, 403}, "nobody": {"", map[string]any{}, 401}, "another gym": {"stranger", map[string]any{"where": "knee", "pain": 4}, 404},
		"a coach": {"coach", map[string]any{"where": "knee", "pain": 4}, 200},
	} {
		if status, text, _ := g.ask(c.who, "POST", "/sheets/bars/sore/mo", c.body); status != c.want {
			t.Errorf("%s: %d %s", name, status, text)
		}
	}
	if got := g.must("mo", "GET", "/people/mo/limits", nil)["limits"].([]any); len(got) != 0 {
		t.Errorf("refused, and written down: %v", got)
	}
}

// TestDropIn sorts somebody who comes in: a name and whom they are like, in the class, with
// a version and without an account; later a member, or gone.
func TestDropIn(t *testing.T) {
	g := lifting(t)
	g.must("coach", "PUT", "/classes/c1", map[string]any{"date": "2027-03-04", "start": "17:30", "capacity": 1, "sheet": "bars"})
	sent := map[string]any{"id": "p-new", "name": " Una  Reed ", "like": "Bo", "class": "c1"}
	got := g.must("coach", "POST", "/people/drop-in", sent)
	if p := got["person"].(map[string]any); p["name"] != "Una Reed" || p["drop_in"] != true || got["place"] != store.In {
		t.Errorf("Una: %v", got)
	}
	if again := g.must("coach", "POST", "/people/drop-in", sent); fmt.Sprint(again) != fmt.Sprint(got) {
		t.Errorf("sent twice: %v", again)
	}
	if second := g.must("coach", "POST", "/people/drop-in", map[string]any{"name": "Finn", "class": "c1"}); second["place"] != store.Waiting {
		t.Errorf("into a full class: %v", second)
	}
	if !strings.Contains(fmt.Sprint(g.must("coach", "GET", "/sheets/bars/versions?class=c1", nil)["athletes"]), "Una Reed") {
		t.Error("Una has no version")
	}
	told := g.must("coach", "GET", "/people/p-new", nil)
	if of := told["told"].(map[string]any); of["drop_in"] != "yes" || of["like"] != "Bo" {
		t.Errorf("told %v", of)
	}
	if got := g.must("coach", "PUT", "/people/p-new", map[string]any{"revision": 1, "told": map[string]string{"drop_in": ""}}); got["told"].(map[string]any)["drop_in"] != nil {
		t.Errorf("as a member: %v", got)
	}
	for name, c := range map[string]struct {
		who  string
		body any
		want int
	}{
		"no name": {"coach", map[string]any{"name": " "}, 400}, "a book": {"coach", map[string]any{"name": strings.Repeat("x", 101)}, 400}, "like nobody": {"coach", map[string]any{"name": "Ivo", "like": "Nobody"}, 422},
		"no class": {"coach", map[string]any{"name": "Ivo", "class": "none"}, 404}, "a path": {"coach", map[string]any{"id": "../x", "name": "Ivo"}, 400}, "a list": {"coach", "[]", 400},
		"somebody's id": {"coach", map[string]any{"id": "mo", "name": "Mo"}, 409}, "a member": {"mo", map[string]any{"name": "Ivo"}, 403}, "a screen": {"screen", map[string]any{"name": "Ivo"}, 403},
	} {
		if status, text, _ := g.ask(c.who, "POST", "/people/drop-in", c.body); status != c.want {
			t.Errorf("%s: %d %s", name, status, text)
		}
	}
	if strings.Contains(fmt.Sprint(g.must("coach", "GET", "/people", nil)), "Ivo") {
		t.Error("refused, and kept")
	}
}

// TestManyScores reads a class's scores as a coach types them, asks whose a name is that
// several have, and keeps them all at once, once.
func TestManyScores(t *testing.T) {
	g := lifting(t)
	for id, name := range map[string]string{"ana1": "Ana Reed", "ana2": "Ana Stone"} {
		g.must("coach", "PUT", "/people/"+id, map[string]any{"told": map[string]string{"name": name}})
	}
	g.must("coach", "PUT", "/classes/c1", map[string]any{"date": "2027-03-04", "start": "17:30", "sheet": "bars"})
	for _, id := range []string{"ana1", "mo"} {
		g.must("coach", "PUT", "/classes/c1/places/"+id, nil)
	}
	before := g.must("owner", "GET", "/trail", nil)["last"]
	text := "mo: 5+4\n\nAna: 6\nana stone: 4+2\nZed: 3\nBo: banana\n9:12"
	lines := func(of map[string]any) (out []string) {
		for _, one := range g.must("coach", "POST", "/sheets/bars/scores/reading", of)["lines"].([]any) {
			l := one.(map[string]any)
			who, ask, words := "-", "-", "-"
			if p, ok := l["person"].(map[string]any); ok {
				who = p["id"].(string)
			}
			if a, ok := l["ask"].(string); ok {
				ask = a
			}
			if r, ok := l["read"].(map[string]any); ok {
				words = r["words"].(string)
			}
			out = append(out, fmt.Sprintf("%v %s | %s | %s", l["line"], who, words, ask))
		}
		return out
	}
	got := lines(map[string]any{"text": text, "class": "c1"})
	if len(got) != 6 || got[0] != "1 mo | Read as: 5 rounds + 4 | -" || !strings.HasPrefix(got[1], "3 ana1 | Read as: 6 rounds") || !strings.HasPrefix(got[2], "4 ana2 |") ||
		!strings.Contains(got[3], "who is Zed?") || !strings.HasPrefix(got[4], "5 -") && !strings.HasPrefix(got[4], "6 bo") || !strings.Contains(got[5], "whose is it?") {
		t.Errorf("in the class: %q", got)
	}
	if got := lines(map[string]any{"text": "Ana: 6"}); got[0] != "1 - | - | which Ana?" {
		t.Errorf("in the gym: %q", got)
	}
	if after := g.must("owner", "GET", "/trail", nil)["last"]; after != before {
		t.Error("reading kept something")
	}
	all := map[string]any{"day": "2027-03-04", "scores": []any{map[string]any{"id": "k1", "person": "mo", "text": "5+4"}, map[string]any{"id": "k2", "person": "ana1", "text": "6"}}}
	kept := g.must("coach", "POST", "/sheets/bars/scores", all)
	if again := g.must("coach", "POST", "/sheets/bars/scores", all); fmt.Sprint(again) != fmt.Sprint(kept) || len(kept["scores"].([]any)) != 2 {
		t.Errorf("kept %v, sent again %v", kept, again)
	}
	if n := len(g.must("coach", "GET", "/sheets/bars/scores", nil)["scores"].([]any)); n != 2 {
		t.Errorf("%d are kept", n)
	}
	score := func(id, person, text string) any { return map[string]any{"id": id, "person": person, "text": text} }
	for name, c := range map[string]struct {
		who, path string
		body      any
		want      int
	}{
		"none": {"coach", "", map[string]any{}, 400}, "one id twice": {"coach", "", map[string]any{"scores": []any{score("k3", "mo", "5"), score("k3", "bo", "5")}}, 409},
		"another under an id": {"coach", "", map[string]any{"scores": []any{score("k4", "bo", "5"), score("k1", "mo", "9+9")}}, 409}, "nobody's": {"coach", "", map[string]any{"scores": []any{score("k5", "bo", "5"), score("k6", "none", "5")}}, 404},
		"empty": {"coach", "", map[string]any{"scores": []any{score("k7", "bo", "")}}, 400}, "no id": {"coach", "", map[string]any{"scores": []any{score("", "bo", "5")}}, 400}, "a member": {"mo", "", all, 403}, "another gym's coach": {"their owner", "", all, 404},
		"no line": {"coach", "/reading", map[string]any{"text": "\n \n"}, 400}, "a thousand": {"coach", "/reading", map[string]any{"text": strings.Repeat("mo: 5\n", 1000)}, 400}, "a number": {"coach", "/reading", map[string]any{"text": 3}, 400},
		"no class": {"coach", "/reading", map[string]any{"text": "mo: 5", "class": "none"}, 404}, "a member reads": {"mo", "/reading", map[string]any{"text": "bo: 5"}, 403},
	} {
		if status, text, _ := g.ask(c.who, "POST", "/sheets/bars/scores"+c.path, c.body); status != c.want {
			t.Errorf("%s: %d %s", name, status, text)
		}
	}
	if n := len(g.must("coach", "GET", "/sheets/bars/scores", nil)["scores"].([]any)); n != 2 {
		t.Errorf("of what was refused something is kept: %d", n)
	}
}

// learnt resolves what somebody scored and keeps it, as work in the background does.
func (g *gym) learnt(person string) {
	g.t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		g.t.Fatal(err)
	}
	g.update(func(tx *store.Tx) error {
		laid, err := desk.New(day.New(lex), g.store).Open(tx.In("ours"), now)
		if err != nil {
			return err
		}
		record, err := laid.Record(g.t.Context(), person, 0)
		if err != nil {
			return err
		}
		return tx.In("ours").PutResolved(person, record.Fresh)
	})
}
