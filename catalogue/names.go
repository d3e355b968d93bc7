package catalogue

import (
	"errors"
	"fmt"
	"strings"
	"unicode"

	"roomful"
)

// maxWords is the longest run of words that is tried as a name.
const maxWords = 9

// shortWords is data/words.yaml.
type shortWords struct {
	// Stands gives the full word for a short one: db, dumbbell.
	Stands map[string]string `yaml:"stands"`
	// Ignored may stand before a name and change nothing: easy, alternating.
	Ignored []string `yaml:"ignored"`
}

// names finds movements by how they are written. Its keys are squashed: small
// letters and digits only, so that case, hyphens and spaces make no difference.
type names struct {
	keys    map[string]*roomful.Movement
	stands  map[string]string // both sides squashed
	ignored map[string]bool
	// What Suggest compares with: every name, and every word in them once.
	said       []said
	vocabulary []glyphs
	place      map[string]int // of a word in the vocabulary
}

// newNames indexes every way to write each movement. A name that two movements
// answer to is a fault; names that are only derived give way.
func newNames(all []*roomful.Movement, words shortWords) (names, error) {
	n := names{keys: map[string]*roomful.Movement{}, stands: map[string]string{}, ignored: map[string]bool{}, place: map[string]int{}}
	for short, long := range words.Stands {
		n.stands[squash(short)] = squash(long)
	}
	for _, w := range words.Ignored {
		n.ignored[squash(w)] = true
	}
	var faults []error
	for _, m := range all {
		for _, name := range append([]string{m.Name, string(m.ID), m.Plural}, m.Also...) {
			faults = append(faults, n.add(name, m))
		}
	}
	for _, m := range all {
		n.derive(m)
	}
	return n, errors.Join(faults...)
}

// add indexes a name that was given.
func (n *names) add(name string, m *roomful.Movement) error {
	key := squash(name)
	if key == "" {
		return fault(m, fmt.Sprintf("a name has neither letters nor digits: %q", name))
	}
	switch other := n.keys[key]; {
	case other == m:
		return nil
	case other != nil:
		return fault(m, fmt.Sprintf("%q also names %s", name, other.ID))
	}
	n.keys[key] = m
	n.said = append(n.said, said{glyphsOf(key), n.learn(name), m})
	return nil
}

// learn returns where the words of a name stand in the vocabulary.
func (n *names) learn(name string) []int {
	var at []int
	for _, w := range n.words(name) {
		i, known := n.place[w]
		if !known {
			i = len(n.vocabulary)
			n.place[w] = i
			n.vocabulary = append(n.vocabulary, glyphsOf(w))
		}
		at = append(at, i)
	}
	return at
}

// derive indexes what follows from the given names: plurals, and the implement
// said before the name.
func (n *names) derive(m *roomful.Movement) {
	forms := append([]string{m.Name, m.Plural}, m.Also...)
	for _, name := range forms {
		for _, p := range plurals(name) {
			n.offer(p, m)
		}
	}
	if !m.TakesLoad() {
		return
	}
	for _, name := range forms {
		n.offer(string(m.Implement)+name, m)
		if m.Implement == roomful.Barbell {
			n.offer("empty bar "+name, m)
			n.offer("empty barbell "+name, m)
		}
	}
}

// offer indexes a name unless it is taken.
func (n *names) offer(name string, m *roomful.Movement) {
	if key := squash(name); n.keys[key] == nil {
		n.keys[key] = m
	}
}

// Match finds the longest run of words, from the first on, that names a
// movement, and says how many words it took; nil and 0 when none does.
func (c *Catalogue) Match(words []string) (*roomful.Movement, int) {
	m, n := c.names.match(words)
	if m == nil && len(words) > 1 && c.names.ignored[squash(words[0])] {
		if m, n = c.names.match(words[1:]); m != nil {
			n++
		}
	}
	return m, n
}

// match looks up each run of words as typed and with short words written out,
// and keeps the longest. It allocates nothing.
func (n *names) match(words []string) (found *roomful.Movement, took int) {
	var typed, full [96]byte
	t, f := typed[:0], full[:0]
	for i, w := range words[:min(len(words), maxWords)] {
		start := len(t)
		t = appendSquashed(t, w)
		if len(t) == start {
			if i == 0 {
				return nil, 0
			}
			continue // a sign alone never ends a name
		}
		if long, ok := n.stands[string(t[start:])]; ok {
			f = append(f, long...)
		} else {
			f = append(f, t[start:]...)
		}
		m := n.keys[string(t)]
		if m == nil {
			m = n.keys[string(f)]
		}
		if m != nil {
			found, took = m, i+1
		}
	}
	return found, took
}

// squash keeps the letters and digits of a name, in small letters; & is and.
func squash(s string) string { return string(appendSquashed(nil, s)) }

func appendSquashed(b []byte, s string) []byte {
	for _, r := range s {
		switch {
		case 'a' <= r && r <= 'z', '0' <= r && r <= '9':
			b = append(b, byte(r))
		case 'A' <= r && r <= 'Z':
			b = append(b, byte(r)+'a'-'A')
		case r == '&':
			b = append(b, "and"...)
		case r > unicode.MaxASCII && (unicode.IsLetter(r) || unicode.IsDigit(r)):
			b = append(b, string(unicode.ToLower(r))...)
		}
	}
	return b
}

// words splits a name at spaces and hyphens, writes short words out and takes
// plurals back.
func (n *names) words(name string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(name, func(r rune) bool { return unicode.IsSpace(r) || r == '-' || r == '/' }) {
		w = squash(w)
		if long, ok := n.stands[w]; ok {
			w = long
		}
		if len(w) > 3 && !strings.HasSuffix(w, "ss") {
			w = strings.TrimSuffix(w, "s")
		}
		if w != "" {
			out = append(out, w)
		}
	}
	return out
}

// plural returns the regular plural of a name: that of its last word.
func plural(name string) string {
	switch {
	case strings.HasSuffix(name, "s"), strings.HasSuffix(name, "x"), strings.HasSuffix(name, "ch"), strings.HasSuffix(name, "sh"):
		return name + "es"
	case len(name) > 1 && strings.HasSuffix(name, "y") && !strings.ContainsRune("aeiou", rune(name[len(name)-2])):
		return name[:len(name)-1] + "ies"
	}
	return name + "s"
}

// plurals returns the ways people put a name in the plural: its last word, the
// word before a preposition, or every word.
func plurals(name string) []string {
	out := []string{plural(name)}
	words := strings.Fields(name)
	for i, w := range words {
		switch w {
		case "over", "without", "with", "no", "to", "on", "from", "in", "and":
			if i > 0 {
				head := strings.Join(words[:i], " ")
				out = append(out, plural(head)+" "+strings.Join(words[i:], " "),
					plural(head)+" "+plural(strings.Join(words[i:], " ")))
			}
		}
	}
	return out
}
