package web_test

import (
	"fmt"
	"net/http"
	"slices"
	"testing"
)

// kept are the scores that stand on the sheet, as "mo 5+20", in order.
func (g *gym) kept() (out []string) {
	g.t.Helper()
	for _, one := range g.must("coach", "GET", "/sheets/drip/scores", nil)["scores"].([]any) {
		one := one.(map[string]any)
		out = append(out, fmt.Sprint(one["person"], " ", one["text"]))
	}
	slices.Sort(out)
	return out
}

// TestScoresMendedAndSentAgain: a coach whose answer was lost mends a line and sends the
// class again: what the same form had kept of that person goes, also when the first text
// comes back. What was taken back by hand stays so, and other forms keep theirs.
func TestScoresMendedAndSentAgain(t *testing.T) {
	g := open(t)
	g.sends("coach", "/sheets/drip/scores", map[string]string{"batch": "b", "text": "Mo: 2+2"}) // another form, of which b1 is no longer one
	for _, c := range []struct {
		text string
		want []string
	}{
		{"Mo: 5+20\nBo: 6+1", []string{"bo 6+1", "mo 2+2", "mo 5+20"}},
		{"Mo: 5+21\nBo: 6+1", []string{"bo 6+1", "mo 2+2", "mo 5+21"}},
		{"Mo: 5+21\nBo: 6+1", []string{"bo 6+1", "mo 2+2", "mo 5+21"}},
		{"Mo: 5+20\nBo: 6+1", []string{"bo 6+1", "mo 2+2", "mo 5+20"}},
		{"Mo: 5+20\nBo: 6+1", []string{"bo 6+1", "mo 2+2", "mo 5+20"}},
		{"Mo: 5+21\nBo: 6+1", []string{"bo 6+1", "mo 2+2", "mo 5+21"}},
		{"Mo: 5+20\nMo: 5+21", []string{"bo 6+1", "mo 2+2", "mo 5+20", "mo 5+21"}},
		{"Mo: 5+22", []string{"bo 6+1", "mo 2+2", "mo 5+22"}},
	} {
		status, page, to := g.sends("coach", "/sheets/drip/scores", map[string]string{"batch": "b1", "text": c.text})
		if status != http.StatusSeeOther || to != "/sheets/drip/scores?said=scores" {
			t.Fatalf("%q: %d %s %s", c.text, status, to, words(page))
		}
		if got := g.kept(); !slices.Equal(got, c.want) {
			t.Errorf("after %q there stand %v, want %v", c.text, got, c.want)
		}
	}
}
