package web_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"
)

// TestSetForm: a coach's word sets somebody's version by an option or by lines, stands on
// the day as theirs, survives an edit of the sheet, and can be taken back.
func TestSetForm(t *testing.T) {
	g := open(t)
	g.known()
	g.comeIn("other", g.invite("owner", "coach", ""))
	set := func(fields url.Values) (int, string, string) {
		return g.form("coach", "/sheets/lift/overrides/mo", fields)
	}

	if status, text, to := set(url.Values{"option": {"As written"}, "reason": {"asked to do what is written"}}); status != 303 || to != "/sheets/lift?open=mo&said=word#p-mo" {
		t.Fatalf("an option: %d %s %s", status, to, plain(text))
	}
	_, text := g.page("coach", "/sheets/lift?open=mo")
	for _, want := range []string{"Mo your word 80 kg", "Your word, 4 March 05:00. Asked to do what is written.", "Take it back"} {
		if !strings.Contains(plain(text), want) {
			t.Errorf("the day does not say %q: %s", want, plain(text))
		}
	}
	if _, text = g.page("other", "/sheets/lift"); !strings.Contains(plain(text), "Mo Olu’s word 80 kg") {
		t.Errorf("another coach does not see whose word it is: %s", plain(text))
	}

	g.must("bo", "PUT", "/sheets/lift/choices/bo", map[string]any{"loads": map[string]any{"deadlift": map[string]any{"mass": 30, "unit": "kg"}}})
	if _, text = g.page("coach", "/sheets/lift"); !strings.Contains(plain(text), "Bo own choice new 30 kg") {
		t.Errorf("somebody's own choice is not told apart: %s", plain(text))
	}

	if status, text, to := set(url.Values{"line[]": {"6 deadlifts 60 kg", "10 push-ups"}}); status != 303 || !strings.HasPrefix(to, "/sheets/lift?open=mo") {
		t.Fatalf("lines: %d %s", status, plain(text))
	}
	g.must("coach", "PUT", "/sheets/lift", map[string]any{"text": strings.Replace(lift, "10 push-ups", "12 push-ups", 1), "revision": 1})
	_, text = g.page("coach", "/sheets/lift?open=mo")
	if said := plain(text); !strings.Contains(said, "6 deadlifts 60 kg") || !strings.Contains(said, "12 push-ups") || !strings.Contains(said, "Mo your word 60 kg") {
		t.Errorf("after the sheet was edited: %s", said)
	}
	g.must("coach", "PUT", "/sheets/lift", map[string]any{"text": strings.Replace(lift, "8 deadlifts 80/55 kg", "8 air squats", 1), "revision": 2})
	if _, text = g.page("coach", "/sheets/lift"); !strings.Contains(plain(text), "Mo A version was set by hand, and the sheet has other lines now: set it again.") {
		t.Errorf("a word that no longer fits the sheet is not told of: %s", plain(text))
	}
	for range 2 { // taken back twice is taken back
		if status, _, to := set(url.Values{"do": {"back"}}); status != 303 || to != "/sheets/lift?open=mo&said=given#p-mo" {
			t.Errorf("taking it back: %d %s", status, to)
		}
	}
	if _, text = g.page("coach", "/sheets/lift?open=mo"); strings.Contains(plain(text), "your word") {
		t.Errorf("it is still there: %s", plain(text))
	}
}

// TestSetFormRefuses: what cannot be set comes back with what was typed and with why.
func TestSetFormRefuses(t *testing.T) {
	g := open(t)
	g.known()
	for _, one := range []struct {
		name   string
		fields url.Values
		says   string
	}{
		{"nothing", url.Values{}, "the piece has other lines now"},
		{"too few lines", url.Values{"line[]": {"6 deadlifts"}}, "the piece has other lines now"},
		{"the same", url.Values{"line[]": {"8 deadlifts 120 kg", "10 push-ups"}}, "nothing was changed"},
		{"no such movement", url.Values{"line[]": {"8 <b>wiblybobs 60 kg", "10 push-ups"}}, "is no movement I know"},
		{"a load that nobody lifts", url.Values{"line[]": {"8 deadlifts 9000 kg", "10 push-ups"}}, "Setting a version:"},
		{"two lines in one", url.Values{"line[]": {"8 deadlifts\n10 burpees", "10 push-ups"}}, "Setting a version:"},
		{"an empty line", url.Values{"line[]": {"", "10 push-ups"}}, "a line is empty or too long"},
		{"a line that is too long", url.Values{"line[]": {strings.Repeat("8 ", 90), "10 push-ups"}}, "a line is empty or too long"},
		{"no such option", url.Values{"option": {"<b>"}}, "the day has no such option"},
		{"a reason that is too long", url.Values{"option": {"As written"}, "reason": {strings.Repeat("x", 501)}}, "the reason is too long"},
	} {
		t.Run(one.name, func(t *testing.T) {
			status, text, _ := g.form("coach", "/sheets/lift/overrides/mo", one.fields)
			if status != http.StatusBadRequest || !strings.Contains(plain(text), one.says) || strings.Contains(text, "<b>") {
				t.Errorf("%d, want what says %q: %s", status, one.says, plain(text))
			}
			for _, line := range one.fields["line[]"][:min(len(one.fields["line[]"]), 1)] {
				if first, _, _ := strings.Cut(line, "<"); !strings.Contains(text, first) {
					t.Errorf("what was typed is lost: %s", plain(text))
				}
			}
		})
	}
	for path, want := range map[string]int{"/sheets/lift/overrides/nobody": 404, "/sheets/none/overrides/mo": 404} {
		if status, _, _ := g.form("coach", path, url.Values{"option": {"As written"}}); status != want {
			t.Errorf("%s: %d", path, status)
		}
	}
	for who, want := range map[string]int{"mo": 403, "stranger": 403, "": 401} {
		if status, _, _ := g.form(who, "/sheets/lift/overrides/mo", url.Values{"option": {"As written"}}); status != want {
			t.Errorf("%q sets a version: %d", who, status)
		}
	}
	if got := g.must("coach", "GET", "/sheets/lift/overrides", nil)["overrides"].([]any); len(got) > 0 {
		t.Errorf("something is set: %v", got)
	}
}

// TestAnswerForm: a coach reads what was said under the day and answers it; a private note
// has a private answer.
func TestAnswerForm(t *testing.T) {
	g := open(t)
	g.must("mo", "POST", "/sheets/drip/notes", map[string]any{"id": "n-1", "text": "knee sore <b>", "private": true})
	_, text := g.page("coach", "/sheets/drip")
	if said := plain(text); !strings.Contains(said, "only they and their coaches read it") || !strings.Contains(said, "knee sore") || strings.Contains(text, "<b>") {
		t.Errorf("the note: %s", said)
	}
	fields := url.Values{"id": {"n-2"}, "answers": {"n-1"}, "text": {"Take the step-ups."}}
	for range 2 { // sent twice it is kept once
		if status, text, to := g.form("coach", "/sheets/drip/answers?class=c-1", fields); status != 303 || to != "/sheets/drip?answered=n-1&class=c-1&said=answer#note-n-1" {
			t.Errorf("answering: %d %s %s", status, to, plain(text))
		}
	}
	if _, text := g.page("coach", "/sheets/drip"); strings.Count(plain(text), "Take the step-ups.") != 1 {
		t.Errorf("the answer: %s", plain(text))
	}
	if got := g.must("bo", "GET", "/sheets/drip/notes", nil)["notes"].([]any); len(got) > 0 {
		t.Errorf("another member reads it: %v", got)
	}
	for name, one := range map[string]struct {
		fields url.Values
		says   string
	}{
		"nothing":  {url.Values{"id": {"n-3"}, "answers": {"n-1"}, "text": {" "}}, "nothing, or too much"},
		"too long": {url.Values{"id": {"n-3"}, "answers": {"n-1"}, "text": {strings.Repeat("so ", 5000)}}, "nothing, or too much"},
		"no id":    {url.Values{"answers": {"n-1"}, "text": {"Kept typing"}}, ""},
	} {
		if status, text, _ := g.form("coach", "/sheets/drip/answers", one.fields); status != 400 || !strings.Contains(plain(text), one.says) || !strings.Contains(text, strings.TrimSpace(one.fields.Get("text"))) {
			t.Errorf("%s: %d %s", name, status, plain(text)[:min(len(plain(text)), 600)])
		}
	}
	if status, _, _ := g.form("coach", "/sheets/drip/answers", url.Values{"id": {"n-4"}, "answers": {"none"}, "text": {"To nobody"}}); status != 404 {
		t.Errorf("an answer to nothing: %d", status)
	}
}
