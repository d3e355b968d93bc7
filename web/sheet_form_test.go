package web_test

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"roomful/store"
)

// TestSheetForm: a sheet is saved from its page, again changes nothing, and what is not
// taken comes back with why.
func TestSheetForm(t *testing.T) {
	g := open(t)
	longer := drip + "\nmobility: 3 min\n  calf stretch 60 s\n"
	for _, one := range []struct {
		name, who, path string
		fields          url.Values
		status          int
		to, says        string
	}{
		{"a change, with the line ends of a browser", "coach", "/sheets/drip", url.Values{"text": {strings.ReplaceAll(longer, "\n", "\r\n")}, "revision": {"1"}}, 303, "/sheets/drip?said=saved", ""},
		{"the same again", "coach", "/sheets/drip", url.Values{"text": {longer}, "revision": {"2"}}, 303, "/sheets/drip?said=same", ""},
		{"sent twice", "coach", "/sheets/drip", url.Values{"text": {longer}, "revision": {"1"}}, 303, "/sheets/drip?said=saved", ""},
		{"with a class", "coach", "/sheets/drip?class=c-1&piece=main", url.Values{"text": {longer}, "revision": {"2"}}, 303, "/sheets/drip?class=c-1&piece=main&said=same", ""},
		{"nothing", "coach", "/sheets/drip", url.Values{"text": {" \n"}, "revision": {"2"}}, 400, "", "There is nothing to save."},
		{"no text at all", "coach", "/sheets/drip", url.Values{"revision": {"2"}}, 400, "", "There is nothing to save."},
		{"too long", "coach", "/sheets/drip", url.Values{"text": {drip + strings.Repeat("note: x\n", 20_000)}, "revision": {"2"}}, 400, "", "That is more than a sheet holds."},
		{"no revision", "coach", "/sheets/drip", url.Values{"text": {longer}}, 400, "", "which revision it was written from"},
		{"a revision that is none", "coach", "/sheets/drip", url.Values{"text": {longer}, "revision": {"<b>"}}, 400, "", "which revision it was written from"},
		{"not UTF-8", "coach", "/sheets/drip", url.Values{"text": {"Drip\xff\n"}, "revision": {"2"}}, 400, "", "bytes that are no letters"},
		{"a member", "mo", "/sheets/drip", url.Values{"text": {"Mine\n"}, "revision": {"2"}}, 403, "", ""},
		{"nobody", "", "/sheets/drip", url.Values{"text": {"Mine\n"}, "revision": {"2"}}, 401, "", "Mine"},
	} {
		t.Run(one.name, func(t *testing.T) {
			status, text, to := g.form(one.who, one.path, one.fields)
			if status != one.status || to != one.to || !strings.Contains(plain(text), one.says) {
				t.Errorf("%d to %q, want %d to %q saying %q: %s", status, to, one.status, one.to, one.says, plain(text)[:min(len(plain(text)), 1500)])
			}
		})
	}
	if got := g.must("coach", "GET", "/sheets/drip", nil)["text"]; got != longer {
		t.Errorf("what is kept: %q", got)
	}
}

// TestTidyAndMend: a text comes back tidied or mended, and is not saved by that.
func TestTidyAndMend(t *testing.T) {
	g := open(t)
	loose := "Drip\n2027-03-04\n\nmain: 12 min as many rounds as possible\n  10 bur peas\n"
	_, text, _ := g.form("coach", "/sheets/drip", url.Values{"text": {loose}, "revision": {"1"}, "mend": {"5 6 5 14 burpees"}})
	if !strings.Contains(text, "  10 burpees\n") || !strings.Contains(plain(text), "Mended, and not saved yet.") || !strings.Contains(plain(text), "Worked out from what you typed. Not saved.") {
		t.Errorf("mended: %s", plain(text))
	}
	_, text, _ = g.form("coach", "/sheets/drip", url.Values{"text": {strings.Replace(loose, "bur peas", "burpees", 1)}, "revision": {"1"}, "do": {"tidy"}})
	if !strings.Contains(text, "main: as many as possible in 12 min\n  10 burpees\n") || !strings.Contains(plain(text), "Tidied, and not saved yet.") {
		t.Errorf("tidied: %s", plain(text))
	}
	for _, mend := range []string{"<b>", "5 6", "99 1 99 2 x", "5 -1 5 2 x", "5 6 4 1 x", "1 1 1 99999999999999999999 x"} {
		if _, text, _ := g.form("coach", "/sheets/drip", url.Values{"text": {loose}, "revision": {"1"}, "mend": {mend}}); !strings.Contains(text, "  10 bur peas\n") {
			t.Errorf("mending %q: %s", mend, plain(text))
		}
	}
	if got := g.must("coach", "GET", "/sheets/drip", nil)["text"]; got != drip {
		t.Errorf("it is saved: %q", got)
	}
}

// TestCheckAndDraft: what is being written is read and worked out without being saved.
func TestCheckAndDraft(t *testing.T) {
	g := open(t)
	g.known()
	part := func(path, text string) (int, string) {
		t.Helper()
		status, answer, _ := g.ask("coach", "POST", path, url.Values{"text": {text}}.Encode(), "Content-Type", "application/x-www-form-urlencoded", "HX-Request", "true")
		return status, answer
	}
	status, text := part("/sheets/lift/check", strings.Replace(lift, "push-ups", "bur peas", 1))
	if status != 200 || !strings.Contains(plain(text), "1 line to mend") || !strings.Contains(text, `data-line="8"`) || !strings.Contains(text, `data-put="burpees"`) || strings.Contains(text, "<html") {
		t.Errorf("checking: %d %s", status, text)
	}
	status, text = part("/sheets/lift/draft?wait=yes", strings.Replace(lift, "10 push-ups", "20 push-ups", 1))
	if said := plain(text); status != 200 || !strings.Contains(said, "Worked out from what you typed. Not saved.") || !strings.Contains(said, "20 push-ups") || !strings.Contains(text, `id="who"`) {
		t.Errorf("a draft: %d %s", status, said)
	}
	if _, text = part("/sheets/lift/draft", "Slow\n\nmain: nonsense\n"); !strings.Contains(plain(text), "There are lines to mend first.") {
		t.Errorf("a draft with faults: %s", plain(text))
	}
	if status, text = part("/sheets/draft", lift); status != 200 || !strings.Contains(plain(text), "8 deadlifts") || strings.Contains(text, "/sheets//") {
		t.Errorf("the draft of a new sheet: %d %s", status, plain(text))
	}
	if status, _ = part("/sheets/lift/draft", " "); status != 400 {
		t.Errorf("a draft of nothing: %d", status)
	}
	if status, _ = part("/sheets/none/draft", lift); status != 404 {
		t.Errorf("a draft of a day that is not there: %d", status)
	}
	if got := g.must("coach", "GET", "/sheets/lift", nil)["text"]; got != lift {
		t.Errorf("it is saved: %q", got)
	}
}

// TestMergePage: of two who save one sheet the later sees both texts, chooses, and neither
// loses a line.
func TestMergePage(t *testing.T) {
	g := open(t)
	g.comeIn("other", g.invite("owner", "coach", ""))
	theirs := strings.Replace(drip, "10 burpees", "8 burpees", 1)
	mine := strings.Replace(strings.Replace(drip, "10 burpees", "9 burpees", 1), "Drip\n", "Drip, Slowly\n", 1) + "\nmobility: 3 min\n  calf stretch 60 s\n"
	if status, _, _ := g.form("other", "/sheets/drip", url.Values{"text": {theirs}, "revision": {"1"}}); status != 303 {
		t.Fatal(status)
	}
	status, text, _ := g.form("coach", "/sheets/drip", url.Values{"text": {mine}, "revision": {"1"}})
	said := plain(text)
	for _, want := range []string{"Two texts of one sheet", "You both changed this. Which holds?", "You changed this.", "8 burpees", "9 burpees", "Drip, Slowly", "calf stretch"} {
		if status != http.StatusConflict || !strings.Contains(said, want) {
			t.Errorf("%d, the two texts do not say %q: %s", status, want, said)
		}
	}
	take := url.Values{"text": {mine}, "base": {"1"}, "revision": {"2"}, "take-0": {"mine"}, "take-2": {"theirs"}}
	take.Set("do", "look")
	if _, text, _ = g.form("coach", "/sheets/drip/merge", take); !strings.Contains(text, "8 burpees\n") || !strings.Contains(text, "Drip, Slowly\n") || !strings.Contains(text, `name="revision" value="2"`) {
		t.Errorf("looked over: %s", text)
	}
	take.Set("do", "save")
	if status, _, to := g.form("coach", "/sheets/drip/merge", take); status != 303 || to != "/sheets/drip?said=saved" {
		t.Errorf("saved: %d %s", status, to)
	}
	want := strings.Replace(mine, "9 burpees", "8 burpees", 1)
	if got := g.must("coach", "GET", "/sheets/drip", nil)["text"]; got != want {
		t.Errorf("what holds: %q, want %q", got, want)
	}
	for name, fields := range map[string]url.Values{
		"no text": {"base": {"1"}, "revision": {"2"}}, "no revision": {"text": {mine}, "base": {"1"}}, "no base": {"text": {mine}, "base": {"<b>"}, "revision": {"2"}},
	} {
		if status, text, _ := g.form("coach", "/sheets/drip/merge", fields); status != 400 || fields.Get("text") != "" && !strings.Contains(text, "Drip, Slowly") {
			t.Errorf("%s: %d", name, status)
		}
	}
}

// TestRevisionsPage: every text that was saved can be read and brought back, also one that
// was kept aside; as a page for coaches and as JSON for programs.
func TestRevisionsPage(t *testing.T) {
	g := open(t)
	other := strings.Replace(drip, "10 burpees", "8 burpees", 1)
	g.form("coach", "/sheets/drip", url.Values{"text": {other}, "revision": {"1"}})
	g.form("owner", "/sheets/drip", url.Values{"text": {strings.Replace(drip, "10", "<b>7", 1)}, "revision": {"1"}})
	_, text := g.page("coach", "/sheets/drip/revisions")
	said := plain(text)
	for _, want := range []string{"Earlier texts", "This holds.", "Kept aside: somebody else had saved first.", "Wrote 1 line in the place of 1.", "Written for the first time."} {
		if !strings.Contains(said, want) {
			t.Errorf("the earlier texts do not say %q: %s", want, said)
		}
	}
	if strings.Contains(text, "<b>") {
		t.Error("what was typed is markup")
	}
	if status, _, to := g.form("coach", "/sheets/drip/revisions", url.Values{"n": {"1"}, "revision": {"2"}}); status != 303 || to != "/sheets/drip?said=saved" {
		t.Errorf("bringing the first back: %d %s", status, to)
	}
	if got := g.must("coach", "GET", "/sheets/drip", nil)["text"]; got != drip {
		t.Errorf("what holds: %q", got)
	}
	for name, fields := range map[string]url.Values{"none": {}, "no number": {"n": {"<b>"}, "revision": {"4"}}} {
		if status, _, _ := g.form("coach", "/sheets/drip/revisions", fields); status != 400 {
			t.Errorf("%s: %d", name, status)
		}
	}
	if status, _, _ := g.form("coach", "/sheets/drip/revisions", url.Values{"n": {"99"}, "revision": {"4"}}); status != 404 {
		t.Errorf("a text that never was: %d", status)
	}
	if status, _ := g.page("mo", "/sheets/drip/revisions"); status != 403 {
		t.Errorf("a member reads them: %d", status)
	}
	if got := g.must("coach", "GET", "/sheets/drip/revisions", nil)["revisions"].([]any); len(got) != 4 {
		t.Errorf("as JSON: %v", got)
	}
}

// TestNewSheet: a sheet begins with an example or an earlier one, on the next day without
// one, and is named after its title; sent twice it is one.
func TestNewSheet(t *testing.T) {
	g := open(t)
	_, text := g.page("coach", "/sheets/new")
	if !strings.Contains(text, "2027-03-05, 60 min") || !strings.Contains(plain(text), "Nothing to mend.") {
		t.Errorf("a new sheet on the day after the last: %s", plain(text))
	}
	if _, text = g.page("coach", "/sheets/new?again=drip&day=2027-03-09"); !strings.Contains(text, "Drip, Again\n2027-03-09, 60 min\nagain: Drip\n") || !strings.Contains(text, "10 burpees") {
		t.Errorf("once more: %s", plain(text))
	}
	send := func(id, text string) (int, string, string) {
		return g.form("coach", "/sheets", url.Values{"id": {id}, "text": {text}, "revision": {"0"}})
	}
	for range 2 {
		if status, text, to := send("s-1", "Drip, the Other\n2027-03-05\n\nmain: 5 rounds for time\n  10 burpees\n"); status != 303 || to != "/sheets/drip-the-other?said=saved" {
			t.Errorf("a new sheet: %d %s %s", status, to, plain(text))
		}
	}
	if _, _, to := send("s-2", "Drip\n\nmain: 5 rounds for time\n  10 burpees\n"); to != "/sheets/drip-2?said=saved" {
		t.Errorf("a title that another has: %s", to)
	}
	if _, _, to := send("s-3", "New\n\nmain: 5 rounds for time\n  10 burpees\n"); to != "/sheets/new-sheet?said=saved" {
		t.Errorf("a title that is an address: %s", to)
	}
	for name, one := range map[string]struct {
		id, text, says string
		status         int
	}{
		"nothing": {"s-4", " ", "There is nothing to save.", 400}, "no title": {"s-4", "main: 5 rounds for time\n  10 <b>burpees\n", "Give it a title on its first line.", 400},
		"no id": {"", drip, "", 400}, "the id of something else": {"mo<b>", drip, "", 400},
	} {
		if status, text, _ := send(one.id, one.text); status != one.status || !strings.Contains(plain(text), one.says) || strings.Contains(text, "<b>") {
			t.Errorf("%s: %d %s", name, status, plain(text))
		}
	}
	if status, _, _ := g.form("mo", "/sheets", url.Values{"id": {"s-9"}, "text": {drip}}); status != 403 {
		t.Errorf("a member writes a sheet: %d", status)
	}
	g.update(func(tx *store.Tx) error {
		all, err := tx.In("ours").Documents(store.Sheet)
		if len(all) != 4 {
			t.Errorf("%d sheets", len(all))
		}
		return err
	})
}
