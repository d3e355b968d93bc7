package catalogue_test

import (
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"roomful"
	"roomful/catalogue"
)

// TestEveryFaultInTheDataIsRefused changes one line of a small sound catalogue at a time and reads it:
// testdata/refuse.txt gives the line, what to put there, and what the refusal
// must say.
func TestEveryFaultInTheDataIsRefused(t *testing.T) {
	base, err := os.ReadFile("testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := readText(string(base)); err != nil {
		t.Fatalf("the small catalogue itself is refused: %v", err)
	}
	cases, err := os.ReadFile("testdata/refuse.txt")
	if err != nil {
		t.Fatal(err)
	}
	for _, block := range strings.Split(strings.TrimSpace(string(cases)), "\n\n") {
		lines := strings.Split(block, "\n")
		if strings.HasPrefix(lines[0], "#") {
			continue
		}
		if len(lines) != 3 {
			t.Fatalf("a case is three lines, old, new and the refusal, not:\n%s", block)
		}
		old, with, want := lines[0], lines[1], lines[2]
		if strings.Count(string(base), old) != 1 {
			t.Fatalf("%q stands %d times in the small catalogue", old, strings.Count(string(base), old))
		}
		_, err := readText(strings.Replace(string(base), old, with, 1))
		switch {
		case err == nil:
			t.Errorf("%q instead of %q is let through", with, old)
		case !strings.Contains(err.Error(), want):
			t.Errorf("%q instead of %q: got %q, want it to say %q", with, old, err, want)
		case roomful.HintOf(err) == "":
			t.Errorf("%q instead of %q is refused without a hint", with, old)
		}
	}
}

func readText(text string) (*catalogue.Catalogue, error) {
	return catalogue.Read(fstest.MapFS{"small.yaml": &fstest.MapFile{Data: []byte(text)}})
}

// TestEveryKindOfRubbishIsAnswered holds that no file, an empty file and rubbish are answered,
// not crashed on.
func TestEveryKindOfRubbishIsAnswered(t *testing.T) {
	if c, err := catalogue.Read(fstest.MapFS{}); err != nil || len(c.All()) != 0 || c.Suggest("row") != nil {
		t.Errorf("no file: %v, %v", c, err)
	}
	if _, err := readText(""); err != nil {
		t.Errorf("an empty file: %v", err)
	}
	for _, text := range []string{"a: [", "\x00\xff", "- 1\n- 2\n", "just words", "- id: [x]\n"} {
		if _, err := readText(text); err == nil {
			t.Errorf("%q is read as a family", text)
		}
	}
}
