package main

import (
	"io"

	"roomful/study"
)

// recoverVerb asks whether what is learnt from scores is true.
type recoverVerb struct {
	Write    bool   `help:"Bring the document up to date."`
	Document string `help:"The document." default:"doc/inference-calibration.md" placeholder:"FILE"`
}

// Run studies.
func (v *recoverVerb) Run(p *program) error {
	plain, err := study.Recovery{Model: p.model, Lengths: study.Lengths}.Run(p.ctx)
	if err != nil {
		return err
	}
	other, err := study.Recovery{Model: p.model, Lengths: study.Lengths, Truth: study.Perturbed(p.model.Constants)}.Run(p.ctx)
	if err != nil {
		return err
	}
	kept, err := study.WriteRecovery(p.out, plain, other)
	if err != nil {
		return err
	}
	if v.Write {
		if err := (writing{true, v.Document}).put("recovery", func(w io.Writer) error {
			_, err := study.WriteRecovery(w, plain, other)
			return err
		}); err != nil {
			return err
		}
	}
	if !kept {
		return errBroken
	}
	return nil
}
