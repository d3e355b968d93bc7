package web_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"roomful"
	"roomful/store"
)

// bars is a sheet with something to lift, whose options depend on who comes.
const bars = "Bars\n2027-03-04, 60 min\n\neffort: 4-6 rounds, steady\n\nmain: as many rounds as possible in 12 min\n  9 front squats 60/42.5 kg\n  12 push-ups\n"

// lifting is a gym with that sheet, where Mo has told what she lifts.
func lifting(t *testing.T) *gym {
	t.Helper()
	g := open(t)
	g.must("coach", "PUT", "/sheets/bars", map[string]any{"text": bars})
	g.must("coach", "PUT", "/people/mo", map[string]any{"revision": 1, "told": map[string]string{"division": "a", "squat_kg": "120", "months": "30"}})
	g.must("coach", "PUT", "/people/bo", map[string]any{"revision": 1, "told": map[string]string{"division": "b", "squat_kg": "45", "months": "30"}})
	return g
}

// kg is a load as it is sent.
func kg(v float64) map[string]any { return map[string]any{"mass": v, "unit": "kg"} }

// loadOf is what somebody lifts now of front squats, by an answer about choices.
func loadOf(choices map[string]any) any {
	for _, e := range choices["now"].(map[string]any)["elements"].([]any) {
		if one := e.(map[string]any); one["movement"] == "front-squat" {
			return one["load_kg"]
		}
	}
	return nil
}

// TestChoices has Mo look at the options, take one and a load of her own, and take them
// back; a coach sees forecasts, she reads words.
func TestChoices(t *testing.T) {
	g := lifting(t)
	seen := g.must("mo", "GET", "/sheets/bars/choices/mo", nil)
	all := seen["options"].([]any)
	if len(all) == 0 || seen["may_set"] != true || seen["set"] != nil {
		t.Fatalf("Mo may choose %v", seen)
	}
	_, text, _ := g.ask("mo", "GET", "/sheets/bars/choices/mo", nil)
	if strings.Contains(text, "on_intent_probability") {
		t.Errorf("Mo reads probabilities: %s", text)
	}
	if _, text, _ = g.ask("coach", "GET", "/sheets/bars/choices/mo", nil); !strings.Contains(text, "on_intent_probability") {
		t.Error("a coach reads no forecast")
	}
	first := all[0].(map[string]any)
	if first["name"] != "As written" || first["version"] == nil {
		t.Errorf("the first option is %v", first)
	}
	got := g.must("mo", "PUT", "/sheets/bars/choices/mo", map[string]any{"option": "As written", "loads": map[string]any{"front-squat": kg(50)}, "reason": "a short night"})
	if loadOf(got) != 50.0 || got["set_by"] != "Mo" || got["set"].(map[string]any)["reason"] != "a short night" || got["now"].(map[string]any)["by_hand"] != true {
		t.Errorf("with 50 kg: %v", got)
	}
	again := g.must("mo", "PUT", "/sheets/bars/choices/mo", map[string]any{"loads": map[string]any{"front-squat": kg(50)}, "reason": "a short night"})
	if loadOf(again) != 50.0 {
		t.Errorf("sent again: %v", loadOf(again))
	}
	if !strings.Contains(fmt.Sprint(g.must("coach", "GET", "/sheets/bars/versions", nil)), "their own choice") {
		t.Error("the coach is not told whose word it is")
	}
	if status, _, _ := g.ask("mo", "DELETE", "/sheets/bars/choices/mo", nil); status != http.StatusNoContent {
		t.Errorf("taken back: %d", status)
	}
	if status, _, _ := g.ask("mo", "DELETE", "/sheets/bars/choices/mo", nil); status != http.StatusNotFound {
		t.Errorf("taken back twice: %d", status)
	}
	if got := g.must("mo", "GET", "/sheets/bars/choices/mo", nil); loadOf(got) == 50.0 || got["set"] != nil {
		t.Errorf("afterwards: %v", got)
	}
}

// TestChoicesAtHome resolves the same options with what Mo owns: no bar, so no bar is lifted.
func TestChoicesAtHome(t *testing.T) {
	g := lifting(t)
	g.must("mo", "PUT", "/people/mo", map[string]any{"revision": 2, "told": map[string]string{"home": "dumbbell 15kg"}})
	got := g.must("mo", "GET", "/sheets/bars/choices/mo?home=1", nil)
	for _, o := range got["options"].([]any) {
		v, ok := o.(map[string]any)["version"].(map[string]any)
		if !ok {
			continue
		}
		for _, e := range v["elements"].([]any) {
			if one := e.(map[string]any); one["movement"] == "front-squat" {
				t.Errorf("on %v at home Mo lifts a bar: %v", o.(map[string]any)["name"], one)
			}
		}
	}
	if loadOf(got) != nil {
		t.Errorf("at home Mo does %v", got["now"])
	}
	if in := g.must("mo", "GET", "/sheets/bars/choices/mo", nil); loadOf(in) == nil {
		t.Errorf("in the room Mo does %v", in["now"])
	}
}

// TestCoachesWord stands above a member's own choice, by whichever route and name of the
// piece it was set, and a coach may change both.
func TestCoachesWord(t *testing.T) {
	g := lifting(t)
	g.must("mo", "PUT", "/sheets/bars/choices/mo", map[string]any{"loads": map[string]any{"front-squat": kg(55)}})
	got := g.must("coach", "PUT", "/sheets/bars/choices/mo", map[string]any{"loads": map[string]any{"front-squat": kg(35)}})
	if loadOf(got) != 35.0 || got["set_by"] != "Olu" || !strings.Contains(fmt.Sprint(got["expect"]), "likely") {
		t.Errorf("she uses 35: %v", got)
	}
	for _, c := range []struct {
		method string
		body   any
	}{{"PUT", map[string]any{"loads": map[string]any{"front-squat": kg(55)}}}, {"PUT", map[string]any{"piece": "main", "option": "As written"}}, {"DELETE", nil}} {
		status, text, _ := g.ask("mo", c.method, "/sheets/bars/choices/mo", c.body)
		if status != http.StatusForbidden || !strings.Contains(text, "Olu has set this for you") || !strings.Contains(text, "ask Olu") {
			t.Errorf("Mo %ss a coach's word: %d %s", c.method, status, text)
		}
	}
	if got := g.must("mo", "GET", "/sheets/bars/choices/mo", nil); loadOf(got) != 35.0 || got["may_set"] != false {
		t.Errorf("Mo sees %v", got)
	}
	if status, _, _ := g.ask("owner", "DELETE", "/sheets/bars/choices/mo", nil); status != http.StatusNoContent {
		t.Errorf("an owner takes it back: %d", status)
	}
	work := map[string]any{"round": []any{map[string]any{"movement": "front-squat", "amount": 9, "unit": "rep", "load_kg": 30}, map[string]any{"movement": "push-up", "amount": 12, "unit": "rep"}}}
	g.must("coach", "PUT", "/sheets/bars/overrides/mo", map[string]any{"piece": "main", "work": work})
	if status, text, _ := g.ask("mo", "PUT", "/sheets/bars/choices/mo", map[string]any{"option": "As written"}); status != http.StatusForbidden {
		t.Errorf("Mo goes around it by the piece's name: %d %s", status, text)
	}
}

// TestChoiceSticks edits the sheet under what was set: the load stays, and where it cannot
// the coach is told and nothing is lost.
func TestChoiceSticks(t *testing.T) {
	g := lifting(t)
	g.must("coach", "PUT", "/sheets/bars/choices/mo", map[string]any{"loads": map[string]any{"front-squat": kg(35)}})
	g.must("coach", "PUT", "/sheets/bars", map[string]any{"text": strings.Replace(bars, "12 push-ups", "10 push-ups\n  5 burpees", 1), "revision": 1})
	if got := g.must("mo", "GET", "/sheets/bars/choices/mo", nil); loadOf(got) != 35.0 {
		t.Errorf("after an edit of the other lines she lifts %v", loadOf(got))
	}
	g.must("coach", "PUT", "/sheets/bars", map[string]any{"text": strings.Replace(bars, "front squats", "deadlifts", 1), "revision": 2})
	if text := fmt.Sprint(g.must("coach", "GET", "/sheets/bars/versions", nil)["attention"]); !strings.Contains(text, "set it again") {
		t.Errorf("the coach is told %s", text)
	}
	g.must("coach", "PUT", "/sheets/bars", map[string]any{"text": bars, "revision": 3})
	if got := g.must("mo", "GET", "/sheets/bars/choices/mo", nil); loadOf(got) != 35.0 {
		t.Errorf("after it came back she lifts %v", loadOf(got))
	}
}

// TestChoiceRefused sends what cannot be chosen, and asks as those who may not.
func TestChoiceRefused(t *testing.T) {
	g := lifting(t)
	g.must("coach", "PUT", "/kit", map[string]any{"text": "stations: {rack: 4}\nbars:\n  - {mass: 20, count: 3}\nplates:\n  - {mass: 10, count: 8}\n  - {mass: 5, count: 4}\n"})
	for name, c := range map[string]struct {
		body any
		want int
		say  string
	}{
		"nothing":              {map[string]any{}, 400, "neither an option nor a load"},
		"no object":            {"[]", 400, "it is no object"},
		"another field":        {map[string]any{"percent": 3}, 400, "unknown field"},
		"an unknown option":    {map[string]any{"option": "Harder"}, 400, "no such option"},
		"a load of a push-up":  {map[string]any{"loads": map[string]any{"push-up": kg(5)}}, 400, "push-up with one"},
		"no unit":              {map[string]any{"loads": map[string]any{"front-squat": map[string]any{"mass": 30}}}, 400, "in kg or lb"},
		"a text for a load":    {map[string]any{"loads": map[string]any{"front-squat": "30"}}, 400, "a text"},
		"less than nothing":    {map[string]any{"loads": map[string]any{"front-squat": kg(-5)}}, 400, "none that is lifted"},
		"a slip":               {map[string]any{"loads": map[string]any{"front-squat": kg(5000)}}, 400, "none that is lifted"},
		"no plates for it":     {map[string]any{"loads": map[string]any{"front-squat": kg(33)}}, 400, "no barbell here is 33 kg"},
		"a story for a reason": {map[string]any{"option": "As written", "reason": strings.Repeat("x", 501)}, 400, "too long"},
		"another piece":        {map[string]any{"piece": "main z", "option": "As written"}, 400, "no piece"},
	} {
		if status, text, _ := g.ask("mo", "PUT", "/sheets/bars/choices/mo", c.body); status != c.want || !strings.Contains(text, c.say) {
			t.Errorf("%s: %d %s", name, status, text)
		}
	}
	for _, c := range []struct {
		who, path string
		want      int
	}{{"bo", "bars/choices/mo", 403}, {"screen", "bars/choices/mo", 403}, {"", "bars/choices/mo", 401}, {"stranger", "bars/choices/mo", 404}, {"coach", "bars/choices/none", 404}, {"coach", "none/choices/mo", 404}} {
		for _, method := range []string{"GET", "PUT"} {
			if status, text, _ := g.ask(c.who, method, "/sheets/"+c.path, map[string]any{"option": "As written"}); status != c.want {
				t.Errorf("%s %s as %q: %d %s", method, c.path, c.who, status, text)
			}
		}
	}
	if status, _, _ := g.ask("bo", "DELETE", "/sheets/bars/choices/mo", nil); status != 403 {
		t.Errorf("Bo takes Mo's choice back: %d", status)
	}
}

// TestChoiceHeld: who is held back by what they told cannot choose their way above it; a
// coach can.
func TestChoiceHeld(t *testing.T) {
	g := lifting(t)
	g.update(func(tx *store.Tx) error {
		return tx.In("ours").PutLimit(store.Limit{ID: "l1", Person: "mo", Limit: roomful.Limit{What: "returning", Pain: -1}, Since: roomful.Date{Year: 2027, Month: 3, Day: 1}})
	})
	heavy := map[string]any{"loads": map[string]any{"front-squat": kg(80)}}
	if status, text, _ := g.ask("mo", "PUT", "/sheets/bars/choices/mo", heavy); status != 400 || !strings.Contains(text, "the most that is yours today") {
		t.Errorf("back after a break, with 80 kg: %d %s", status, text)
	}
	got := g.must("coach", "PUT", "/sheets/bars/choices/mo", heavy)
	if loadOf(got) != 80.0 || got["now"].(map[string]any)["dose"] == nil {
		t.Errorf("the coach's word: %v", got["now"])
	}
	g.update(func(tx *store.Tx) error {
		return tx.In("ours").PutLimit(store.Limit{ID: "l2", Person: "bo", Limit: roomful.Limit{What: "stop", Pain: -1}, Since: roomful.Date{Year: 2027, Month: 3, Day: 1}})
	})
	if got := g.must("bo", "GET", "/sheets/bars/choices/bo", nil); got["now"] != nil {
		t.Errorf("who is referred out does %v", got["now"])
	}
	if status, text, _ := g.ask("coach", "PUT", "/sheets/bars/choices/bo", map[string]any{"option": "As written"}); status != 400 || !strings.Contains(text, "there is none today") {
		t.Errorf("who is referred out is let in: %d %s", status, text)
	}
}
