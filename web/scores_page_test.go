package web_test

import (
	"fmt"
	"net/http"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/store"
)

// hidden is what a hidden field of a page has.
func hidden(text, name string) string {
	found := regexp.MustCompile(`name="` + name + `" value="([^"]*)"`).FindStringSubmatch(text)
	if found == nil {
		return ""
	}
	return found[1]
}

// TestScoresPage: a coach types many scores, sees how each is read, answers what is asked
// by buttons, and keeps them once however often they are sent.
func TestScoresPage(t *testing.T) {
	g := open(t)
	for id, name := range map[string]string{"ana": "Ana Reed", "ann": "Ann Ebb"} {
		g.must("coach", "PUT", "/people/"+id, map[string]any{"told": map[string]string{"name": name}})
	}
	has(t, "nobody yet", g.reads("coach", "/sheets/drip/scores"), "Nobody has a score on this day yet. Enter the first ones above.")
	has(t, "nobody yet", g.reads("mo", "/sheets/drip/scores"), "Say how it went on your day")
	_, text := g.page("coach", "/sheets/drip/scores")
	batch := hidden(text, "batch")
	typed := "Mo: 5+20 w/ singles, back tight\r\nAn: 6+3\r\n\r\nBo: 7.13\r\nZed <b>: 4"
	status, text, _ := g.send("coach", "/sheets/drip/scores/reading", "batch", batch, "class", "", "text", typed)
	if status != http.StatusOK || hidden(text, "batch") != batch {
		t.Fatalf("reading: %d %s", status, words(text))
	}
	has(t, "reading", words(text), "Mo Read as:", "back tight coaches and they alone see this", "Which An?", "Ana Reed", "Ann Ebb", "Who is Zed <b>? Nobody here is called that", "lines ask something first")
	if strings.Contains(text, "Zed <b>") || strings.Contains(words(text), "Keep these") {
		t.Errorf("markup stays markup, or scores can be kept that ask: %s", words(text))
	}
	if status, text, _ := g.send("coach", "/sheets/drip/scores", "batch", batch, "text", typed); status != http.StatusUnprocessableEntity || !strings.Contains(text, "Which An?") {
		t.Errorf("kept before it is settled: %d", status)
	}
	typed = strings.Replace(typed, "\r\nZed <b>: 4", "", 1)
	_, text, _ = g.send("coach", "/sheets/drip/scores/reading", "batch", batch, "text", typed, "fix", "2 name Ann Ebb")
	has(t, "answered", words(text), "Ann Ebb Read as: 6 rounds + 3", "Keep these 3 scores")
	typed = strings.Replace(typed, "An:", "Ann Ebb:", 1)
	for range 2 {
		if status, text, to := g.send("coach", "/sheets/drip/scores", "batch", batch, "text", typed); status != http.StatusSeeOther || to != "/sheets/drip/scores?said=scores" {
			t.Fatalf("keeping: %d %q %s", status, to, words(text))
		}
	}
	coach, member := g.reads("coach", "/sheets/drip/scores?said=scores"), g.reads("bo", "/sheets/drip/scores")
	has(t, "the coach's", coach, "The scores are kept.", "As written", "Ann Ebb 6+3", "“5+20 w/ singles, back tight” back tight", "Mo 5+20", "1 Bo 7+13")
	has(t, "a member's", member, "Mo", "5+20", "Ann Ebb 6+3")
	hasNot(t, "a member's", member, "tight", "Enter scores", "What came of it", "Correct", "singles, back")
	if n := strings.Count(coach, "Ann Ebb 6+3 “6+3”"); n != 1 {
		t.Errorf("sent twice it is kept %d times", n)
	}
	hasNot(t, "a screen's", g.reads("screen", "/sheets/drip/scores"), "tight", "Enter")
	if status, _ := g.page("stranger", "/sheets/drip/scores"); status != http.StatusNotFound {
		t.Errorf("a stranger: %d", status)
	}
}

// TestScoresOfClass: the people of a class have a field each, which reads as one types and
// joins the lines.
func TestScoresOfClass(t *testing.T) {
	g := open(t)
	g.evening()
	g.send("coach", "/classes/c1/places", "person", "mo")
	g.send("coach", "/classes/c1/places", "person", "bo")
	if _, _, header := g.ask("coach", "GET", "/scores", nil, "Accept", "text/html"); header.Get("Location") != "/sheets/drip/scores?class=c1" {
		t.Errorf("today's scores are at %q", header.Get("Location"))
	}
	has(t, "fields", g.reads("coach", "/sheets/drip/scores?class=c1"), "Mo Bo Or all at once")
	status, part, _ := g.ask("coach", "POST", "/sheets/drip/scores/reading", "one=mo&s.mo=cap%2C+nine+left", "Content-Type", "application/x-www-form-urlencoded", "HX-Request", "true")
	if status != http.StatusOK || strings.Contains(part, "<html") {
		t.Errorf("as it is typed: %d %s", status, part)
	}
	_, text, _ := g.send("coach", "/sheets/drip/scores/reading", "class", "c1", "s.mo", "5+20", "s.bo", " 6+1 ", "text", "")
	has(t, "the lines", words(text), "Keep these 2 scores")
	if !strings.Contains(text, "Bo: 6&#43;1\nMo: 5&#43;20</textarea>") {
		t.Errorf("the fields did not join the lines: %s", text)
	}
	_, _, to := g.send("coach", "/sheets/drip/scores", "class", "c1", "batch", hidden(text, "batch"), "text", "Mo: 5+20\nBo: 6+1")
	if to != "/sheets/drip/scores?said=scores&class=c1" {
		t.Errorf("kept, it leads to %q", to)
	}
	hasNot(t, "who has a score", g.reads("coach", to), "Or all at once")
}

// TestScoresForms: bad input of the forms, and who may send them.
func TestScoresForms(t *testing.T) {
	g := open(t)
	g.must("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "day": "2027-03-04", "text": "5+20"})
	for what, c := range map[string]struct {
		who, path string
		form      []string
		want      int
		says      string
	}{
		"nothing":            {"coach", "/sheets/drip/scores/reading", nil, 422, "Reading scores: there is no line, or too many."},
		"too many":           {"coach", "/sheets/drip/scores/reading", []string{"text", strings.Repeat("Mo: 5\n", 61)}, 422, "up to 60."},
		"a long line":        {"coach", "/sheets/drip/scores/reading", []string{"text", "Mo: " + strings.Repeat("5 ", 60_000)}, 422, "the text is too long to be one"},
		"no letters":         {"coach", "/sheets/drip/scores/reading", []string{"text", "Mo: \xff"}, 400, ""},
		"markup":             {"coach", "/sheets/drip/scores/reading", []string{"text", "<script>: <b>"}, 200, "Who is <script>?"},
		"no name":            {"coach", "/sheets/drip/scores/reading", []string{"text", "12:40"}, 200, "Whose is it?"},
		"a bad fix":          {"coach", "/sheets/drip/scores/reading", []string{"text", "Mo: 5+20", "fix", "99 name X"}, 200, "Keep this score"},
		"nobody's field":     {"coach", "/sheets/drip/scores/reading", []string{"s.nobody", "5+20"}, 404, ""},
		"another's class":    {"coach", "/sheets/drip/scores", []string{"batch", "b", "class", "theirs", "text", "Mo: 5+20"}, 404, ""},
		"no batch":           {"coach", "/sheets/drip/scores", []string{"text", "Mo: 5+21"}, 422, "Keep this score"},
		"a member":           {"mo", "/sheets/drip/scores", []string{"batch", "b", "text", "Bo: 5+20"}, 403, ""},
		"a member corrects":  {"mo", "/sheets/drip/scores/s1", []string{"text", "9+1"}, 403, ""},
		"a stranger":         {"stranger", "/sheets/drip/scores/reading", []string{"text", "Mo: 5"}, 403, ""},
		"no such score":      {"coach", "/sheets/drip/scores/s9", []string{"do", "withdraw"}, 404, ""},
		"corrected to none":  {"coach", "/sheets/drip/scores/s1", []string{"text", "", "new", "s2"}, 422, "That cannot be read as a score"},
		"corrected under no": {"coach", "/sheets/drip/scores/s1", []string{"text", "6+1", "new", "<b>"}, 400, ""},
	} {
		status, text, _ := g.send(c.who, c.path, c.form...)
		if status != c.want {
			t.Errorf("%s: %d, want %d: %.900s", what, status, c.want, words(text))
		}
		has(t, what, words(text), c.says)
	}
}

// TestScoreCorrected: a coach corrects a score and takes one out; sent twice nothing
// happens twice.
func TestScoreCorrected(t *testing.T) {
	g := open(t)
	g.must("mo", "POST", "/scores", map[string]any{"id": "s1", "sheet": "drip", "day": "2027-03-04", "text": "5+20"})
	has(t, "a score", g.reads("coach", "/sheets/drip/scores/s1"), "Thursday 4 March 2027 Mo, 5+20 Drip")
	for range 2 {
		if _, text, to := g.send("coach", "/sheets/drip/scores/s1", "do", "correct", "text", "6+2", "new", "s2"); to != "/sheets/drip/scores?said=score-corrected" {
			t.Fatalf("corrected: %q %s", to, words(text))
		}
	}
	text := g.reads("coach", "/sheets/drip/scores")
	has(t, "corrected", text, "6+2")
	hasNot(t, "corrected", text, "“5+20”")
	if status, _ := g.page("coach", "/sheets/drip/scores/s1"); status != http.StatusNotFound {
		t.Errorf("what was corrected can be corrected again: %d", status)
	}
	for range 2 {
		if _, text, to := g.send("coach", "/sheets/drip/scores/s2", "do", "withdraw"); to != "/sheets/drip/scores?said=score-out" {
			t.Errorf("taken out: %q %s", to, words(text))
		}
	}
	g.update(func(tx *store.Tx) error {
		a, err := tx.In("ours").Attempt("s2")
		if g.done.last <= a.Seq {
			t.Errorf("learnt from anew by change %d, which was known when the score came by %d", g.done.last, a.Seq)
		}
		return err
	})
	has(t, "none left", g.reads("coach", "/sheets/drip/scores"), "Nobody has a score on this day yet.")
}

// TestScoresLeftOut: who wants to be left out, and who is under 18, is not on the board of
// others, and has no place on the coach's.
func TestScoresLeftOut(t *testing.T) {
	g := open(t)
	g.must("coach", "PUT", "/people/kid", map[string]any{"told": map[string]any{"name": "Kit Young", "born": "2014"}})
	for who, text := range map[string]string{"kid": "9+1", "mo": "5+20", "bo": "4+1"} {
		g.must("coach", "POST", "/scores", map[string]any{"id": "s-" + who, "person": who, "sheet": "drip", "day": "2027-03-04", "text": text})
	}
	has(t, "the coach's", g.reads("coach", "/sheets/drip/scores"), "– Kit Young 9+1", "1 Mo 5+20", "2 Bo 4+1")
	hasNot(t, "a member's", g.reads("bo", "/sheets/drip/scores"), "Kit", "9+1")
	has(t, "a member's", g.reads("bo", "/sheets/drip/scores"), "1 Mo 5+20", "2 Bo you 4+1")
}

// TestScoresOfMany: a day with 500 scores comes a page at a time, from work that is kept.
func TestScoresOfMany(t *testing.T) {
	g := open(t)
	const many = 500
	g.update(func(tx *store.Tx) error {
		for i := range many {
			p := store.Person{Athlete: roomful.Athlete{ID: fmt.Sprintf("p%03d", i), Name: fmt.Sprintf("P%03d", i)}}
			if err := tx.In("ours").PutPerson(p); err != nil {
				return err
			}
		}
		return nil
	})
	for from := 0; from < many; from += 50 {
		var scores []map[string]string
		for i := from; i < from+50; i++ {
			scores = append(scores, map[string]string{"id": fmt.Sprintf("s%03d", i), "person": fmt.Sprintf("p%03d", i), "text": fmt.Sprintf("%d+%d", 3+i%6, i%22)})
		}
		g.must("coach", "POST", "/sheets/drip/scores", map[string]any{"day": "2027-03-04", "scores": scores})
	}
	began := time.Now()
	text := g.reads("mo", "/sheets/drip/scores")
	t.Logf("the first time: %v", time.Since(began))
	has(t, "a page", text, "Further down", "Earlier scores", "P499")
	if n := strings.Count(text, "P"); n > 50+50+10 {
		t.Errorf("%d lines on a page", n)
	}
	has(t, "the last page", g.reads("mo", "/sheets/drip/scores?page=10"), "Further up")
	hasNot(t, "the last page", g.reads("mo", "/sheets/drip/scores?page=10"), "Further down")
	var took []time.Duration
	for range 20 {
		began := time.Now()
		g.page("mo", "/sheets/drip/scores")
		took = append(took, time.Since(began))
	}
	slices.Sort(took)
	t.Logf("quickest %v, middle %v, slowest %v", took[0], took[10], took[19])
	within(t, "a page of scores", took[0], 20*time.Millisecond) // the others wait for whatever else the machine does
}
