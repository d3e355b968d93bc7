package diag

import (
	"slices"
	"strings"

	"roomful"
	"roomful/notation/internal/scan"
)

// Most that is said about one sheet, and most names that are looked up for a
// did-you-mean; beyond that the text is hardly a sheet.
const (
	mostDiagnostics = 100
	mostSuggestions = 20
)

// Diagnostics gathers what is to be said.
type Diagnostics struct {
	List      []roomful.Diagnostic
	Lex       roomful.Lexicon
	suggested int
}

// Say adds a diagnostic. The hint is the next step. What is returned lets
// the caller add a detail, until the next is said.
func (d *Diagnostics) Say(sev roomful.Severity, s scan.Span, summary, detail, hint string) *roomful.Diagnostic {
	d.List = append(d.List, roomful.Diagnostic{
		Severity: sev,
		Range:    roomful.Range{Start: roomful.Position{Line: int(s.Line), Column: int(s.Col)}, End: roomful.Position{Line: int(s.Line), Column: int(s.Stop)}},
		Summary:  summary, Detail: detail, Hint: hint,
	})
	return &d.List[len(d.List)-1]
}

// Fault says what makes the sheet unusable as it stands.
func (d *Diagnostics) Fault(s scan.Span, summary, hint string) *roomful.Diagnostic {
	return d.Say(roomful.Fault, s, summary, "", hint)
}

// Warn says what was assumed, or is likely not meant.
func (d *Diagnostics) Warn(s scan.Span, summary, hint string) *roomful.Diagnostic {
	return d.Say(roomful.Warning, s, summary, "", hint)
}

// Hint says how something unusual was read.
func (d *Diagnostics) Hint(s scan.Span, summary, hint string) *roomful.Diagnostic {
	return d.Say(roomful.Hint, s, summary, "", hint)
}

// Sorted returns what was said in the order of the text, errors first at one
// place, and cut to what anybody would read.
func (d *Diagnostics) Sorted() []roomful.Diagnostic {
	slices.SortStableFunc(d.List, func(a, b roomful.Diagnostic) int {
		p, q := a.Range.Start, b.Range.Start
		if p.Line != q.Line {
			return p.Line - q.Line
		}
		if p.Column != q.Column {
			return p.Column - q.Column
		}
		return int(b.Severity) - int(a.Severity)
	})
	if len(d.List) <= mostDiagnostics {
		return d.List
	}
	at := d.List[mostDiagnostics].Range
	d.List = d.List[:mostDiagnostics]
	d.Say(roomful.Fault, scan.Place(at.Start.Line, at.Start.Column, at.Start.Column), "too many faults to list", "", "mend those above first, or check that this is a sheet")
	return d.List
}

// Unknown speaks of a movement that is not in the lexicon.
func (d *Diagnostics) Unknown(sev roomful.Severity, s scan.Span, words string) {
	hint := "write a name that the catalogue knows, or put the line after note:"
	detail := "kept as typed"
	if names := d.Near(words); len(names) > 0 {
		hint = "did you mean " + strings.Join(names, ", or ") + "?"
	} else if sev == roomful.Hint {
		hint = "nothing to do, unless it is misspelt"
	}
	d.Say(sev, s, Quote(words)+" is no movement I know", detail, hint)
}

// Near returns up to two names of movements like the words.
func (d *Diagnostics) Near(words string) []string {
	if d.suggested++; d.suggested > mostSuggestions || len(words) > 60 {
		return nil
	}
	var names []string
	if m := d.Within(words); m != nil {
		names = append(names, m.Name)
	}
	near := d.Lex.Suggest(words)
	if m, n := d.Lex.Match(strings.Fields(scan.Plain(words))); n > 0 {
		near = append(near, m)
	}
	for _, m := range near {
		if slices.Contains(names, m.Name) {
			continue
		}
		if names = append(names, m.Name); len(names) >= 2 {
			break
		}
	}
	return names
}

// Within returns the movement that the last words name, as in "hold plank".
func (d *Diagnostics) Within(words string) *roomful.Movement {
	list := strings.Fields(scan.Plain(words))
	for i := range list {
		if m, n := d.Lex.Match(list[i:]); m != nil && n == len(list)-i {
			return m
		}
	}
	return nil
}

// Quote puts words in quotes, shortened to fit a line.
func Quote(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		s = string(r[:most]) + "..."
	}
	return "\"" + s + "\""
}
