package score_test

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"roomful"
	"roomful/notation"
	"roomful/score"
)

// TestSpec reads our own texts. A file is a piece, a line with --, and a text a
// line with the score and the further facts that it must give; a question asked, or
// private or unread words found, that the line does not name are wrong.
func TestSpec(t *testing.T) {
	lex := lexicon(t)
	files, err := filepath.Glob("testdata/spec/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatal("no spec", err)
	}
	texts := 0
	for _, name := range files {
		b, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		sheet, lines, _ := strings.Cut(string(b), "--\n")
		q := score.Asked{Session: specSheet(t, sheet, lex), Piece: "main", People: specPeople, Lexicon: lex}
		if _, ok := q.Session.Piece("main"); !ok {
			q.Piece = "strength"
		}
		for _, line := range strings.Split(strings.TrimSpace(lines), "\n") {
			texts++
			cells := strings.Split(line, " | ")
			want := ""
			if len(cells) > 2 {
				want = cells[2]
			}
			checkSpec(t, q, filepath.Base(name), cells[0], cells[1], want)
		}
	}
	t.Logf("%d texts", texts)
}

// specPeople train in the spec's place.
var specPeople = []roomful.Athlete{{Name: "Lorcan"}, {Name: "Dov"}, {Name: "Teodor"}, {Name: "Calum"}, {Name: "Pia Lund"}, {Name: "Marit"}, {Name: "Wren"}}

// specSheet reads the piece at the head of a file, which must be right.
func specSheet(t *testing.T, text string, lex roomful.Lexicon) roomful.Session {
	t.Helper()
	var lines []string
	for _, l := range strings.Split(text, "\n") {
		if !strings.HasPrefix(l, "#") {
			lines = append(lines, l)
		}
	}
	s, ds := notation.Read(strings.Join(lines, "\n"), lex)
	for _, d := range ds {
		if d.Severity == roomful.Fault {
			t.Fatalf("%s: %s", text, d.Summary)
		}
	}
	return s
}

// checkSpec reads one text and compares.
func checkSpec(t *testing.T, q score.Asked, file, text, words, facts string) {
	t.Helper()
	a, err := score.Read(q, text)
	if err != nil {
		t.Errorf("%s: %q: %v", file, text, err)
		return
	}
	r := a.Readings[0]
	if got := score.Words(r); got != words {
		t.Errorf("%s: %q reads as %q, want %q", file, text, got, words)
	}
	want := strings.Split(facts, ", ")
	for _, both := range []struct {
		word string
		got  bool
	}{{"ask", r.Question != nil}, {"private", len(r.Private) > 0}, {"unread", len(r.Unread) > 0}} {
		if slices.Contains(want, both.word) != both.got {
			t.Errorf("%s: %q: %s is %v; question %+v, private %q, note %q", file, text, both.word, both.got, r.Question, r.Private, r.Note)
		}
	}
	for _, w := range want {
		if !gives(r, w) {
			t.Errorf("%s: %q does not give %q: %+v", file, text, w, r)
		}
	}
}

// gives reports whether a reading has a fact as a spec line writes it.
func gives(r roomful.Reading, fact string) bool {
	word, arg, _ := strings.Cut(fact, " ")
	switch word {
	case "as-written":
		return r.AsWritten != nil && *r.AsWritten
	case "unknown":
		return r.AsWritten == nil
	case "changed":
		return r.AsWritten != nil && !*r.AsWritten
	case "about":
		return r.Approximate
	case "note":
		return r.Note != ""
	case "load":
		return slices.ContainsFunc(r.LoadsKg, func(kg float64) bool { return roomful.Figure(kg) == arg })
	case "to":
		return slices.ContainsFunc(r.Changes, func(c roomful.Change) bool { return string(c.To) == arg })
	case "with":
		return r.Partner == arg
	case "share":
		return r.Share != nil && fmt.Sprint(*r.Share) == arg
	case "miss":
		return fmt.Sprint(r.Misses) == "["+arg+"]"
	case "splits":
		return fmt.Sprint(r.Splits) == "["+strings.ReplaceAll(arg, "+", " ")+"]"
	case "of":
		return slices.ContainsFunc(r.Changes, func(c roomful.Change) bool { return string(c.Of) == arg })
	case "weight":
		return slices.ContainsFunc(r.Changes, func(c roomful.Change) bool { return roomful.Figure(c.LoadKg) == arg })
	case "amount":
		return slices.ContainsFunc(r.Changes, func(c roomful.Change) bool { return roomful.Figure(c.Amount) == arg })
	case "at":
		return slices.ContainsFunc(r.Changes, func(c roomful.Change) bool { return roomful.Figure(c.AtSeconds) == arg })
	case "stopped":
		return roomful.Figure(r.StoppedSeconds) == arg
	case "", "ask", "private", "unread":
		return true
	}
	return false
}
