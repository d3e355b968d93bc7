package web_test

import (
	"fmt"
	"html"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"roomful"
	"roomful/store"
)

// sends posts a form as a browser does, and returns where it leads and what it shows.
func (g *gym) sends(who, path string, fields map[string]string, header ...string) (status int, text, to string) {
	g.t.Helper()
	sent := url.Values{}
	for name, value := range fields {
		sent.Set(name, value)
	}
	status, text, got := g.ask(who, "POST", path, sent.Encode(), append([]string{"Content-Type", "application/x-www-form-urlencoded", "Accept", "text/html"}, header...)...)
	return status, text, got.Get("Location")
}

// shows asks for a page and expects words on it.
func (g *gym) shows(who, path string, words ...string) string {
	g.t.Helper()
	status, text := g.page(who, path)
	for _, word := range words {
		if status != http.StatusOK || !strings.Contains(text, word) && !strings.Contains(html.UnescapeString(text), word) {
			g.t.Errorf("%s for %s: %d without %q: %s", path, who, status, word, mainOf(text))
		}
	}
	return text
}

// mainOf is what a page says between its head and its foot.
func mainOf(text string) string {
	_, text, _ = strings.Cut(text, "<main")
	text, _, _ = strings.Cut(text, "</main>")
	return text
}

const barsSheet = `Bars
2027-03-04, 60 min

about: Three old umbrellas and a bar.

effort: 6-10 min, steady

warm-up: 2 rounds, 30 s each
  easy row
  air squat

ramp: deadlift to working load, 6 min

main: 3 rounds for time, cap 12 min
  10 pull-ups
  12 deadlifts 60/40 kg
  standards:
    deadlift: stand tall
  instead:
    pull-up: ring row

mobility: 2 min
  pigeon stretch 60 s a side
`

// barred is a gym with a sheet that has everything, two classes on its day, and Mo in one.
func barred(t *testing.T) *gym {
	g := open(t)
	g.must("coach", "PUT", "/sheets/bars", map[string]any{"text": barsSheet})
	g.must("coach", "PUT", "/classes/c1", map[string]any{"date": "2027-03-04", "start": "06:00", "capacity": 2, "sheet": "bars"})
	g.must("coach", "PUT", "/classes/c2", map[string]any{"date": "2027-03-04", "start": "17:30", "capacity": 1, "sheet": "bars"})
	g.must("coach", "PUT", "/classes/c1/places/mo", nil)
	return g
}

// TestMyDay shows a member what the day is, where they are in, and all that they do of it.
func TestMyDay(t *testing.T) {
	g := barred(t)
	text := g.shows("mo", "/sheets/bars", "Thursday 4 March 2027 · 06:00", "<h1>Bars</h1>", "3 rounds for time, cap 12 minutes. The aim is 6 to 10 minutes. Steady.",
		"Three old umbrellas", "You are in at 06:00.", "Give it back", "deadlifts", "Stand tall.", "ring row", "row, easy", "pigeon stretch", "Show first:", "How did it go?")
	for _, word := range []string{"confidence", "probab", "6 in 10"} {
		if strings.Contains(text, word) {
			t.Errorf("a member reads %q", word)
		}
	}
	g.shows("bo", "/sheets/bars", "You have no place yet.", "06:00, 1 left")
	g.shows("screen", "/sheets/bars", "<h1>Bars</h1>")
	if text := g.shows("screen", "/sheets/bars"); strings.Contains(text, "How did it go?") {
		t.Error("the screen is asked how it went")
	}
}

// TestMyDayWaits: a sheet that cannot be worked out stands as it is written, and a score of
// it is kept all the same.
func TestMyDayWaits(t *testing.T) {
	g := open(t)
	g.must("coach", "PUT", "/sheets/long", map[string]any{"text": "Long\n2027-03-04\n\nmain: for time\n" + strings.Repeat("  10 burpees\n", 101)})
	g.shows("mo", "/sheets/long", "Your version is not worked out yet.", "10 burpees", "How did it go?")
	if status, _, to := g.sends("mo", "/scores", map[string]string{"id": "s1", "sheet": "long", "text": "47:13"}); status != http.StatusSeeOther || to != "/sheets/long?said=score#score" {
		t.Errorf("a score of it: %d %s", status, to)
	}
	g.shows("mo", "/sheets/long", "47:13", "Take it back")
}

// TestMyDayStop: who is referred out is told so, with nothing to lift, and may still talk.
func TestMyDayStop(t *testing.T) {
	g := barred(t)
	g.update(func(tx *store.Tx) error {
		return tx.In("ours").PutLimit(store.Limit{ID: "l1", Person: "mo", Limit: roomful.Limit{What: "stop", Pain: -1}, Since: roomful.Date{Year: 2027, Month: 3, Day: 1}})
	})
	text := g.shows("mo", "/sheets/bars", "Not today", "Said under the day")
	if strings.Contains(text, "Sore today") || strings.Contains(text, "Show first") {
		t.Error("somebody who is referred out is shown what to lift")
	}
}

// TestPlaces: a place is taken and given back by a button, a full class is waited for, and
// nobody moves another.
func TestPlaces(t *testing.T) {
	g := barred(t)
	for _, one := range []struct{ who, class, person, do, to string }{
		{"mo", "c1", "mo", "leave", "/sheets/bars?said=own-place-out"},
		{"mo", "c1", "mo", "leave", "/sheets/bars?said=own-place-out"}, // twice is once
		{"mo", "c2", "mo", "take", "/sheets/bars?said=own-place-in"},
		{"bo", "c2", "bo", "take", "/sheets/bars?said=own-place-waiting"},
	} {
		if status, text, to := g.sends(one.who, "/classes/"+one.class+"/places", map[string]string{"do": one.do, "person": one.person, "sheet": "bars"}); status != http.StatusSeeOther || to != one.to {
			t.Errorf("%+v: %d %s %s", one, status, to, mainOf(text))
		}
	}
	g.shows("bo", "/sheets/bars?said=own-place-waiting", "You wait for a place at 17:30.", "Stop waiting", "The class is full.")
	for what, got := range map[string]int{
		"another":          first(g.sends("mo", "/classes/c1/places", map[string]string{"do": "take", "person": "bo"})),
		"no class":         first(g.sends("mo", "/classes/none/places", map[string]string{"do": "take", "person": "mo"})),
		"of another gym's": first(g.sends("stranger", "/classes/c1/places", map[string]string{"do": "take", "person": "mo"})),
	} {
		if want := map[string]int{"another": 403, "no class": 404, "of another gym's": 404}[what]; got != want {
			t.Errorf("%s: %d, want %d", what, got, want)
		}
	}
}

func first(status int, _, _ string) int { return status }

// TestScoreForm: a score is kept once however often it is sent, shown with what it was
// read as, changed and taken back; what is refused comes back with what is wrong.
func TestScoreForm(t *testing.T) {
	g := open(t)
	sent := map[string]string{"id": "s1", "sheet": "drip", "text": "5+20 w/ singles, back tight", "class": ""}
	for range 2 { // the back button, and a thumb that slips
		if status, text, to := g.sends("mo", "/scores", sent); status != http.StatusSeeOther || to != "/sheets/drip?said=score#score" {
			t.Fatalf("%d %s %s", status, to, mainOf(text))
		}
	}
	text := g.shows("mo", "/sheets/drip?said=score", "Your score is kept.", "5 rounds &#43; 20", "back tight", "only you and your coach see this", `data-kept="score"`)
	if n := strings.Count(text, "Take it back"); n != 1 {
		t.Errorf("%d scores are kept", n)
	}
	if text := g.shows("bo", "/sheets/drip"); strings.Contains(text, "tight") {
		t.Error("Bo reads of Mo's back")
	}
	g.shows("mo", "/sheets/drip?change=s1", `name="instead" value="s1"`, `value="5&#43;20 w/ singles, back tight"`)
	if status, _, _ := g.sends("mo", "/scores", map[string]string{"id": "s2", "sheet": "drip", "text": "6+1", "instead": "s1"}); status != http.StatusSeeOther {
		t.Errorf("changed: %d", status)
	}
	if text := g.shows("mo", "/sheets/drip", "6 rounds &#43; 1"); strings.Contains(text, "5 rounds") {
		t.Error("what was changed still stands")
	}
	for range 2 {
		if status, _, to := g.sends("mo", "/scores/s2/withdraw", nil); status != http.StatusSeeOther || to != "/sheets/drip?said=back#score" {
			t.Errorf("taken back: %d %s", status, to)
		}
	}
	if text := g.shows("mo", "/sheets/drip", "How did it go?"); strings.Contains(text, "6 rounds") {
		t.Error("what was taken back still stands")
	}
}

// TestBadScores sends what is no score: each comes back as it was typed, or is refused.
func TestBadScores(t *testing.T) {
	g := open(t)
	g.must("bo", "POST", "/scores", map[string]any{"id": "b1", "sheet": "drip", "text": "4+2"})
	long := strings.Repeat("x", 101<<10)
	for what, one := range map[string]struct {
		fields map[string]string
		status int
		words  string
	}{
		"empty":              {map[string]string{"id": "e", "sheet": "drip", "text": "  "}, 400, "The score is empty."},
		"too long":           {map[string]string{"id": "e", "sheet": "drip", "text": long}, 400, "too long to be one"},
		"no id":              {map[string]string{"id": "", "sheet": "drip", "text": "5+1"}, 400, `value="5&#43;1"`},
		"an id that is none": {map[string]string{"id": "<b>", "sheet": "drip", "text": "5+1"}, 400, `value="5&#43;1"`},
		"no sheet":           {map[string]string{"id": "e", "sheet": "none", "text": "5+1"}, 404, "5&#43;1"},
		"another's":          {map[string]string{"id": "e", "sheet": "drip", "text": "5+1", "instead": "b1"}, 403, "5&#43;1"},
		"another's id":       {map[string]string{"id": "b1", "sheet": "drip", "text": "5+1"}, 409, "5&#43;1"},
		"no letters":         {map[string]string{"id": "e", "sheet": "drip", "text": "5+1 \xff"}, 400, ""},
	} {
		status, text, _ := g.sends("mo", "/scores", one.fields)
		if status != one.status || !strings.Contains(text, one.words) {
			t.Errorf("%s: %d, want %d with %q: %.600s", what, status, one.status, one.words, mainOf(text))
		}
		if strings.Contains(text, "<b>") {
			t.Errorf("%s: markup comes back as markup", what)
		}
	}
	if status, text, _ := g.sends("", "/scores", map[string]string{"id": "s9", "sheet": "drip", "text": "5+20"}); status != http.StatusUnauthorized || !strings.Contains(text, "5&#43;20") || !strings.Contains(text, "/enter") {
		t.Errorf("signed out while typing: %d %s", status, mainOf(text))
	}
	if status, _, _ := g.sends("bo", "/scores/none/withdraw", nil); status != 404 {
		t.Errorf("taking back what is not there: %d", status)
	}
	if status, _, _ := g.sends("mo", "/scores/b1/withdraw", nil); status != 403 {
		t.Errorf("taking back another's: %d", status)
	}
}

// TestReadingPart: what is typed is read at once, with what is only theirs and what is not
// clear; without scripts the whole page comes with it.
func TestReadingPart(t *testing.T) {
	g := barred(t)
	read := func(text string) string {
		t.Helper()
		status, got, _ := g.sends("mo", "/sheets/bars/reading", map[string]string{"text": text}, "HX-Request", "true")
		if status != http.StatusOK || strings.Contains(got, "<main") {
			t.Errorf("%q: %d %s", text, status, got)
		}
		return got
	}
	if got := read("9:12, 40 kg, back tight"); !strings.Contains(got, "9:12") || !strings.Contains(got, "back tight <span>only you and your coach see this") {
		t.Errorf("read as %s", got)
	}
	if got := read("cap+12"); !strings.Contains(got, `name="answer" value="left"`) {
		t.Errorf("what may be two things is not asked: %s", got)
	}
	if got := read(""); strings.Contains(got, "Read as") {
		t.Errorf("nothing is read as %s", got)
	}
	if got := read("<b>"); strings.Contains(got, "<b>") {
		t.Errorf("markup is drawn: %s", got)
	}
	status, text, _ := g.sends("mo", "/sheets/bars/reading", map[string]string{"text": "cap+12", "answer": "left", "id": "s1"})
	if status != http.StatusOK || !strings.Contains(text, `value="cap&#43;12 left"`) || !strings.Contains(text, "<h1>Bars</h1>") {
		t.Errorf("an answer without scripts: %d %s", status, mainOf(text))
	}
}

// TestNotesUnderTheDay: a note says before it is sent who will read it, is kept once, and
// words of the body go to the coach alone.
func TestNotesUnderTheDay(t *testing.T) {
	g := open(t)
	for text, want := range map[string]string{"asthma again": "Only you and your coach", "Great day": "Everybody who trains here"} {
		if status, got, _ := g.sends("mo", "/sheets/drip/notes/look", map[string]string{"text": text}, "HX-Request", "true"); status != http.StatusOK || !strings.Contains(got, want) {
			t.Errorf("%q: %d %s", text, status, got)
		}
	}
	for i, text := range []string{"Great day", "asthma again", "asthma again"} {
		if status, got, to := g.sends("mo", "/sheets/drip/notes", map[string]string{"id": fmt.Sprint("n", min(i, 1)), "text": text}); status != http.StatusSeeOther || to != "/sheets/drip?said=note#notes" {
			t.Errorf("%q: %d %s %s", text, status, to, mainOf(got))
		}
	}
	g.must("coach", "POST", "/sheets/drip/notes", map[string]any{"id": "a1", "answers": "n1", "text": "Bring the inhaler"})
	if text := g.shows("mo", "/sheets/drip", "Great day", "asthma again", "Bring the inhaler"); strings.Count(text, "asthma again") != 1 {
		t.Error("a note sent twice is kept twice")
	}
	if text := g.shows("bo", "/sheets/drip", "Great day"); strings.Contains(text, "asthma") || strings.Contains(text, "inhaler") {
		t.Error("Bo reads what is not for Bo")
	}
	for what, fields := range map[string]map[string]string{"nothing": {"id": "x", "text": " "}, "too much": {"id": "x", "text": strings.Repeat("y", 10_001)}, "no id": {"text": "Hello"}} {
		if status, text, _ := g.sends("mo", "/sheets/drip/notes", fields); status != http.StatusBadRequest || !strings.Contains(text, `aria-invalid="true"`) {
			t.Errorf("%s: %d %.300s", what, status, mainOf(text))
		}
	}
}

// TestAtHome: who has not told what is at home is asked, and then has a whole day there.
func TestAtHome(t *testing.T) {
	g := barred(t)
	g.shows("mo", "/sheets/bars?home=yes", "What do you have at home?")
	if status, text, _ := g.sends("mo", "/sheets/bars/home", map[string]string{"home": "a trebuchet <b>"}); status != http.StatusUnprocessableEntity || !strings.Contains(text, "trebuchet &lt;b&gt;") || !strings.Contains(text, `id="kit-wrong"`) {
		t.Errorf("what is no kit: %d %s", status, mainOf(text))
	}
	if status, text, to := g.sends("mo", "/sheets/bars/home", map[string]string{"home": "dumbbell 15 kg; low-ceiling; quiet"}); status != http.StatusSeeOther || to != "/sheets/bars?home=yes&said=home" {
		t.Fatalf("%d %s %s", status, to, mainOf(text))
	}
	text := g.shows("mo", "/sheets/bars?home=yes&said=home", "at home", "In the gym", "Warm-up", "Mobility", "15 kg", "Your score counts as")
	if strings.Contains(text, "60 kg") || strings.Contains(text, "barbell") {
		t.Error("a bar from the gym is lifted at home")
	}
}
