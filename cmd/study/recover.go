package main

import (
	"io"

	"roomful/study"
)

// recoverVerb asks whether what is learnt from scores is true.
type recoverVerb struct {
	Seeds    []uint64 `help:"Seeds to study, each with so many people; without them the one of --seed." placeholder:"N,N"`
	Write    bool     `help:"Bring the document up to date."`
	Document string   `help:"The document." default:"doc/inference-calibration.md" placeholder:"FILE"`
}

// Run studies.
func (v *recoverVerb) Run(p *program) error {
	if len(v.Seeds) == 0 {
		v.Seeds = []uint64{p.model.Seed}
	}
	var all []study.Seeded
	for _, seed := range v.Seeds {
		model := p.model
		model.Seed = seed
		s, err := study.RecoverSeed(p.ctx, model)
		if err != nil {
			return err
		}
		all = append(all, s)
	}
	kept, err := study.WriteRecovery(p.out, all)
	if err != nil {
		return err
	}
	if v.Write {
		if err := (writing{true, v.Document}).put("recovery", func(w io.Writer) error {
			_, err := study.WriteRecovery(w, all)
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
