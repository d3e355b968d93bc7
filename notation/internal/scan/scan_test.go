package scan_test

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful/notation/internal/scan"
)

// TestTokens gives lines as coaches paste them and the tokens they become, with
// columns in characters.
func TestTokens(t *testing.T) {
	for _, c := range []struct{ line, want string }{
		{"9 front squats 60/42.5 kg", "9@1 front@3 squats@9 60@16 /@18 42.5@19 kg@24"},
		{"2x24kg", "2@1 x@2 24@3 kg@5"},
		{"5×5 – 75 %", "5@1 x@2 5@3 -@5 75@7 %@10"},
		{"21–15–9", "21@1 -@3 15@4 -@6 9@7"},
		{"½ mile", "0.5@1 mile@3"},
		{"1½ km", "1.5@1 km@4"},
		{"1,000 m", "1000@1 m@7"},
		{"42,5 kg", "42.5@1 kg@6"},
		{"21,15,9", "21@1 ,@3 15@4 ,@6 9@7"},
		{"12:00 :20 1:05:30", "720s@1 20s@7 3930s@11"},
		{"1: row", "1@1 :@2 row@4"},
		{"farmer’s carry", "farmer's@1 carry@10"},
		{"sit–ups C&J T2B", "sit-ups@1 c&j@9 t2b@13"},
		{"AMRAP12 EMOM10", "amrap@1 12@6 emom@9 10@13"},
		{"3-6-9-…", "3@1 -@2 6@3 -@4 9@5 -@6 ...@7"},
		{"7’ 2′30″", "7@1 '@2 2@4 '@5 30@6 \"@8"},
		{"• 10 burpees 😅", "10@3 burpees@6"},
		{"\t10\u00a0burpees", "10@2 burpees@5"},
		{"**Main**", "main@3 *@7 *@8"},
		{"999999999999 m", "999999999999@1 m@14"},
		{"99999999999999 m", "99999999999999@1 m@16"}, // a word
		{"♂43 ♀30 kg", "men@1 43@2 women@5 30@6 kg@9"},
	} {
		l := scan.Scan(c.line)[0]
		var got []string
		for _, tok := range l.Tokens {
			text := tok.Text
			switch tok.Kind {
			case scan.Number:
				text = strconv.FormatFloat(tok.Value, 'f', -1, 64)
			case scan.Clock:
				text = fmt.Sprintf("%gs", tok.Value)
			case scan.Dots:
				text = "..."
			}
			got = append(got, fmt.Sprintf("%s@%d", text, tok.Col))
		}
		if diff := cmp.Diff(c.want, strings.Join(got, " ")); diff != "" {
			t.Errorf("%q (-want +got):\n%s", c.line, diff)
		}
	}
}

// TestLead gives what may stand before the first word of a line.
func TestLead(t *testing.T) {
	for _, c := range []struct {
		line, letter  string
		label, indent int
	}{
		{"2) row", "", 2, 0},
		{"  (3) row", "", 3, 2},
		{"12. row", "", 12, 0},
		{"B. row", "b", 0, 0},
		{"\tA1) row", "a", 0, 4},
		{"2.5 km row", "", 0, 0},
		{"- row", "", 0, 0},
	} {
		l := scan.Scan(c.line)[0]
		if l.Label != c.label || l.Letter != c.letter || l.Indent != c.indent {
			t.Errorf("%q: label %d, letter %q, indent %d", c.line, l.Label, l.Letter, l.Indent)
		}
	}
}

// TestTake gives phrases against what stands in the line: a hyphen equals a
// space, and commas are passed over.
func TestTake(t *testing.T) {
	for _, c := range []struct {
		line, phrase string
		rest         string
	}{
		{"you go, I go now", "you go i go", "now"},
		{"you-go-I-go now", "you go i go", "now"},
		{"as many rounds", "as many", "rounds"},
		{"as manyfold", "as many", "as manyfold"},
		{"as", "as many", "as"},
	} {
		l := scan.Scan(c.line)[0]
		cur := scan.Over(&l)
		cur.Take(c.phrase)
		if got := l.Text(cur.I); got != c.rest {
			t.Errorf("%q after %q: %q, want %q", c.line, c.phrase, got, c.rest)
		}
	}
}
