package web_test

import (
	"fmt"
	"net/http"
	"strings"
	"testing"

	"roomful"
	"roomful/store"
)

// TestRecordPage shows somebody their scores by sheet, the latest first, with what was
// changed and what is only theirs; a coach sees the same of them, nobody else does.
func TestRecordPage(t *testing.T) {
	g := open(t)
	if status, _, header := g.ask("mo", "GET", "/record", nil, "Accept", "text/html"); status != http.StatusSeeOther || header.Get("Location") != "/record/mo" {
		t.Errorf("one's own record: %d %s", status, header.Get("Location"))
	}
	g.shows("mo", "/record/mo", "You have no score yet.", "My day")
	g.shows("coach", "/record/mo", "Mo has no score yet.")
	g.must("coach", "PUT", "/sheets/drip-again", map[string]any{"text": "Drip, Again\n2027-02-11\nagain: Drip\n\nmain: as many rounds as possible in 12 min\n  10 burpees\n  12 air squats\n"})
	g.must("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "day": "2027-03-04", "text": "5+20 air squats to a box, back tight"})
	g.must("mo", "POST", "/scores", map[string]any{"id": "s2", "sheet": "drip-again", "day": "2027-02-11", "text": "<b>6+1</b>"})
	text := g.shows("mo", "/record/mo", "My record", "Drip", "twice", "4 March 2027", "11 February 2027", "back tight", "only you and your coach", "/record/mo/drip")
	if strings.Contains(text, "<b>") || strings.Index(text, "11 February") < strings.Index(text, "4 March") {
		t.Errorf("not the latest first, or markup is drawn: %s", mainOf(text))
	}
	g.shows("coach", "/record/mo", "back tight", "Mo in figures")
	g.must("mo", "POST", "/scores", map[string]any{"id": "s3", "sheet": "drip-again", "day": "2027-03-05", "text": "7+2"})
	if text := g.shows("mo", "/record/mo", "3 times"); !strings.Contains(text, `href="/record/mo/drip-again"`) {
		t.Error("the story does not lead to the latest, which knows what it repeats")
	}
	for who, want := range map[string]int{"bo": 403, "screen": 403, "": 401, "stranger": 200} {
		status, text := g.page(who, "/record/mo")
		if status != want || strings.Contains(text, "tight") {
			t.Errorf("%q asks for Mo's record: %d %s", who, status, mainOf(text))
		}
	}
	for path, want := range map[string]int{"/record/none": 404, "/record/mo?before=x": 400, "/record/mo/none": 404} {
		if status, _ := g.page("coach", path); status != want {
			t.Errorf("%s: %d, want %d", path, status, want)
		}
	}
}

// TestRecordTitles: a record calls a day by the title that was published, to members, and
// by what is saved to those who write sheets.
func TestRecordTitles(t *testing.T) {
	g := open(t)
	g.must("coach", "POST", "/sheets/drip/editions", map[string]any{})
	g.must("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "text": "5+20"})
	g.must("coach", "PUT", "/sheets/drip", map[string]any{"revision": 1, "text": strings.Replace(drip, "Drip", "Surprise", 1)})
	hasNot(t, "Mo's record", g.shows("mo", "/record/mo", "Drip"), "Surprise")
	g.shows("coach", "/record/mo", "Surprise")
}

// TestRecordPages: the scores of years come a page at a time, and each once.
func TestRecordPages(t *testing.T) {
	g := open(t)
	for i := range 60 {
		g.must("mo", "POST", "/scores", map[string]any{"id": fmt.Sprintf("s%02d", i), "sheet": "drip", "day": fmt.Sprintf("2027-02-%02d", 1+i/3), "text": fmt.Sprintf("5+%d", i%20)})
	}
	text := g.shows("mo", "/record/mo", "50 times", "Older scores")
	_, rest, _ := strings.Cut(text, `href="?before=`)
	older, _, _ := strings.Cut(rest, `"`)
	text = g.shows("mo", "/record/mo?before="+older, "10 times", "The latest scores")
	if strings.Contains(text, "Older scores") {
		t.Error("there is a page behind the last")
	}
}

// TestLessons says what scores have taught in words: a member reads no figure of what they
// can do.
func TestLessons(t *testing.T) {
	g := open(t)
	g.update(func(tx *store.Tx) error {
		return tx.In("ours").PutLearnt(store.Learnt{Person: "mo", Abilities: roomful.Abilities{MassKg: 80, Dims: []roomful.Dim{
			{Capacity: roomful.CapVO2max, Centre: 3.9, Informed: []string{"2 km row", "Drip, 2027-03-01"}},
			{Capacity: roomful.OwnMax("burpee"), Centre: 3.1, Informed: []string{"Drip, 2027-03-01"}}}}})
	})
	text := g.shows("mo", "/record/mo", "What the scores have taught", "Drip, 1 March 2027", "how long you can keep going", "how many burpees you do in one go")
	for _, figure := range []string{"49.4", "22.2", "3.9", "mL"} {
		if strings.Contains(mainOf(text), figure) {
			t.Errorf("a member reads the figure %s", figure)
		}
	}
}

// TestStory lays the times at one sheet beside each other, as a page and as a piece of the
// record, with a picture and its table.
func TestStory(t *testing.T) {
	g := open(t)
	g.must("coach", "PUT", "/sheets/drip", map[string]any{"revision": 1, "text": strings.Replace(drip, "2027-03-04", "2027-02-01", 1)})
	g.shows("mo", "/record/mo/drip", "There is nothing to compare yet.")
	for i, text := range []string{"5+20", "6+1"} {
		day := fmt.Sprintf("2027-02-%02d", 1+20*i)
		g.must("mo", "POST", "/scores", map[string]any{"id": fmt.Sprint("s", i), "sheet": "drip", "day": day, "text": text})
		g.learnt("mo")
	}
	g.shows("mo", "/record/mo/drip", "<svg", "<table", "1 February 2027", "21 February 2027", "Match 6+1", "3 repetitions more than on 1 February")
	status, part, _ := g.ask("mo", "GET", "/record/mo/drip", nil, "HX-Request", "true")
	if status != http.StatusOK || strings.Contains(part, "<main") || !strings.Contains(part, "<svg") {
		t.Errorf("as a piece: %d %s", status, part)
	}
}
