package web_test

import (
	"fmt"
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// eased is the gym with Olu's word of 15 kg for Mo, over which Mo has taken a way to go on
// for her back.
func eased(t *testing.T) *gym {
	t.Helper()
	g := lifting(t)
	g.must("coach", "PUT", "/sheets/bars/choices/mo", map[string]any{"loads": map[string]any{"front-squat": kg(15)}, "reason": "to learn it"})
	g.must("mo", "POST", "/sheets/bars/sore/mo", map[string]any{"where": "back", "pain": 4, "red_flag": false, "take": 1, "id": "x1"})
	return g
}

// TestCoachesWordBeneath: what Mo has taken for her back stands above the coach's 15 kg,
// nothing else does, and when she drops it the coach's word holds again, still the coach's.
func TestCoachesWordBeneath(t *testing.T) {
	g := eased(t)
	got := g.must("mo", "GET", "/sheets/bars/choices/mo", nil)
	if loadOf(got) == 15.0 || got["set_by"] != "Mo" || got["beneath_by"] != "Olu" || got["may_set"] != false || got["may_drop"] != true {
		t.Fatalf("for her back: %v", got)
	}
	if status, text, _ := g.ask("mo", "PUT", "/sheets/bars/choices/mo", map[string]any{"option": "As written"}); status != http.StatusForbidden || !strings.Contains(text, "ask Olu") {
		t.Errorf("Mo chooses around a coach's word: %d %s", status, text)
	}
	text := g.shows("mo", "/sheets/bars/choices/mo", "Olu set something for you before it hurt.", "Back to what Olu set for you")
	if strings.Contains(text, `name="option"`) {
		t.Error("an option can be taken by a button")
	}
	g.must("mo", "POST", "/sheets/bars/sore/mo", map[string]any{"where": "knee", "pain": 4, "red_flag": false, "take": 1, "id": "x2"}) // and once more
	if status, _, _ := g.ask("mo", "DELETE", "/sheets/bars/choices/mo", nil); status != http.StatusNoContent {
		t.Fatalf("Mo drops what she took: %d", status)
	}
	got = g.must("mo", "GET", "/sheets/bars/choices/mo", nil)
	set, _ := got["set"].(map[string]any)
	if loadOf(got) != 15.0 || got["set_by"] != "Olu" || got["may_drop"] != false || set["reason"] != "to learn it" || set["at"] != "2027-03-04T05:00:00Z" {
		t.Errorf("afterwards: %v", got)
	}
	if status, text, _ := g.ask("mo", "DELETE", "/sheets/bars/choices/mo", nil); status != http.StatusForbidden {
		t.Errorf("Mo drops a coach's word: %d %s", status, text)
	}
}

// TestCoachTakesWordBack: a coach who takes back what somebody took for what hurts is told
// that a coach's word holds again, and takes that back by itself; what a coach sets over
// both replaces both.
func TestCoachTakesWordBack(t *testing.T) {
	g := eased(t)
	for _, word := range []string{"beneath", "given", "given"} {
		if status, _, to := g.form("coach", "/sheets/bars/overrides/mo", url.Values{"do": {"back"}}); status != http.StatusSeeOther || !strings.Contains(to, "said="+word) {
			t.Errorf("taken back: %d %s, want %s", status, to, word)
		}
	}
	if got := g.must("mo", "GET", "/sheets/bars/choices/mo", nil); got["set"] != nil {
		t.Errorf("after both were taken back: %v", got["set"])
	}
	g = eased(t)
	g.must("coach", "PUT", "/sheets/bars/choices/mo", map[string]any{"option": "As written"})
	if status, _, _ := g.ask("coach", "DELETE", "/sheets/bars/choices/mo", nil); status != http.StatusNoContent {
		t.Errorf("the coach's later word: %d", status)
	}
	if got := g.must("mo", "GET", "/sheets/bars/choices/mo", nil); got["set"] != nil {
		t.Errorf("what a coach had replaced is back: %v", got["set"])
	}
}

// TestOneWordForAPiece sets a version by the piece's name over one by none, and the other
// way round: one stands, what it replaced comes back with it, and either name drops it.
func TestOneWordForAPiece(t *testing.T) {
	work := map[string]any{"round": []any{map[string]any{"movement": "front-squat", "amount": 9, "unit": "rep", "load_kg": 30}, map[string]any{"movement": "push-up", "amount": 12, "unit": "rep"}}}
	for _, name := range []string{"", "main"} {
		g := lifting(t)
		g.must("coach", "PUT", "/sheets/bars/choices/mo", map[string]any{"loads": map[string]any{"front-squat": kg(15)}, "reason": "first"})
		for _, piece := range []string{"main", "", "main"} {
			got := g.must("coach", "PUT", "/sheets/bars/overrides/mo", map[string]any{"piece": piece, "work": work})
			if got["replaced"] == nil {
				t.Errorf("as %q: nothing was replaced", piece)
			}
		}
		all := g.must("coach", "GET", "/sheets/bars/overrides", nil)["overrides"].([]any)
		if len(all) != 1 || strings.Contains(fmt.Sprint(all), "first") {
			t.Errorf("set by hand: %v", all)
		}
		if status, _, _ := g.ask("coach", "DELETE", "/sheets/bars/overrides/mo?piece="+name, nil); status != http.StatusNoContent {
			t.Errorf("dropped as %q: %d", name, status)
		}
		if status, _, _ := g.ask("coach", "DELETE", "/sheets/bars/overrides/mo?piece="+name, nil); status != http.StatusNotFound {
			t.Errorf("dropped twice: %d", status)
		}
		if got := g.must("mo", "GET", "/sheets/bars/choices/mo", nil); got["set"] != nil {
			t.Errorf("after it was dropped as %q: %v", name, got["set"])
		}
	}
}
