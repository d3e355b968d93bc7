package main

import (
	"io"

	"roomful/exchange"
	"roomful/notation"
)

// tidyVerb prints the canonical form of a sheet.
type tidyVerb struct {
	Sheet string `arg:"" help:"The sheet, or - for standard input."`
}

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
	b, err := p.readFile(v.Sheet)
	if err != nil {
		return err
	}
	f := file{name: v.Sheet, text: string(b)}
	s, ds := notation.Read(f.text, p.lexicon)
	f.diagnostics = ds
	text := ""
	if len(s.Parts) > 0 || s.Title != "" {
		text = notation.Print(s, p.lexicon)
	}
	if p.json {
		err = p.answer(tidied{f.faults() == 0, text, exchange.DiagnosticsOf("", ds)})
	} else {
		io.WriteString(p.Stderr, excerpts(f))
		err = p.print(text)
	}
	if err == nil && f.faults() > 0 {
		return errFaults
	}
	return err
}
