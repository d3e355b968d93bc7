package notation_test

import (
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"roomful/notation"
)

// seed adds the sheets of the spec suite, and some that are no sheets.
func seed(f *testing.F) {
	files, _ := filepath.Glob("testdata/spec/*.txt")
	for _, file := range files {
		for _, c := range readCases(&testing.T{}, file) {
			f.Add(c.source)
		}
	}
	for _, s := range []string{"", "\x00", "\xff", "\ufeffAMRAP 5\r\nburpees\r\n", "main:::;;;+++", "1:1:1:1", "9/9/9/9 @@ %%", "about:\n\n  x", "title:\n- - -"} {
		f.Add(s)
	}
}

// FuzzRead holds reading to its promises on any text: it ends soon, never
// panics, and every range lies in the text.
func FuzzRead(f *testing.F) {
	seed(f)
	lex := newToy()
	f.Fuzz(func(t *testing.T, text string) {
		start := time.Now()
		_, diags := notation.Read(text, lex)
		if took := time.Since(start); took > 5*time.Second+time.Duration(len(text))*20*time.Microsecond { // a busy machine may pause for a second
			t.Errorf("took %v for %d bytes", took, len(text))
		}
		lines := strings.Split(text, "\n")
		for _, d := range diags {
			a, b := d.Range.Start, d.Range.End
			switch {
			case a.Line < 1 || a.Line > len(lines), b.Line != a.Line:
				t.Fatalf("lines of %+v in a text of %d", d, len(lines))
			case a.Column < 1 || b.Column < a.Column || b.Column > utf8.RuneCountInString(lines[a.Line-1])+2:
				t.Fatalf("columns of %+v in %q", d, lines[a.Line-1])
			case d.Summary == "" || d.Hint == "":
				t.Fatalf("nothing to read in %+v", d)
			}
		}
	})
}

// FuzzPrint holds that the canonical form reads as itself, at once, whatever was
// wrong with the text.
func FuzzPrint(f *testing.F) {
	seed(f)
	lex := newToy()
	f.Fuzz(func(t *testing.T, text string) {
		session, _ := notation.Read(text, lex)
		first := notation.Print(session, lex)
		if len(first) > 1<<20 {
			t.Skip("longer than a sheet may be")
		}
		again, _ := notation.Read(first, lex)
		diff := cmp.Diff(first, notation.Print(again, lex))
		if diff == "" {
			return
		}
		t.Errorf("no fixed point (-first +second):\n%s\nof %q", diff, text)
	})
}
