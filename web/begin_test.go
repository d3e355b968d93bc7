package web_test

import (
	"strings"
	"testing"
)

// TestBegin: a gym in which nobody trains and nothing is written says what to do first, and
// what is done of it; one that has begun does not, and neither does a coach's page name what
// is the owner's.
func TestBegin(t *testing.T) {
	g := open(t)
	steps := []string{"Write down what the gym owns", "Add your people", "Write a sheet", "Write a class down"}
	text := g.shows("their owner", "/", append(steps, "Begin here", "Name the gym, and set its clock", "Let your coaches in")...)
	before := strings.Count(text, "Done:")
	g.must("their owner", "PUT", "/kit", map[string]any{"text": "bars:\n  - {mass: 20, count: 4}\n"})
	if text = g.shows("their owner", "/", "Begin here"); strings.Count(text, "Done:") != before+1 {
		t.Errorf("the kit is written down, and %d steps are done after %d", strings.Count(text, "Done:"), before)
	}
	for _, who := range []string{"owner", "coach", "mo"} {
		if _, text := g.page(who, "/"); strings.Contains(text, "Begin here") {
			t.Errorf("%s is told to begin in a gym that has", who)
		}
	}
}
