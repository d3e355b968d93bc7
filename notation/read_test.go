package notation_test

import (
	"os"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/catalogue"
	"roomful/notation"
)

// TestRefusals gives what is no sheet: one diagnostic, at its place, at once.
func TestRefusals(t *testing.T) {
	at := func(line, from, to int) roomful.Range {
		return roomful.Range{Start: roomful.Position{Line: line, Column: from}, End: roomful.Position{Line: line, Column: to}}
	}
	for _, c := range []struct {
		name, text, summary string
		place               roomful.Range
	}{
		{"empty", "", "the sheet is empty", at(1, 1, 1)},
		{"blank", " \n\t\n\u00a0\n", "the sheet is empty", at(1, 1, 1)},
		{"ten megabytes", strings.Repeat("10 burpees\n", 1<<20), "the text has 11264 kB; a sheet has at most 1024", at(1, 1, 1)},
		{"NUL", "AMRAP 12\n5 pull\x00ups\n", "the text holds a NUL: this is no text file", at(2, 7, 8)},
		{"not UTF-8", "AMRAP 12\n5 p\xffull-ups\n", "the text is not UTF-8 from here on", at(2, 4, 5)},
		{"a picture", "\x89PNG\r\n\x1a\n\x00\x00", "the text is not UTF-8 from here on", at(1, 1, 2)},
	} {
		t.Run(c.name, func(t *testing.T) {
			start := time.Now()
			session, diags := notation.Read(c.text, newToy())
			if took := time.Since(start); took > patience*100*time.Millisecond {
				t.Errorf("took %v", took)
			}
			if len(diags) != 1 || diags[0].Severity != roomful.Fault || diags[0].Summary != c.summary || diags[0].Range != c.place || diags[0].Hint == "" {
				t.Errorf("got %+v", diags)
			}
			if diff := cmp.Diff(roomful.Session{}, session); diff != "" {
				t.Errorf("a session of nothing: %s", diff)
			}
		})
	}
}

// TestOtherLineEndings reads the same sheet from other systems.
func TestOtherLineEndings(t *testing.T) {
	lex := newToy()
	plain := "Gannet Ledge\n2027-03-04, 60 min\n\nmain: AMRAP 12\n  5 pull-ups\n  10 push-ups\n"
	want, diags := notation.Read(plain, lex)
	if len(diags) > 0 {
		t.Fatalf("said %v", diags)
	}
	for name, text := range map[string]string{
		"CRLF":       strings.ReplaceAll(plain, "\n", "\r\n"),
		"BOM":        "\ufeff" + plain,
		"BOM, CRLF":  "\ufeff" + strings.ReplaceAll(plain, "\n", "\r\n"),
		"tabs":       strings.ReplaceAll(plain, "  ", "\t"),
		"no-break":   strings.ReplaceAll(plain, " ", "\u00a0"),
		"no newline": strings.TrimSuffix(plain, "\n"),
		"indented":   "    " + strings.ReplaceAll(strings.TrimSuffix(plain, "\n"), "\n", "\n    "),
	} {
		t.Run(name, func(t *testing.T) {
			got, diags := notation.Read(text, lex)
			if diff := cmp.Diff(dump(want, lex), dump(got, lex)); diff != "" || len(diags) > 0 {
				t.Errorf("said %v; session (-want +got):\n%s", diags, diff)
			}
		})
	}
}

// TestManyFaults holds that a text full of faults is answered soon, with no more
// than can be read.
func TestManyFaults(t *testing.T) {
	text := "main: for time\n" + strings.Repeat("12 wall bals 5000 kg 0 cm, 3 flurbs\n", 25000)
	start := time.Now()
	_, diags := notation.Read(text, newToy())
	if took := time.Since(start); took > patience*3*time.Second {
		t.Errorf("took %v", took)
	}
	if len(diags) != 101 || diags[100].Summary != "too many faults to list" {
		t.Errorf("%d diagnostics, the last %+v", len(diags), diags[len(diags)-1])
	}
}

// TestLongLine holds that a very long line takes no longer than as much text
// on many.
func TestLongLine(t *testing.T) {
	for name, piece := range map[string]string{"elements": "12 burpees, ", "words": "flurb ", "figures": "1 2/3 ", "dashes": "21-", "marks": "@%+;,(", "clauses": "rest 1 min, "} {
		text := "main: for time\n" + strings.Repeat(piece, (1<<17)/len(piece))
		start := time.Now()
		notation.Read(text, newToy())
		if took := time.Since(start); took > patience*5*time.Second {
			t.Errorf("%s: took %v", name, took)
		}
	}
}

// TestSpecExamples holds that every example in the description reads without an
// error, and that what it calls canonical is.
func TestSpecExamples(t *testing.T) {
	lex := newToy()
	for i, block := range strings.Split(notation.Spec, "```") {
		if i%2 == 0 || !strings.HasPrefix(block, "\n") {
			continue
		}
		_, diags := notation.Read(block[1:], lex)
		for _, d := range diags {
			if d.Severity == roomful.Fault && d.Summary != "there is no part to do" {
				t.Errorf("%s\nsays %+v", block, d)
			}
		}
	}
}

// TestSpecTable reads both columns of the table of formats: what is said to be
// canonical prints as itself, and what is also read means the same.
func TestSpecTable(t *testing.T) {
	lex := newToy()
	rows := 0
	for _, l := range strings.Split(notation.Spec, "\n") {
		cell := strings.Split(l, "|")
		if len(cell) != 4 || !strings.Contains(cell[1], "`") {
			continue
		}
		for _, format := range strings.Split(cell[1], "`") {
			if format = strings.TrimSpace(format); format == "" || format == "and" || strings.HasPrefix(format, ", ") {
				continue
			}
			rows++
			checkCanonical(t, lex, format)
		}
	}
	if rows < 20 {
		t.Errorf("%d formats found in the table", rows)
	}
}

// checkCanonical reads a head with the lines it needs and expects it back.
func checkCanonical(t *testing.T, lex roomful.Lexicon, format string) {
	t.Helper()
	for _, sheet := range []string{"main: " + format + "\n  10 burpees\n  20 sit-ups\n", "main: " + format + "\n  burpees\n  sit-ups\n", "main: " + format + "\n  burpees\n", "strength: " + format + "\n  back squats\n", "strength: " + format + "\n  10 back squats\n", "warm-up: " + format + "\n  inchworm\n"} {
		session, _ := notation.Read(sheet, lex)
		if notation.Print(session, lex) == sheet {
			return
		}
	}
	t.Errorf("%q is not canonical in any part", format)
}

func BenchmarkRead(b *testing.B) {
	lex, err := catalogue.Load()
	if err != nil {
		b.Fatal(err)
	}
	text, err := os.ReadFile("testdata/day.txt")
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		if _, diags := notation.Read(string(text), lex); len(diags) > 0 {
			b.Fatal(diags)
		}
	}
}

func BenchmarkPrint(b *testing.B) {
	lex := newToy()
	text, err := os.ReadFile("testdata/day.txt")
	if err != nil {
		b.Fatal(err)
	}
	session, _ := notation.Read(string(text), lex)
	b.ReportAllocs()
	for b.Loop() {
		notation.Print(session, lex)
	}
}
