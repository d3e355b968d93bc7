package catalogue_test

import (
	"strings"
	"testing"
	"unicode"
)

// TestEverySentenceIsTidy holds the form: a capital, a full stop, one line, and a
// standard of one sentence that nobody needs to scroll. A neighbour is a few
// small words that go on after a colon.
func TestEverySentenceIsTidy(t *testing.T) {
	for _, s := range sentences(load(t).All()) {
		first := []rune(s.text)[0]
		tidy := unicode.IsUpper(first) && strings.HasSuffix(s.text, ".")
		if s.kind == "neighbour" {
			tidy = unicode.IsLower(first) && !strings.HasSuffix(s.text, ".")
		}
		switch {
		case !tidy:
			t.Errorf("%s starts or ends wrongly: %q", s.of, s.text)
		case strings.ContainsAny(s.text, "\n\t!") || strings.Contains(s.text, "  "):
			t.Errorf("%s has odd spaces or signs: %q", s.of, s.text)
		case len(s.text) > 150:
			t.Errorf("%s is long, %d characters: %q", s.of, len(s.text), s.text)
		case s.kind == "standard" && strings.Contains(strings.TrimSuffix(s.text, "."), ". "):
			t.Errorf("%s: a standard is one sentence: %q", s.of, s.text)
		}
	}
	for _, m := range load(t).All() {
		if m.Name != strings.TrimSpace(m.Name) || strings.Contains(m.Name, "_") {
			t.Errorf("%s has an odd name %q", m.ID, m.Name)
		}
	}
}
