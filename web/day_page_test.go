package web_test

import (
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"

	"roomful"
	"roomful/store"
)

// form posts a form as a browser does, and returns where it leads.
func (g *gym) form(who, path string, fields url.Values) (status int, text, to string) {
	g.t.Helper()
	status, text, header := g.ask(who, "POST", path, fields.Encode(), "Content-Type", "application/x-www-form-urlencoded", "Accept", "text/html")
	return status, text, header.Get("Location")
}

// plain takes the markup out of a page, so that sentences can be looked for.
func plain(text string) string {
	text = regexp.MustCompile(`(?s)<(script|style)[^>]*>.*?</(script|style)>|<[^>]*>`).ReplaceAllString(text, " ")
	return strings.Join(strings.Fields(strings.NewReplacer("&#39;", "'", "&#43;", "+", "&#34;", `"`).Replace(text)), " ")
}

// lift is a day with a bar in it.
const lift = "Slow Drip\n2027-03-04, 60 min\n\neffort: 5-7 rounds, steady\n\nmain: as many rounds as possible in 12 min\n  8 deadlifts 80/55 kg\n  10 push-ups\n"

// known tells enough of mo to know what to lift.
func (g *gym) known() {
	g.t.Helper()
	g.update(func(tx *store.Tx) error {
		mo, err := tx.In("ours").Person("mo")
		if err != nil {
			return err
		}
		mo.MassKg, mo.Division, mo.Known = 80, roomful.DivisionA, []roomful.Known{{Test: roomful.TestDeadlift, Value: 150}, {Test: roomful.TestPushUps, Value: 40}}
		return tx.In("ours").PutPerson(mo)
	})
	g.must("coach", "PUT", "/sheets/lift", map[string]any{"text": lift})
}

// TestDayPage: a coach reads the verdicts, who does what and the text; a member none of it.
func TestDayPage(t *testing.T) {
	g := open(t)
	g.known()
	status, text := g.page("coach", "/sheets/lift?wait=yes")
	if status != http.StatusOK {
		t.Fatalf("%d %s", status, text)
	}
	said := plain(text)
	for _, want := range []string{"Slow Drip", "Fits the hour", "of 60 minutes", "Nothing short", "1 unknown", "1 needs you", "As written", "8 deadlifts", "Mo", "Bo new", "Publish", "Nothing to mend.", "Said under the day", "The hour", "How it is likely to go"} {
		if !strings.Contains(said, want) {
			t.Errorf("the day does not say %q: %s", want, said)
		}
	}
	for _, want := range []string{`name="revision" value="1"`, "8 deadlifts 80/55 kg\n", `<svg`} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not have %q", want)
		}
	}
	status, phone, _ := g.ask("coach", "GET", "/sheets/lift?wait=yes", nil, "Accept", "text/html", "Sec-CH-UA-Mobile", "?1")
	for _, fold := range []string{"fold-sheet", "fold-short", "fold-bars", "fold-hour", "fold-strips"} {
		if status != http.StatusOK || !strings.Contains(phone, `<details class="fold" id="`+fold+`">`) || strings.Contains(text, fold) {
			t.Errorf("%s is not folded on a phone alone", fold)
		}
	}
	if _, text := g.page("mo", "/sheets/lift"); strings.Contains(text, `name="revision"`) || strings.Contains(strings.ReplaceAll(text, "viewBox", ""), "Bo") {
		t.Errorf("a member has the coach's page: %s", text)
	}
	if status, _ := g.page("coach", "/sheets/no-such-day"); status != http.StatusNotFound {
		t.Errorf("a day that is not there: %d", status)
	}
}

// TestDayOfClass: the day of a class is that of those who come to it; one that nobody comes
// to says what to do.
func TestDayOfClass(t *testing.T) {
	g := open(t)
	g.known()
	for class, start := range map[string]string{"full": "17:30", "empty": "06:00"} {
		g.must("coach", "PUT", "/classes/"+class, map[string]any{"date": "2027-03-04", "start": start, "minutes": 60, "capacity": 8, "sheet": "lift"})
	}
	g.must("coach", "PUT", "/classes/full/places/mo", nil)
	_, text := g.page("coach", "/sheets/lift?class=full&wait=yes")
	if said := plain(text); !strings.Contains(said, "Thursday 4 March 2027, 17:30 · 1 coming") || !strings.Contains(said, "06:00, 0 come") || strings.Contains(said, "Bo new") || !strings.Contains(said, "17:30 Briefing") {
		t.Errorf("the day of a class: %s", said)
	}
	if _, text := g.page("coach", "/sheets/lift?class=empty"); !strings.Contains(plain(text), "Nobody has a place in that class yet. Ask again when somebody has, or about everybody.") || !strings.Contains(text, "8 deadlifts 80/55 kg") {
		t.Errorf("the day of a class that nobody comes to: %s", plain(text))
	}
	for _, path := range []string{"/sheets/lift?class=none", "/sheets/lift?class=" + url.QueryEscape("<b>")} {
		if status, _ := g.page("coach", path); status != http.StatusNotFound {
			t.Errorf("%s: %d", path, status)
		}
	}
	if status, text := g.page("coach", "/sheets/lift?piece=none"); status != http.StatusOK || !strings.Contains(plain(text), "no piece called") {
		t.Errorf("a piece that is not there: %d %s", status, plain(text))
	}
}

// TestDayWithFaults: a sheet that has faults says which and where, and shows the day as it
// was before them.
func TestDayWithFaults(t *testing.T) {
	g := open(t)
	g.known()
	bad := strings.Replace(lift, "push-ups", "<b>wiblybobs", 1)
	if status, _, to := g.form("coach", "/sheets/lift", url.Values{"text": {bad}, "revision": {"1"}}); status != http.StatusSeeOther || to != "/sheets/lift?said=saved" {
		t.Fatalf("a text with a fault is not saved: %d %s", status, to)
	}
	_, text := g.page("coach", "/sheets/lift?wait=yes")
	said := plain(text)
	for _, want := range []string{"1 line to mend", "Line 8 , 10 &lt;b&gt;wiblybobs : ", "is no movement I know", "There are lines to mend. Until they are, this is the day as it was saved at 05:00, before them.", "10 push-ups", "Mo"} {
		if !strings.Contains(said, want) {
			t.Errorf("the day with a fault does not say %q: %s", want, said)
		}
	}
	if strings.Contains(text, "<b>wib") {
		t.Error("what was typed is markup")
	}
	g.must("coach", "PUT", "/sheets/never", map[string]any{"text": bad})
	if _, text := g.page("coach", "/sheets/never"); !strings.Contains(plain(text), "There are lines to mend, so nothing is worked out yet.") {
		t.Errorf("a day that never was without faults: %s", plain(text))
	}
}

// TestDayPeople: somebody's version opens in its place, as a part and with a page of its
// own; nobody else's, and not for members.
func TestDayPeople(t *testing.T) {
	g := open(t)
	g.known()
	status, text, _ := g.ask("coach", "GET", "/sheets/lift/people/mo", nil, "HX-Request", "true")
	if said := plain(text); status != http.StatusOK || !strings.Contains(said, "8 deadlifts 120 kg 120 kg: more load keeps you inside 5-7 rounds.") || !strings.Contains(said, "Put Mo on another option As written 80 kg") || !strings.Contains(said, "Likely") || !strings.Contains(said, "Write it otherwise") || strings.Contains(text, "<html") {
		t.Errorf("a version as a part: %d %s", status, said)
	}
	if status, _, header := g.ask("coach", "GET", "/sheets/lift/people/mo", nil, "Accept", "text/html"); status != http.StatusSeeOther || header.Get("Location") != "/sheets/lift?open=mo#p-mo" {
		t.Errorf("a version without a script: %d %v", status, header)
	}
	if _, text := g.page("coach", "/sheets/lift?open=mo"); !strings.Contains(plain(text), "Write it otherwise") {
		t.Error("a version does not stand open")
	}
	if status, text := g.page("coach", "/sheets/lift?open="+url.QueryEscape("<b>")); status != http.StatusOK || strings.Contains(text, "<b>\"") {
		t.Errorf("nobody's version: %d", status)
	}
	for who, want := range map[string]int{"mo": http.StatusForbidden, "stranger": http.StatusForbidden, "": http.StatusUnauthorized} {
		if status, _, _ := g.ask(who, "GET", "/sheets/lift/people/mo", nil, "HX-Request", "true"); status != want {
			t.Errorf("%q looks at somebody's version: %d", who, status)
		}
	}
	if status, _, _ := g.ask("coach", "GET", "/sheets/lift/people/none", nil, "HX-Request", "true"); status != http.StatusNotFound {
		t.Errorf("the version of nobody: %d", status)
	}
}

// TestPublishForm: a coach publishes a day as they see it, and is told what members see.
func TestPublishForm(t *testing.T) {
	g := open(t)
	ahead := strings.Replace(lift, "2027-03-04", "2027-03-09", 1)
	g.must("coach", "PUT", "/sheets/ahead", map[string]any{"text": ahead})
	says := func(want string) {
		t.Helper()
		if _, text := g.page("coach", "/sheets/ahead"); !strings.Contains(plain(text), want) {
			t.Errorf("the day does not say %q: %s", want, plain(text))
		}
	}
	says("Members do not see it before its day, unless you publish it.")
	for range 2 { // sent twice it is published once
		if status, text, to := g.form("coach", "/sheets/ahead/editions?class=c-1", url.Values{"revision": {"1"}}); status != 303 || to != "/sheets/ahead?class=c-1&said=published" {
			t.Fatalf("publishing: %d %s %s", status, to, plain(text))
		}
	}
	says("Published at 05:00. Members see it as it stands here.")
	if got := g.must("coach", "GET", "/sheets/ahead/editions", nil)["editions"].([]any); len(got) != 1 {
		t.Errorf("published: %v", got)
	}
	g.must("coach", "PUT", "/sheets/ahead", map[string]any{"text": strings.Replace(ahead, "8 deadlifts", "6 deadlifts", 1), "revision": 1})
	says("Members see it as it was published at 05:00, and none of what was changed since.")
	if status, text, _ := g.form("coach", "/sheets/ahead/editions", url.Values{"revision": {"1"}}); status != http.StatusConflict || !strings.Contains(plain(text), "Not published: it was saved again meanwhile.") {
		t.Errorf("publishing what was changed meanwhile: %d %s", status, plain(text))
	}
	g.must("coach", "PUT", "/sheets/ahead", map[string]any{"text": ahead + "  20 wiblybobs\n", "revision": 2})
	if status, text, _ := g.form("coach", "/sheets/ahead/editions", url.Values{"revision": {"3"}}); status != 400 || !strings.Contains(plain(text), "Not published: the sheet has lines to mend.") {
		t.Errorf("publishing faults: %d %s", status, plain(text))
	}
	for name, fields := range map[string]url.Values{"no revision": {}, "no number": {"revision": {"<b>"}}, "nought": {"revision": {"0"}}} {
		if status, _, _ := g.form("coach", "/sheets/ahead/editions", fields); status != 400 {
			t.Errorf("%s: %d", name, status)
		}
	}
	if status, _, _ := g.form("mo", "/sheets/ahead/editions", url.Values{"revision": {"3"}}); status != 403 {
		t.Errorf("a member publishes: %d", status)
	}
}
