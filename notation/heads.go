package notation

import (
	"strings"

	"roomful"
)

// Heads returns what the canonical form says behind the name of each part.
func Heads(s roomful.Session, lex roomful.Lexicon) []string {
	lines := strings.Split(Print(s, lex), "\n")
	out := make([]string, len(s.Parts))
	next := 0
	for i, p := range s.Parts {
		for ; next < len(lines); next++ {
			if head, ok := strings.CutPrefix(lines[next], p.Name()+":"); ok {
				out[i] = strings.TrimSpace(head)
				next++
				break
			}
		}
	}
	return out
}
