package score_test

import (
	"encoding/csv"
	"strings"
	"sync"
	"testing"

	"roomful"
	"roomful/catalogue"
	"roomful/demo"
	"roomful/notation"
	"roomful/score"
)

// load reads the catalogue once.
var load = sync.OnceValues(catalogue.Load)

// lexicon is the real catalogue, as the command uses it.
func lexicon(t testing.TB) roomful.Lexicon {
	t.Helper()
	lex, err := load()
	if err != nil {
		t.Fatal(err)
	}
	return lex
}

// demoRows returns what the invented gym's people typed, with their sheets.
func demoRows(t testing.TB, lex roomful.Lexicon) (rows [][]string, sheets map[string]roomful.Session) {
	t.Helper()
	b, err := demo.Files.ReadFile("attempts.csv")
	if err != nil {
		t.Fatal(err)
	}
	if rows, err = csv.NewReader(strings.NewReader(string(b))).ReadAll(); err != nil {
		t.Fatal(err)
	}
	sheets = map[string]roomful.Session{}
	for _, r := range rows[1:] {
		if _, ok := sheets[r[2]]; ok {
			continue
		}
		text, err := demo.Files.ReadFile("sheets/" + r[2] + ".txt")
		if err != nil {
			t.Fatal(err)
		}
		sheets[r[2]], _ = notation.Read(string(text), lex)
	}
	return rows[1:], sheets
}

// TestDemo reads all that was typed at the invented gym: the kind is the
// piece's, the text is kept, and what asks is listed.
func TestDemo(t *testing.T) {
	lex := lexicon(t)
	rows, sheets := demoRows(t, lex)
	asked := 0
	for _, r := range rows {
		a, err := score.Read(score.Asked{Session: sheets[r[2]], Piece: "main", Lexicon: lex}, r[3])
		if err != nil {
			t.Errorf("%s: %v", r[3], err)
			continue
		}
		got := a.Readings[0]
		part, _ := sheets[r[2]].Piece("main")
		if want := roomful.KindOf(part, lex); got.Kind != want || got.Raw != r[3] || a.Text != r[3] {
			t.Errorf("%q is read as %v of %q, want %v", r[3], got.Kind, got.Raw, want)
		}
		if got.Question != nil {
			asked++
			t.Logf("asks: %-22s %q: %s", r[2], r[3], got.Question.Ask)
		}
	}
	t.Logf("%d of %d ask", asked, len(rows))
}
