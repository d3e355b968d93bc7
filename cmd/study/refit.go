package main

import (
	"fmt"
	"io"

	"roomful/study"
)

// refitVerb refits, leaving each study out in turn.
type refitVerb struct {
	writing
	Quick bool `help:"Half as thorough, with fewer people."`
}

// Run refits.
func (v *refitVerb) Run(p *program) error {
	steps := 4
	if v.Quick {
		steps, p.model.People = 2, min(p.model.People, 80)
	}
	rs, err := study.Refit(p.ctx, p.model, study.Studies(), study.RefitOptions{Steps: steps, Progress: func(done, all int, what string) {
		fmt.Fprintf(p.aside, "%d of %d: %s\n", done+1, all, what)
	}})
	if err != nil {
		return err
	}
	if err := p.form(rs.WriteText, rs.WriteJSON); err != nil {
		return err
	}
	if !v.Write {
		return nil
	}
	return v.put("refit", func(w io.Writer) error {
		fmt.Fprintf(w, "%d people of each group, seed %d.\n\n", p.model.People, p.model.Seed)
		return rs.WriteMarkdown(w)
	})
}
