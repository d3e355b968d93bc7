package main

import (
	"strings"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/score"
	"roomful/version"
)

// afterVerb tells what came of a class.
type afterVerb struct {
	Sheet  string `required:"" help:"The sheet that was done." placeholder:"FILE"`
	People string `required:"" help:"Who did it, as CSV." placeholder:"FILE"`
	pastFiles
	Kit  string `help:"The kit file: what the room owns." placeholder:"FILE"`
	Gym  string `help:"The gym file: how the gym likes things." placeholder:"FILE"`
	Seed uint64 `help:"The seed of the random numbers." default:"1" placeholder:"N"`
}

// Help implements the long help.
func (afterVerb) Help() string {
	return "What was meant beside what came of it, in four lines to a piece. It says how many ended in the window. It names the three who were furthest from it, with the likeliest reason. For coaches: a reason may be private."
}

// Run does the verb.
func (v *afterVerb) Run(p *program) error {
	src, record, err := p.scored(v.Sheet, v.People, v.Gym, v.pastFiles)
	if err != nil {
		return err
	}
	if err := p.readEach(&src, p.kitInto(&src, v.Kit)); err != nil {
		return err
	}
	q := day.Question{Session: src.session, People: src.people, Kit: src.kit, Today: p.today(), Runs: version.UsualRuns, Seed: v.Seed, Workers: p.workers}
	all, err := p.day.After(p.ctx, q, sheetKey(v.Sheet), record)
	if err != nil {
		return err
	}
	if p.json {
		out := exchange.AfterClass{Pieces: []exchange.After{}, Diagnostics: listed(src.files)}
		for _, a := range all {
			out.Pieces = append(out.Pieces, exchange.AfterOf(a, score.MiddleWords(a), score.EntryWords))
		}
		return p.answer(out)
	}
	p.remarks(src)
	var b strings.Builder
	for _, a := range all {
		if len(all) > 1 {
			b.WriteString(a.Piece.Name() + "\n")
		}
		b.WriteString(afterWords(a))
	}
	return p.print(b.String())
}

// afterWords writes what came of a piece: at most four lines, and who is to be asked.
func afterWords(a roomful.After) string {
	out := wrapped("", score.AfterWords(a))
	for _, f := range a.Far {
		line := f.Why
		if f.Private != "" {
			line += " (private: " + f.Private + ")"
		}
		out += wrapped(f.Name+" "+score.EntryWords(f.Entry)+": ", line)
	}
	for _, e := range a.Open {
		out += wrapped("ask "+e.Name+": ", e.Reading.Question.Ask)
	}
	return out
}
