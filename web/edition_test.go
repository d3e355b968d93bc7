package web_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"roomful/store"
)

const ahead = "Ahead\n2027-03-05, 60 min\n\nmain: 3 rounds for time\n  11 burpees\n  12 air squats\n"

// ahead is a gym with a day that lies ahead, and a class that does it.
func (g *gym) ahead() {
	g.must("coach", "PUT", "/sheets/ahead", map[string]any{"text": ahead})
	g.must("coach", "PUT", "/classes/c5", map[string]any{"date": "2027-03-05", "start": "17:30", "sheet": "ahead"})
	for _, who := range []string{"mo", "bo"} {
		g.must(who, "PUT", "/classes/c5/places/"+who, nil)
	}
}

// sees fails unless somebody sees a text of the day ahead, in whichever way they ask; ""
// for no text at all.
func (g *gym) sees(who, text string) {
	g.t.Helper()
	want := http.StatusOK
	if text == "" {
		want = http.StatusNotFound
	}
	paths := []string{"/sheets/ahead", "/sheets/ahead/scores"}
	if who != "screen" {
		paths = append(paths, "/sheets/ahead/versions?class=c5", "/sheets/ahead/notes")
	}
	if who == "mo" {
		paths = append(paths, "/sheets/ahead/choices/mo", "/sheets/ahead/load/mo?movement=air-squat", "/sheets/ahead/beat/mo")
	}
	for _, path := range paths {
		status, got, _ := g.ask(who, "GET", path, nil)
		if status == http.StatusBadRequest && strings.Contains(path, "/load/") {
			status = http.StatusOK // that nothing is heavy in it is an answer
		}
		if status != want {
			g.t.Errorf("%s asks for %s: %d, want %d: %.300s", who, path, status, want, got)
		}
		if strings.HasPrefix(path, "/sheets/ahead/versions") && text != "" && !strings.Contains(got, `"amount": `+strings.Fields(text)[0]) {
			g.t.Errorf("%s does of %q: %.500s", who, text, got)
		}
	}
	if _, got, _ := g.ask(who, "GET", "/sheets/ahead", nil); text != "" && !strings.Contains(got, text) {
		g.t.Errorf("%s sees %s, want %q", who, got, text)
	}
	if _, got, _ := g.ask(who, "GET", "/sheets", nil); strings.Contains(got, `"ahead"`) != (text != "") {
		g.t.Errorf("%s has in the list %s", who, got)
	}
	if _, got, _ := g.ask(who, "GET", "/classes?from=2027-03-05&to=2027-03-05", nil); strings.Contains(got, `"ahead"`) != (text != "") {
		g.t.Errorf("%s sees of the class %s", who, got)
	}
}

// TestShown walks what each role sees of a day ahead: nothing before it is published, then
// its last edition, whatever is saved meanwhile.
func TestShown(t *testing.T) {
	g := open(t)
	g.ahead()
	all := func(writers, others string) {
		t.Helper()
		for _, who := range []string{"owner", "coach"} {
			g.sees(who, writers)
		}
		for _, who := range []string{"mo", "screen"} {
			g.sees(who, others)
		}
	}
	all("11 burpees", "")
	if status, _, _ := g.ask("mo", "POST", "/sheets/ahead/notes", map[string]any{"id": "n", "text": "hi"}); status != http.StatusNotFound {
		t.Errorf("Mo says something under a day that is not there: %d", status)
	}
	if status, _, _ := g.ask("mo", "POST", "/scores", map[string]any{"id": "s", "sheet": "ahead", "text": "12:00"}); status != http.StatusNotFound {
		t.Errorf("Mo scores on a day that is not there: %d", status)
	}
	first := g.must("coach", "POST", "/sheets/ahead/editions", map[string]any{"revision": 1})
	all("11 burpees", "11 burpees")
	if again := g.must("coach", "POST", "/sheets/ahead/editions", map[string]any{}); fmt.Sprint(again) != fmt.Sprint(first) || first["by"] != "Olu" {
		t.Errorf("published twice: %v, then %v", first, again)
	}
	g.must("coach", "PUT", "/sheets/ahead", map[string]any{"revision": 1, "text": strings.Replace(ahead, "11 burpees", "13 burpees", 1)})
	all("13 burpees", "11 burpees")
	g.must("coach", "POST", "/sheets/ahead/editions", map[string]any{"revision": 2})
	all("13 burpees", "13 burpees")
	got := g.must("owner", "GET", "/sheets/ahead/editions", nil)["editions"].([]any)
	if len(got) != 2 || got[0].(map[string]any)["now"] != true || got[1].(map[string]any)["now"] != false {
		t.Errorf("its editions: %v", got)
	}
	g.must("mo", "POST", "/scores", map[string]any{"id": "s", "sheet": "ahead", "text": "12:00"})
	g.update(func(tx *store.Tx) error {
		a, err := tx.In("ours").Attempt("s")
		if a.Edition != got[0].(map[string]any)["id"] {
			t.Errorf("the score is of edition %q", a.Edition)
		}
		return err
	})
}

// TestShownOnItsDay shows a day that was never published once it has come, unless it has
// faults, and no day that has no date.
func TestShownOnItsDay(t *testing.T) {
	g := open(t)
	g.ahead()
	g.must("coach", "PUT", "/sheets/half", map[string]any{"text": "Half\n2027-03-05\n\nmain: as many rounds as possible\n  10 burpees\n"})
	g.must("coach", "PUT", "/sheets/adrift", map[string]any{"text": "Adrift\n\nmain: 3 rounds for time\n  10 burpees\n"})
	g.sees("mo", "")
	g.later(19 * time.Hour) // midnight
	g.sees("mo", "11 burpees")
	for _, name := range []string{"half", "adrift"} {
		if status, _, _ := g.ask("mo", "GET", "/sheets/"+name, nil); status != http.StatusNotFound {
			t.Errorf("Mo sees %s: %d", name, status)
		}
		g.must("coach", "GET", "/sheets/"+name, nil)
	}
}

// TestPublishRefused publishes nothing that has faults, that somebody has changed meanwhile
// or that is not the visitor's.
func TestPublishRefused(t *testing.T) {
	g := open(t)
	g.must("coach", "PUT", "/sheets/half", map[string]any{"text": "Half\n\nmain: as many rounds as possible\n  10 burpees\n"})
	for path, want := range map[string]int{"half": http.StatusBadRequest, "none": http.StatusNotFound} {
		if status, text, _ := g.ask("coach", "POST", "/sheets/"+path+"/editions", map[string]any{}); status != want {
			t.Errorf("%s: %d %s", path, status, text)
		}
	}
	if status, text, _ := g.ask("coach", "POST", "/sheets/drip/editions", map[string]any{"revision": 7}); status != http.StatusConflict {
		t.Errorf("another revision: %d %s", status, text)
	}
	for _, who := range []string{"mo", "screen"} {
		if status, text, _ := g.ask(who, "POST", "/sheets/drip/editions", map[string]any{}); status != http.StatusForbidden {
			t.Errorf("%s publishes: %d %s", who, status, text)
		}
	}
}

// TestWithdraw takes a score back: whose it is, or a coach.
func TestWithdraw(t *testing.T) {
	g := open(t)
	for _, id := range []string{"s1", "s2"} {
		g.must("mo", "POST", "/scores", map[string]any{"id": id, "sheet": "drip", "text": "5+2"})
	}
	for _, c := range []struct {
		who, score string
		want       int
	}{
		{"bo", "s1", http.StatusForbidden}, {"screen", "s1", http.StatusForbidden}, {"stranger", "s1", http.StatusNotFound}, {"mo", "none", http.StatusNotFound},
		{"mo", "s1", http.StatusNoContent}, {"mo", "s1", http.StatusNoContent}, {"coach", "s2", http.StatusNoContent},
	} {
		if status, text, _ := g.ask(c.who, "POST", "/scores/"+c.score+"/withdraw", nil); status != c.want {
			t.Errorf("%s takes %s back: %d %s", c.who, c.score, status, text)
		}
	}
	if _, text, _ := g.ask("mo", "GET", "/record/mo", nil); strings.Contains(text, "5+2") {
		t.Errorf("Mo's record has %s", text)
	}
	if n := len(g.done.done); n != 4 {
		t.Errorf("learnt from anew: %q, want two scores that came and two that went", g.done.done)
	}
}

// TestMyDayPublished: a day is worked out of what was published, whatever is saved after it.
func TestMyDayPublished(t *testing.T) {
	g := barred(t)
	g.must("coach", "POST", "/sheets/bars/editions", map[string]any{"revision": 1})
	for i, line := range []string{"9 burpees", "9 bupees"} { // another line, then a typo
		g.must("coach", "PUT", "/sheets/bars", map[string]any{"revision": i + 1, "text": strings.Replace(barsSheet, "10 pull-ups", line, 1)})
		text := g.shows("mo", "/sheets/bars", "ring row", "deadlifts", "Show first:")
		if strings.Contains(text, "burpee") || strings.Contains(text, "not worked out yet") {
			t.Errorf("after %q was saved: %s", line, mainOf(text))
		}
	}
}
