package main

import (
	"io"

	"roomful"
	"roomful/exchange"
	"roomful/notation"
)

// tidyVerb prints the canonical form of a sheet.
type tidyVerb struct{ oneSheet }

// Help implements the long help.
func (tidyVerb) Help() string {
	return "Shorthand is written out, spaces and order are made even, and nothing that was typed is lost. What is wrong is said apart from it."
}

// tidied is the JSON form.
type tidied struct {
	OK          bool                  `json:"ok"`
	Text        string                `json:"text"`
	Diagnostics []exchange.Diagnostic `json:"diagnostics"`
}

// Run does the verb.
func (v *tidyVerb) Run(p *program) error {
	read := func(text string) (roomful.Session, []roomful.Diagnostic) { return notation.Read(text, p.lexicon) }
	return v.answer(p, read, func(f file, s roomful.Session) error {
		text := ""
		if len(s.Parts) > 0 || s.Title != "" {
			text = notation.Print(s, p.lexicon)
		}
		if p.json {
			return p.answer(tidied{f.faults() == 0, text, exchange.DiagnosticsOf("", f.diagnostics)})
		}
		io.WriteString(p.Stderr, excerpts(f))
		return p.print(text)
	})
}
