package main

import (
	"bytes"
	"fmt"
	"io"
	"os"

	"roomful/study"
)

// writing is asked of both verbs.
type writing struct {
	Write    bool   `help:"Bring this part of the document up to date."`
	Document string `help:"The document." default:"doc/calibration.md" placeholder:"FILE"`
}

// put writes a section of the document.
func (w writing) put(section string, print func(io.Writer) error) error {
	var b bytes.Buffer
	if err := print(&b); err != nil {
		return err
	}
	text, err := os.ReadFile(w.Document)
	if err != nil {
		return fmt.Errorf("bringing %s up to date: %w\nhint: run it where go.mod is", w.Document, err)
	}
	whole, err := study.ReplaceSection(string(text), section, b.String())
	if err != nil {
		return fmt.Errorf("bringing %s up to date: %w", w.Document, err)
	}
	return os.WriteFile(w.Document, []byte(whole), 0o644)
}

// compareVerb lays the model beside every published figure.
type compareVerb struct {
	writing
	Seeds int `help:"Also say how far the figures differ between so many seeds; the document has five." default:"1" placeholder:"N"`
}

// documentSeeds is how many seeds the document compares.
const documentSeeds = 5

// Run compares.
func (v *compareVerb) Run(p *program) error {
	if v.Write {
		v.Seeds = documentSeeds
	}
	r := study.CompareSeeds(p.ctx, p.model, study.Studies(), v.Seeds)
	if err := p.ctx.Err(); err != nil {
		return err
	}
	if err := p.form(r.WriteText, r.WriteJSON); err != nil {
		return err
	}
	if v.Write {
		err := v.put("comparison", func(w io.Writer) error {
			fmt.Fprintf(w, "%d people of each group; seed %d, and %d more for how far the figures differ between seeds.\n\n",
				p.model.People, p.model.Seed, v.Seeds-1)
			return r.WriteMarkdown(w)
		})
		if err != nil {
			return err
		}
	}
	if len(r.Misses()) > 0 {
		return errBroken
	}
	return nil
}
