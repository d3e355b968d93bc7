package exchange

import (
	"regexp"
	"slices"
	"strings"
)

// KeepComments puts the comments of a YAML text into another one that says the same
// things, or what they are now: each goes with its line, by the keys that lead there. What
// stood at a line that is gone stands at the end.
func KeepComments(was, now string) string {
	kept := commentsOf(was)
	var out []string
	for _, line := range pathed(now) {
		at := slices.IndexFunc(kept, func(c comment) bool { return c.path == line.path })
		if at < 0 {
			out = append(out, line.text)
			continue
		}
		c := kept[at]
		kept = slices.Delete(kept, at, at+1)
		out = append(out, c.above...)
		if c.behind != "" {
			line.text += " " + c.behind
		}
		out = append(out, line.text)
	}
	for _, c := range kept {
		for _, text := range append(c.above, c.behind) {
			if text = strings.TrimSpace(text); text != "" {
				out = append(out, text)
			}
		}
	}
	return strings.Join(out, "\n") + "\n"
}

// comment is what is said about a line.
type comment struct {
	path   string
	above  []string // lines of their own, blank ones between them too
	behind string
}

// commentsOf are the comments of a text by their lines; those at its end have no path.
func commentsOf(text string) (out []comment) {
	var above []string
	for _, line := range pathed(text) {
		bare := strings.TrimSpace(line.text)
		if bare == "" || strings.HasPrefix(bare, "#") {
			above = append(above, line.text)
			continue
		}
		c := comment{path: line.path, above: above}
		if at := commentAt(line.text); at >= 0 {
			c.behind = line.text[at:]
		}
		above = nil
		if len(c.above) > 0 || c.behind != "" {
			out = append(out, c)
		}
	}
	if len(above) > 0 {
		out = append(out, comment{path: "\x00", above: above})
	}
	return out
}

// commentAt is where a comment begins in a line, outside of quotes; -1 for nowhere.
func commentAt(line string) int {
	quote := rune(0)
	for i, r := range line {
		switch {
		case quote != 0:
			if r == quote {
				quote = 0
			}
		case (r == '"' || r == '\'') && (i == 0 || strings.ContainsRune(" [{,:", rune(line[i-1]))):
			quote = r
		case r == '#' && (i == 0 || line[i-1] == ' ' || line[i-1] == '\t'):
			return i
		}
	}
	return -1
}

// pathedLine is a line with the keys that lead to it.
type pathedLine struct{ text, path string }

// What a line begins with: a key, or an entry of a list by its first figure.
var (
	lineKey  = regexp.MustCompile(`^( *)([\w-]+):`)
	lineItem = regexp.MustCompile(`^( *)-\s*\{?\s*([^,}#]*)`)
)

// pathed gives each line of a text its path.
func pathed(text string) (out []pathedLine) {
	type level struct {
		indent int
		key    string
	}
	var stack []level
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\r\n")
		m := lineKey.FindStringSubmatch(line)
		if m == nil {
			m = lineItem.FindStringSubmatch(line)
		}
		if m == nil {
			out = append(out, pathedLine{line, "\x00" + line})
			continue
		}
		for len(stack) > 0 && stack[len(stack)-1].indent >= len(m[1]) {
			stack = stack[:len(stack)-1]
		}
		stack = append(stack, level{len(m[1]), strings.TrimSpace(m[2])})
		path := ""
		for _, l := range stack {
			path += "/" + l.key
		}
		out = append(out, pathedLine{line, path})
	}
	return out
}
