package score_test

import (
	"encoding/csv"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"testing"

	"roomful"
	"roomful/demo"
	"roomful/exchange"
	"roomful/score"
)

// TestDemoScores reads every score of the demo as its person typed it and compares
// with what a coach makes of it, a line to each piece in testdata/demo.csv: the score
// (~ about), the loads (x missed), the changes, whether it was as written, and whether
// there is something to ask.
func TestDemoScores(t *testing.T) {
	lex := lexicon(t)
	rows, sheets := demoRows(t, lex)
	text, err := fs.ReadFile(demo.Files, "people.csv")
	if err != nil {
		t.Fatal(err)
	}
	people, _ := exchange.ReadPeople(strings.NewReader(string(text)), lex, roomful.Date{})
	got := map[string]string{}
	for n, r := range rows {
		q := score.Asked{Session: sheets[r[2]], Piece: "main", People: people, Lexicon: lex}
		for _, a := range people {
			if a.Name == r[0] {
				q.Division, q.Unit = a.Division, a.Unit
			}
		}
		a, err := score.Read(q, r[3])
		if err != nil {
			t.Errorf("%q: %v", r[3], err)
			continue
		}
		for _, one := range a.Readings {
			got[fmt.Sprint(n+2, " ", one.Piece)] = essentials(one)
		}
	}
	f, err := os.Open("testdata/demo.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	want, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range want[1:] {
		key := w[0] + " " + w[2]
		if said := strings.Join(w[3:], " | "); got[key] != said {
			t.Errorf("line %s: %q is read as %s, want %s", key, w[1], got[key], said)
		}
		delete(got, key)
	}
	for key, words := range got {
		t.Errorf("line %s is read as %s, which nobody said", key, words)
	}
}

// essentials writes what testdata/demo.csv holds of a reading.
func essentials(r roomful.Reading) string {
	about := ""
	if r.Approximate {
		about = "~"
	}
	var loads, changes []string
	for i, kg := range r.LoadsKg {
		word := roomful.Figure(kg)
		for _, m := range r.Misses {
			if m == i+1 {
				word = "x" + word
			}
		}
		loads = append(loads, word)
	}
	for _, c := range r.Changes {
		words := []string{string(c.Of), string(c.To), c.Assist}
		for _, v := range []float64{c.LoadKg, c.HeightCm, c.Amount, c.AtSeconds} {
			if v > 0 {
				words = append(words, roomful.Figure(v))
			}
		}
		changes = append(changes, strings.Join(strings.Fields(strings.Join(words, " ")), " "))
	}
	written := ""
	if r.AsWritten != nil {
		written = map[bool]string{true: "yes", false: "no"}[*r.AsWritten]
	}
	asks := ""
	if r.Question != nil {
		asks = "yes"
	}
	return strings.Join([]string{about + scored(r), strings.Join(loads, " "), strings.Join(changes, "; "), written, asks}, " | ")
}

// scored writes the score of a reading alone.
func scored(r roomful.Reading) string {
	switch {
	case r.SameAs != "":
		return "same as " + r.SameAs
	case r.Capped && r.Reps != nil:
		return fmt.Sprintf("cap %d", *r.Reps)
	case len(r.EachSeconds) > 0:
		var each []string
		for _, s := range r.EachSeconds {
			each = append(each, roomful.Figure(s))
		}
		return strings.Join(each, " ")
	case r.Kind == roomful.RoundsScore && r.Rounds != nil:
		reps := 0
		if r.Reps != nil {
			reps = *r.Reps
		}
		return fmt.Sprintf("%d+%d", *r.Rounds, reps)
	case r.Kind == roomful.TimeScore && r.Seconds != nil && *r.Seconds == float64(int(*r.Seconds)):
		return roomful.Clock(*r.Seconds)
	case r.Kind == roomful.TimeScore && r.Seconds != nil:
		return roomful.Figure(*r.Seconds) + " s"
	case r.Kind == roomful.RepsScore && r.Reps != nil:
		return fmt.Sprint(*r.Reps)
	}
	return ""
}
