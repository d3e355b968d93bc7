package notation

import (
	"slices"
	"strings"

	"roomful"
)

// Most that is said about one sheet, and most names that are looked up for a
// did-you-mean; beyond that the text is hardly a sheet.
const (
	mostDiagnostics = 100
	mostSuggestions = 20
)

// diagnostics gathers what is to be said.
type diagnostics struct {
	list      []roomful.Diagnostic
	lex       roomful.Lexicon
	suggested int
}

// say adds a diagnostic. The hint is the next step.
func (d *diagnostics) say(sev roomful.Severity, s span, summary, detail, hint string) {
	d.list = append(d.list, roomful.Diagnostic{
		Severity: sev,
		Range:    roomful.Range{Start: roomful.Position{Line: s.line, Column: s.col}, End: roomful.Position{Line: s.line, Column: s.stop}},
		Summary:  summary, Detail: detail, Hint: hint,
	})
}

func (d *diagnostics) fault(s span, summary, hint string) {
	d.say(roomful.Fault, s, summary, "", hint)
}

func (d *diagnostics) warn(s span, summary, hint string) {
	d.say(roomful.Warning, s, summary, "", hint)
}

func (d *diagnostics) hint(s span, summary, hint string) {
	d.say(roomful.Hint, s, summary, "", hint)
}

// sorted returns what was said in the order of the text, errors first at one
// place, and cut to what anybody would read.
func (d *diagnostics) sorted() []roomful.Diagnostic {
	slices.SortStableFunc(d.list, func(a, b roomful.Diagnostic) int {
		p, q := a.Range.Start, b.Range.Start
		if p.Line != q.Line {
			return p.Line - q.Line
		}
		if p.Column != q.Column {
			return p.Column - q.Column
		}
		return int(b.Severity) - int(a.Severity)
	})
	if len(d.list) <= mostDiagnostics {
		return d.list
	}
	at := d.list[mostDiagnostics].Range
	d.list = d.list[:mostDiagnostics]
	d.say(roomful.Fault, span{at.Start.Line, at.Start.Column, at.Start.Column}, "too many faults to list", "", "mend those above first, or check that this is a sheet")
	return d.list
}

// unknown speaks of a movement that is not in the lexicon.
func (d *diagnostics) unknown(sev roomful.Severity, s span, words string) {
	hint := "write a name that the catalogue knows, or put the line after note:"
	detail := "kept as typed"
	if names := d.near(words); len(names) > 0 {
		hint = "did you mean " + strings.Join(names, ", or ") + "?"
	} else if sev == roomful.Hint {
		hint = "nothing to do, unless it is misspelt"
	}
	d.say(sev, s, quote(words)+" is no movement I know", detail, hint)
}

// near returns up to two names of movements like the words.
func (d *diagnostics) near(words string) []string {
	if d.suggested++; d.suggested > mostSuggestions || len(words) > 60 {
		return nil
	}
	var names []string
	if m := d.within(words); m != nil {
		names = append(names, m.Name)
	}
	for _, m := range d.lex.Suggest(words) {
		if len(names) == 1 && names[0] == m.Name {
			continue
		}
		if names = append(names, m.Name); len(names) >= 2 {
			break
		}
	}
	return names
}

// within returns the movement that the last words name, as in "hold plank".
func (d *diagnostics) within(words string) *roomful.Movement {
	list := strings.Fields(plain(words))
	for i := range list {
		if m, n := d.lex.Match(list[i:]); m != nil && n == len(list)-i {
			return m
		}
	}
	return nil
}

// quote puts words in quotes, shortened to fit a line.
func quote(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "..."
	}
	return "\"" + s + "\""
}
