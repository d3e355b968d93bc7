package main

import (
	"fmt"
	"strings"

	"roomful"
	"roomful/exchange"
	"roomful/notation"
)

// checkVerb says whether a sheet is right.
type checkVerb struct {
	oneSheet
	Gym string `help:"The gym file: how the gym likes things. Without it all is usual." placeholder:"FILE"`
}

// Help implements the long help.
func (checkVerb) Help() string {
	return "Every error, warning and hint is shown at its line and column. Only errors make the sheet unusable (exit 1)."
}

// Run does the verb.
func (v *checkVerb) Run(p *program) error {
	var src sources
	if err := p.readEach(&src, p.gymInto(v.Gym)); err != nil {
		return err
	}
	p.remarks(src)
	read := func(text string) (roomful.Session, []roomful.Diagnostic) { return p.day.Check(p.ctx, text) }
	return v.answer(p, read, func(f file, s roomful.Session) error {
		if p.json {
			out := exchange.CheckOf(s, f.diagnostics, p.lexicon)
			out.Diagnostics = append(out.Diagnostics, listed(src.files)...)
			return p.answer(out)
		}
		return p.print(excerpts(f) + p.verdict(f, s))
	})
}

// verdict says in a few lines what was read.
func (p *program) verdict(f file, s roomful.Session) string {
	var b strings.Builder
	good := "good"
	if f.faults() > 0 {
		good = "not usable as it stands"
	}
	if t := tally(f.diagnostics); t != "" {
		good += " (" + t + ")"
	}
	fmt.Fprintf(&b, "%s: %s\n", f.shown(), good)
	if len(s.Parts) == 0 {
		return b.String()
	}
	fmt.Fprintf(&b, "\n%s\n", headline(s))
	if e := effortWords(s.Effort); e != "" {
		fmt.Fprintf(&b, "  %-10s %s\n", "effort", e)
	}
	for i, head := range notation.Heads(s, p.lexicon) {
		part := s.Parts[i]
		n := len(part.Once) + len(part.Round) + len(part.Last)
		fmt.Fprintf(&b, "  %-10s %s (%s)\n", part.Name(), head, plural(n, "line"))
	}
	return b.String()
}

// headline is the title with what follows it.
func headline(s roomful.Session) string {
	words := []string{s.Title}
	if s.Title == "" {
		words[0] = "untitled"
	}
	if !s.Date.IsZero() {
		words = append(words, s.Date.String())
	}
	if s.Minutes > 0 {
		words = append(words, fmt.Sprintf("%d min", s.Minutes))
	}
	return strings.Join(words, ", ")
}

// effortWords writes an effort as a coach would.
func effortWords(e roomful.Effort) string {
	var words []string
	if e.Stated() {
		window := roomful.Figure(e.Low)
		if e.High != e.Low {
			window += "-" + roomful.Figure(e.High)
		}
		words = append(words, window+" "+e.Unit)
	}
	if e.Feel != "" {
		words = append(words, e.Feel)
	}
	out := strings.Join(words, ", ")
	if e.Proposed {
		out += " (proposed: the sheet does not say)"
	}
	return out
}

// plural counts things in words.
func plural(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}
