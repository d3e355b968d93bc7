package catalogue_test

import (
	"fmt"
	"strings"
	"testing"
	"unicode"

	"roomful"
)

// sentence is one sentence of a movement.
type sentence struct {
	of    string
	text  string
	words []string
}

func sentences(all []*roomful.Movement) []sentence {
	var out []sentence
	for _, m := range all {
		for i, s := range append(append([]string{m.Standard}, m.Cues...), m.Faults...) {
			clean := strings.Map(func(r rune) rune {
				if unicode.IsLetter(r) || unicode.IsDigit(r) || r == ' ' {
					return unicode.ToLower(r)
				}
				return -1
			}, strings.ReplaceAll(s, "-", " "))
			out = append(out, sentence{fmt.Sprintf("%s, sentence %d", m.ID, i+1), s, strings.Fields(clean)})
		}
	}
	return out
}

// TestWordsAreOwn fails on templated prose: a run of six words that two
// sentences share, or two sentences made of nearly the same words.
func TestWordsAreOwn(t *testing.T) {
	const run, alike = 6, 0.7
	all := sentences(load(t).All())
	seen := map[string]string{}
	for _, s := range all {
		for i := 0; i+run <= len(s.words); i++ {
			key := strings.Join(s.words[i:i+run], " ")
			if other := seen[key]; other != "" && other != s.of {
				t.Errorf("%s and %s both say %q", other, s.of, key)
			}
			seen[key] = s.of
		}
	}
	for i, a := range all {
		for _, b := range all[i+1:] {
			if same := overlap(a.words, b.words); same >= alike {
				t.Errorf("%s and %s are alike: %q, %q", a.of, b.of, a.text, b.text)
			}
		}
	}
}

// overlap is the share of distinct words that two sentences have in common.
func overlap(a, b []string) float64 {
	if len(a) > 2*len(b) || len(b) > 2*len(a) {
		return 0
	}
	set := map[string]int{}
	for _, w := range a {
		set[w] |= 1
	}
	for _, w := range b {
		set[w] |= 2
	}
	both := 0
	for _, in := range set {
		if in == 3 {
			both++
		}
	}
	return float64(both) / float64(len(set))
}

// TestWordsAreTidy holds the form: a capital, a full stop, one line, and a
// standard of one sentence that nobody needs to scroll.
func TestWordsAreTidy(t *testing.T) {
	for _, s := range sentences(load(t).All()) {
		first := []rune(s.text)[0]
		switch {
		case !unicode.IsUpper(first):
			t.Errorf("%s does not start with a capital: %q", s.of, s.text)
		case !strings.HasSuffix(s.text, "."):
			t.Errorf("%s does not end in a full stop: %q", s.of, s.text)
		case strings.ContainsAny(s.text, "\n\t") || strings.Contains(s.text, "  "):
			t.Errorf("%s has odd spaces: %q", s.of, s.text)
		case len(s.text) > 150:
			t.Errorf("%s is long, %d characters: %q", s.of, len(s.text), s.text)
		case strings.HasSuffix(s.of, " 1") && strings.Contains(strings.TrimSuffix(s.text, "."), ". "):
			t.Errorf("%s: a standard is one sentence: %q", s.of, s.text)
		}
	}
	for _, m := range load(t).All() {
		if m.Name != strings.TrimSpace(m.Name) || strings.Contains(m.Name, "_") {
			t.Errorf("%s has an odd name %q", m.ID, m.Name)
		}
		for _, s := range m.Swaps {
			if s.Neighbour != "" && (strings.HasSuffix(s.Neighbour, ".") || unicode.IsUpper([]rune(s.Neighbour)[0])) {
				t.Errorf("%s to %s: a neighbour is a few small words, not %q", m.ID, s.To, s.Neighbour)
			}
		}
	}
}
