package web_test

import (
	"fmt"
	"html"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"roomful/store"
)

// send posts a form as a browser does, and returns what came back and where it leads.
func (g *gym) send(who, path string, form ...string) (status int, text, to string) {
	g.t.Helper()
	values := url.Values{}
	for i := 0; i+1 < len(form); i += 2 {
		values.Add(form[i], form[i+1])
	}
	status, text, header := g.ask(who, "POST", path, values.Encode(), "Content-Type", "application/x-www-form-urlencoded", "Accept", "text/html")
	return status, text, header.Get("Location")
}

// tags are what stands between angle brackets.
var tags = regexp.MustCompile(`<[^>]*>`)

// spaces are what parts words.
var spaces = regexp.MustCompile(`\s+`)

// words is a page as it is read aloud.
func words(text string) string {
	_, text, _ = strings.Cut(text, "<main")
	text, _, _ = strings.Cut(text, "</main>")
	return strings.TrimSpace(spaces.ReplaceAllString(strings.ReplaceAll(html.UnescapeString(tags.ReplaceAllString("<"+text, " ")), "\u00a0", " "), " "))
}

// reads is a page's words, for somebody who may see it.
func (g *gym) reads(who, path string) string {
	g.t.Helper()
	status, text := g.page(who, path)
	if status != http.StatusOK {
		g.t.Fatalf("%s looks at %s: %d %s", who, path, status, words(text))
	}
	return words(text)
}

// has reports each of some sentences that a text does not have.
func has(t testing.TB, what, text string, want ...string) {
	t.Helper()
	for _, w := range want {
		if !strings.Contains(text, w) {
			t.Errorf("%s: nothing says %q in %.3000q", what, w, text)
		}
	}
}

// hasNot reports each of some sentences that a text has.
func hasNot(t testing.TB, what, text string, never ...string) {
	t.Helper()
	for _, w := range never {
		if strings.Contains(text, w) {
			t.Errorf("%s: it says %q in %.3000q", what, w, text)
		}
	}
}

// evening writes a class down for half past five, with room for two.
func (g *gym) evening() {
	g.t.Helper()
	status, text, to := g.send("coach", "/classes", "id", "c1", "date", "2027-03-04", "start", "17:30", "minutes", "60", "capacity", "2", "sheet", "Drip", "weeks", "1")
	if status != http.StatusSeeOther || to != "/classes?from=2027-03-04&said=class-written#c-c1" {
		g.t.Fatalf("writing a class down: %d to %q: %s", status, to, words(text))
	}
}

// TestClassesPage: a week with its days; members see numbers and their own place in words,
// coaches lead on to who comes.
func TestClassesPage(t *testing.T) {
	g := open(t)
	has(t, "an empty week", g.reads("coach", "/classes"), "No class is written down for this week. Write the first one below")
	hasNot(t, "an empty week", g.reads("mo", "/classes"), "Write")
	g.evening()
	g.must("coach", "PUT", "/people/cy", map[string]any{"told": map[string]string{"name": "Cy Gannet"}})
	if _, _, to := g.send("coach", "/classes/c1/places", "name", "cy"); to != "/classes/c1?said=place-in" {
		t.Errorf("putting Cy in leads to %q", to)
	}
	if _, _, to := g.send("mo", "/classes/c1/places", "do", "take", "from", "2027-03-04"); to != "/classes?from=2027-03-04&said=own-place-in#c-c1" {
		t.Errorf("Mo asks: %q", to)
	}
	if _, _, to := g.send("bo", "/classes/c1/places", "do", "take"); to != "/classes?said=own-place-waiting#c-c1" {
		t.Errorf("Bo asks: %q", to)
	}
	for who, want := range map[string][]string{
		"mo":     {"Thursday 4 March today 17:30 to 18:30 Drip 2 in, full, 1 waiting You have a place. Give the place back", "Friday 5 March No class."},
		"bo":     {"2 in, full, 1 waiting You are next in line. Leave the line"},
		"coach":  {"17:30 to 18:30 Drip 2 in, full, 1 waiting Who comes at 17:30", "Write a class down"},
		"screen": {"2 in, full, 1 waiting"},
	} {
		text := g.reads(who, "/classes?said=own-place-in")
		has(t, who, text, want...)
		if who != "coach" {
			hasNot(t, who, text, "Cy", "Gannet", "Who comes", "Write a class down")
		}
	}
	has(t, "the class", g.reads("coach", "/classes/c1"), "Thursday 4 March 2027 17:30 Drip 60 minutes · 2 in, full, 1 waiting", "Cy Gannet Take out Cy Gannet Mo Take out Mo Waiting, in this order Bo")
	hasNot(t, "before it begins", g.reads("coach", "/classes/c1"), "Did not come")
	g.send("mo", "/classes/c1/places", "do", "leave")
	has(t, "after Mo left", g.reads("bo", "/classes"), "You have a place.")
	g.later(14 * time.Hour)
	has(t, "after it began", g.reads("coach", "/classes/c1"), "Cy Gannet Did not come", "Mo gave the place back")
	g.send("coach", "/classes/c1/places", "person", "cy", "do", "missed")
	has(t, "who did not come", g.reads("coach", "/classes/c1"), "Not coming Cy Gannet did not come")
	has(t, "a class that is over", g.reads("bo", "/classes"), "You had a place.")
	hasNot(t, "a class that is over", g.reads("mo", "/classes"), "Take a place", "Give the place back")
	if status, text, _ := g.send("mo", "/classes/c1/places", "do", "take"); status != http.StatusBadRequest || !strings.Contains(text, "this class is over") && !strings.Contains(text, "This class is over") && !strings.Contains(text, "Asking for a place") {
		t.Errorf("asking when it is over: %d %s", status, words(text))
	}
}

// TestClassWeeks writes the same class for some weeks, once however often it is sent.
func TestClassWeeks(t *testing.T) {
	g := open(t)
	for _, said := range []string{"classes-written", "classes-written", "class-stands"} {
		if said == "class-stands" {
			g.must("owner", "PUT", "/classes/c1", map[string]any{"start": "06:15"}) // which a form sent again leaves alone
		}
		if _, text, to := g.send("coach", "/classes", "id", "c1", "date", "2027-03-04", "start", "6:00", "minutes", "60", "capacity", "", "sheet", "drip", "weeks", "3"); to != "/classes?from=2027-03-04&said="+said+"#c-c1" {
			t.Fatalf("%q %s", to, words(text))
		}
	}
	has(t, "a form sent again", g.reads("coach", "/classes?from=2027-03-04&said=class-stands"), "somebody has changed it or asked for a place since")
	var got []string
	for _, c := range g.must("coach", "GET", "/classes?from=2027-03-01&to=2027-05-01", nil)["classes"].([]any) {
		c := c.(map[string]any)
		got = append(got, fmt.Sprint(c["date"], " ", c["start"], " ", c["sheet"]))
	}
	if want := "2027-03-04 06:15 drip; 2027-03-11 06:00 <nil>; 2027-03-18 06:00 <nil>"; strings.Join(got, "; ") != want {
		t.Errorf("written down are %q, want %q", got, want)
	}
	has(t, "the week after", g.reads("mo", "/classes?from=2027-03-11"), "Thursday 11 to Wednesday 17 March 2027", "No sheet yet", "This week")
}

// TestClassChange: two coaches change different things of a class and both hold; of the
// same thing, the second is told.
func TestClassChange(t *testing.T) {
	g := open(t)
	g.evening()
	was := []string{"was_date", "2027-03-04", "was_start", "17:30", "was_minutes", "60", "was_capacity", "2", "was_sheet", "drip"}
	say := func(start, capacity string) []string {
		return append([]string{"date", "2027-03-04", "start", start, "minutes", "60", "capacity", capacity, "sheet", "drip"}, was...)
	}
	if _, text, to := g.send("coach", "/classes/c1", say("18:00", "2")...); to != "/classes/c1?said=class-changed" {
		t.Fatalf("%q %s", to, words(text))
	}
	if _, text, to := g.send("owner", "/classes/c1", say("17:30", "9")...); to == "" {
		t.Errorf("a change of something else: %s", words(text))
	}
	has(t, "both", g.reads("coach", "/classes/c1"), "18:00 Drip 60 minutes · 0 in, 9 places left")
	status, text, _ := g.send("owner", "/classes/c1", say("16:00", "9")...)
	if status != http.StatusUnprocessableEntity || !strings.Contains(text, `value="16:00"`) {
		t.Errorf("a change of the same thing: %d", status)
	}
	has(t, "a change of the same thing", words(text), "Somebody else made it 18:00 meanwhile. Keep yours by sending it again.")
	now := []string{"date", "2027-03-04", "start", "16:00", "minutes", "60", "capacity", "9", "sheet", "drip", "was_date", "2027-03-04", "was_start", "18:00", "was_minutes", "60", "was_capacity", "9", "was_sheet", "drip"}
	if _, _, to := g.send("owner", "/classes/c1", now...); to == "" {
		t.Error("sent again, it is not kept")
	}
	g.send("coach", "/classes/c1", "called_off", "yes")
	has(t, "called off", g.reads("mo", "/classes"), "16:00 to 17:00 Drip Called off")
	hasNot(t, "called off", g.reads("mo", "/classes"), "Take a place")
	g.send("coach", "/classes/c1", "called_off", "no")
	has(t, "on after all", g.reads("mo", "/classes"), "Take a place")
}

// TestClassForms: what is wrong stands at its field, and what was typed stays.
func TestClassForms(t *testing.T) {
	g := open(t)
	g.evening()
	sound := map[string]string{"id": "c2", "date": "2027-03-05", "start": "17:30", "minutes": "60", "capacity": "12", "sheet": "", "weeks": "1"}
	for _, c := range []struct{ field, value, says string }{
		{"date", "", "Say the day, as 2027-03-04."}, {"date", "tomorrow", "Say the day"}, {"date", "2027-02-30", "Say the day"},
		{"start", "", "Say when it starts, as 17:30."}, {"start", "25:00", "Say when"}, {"start", "<b>", "Say when"},
		{"minutes", "0", "Say how long it is in minutes"}, {"minutes", "an hour", "Say how long"}, {"minutes", "1e9", "Say how long"},
		{"capacity", "-1", "Say how many there is room for"}, {"capacity", "99999999999999999999", "Say how many"},
		{"sheet", "nowhere <b>", "No sheet is called “nowhere <b>”."}, {"sheet", strings.Repeat("x", 9000), "No sheet is called"},
		{"weeks", "0", "Say how many weeks"}, {"weeks", "500", "Say how many weeks"},
	} {
		form := []string{}
		for k, v := range sound {
			if k == c.field {
				v = c.value
			}
			form = append(form, k, v)
		}
		status, text, _ := g.send("coach", "/classes", form...)
		if status != http.StatusUnprocessableEntity || !strings.Contains(text, `value="`+html.EscapeString(c.value)+`"`) || strings.Contains(text, "<b>\"") {
			t.Errorf("%s %.20q: %d, or what was typed is gone", c.field, c.value, status)
		}
		has(t, c.field, words(text), c.says)
	}
	for what, c := range map[string]struct {
		who, path string
		form      []string
		want      int
	}{
		"no id":                   {"coach", "/classes", []string{"date", "2027-03-04"}, 400},
		"markup for an id":        {"coach", "/classes", []string{"id", "<b>"}, 400},
		"a member writes":         {"mo", "/classes", []string{"id", "c9"}, 403},
		"a member looks":          {"mo", "/classes/c1", nil, 403},
		"a stranger asks":         {"stranger", "/classes/c1/places", []string{"do", "take"}, 404},
		"a screen asks":           {"screen", "/classes/c1/places", []string{"do", "take"}, 403},
		"for somebody else":       {"mo", "/classes/c1/places", []string{"do", "take", "person", "bo"}, 403},
		"by name as a member":     {"mo", "/classes/c1/places", []string{"do", "missed"}, 403},
		"no such class":           {"mo", "/classes/c8/places", []string{"do", "take"}, 404},
		"no such person":          {"coach", "/classes/c1/places", []string{"person", "nobody"}, 404},
		"letters that are none":   {"coach", "/classes/c1/places", []string{"name", "\xff"}, 400},
		"a coach who is nobody":   {"coach", "/classes/c1/places", []string{"name", ""}, 422},
		"nobody of that name":     {"coach", "/classes/c1/places", []string{"name", "Zed <b>"}, 422},
		"leaving without a place": {"mo", "/classes/c1/places", []string{"do", "leave"}, 404},
	} {
		if status, text, _ := g.send(c.who, c.path, c.form...); status != c.want || strings.Contains(text, "<b>”") {
			t.Errorf("%s: %d, want %d: %s", what, status, c.want, words(text))
		}
	}
}

// TestNamed: a name that could be several people asks which, with a button for each.
func TestNamed(t *testing.T) {
	g := open(t)
	g.evening()
	for id, name := range map[string]string{"ana": "Ana Reed", "ann": "Ann Ebb", "ann2": "Ann Ebb", "lee": "Lee Stow"} {
		g.must("coach", "PUT", "/people/"+id, map[string]any{"told": map[string]string{"name": name}})
	}
	status, text, _ := g.send("coach", "/classes/c1/places", "name", "an")
	if status != http.StatusUnprocessableEntity || !strings.Contains(text, `<button name="person" value="ana">Ana Reed</button>`) || !strings.Contains(text, `value="ann2">Ann Ebb (ann2)</button>`) {
		t.Errorf("%d %s", status, words(text))
	}
	has(t, "an", words(text), "“an” could be 3 people. Say which.")
	if _, _, to := g.send("coach", "/classes/c1/places", "name", "an", "person", "ann2"); to != "/classes/c1?said=place-in" {
		t.Errorf("the answer leads to %q", to)
	}
	if _, _, to := g.send("coach", "/classes/c1/places", "name", " l. stow "); to != "/classes/c1?said=place-in" {
		t.Errorf("an initial: %q", to)
	}
	g.update(func(tx *store.Tx) error {
		all, err := tx.In("ours").SignUps("c1")
		if len(all) != 2 || all[0].Person != "ann2" || all[1].Person != "lee" {
			t.Errorf("in are %v", all)
		}
		return err
	})
}
