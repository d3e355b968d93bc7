package main

import (
	"fmt"
	"strings"

	"roomful"
)

// excerpts shows each diagnostic of a file with its line and a mark under the
// place.
func excerpts(f file) string {
	lines := strings.Split(strings.ReplaceAll(f.text, "\r\n", "\n"), "\n")
	if len(lines) > 0 {
		lines[0] = strings.TrimPrefix(lines[0], "\ufeff")
	}
	var s strings.Builder
	for _, d := range f.diagnostics {
		line := ""
		if n := d.Range.Start.Line; n >= 1 && n <= len(lines) && !aboutAll(d.Range) {
			line = lines[n-1]
		}
		excerpt(&s, f.shown(), line, d)
	}
	return s.String()
}

// aboutAll reports whether a diagnostic speaks of the whole file.
func aboutAll(r roomful.Range) bool {
	return r.Start == r.End && r.Start.Line <= 1 && r.Start.Column <= 1
}

// shownColumns is how much of a long line is shown, in characters.
const shownColumns = 100

// excerpt shows one diagnostic.
func excerpt(s *strings.Builder, name, line string, d roomful.Diagnostic) {
	at := d.Range.Start
	at.Line, at.Column = max(at.Line, 1), max(at.Column, 1)
	fmt.Fprintf(s, "%s:%d:%d: %s: %s\n", name, at.Line, at.Column, d.Severity, d.Summary)
	text := []rune(printable(line))
	if len(text) > 0 {
		start := at.Column - 1
		width := 1
		if end := d.Range.End; end.Line == at.Line {
			width = max(end.Column-at.Column, 1)
		} else if end.Line > at.Line {
			width = max(len(text)-start, 1)
		}
		from := 0
		if start > shownColumns*3/4 {
			from = start - shownColumns/4
		}
		from = min(from, len(text))
		to := min(len(text), from+shownColumns)
		width = min(width, max(to-start, 1))
		number := fmt.Sprint(at.Line)
		fmt.Fprintf(s, "  %s | %s\n", number, string(text[from:to]))
		fmt.Fprintf(s, "  %s | %s%s\n", strings.Repeat(" ", len(number)), strings.Repeat(" ", start-from), strings.Repeat("^", width))
	}
	if d.Detail != "" {
		fmt.Fprintf(s, "  %s\n", d.Detail)
	}
	if d.Hint != "" {
		fmt.Fprintf(s, "  hint: %s\n", d.Hint)
	}
}

// printable makes every character one column wide, so that marks stand under
// what they mean and a file cannot speak to the terminal.
func printable(line string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t':
			return ' '
		case r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0:
			return '·'
		}
		return r
	}, line)
}

// tally counts diagnostics in words, "2 errors, 1 warning"; empty for none.
func tally(ds []roomful.Diagnostic) string {
	var n [3]int
	for _, d := range ds {
		n[d.Severity]++
	}
	var parts []string
	for _, sev := range []roomful.Severity{roomful.Fault, roomful.Warning, roomful.Hint} {
		switch n[sev] {
		case 0:
		case 1:
			parts = append(parts, "1 "+sev.String())
		default:
			parts = append(parts, fmt.Sprintf("%d %ss", n[sev], sev))
		}
	}
	return strings.Join(parts, ", ")
}
