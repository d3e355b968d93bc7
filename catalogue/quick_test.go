package catalogue

import (
	"io/fs"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
)

// TestEveryFamilyFileIsReadQuickly holds that no file of ours falls back on the
// whole YAML reader, and that both readers find the same in each.
func TestEveryFamilyFileIsReadQuickly(t *testing.T) {
	sub, err := fs.Sub(data, "data")
	if err != nil {
		t.Fatal(err)
	}
	files, err := readFiles(sub)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if f.name == wordsFile {
			continue
		}
		var q reader
		for n, line := range strings.Split(string(f.text), "\n") {
			if !q.line(line) {
				t.Errorf("%s:%d is not plain: %s", f.name, n+1, line)
				break
			}
		}
		sameAsYAML(t, f.name, f.text)
	}
}

// sameAsYAML fails when the quick reader takes a text for something else than
// the YAML reader does. Giving up is always allowed.
func sameAsYAML(t *testing.T, name string, text []byte) {
	t.Helper()
	got, ok := quick(text)
	if !ok {
		return
	}
	var want []entry
	if err := decode(file{name, text}, &want); err != nil {
		t.Fatalf("%s: read quickly, but refused by YAML: %v\n%q", name, err, text)
	}
	if diff := cmp.Diff(want, got, cmpopts.EquateEmpty(), cmp.AllowUnexported(entry{})); diff != "" {
		t.Errorf("%s: the quick reader (+) differs from YAML (-):\n%s", name, diff)
	}
}

// TestEveryOddLineGoesToTheWholeReader on whatever the YAML reader should look at.
func TestEveryOddLineGoesToTheWholeReader(t *testing.T) {
	for name, text := range map[string]string{
		"an unknown key":       "- id: tip\n  alias: [x]\n",
		"a key twice":          "- id: tip\n  id: top\n",
		"a figure in words":    "- id: tip\n  ceiling_m: high\n",
		"a word as a figure":   "- id: tip\n  name: 9\n",
		"an anchor":            "- id: &tip tip\n",
		"folded text":          "- id: tip\n  standard: >\n    You stand.\n",
		"text on two lines":    "- id: tip\n  standard: You\n    stand.\n",
		"an escape":            "- id: tip\n  name: \"t\\u0069p\"\n",
		"a list left open":     "- id: tip\n  also: [a, b\n",
		"a list without items": "- id: tip\n  cues:\n  name: tip\n",
		"other indentation":    "-   id: tip\n    name: tip\n",
		"a document mark":      "---\n- id: tip\n",
		"a colon in the words": "- id: tip\n  standard: Rule one: stand.\n",
	} {
		if entries, ok := quick([]byte(text)); ok {
			t.Errorf("%s is read as %+v", name, entries)
		}
	}
}

func FuzzQuick(f *testing.F) {
	for _, s := range []string{
		"- id: tip\n  also: [a, \"b c\"] # words\n  cues:\n    - One.\n    - Two, three.\n",
		"- id: tip\n  travel: {body_m: 0.2, dropped: true}\n  tires: {squat: 1}\n",
		"- id: tip\n  swaps:\n    - {to: top, for: [back, no-kit], ratio: 1.5, neighbour: tip becomes top}\n",
		"- id: tip\n\n- id: top\n  height_cm: [60, 50]\n",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) { sameAsYAML(t, "fuzz", []byte(s)) })
}
