package web_test

import (
	"net/http"
	"strings"
	"testing"
	"time"

	"roomful/store"
)

// TestMyBeat is moment 6: what was scored the last time, on what day and with what, how
// today stands beside it, and after saving what there is to beat the next time.
func TestMyBeat(t *testing.T) {
	g := lifting(t)
	attempted(t, g, "4+3, front squats 30 kg")
	g.shows("mo", "/sheets/bars", "Match 4+3.", "You had 4\u00a0rounds\u00a0+\u00a03", "on 12 November 2026", "30 kg", "Today")
	status, text, _ := g.sends("mo", "/sheets/bars/reading", map[string]string{"text": "5+4, front squats 35 kg"}, "HX-Request", "true")
	if status != http.StatusOK || !strings.Contains(text, "5 rounds") || !strings.Contains(text, "Better") {
		t.Errorf("as it is typed: %d %s", status, text)
	}
	if status, text, _ := g.sends("mo", "/scores", map[string]string{"id": "s1", "sheet": "bars", "text": "5+4, front squats 35 kg"}); status != http.StatusSeeOther {
		t.Fatalf("%d %s", status, mainOf(text))
	}
	if text := g.shows("mo", "/sheets/bars", "Better", "ext time: ", "beats it"); strings.Contains(text, "Match 4+3") {
		t.Error("what there was to beat stands after it was done")
	}
	if text := g.shows("bo", "/sheets/bars"); strings.Contains(text, "12 November") {
		t.Error("Bo is shown what Mo scored")
	}
}

// TestMyChoices shows what each option would mean, takes one by a button and goes back;
// what a coach has set stays, with their name.
func TestMyChoices(t *testing.T) {
	g := barred(t)
	g.must("coach", "PUT", "/classes/c1/places/bo", nil)
	g.must("coach", "PUT", "/people/mo", map[string]any{"revision": 1, "told": map[string]string{"division": "a", "deadlift_kg": "150", "pullups": "15", "months": "30"}})
	text := g.shows("mo", "/sheets/bars/choices/mo", "What each would mean for you.", "It is yours now.")
	_, rest, found := strings.Cut(text, `name="option" value="`)
	option, _, _ := strings.Cut(rest, `"`)
	if !found {
		t.Fatalf("there is nothing to choose: %s", mainOf(text))
	}
	for range 2 { // sent twice it is taken once
		if status, text, to := g.sends("mo", "/sheets/bars/choices/mo", map[string]string{"option": option}); status != http.StatusSeeOther || to != "/sheets/bars?said=chosen#what-i-do" {
			t.Fatalf("%q is taken: %d %s %s", option, status, to, mainOf(text))
		}
	}
	g.shows("mo", "/sheets/bars?said=chosen", "That is the version now.", option, "You chose this.")
	g.shows("mo", "/sheets/bars/choices/mo", "Back to what was found for you")
	for range 2 {
		if status, _, _ := g.sends("mo", "/sheets/bars/choices/mo", map[string]string{"drop": "yes"}); status != http.StatusSeeOther {
			t.Errorf("taken back: %d", status)
		}
	}
	for what, c := range map[string]struct {
		who, path string
		fields    map[string]string
		want      int
	}{
		"nothing":          {"mo", "mo", nil, 400},
		"no such option":   {"mo", "mo", map[string]string{"option": "<b>"}, 400},
		"another":          {"mo", "bo", map[string]string{"option": option}, 403},
		"nobody":           {"coach", "none", map[string]string{"option": option}, 404},
		"of another gym's": {"stranger", "mo", map[string]string{"option": option}, 404},
		"signed out":       {"", "mo", map[string]string{"option": option}, 401},
	} {
		if status, text, _ := g.sends(c.who, "/sheets/bars/choices/"+c.path, c.fields); status != c.want || strings.Contains(text, "<b>") {
			t.Errorf("%s: %d, want %d: %s", what, status, c.want, mainOf(text))
		}
	}
	if status, _, _ := g.sends("coach", "/sheets/bars/choices/mo", map[string]string{"option": option}); status != http.StatusSeeOther {
		t.Errorf("a coach takes it for Mo: %d", status)
	}
	g.shows("mo", "/sheets/bars", "Olu set this.")
	if text := g.shows("mo", "/sheets/bars/choices/mo", "Olu set this for you. Ask Olu to change it."); strings.Contains(text, `name="option"`) {
		t.Error("what a coach has set can be changed by a button")
	}
	if status, text, _ := g.sends("mo", "/sheets/bars/choices/mo", map[string]string{"drop": "yes"}); status != 403 || !strings.Contains(text, "Olu") {
		t.Errorf("Mo undoes a coach's word: %d %s", status, mainOf(text))
	}
}

// TestMyLoad is moment 2: a load with its band, the bar, the set that proves it, why and
// how sure; a set that is none comes back with what is wrong.
func TestMyLoad(t *testing.T) {
	g := lifting(t)
	g.shows("mo", "/sheets/bars", "/sheets/bars/load/mo?movement=front-squat")
	g.shows("mo", "/sheets/bars/load/mo?movement=front-squat&set=5x100kg", "How heavy?", "Front squat", " kg", "<svg", "Show first:", "Why:", "known of you", `value="5x100kg"`)
	status, text := g.page("mo", "/sheets/bars/load/mo?set=%3Cb%3Emany")
	if status != http.StatusBadRequest || !strings.Contains(text, `id="set-wrong"`) || !strings.Contains(text, `value="&lt;b&gt;many"`) || !strings.Contains(text, "Front squat") {
		t.Errorf("what is no set: %d %s", status, mainOf(text))
	}
	for who, want := range map[string]int{"bo": 403, "screen": 403, "coach": 200, "stranger": 404, "": 401} {
		if status, _ := g.page(who, "/sheets/bars/load/mo"); status != want {
			t.Errorf("%q asks how heavy Mo goes: %d, want %d", who, status, want)
		}
	}
}

// TestSoreInStrength: the line that hurts may be of any piece, and it is that piece which is
// made gentler.
func TestSoreInStrength(t *testing.T) {
	g := lifting(t)
	g.must("coach", "PUT", "/sheets/bars", map[string]any{"revision": 1, "text": strings.Replace(bars, "main:", "strength: 3 x 5, every 3:00\n  back squats @ 70 %\n\nmain:", 1)})
	g.shows("mo", "/sheets/bars/sore/mo", `value="strength:back-squat"`, "Back squat, in strength", `value="front-squat"`, "Front squat, in main")
	told := map[string]string{"id": "l1", "where": "back", "pain": "4", "movement": "strength:back-squat", "none": "yes"}
	if status, text, _ := g.sends("mo", "/sheets/bars/sore/mo", told); status != http.StatusOK || !strings.Contains(text, "Three ways to go on") || !strings.Contains(text, `name="movement" value="strength:back-squat"`) {
		t.Fatalf("%d %s", status, mainOf(text))
	}
	told["take"] = "1"
	if status, text, to := g.sends("mo", "/sheets/bars/sore/mo", told); status != http.StatusSeeOther {
		t.Fatalf("%d %s %s", status, to, mainOf(text))
	}
	all := g.must("coach", "GET", "/sheets/bars/overrides", nil)["overrides"].([]any)
	if len(all) != 1 || all[0].(map[string]any)["piece"] != "strength" {
		t.Errorf("what was taken is kept as %v", all)
	}
}

// TestSoreAtHome: who is sore at home is offered what they can do there, and comes back to
// their day at home.
func TestSoreAtHome(t *testing.T) {
	g := lifting(t)
	if status, text, _ := g.sends("mo", "/sheets/bars/home", map[string]string{"home": "2x dumbbell 15 kg"}); status != http.StatusSeeOther {
		t.Fatal(status, mainOf(text))
	}
	g.shows("mo", "/sheets/bars?home=yes", "/sheets/bars/sore/mo?home=yes")
	g.shows("mo", "/sheets/bars/sore/mo?home=yes", `name="home" value="yes"`)
	told := map[string]string{"id": "l1", "where": "shoulder", "pain": "3", "movement": "push-up", "none": "yes", "home": "yes"}
	status, text, _ := g.sends("mo", "/sheets/bars/sore/mo", told)
	if status != http.StatusOK || !strings.Contains(text, "Three ways to go on") || strings.Contains(mainOf(text), "bar ") && strings.Contains(mainOf(text), "landmine") {
		t.Fatalf("%d %s", status, mainOf(text))
	}
	told["take"] = "1"
	if status, text, to := g.sends("mo", "/sheets/bars/sore/mo", told); status != http.StatusSeeOther || to != "/sheets/bars?said=eased&home=yes#what-i-do" {
		t.Fatalf("taken: %d %s %s", status, to, mainOf(text))
	}
	g.shows("mo", "/sheets/bars?said=eased&home=yes", "at home", "Shoulder 3 of 10", "only you and your coach see this")
}

// TestMySore is moment 3: where and how much, then the questions, then three ways in order
// or an end to it; a way that is taken is noted and changes the day.
func TestMySore(t *testing.T) {
	g := lifting(t)
	step := func(fields map[string]string, words ...string) string {
		t.Helper()
		status, text, to := g.sends("mo", "/sheets/bars/sore/mo", fields)
		for _, word := range words {
			if status != http.StatusOK || !strings.Contains(text, word) {
				t.Errorf("%v: %d %s without %q: %s", fields, status, to, word, mainOf(text))
			}
		}
		return text
	}
	g.shows("mo", "/sheets/bars/sore/mo", "Where is it?", "Only you and your coach see this.")
	told := map[string]string{"id": "l1", "where": "back", "pain": "4", "movement": "front-squat"}
	step(told, "First: is any of these so?", "Any numbness where you would sit on a saddle?")
	told["none"] = "yes"
	step(told, "Three ways to go on", "Take the first", "not a diagnosis")
	told["take"] = "1"
	for range 2 { // sent twice it is taken once, and not made gentler once more
		if status, text, to := g.sends("mo", "/sheets/bars/sore/mo", told); status != http.StatusSeeOther || to != "/sheets/bars?said=eased#what-i-do" {
			t.Fatalf("taken: %d %s %s", status, to, mainOf(text))
		}
	}
	g.shows("mo", "/sheets/bars?said=eased", "It is noted", "Back 4 of 10", "only you and your coach see this")
	if text := g.shows("bo", "/sheets/bars"); strings.Contains(text, "ack 4 of") {
		t.Error("Bo reads of Mo's back")
	}
	g.later(24 * time.Hour)
	_, _, to := g.sends("mo", "/sheets/bars/sore/mo", map[string]string{"id": "l2", "where": "back", "pain": "4", "flag-saddle": "yes", "none": "yes"})
	g.shows("mo", to, "Stop here", "your coach sees it")
	g.shows("mo", "/sheets/bars", "Not today")
}

// TestBadSore sends what cannot be answered: each comes back with what was told and what
// is wrong.
func TestBadSore(t *testing.T) {
	g := lifting(t)
	for what, fields := range map[string]map[string]string{
		"nothing":          {},
		"no figure":        {"where": "back"},
		"no figure at all": {"where": "back", "pain": "lots"},
		"off the scale":    {"where": "back", "pain": "11"},
		"nowhere":          {"where": "<b>", "pain": "3"},
		"no such way":      {"id": "l1", "where": "back", "pain": "3", "none": "yes", "take": "9"},
		"no way":           {"id": "l1", "where": "back", "pain": "3", "none": "yes", "take": "first"},
		"no question":      {"where": "back", "pain": "3", "flag-none": "yes"},
		"no id":            {"where": "back", "pain": "3", "none": "yes", "take": "1"},
	} {
		status, text, _ := g.sends("mo", "/sheets/bars/sore/mo", fields)
		if status != http.StatusBadRequest || !strings.Contains(text, `id="sore-wrong"`) || !strings.Contains(text, "Where is it?") || strings.Contains(text, "<b>") {
			t.Errorf("%s: %d %s", what, status, mainOf(text))
		}
	}
	for who, want := range map[string]int{"bo": 403, "screen": 403, "stranger": 404, "": 401} {
		if status, _, _ := g.sends(who, "/sheets/bars/sore/mo", map[string]string{"where": "back", "pain": "3"}); status != want {
			t.Errorf("%q says it of Mo: %d, want %d", who, status, want)
		}
	}
	g.update(func(tx *store.Tx) error {
		all, err := tx.In("ours").Limits("mo")
		if len(all) > 0 {
			t.Errorf("something was written down: %+v", all)
		}
		return err
	})
}

// TestReadBesideUnread: an earlier score of which it is not kept yet what was done is laid
// beside what is typed, and not taken for it.
func TestReadBesideUnread(t *testing.T) {
	g := lifting(t)
	g.must("coach", "PUT", "/sheets/earlier", map[string]any{"text": strings.Replace(bars, "2027-03-04", "2026-11-12", 1)})
	g.must("mo", "POST", "/scores", map[string]any{"id": "s-earlier", "sheet": "earlier", "day": "2026-11-12", "text": "4+3, front squats 30 kg"})
	_, text, _ := g.sends("mo", "/sheets/bars/reading", map[string]string{"text": "5+4, front squats 35 kg"}, "HX-Request", "true")
	if n := strings.Count(text, "Read as:"); n != 1 || !strings.Contains(text, "5 rounds") {
		t.Errorf("%d readings of one text: %s", n, text)
	}
}

// TestNothingToBeatWhileSore: who goes easy since something hurts is told no number to
// beat, and hears of it again the next time.
func TestNothingToBeatWhileSore(t *testing.T) {
	g := lifting(t)
	attempted(t, g, "4+3, front squats 30 kg")
	g.shows("mo", "/sheets/bars", "Match 4+3.")
	g.must("mo", "POST", "/sheets/bars/sore/mo", map[string]any{"where": "knee", "pain": 4, "red_flag": false, "take": 1, "id": "l-today"})
	if text := g.shows("mo", "/sheets/bars", "How did it go?"); strings.Contains(text, "Match 4+3") {
		t.Error("a knee that hurts is told what to beat")
	}
}
