package main

import (
	"fmt"
	"slices"
	"strings"

	"roomful"
	"roomful/exchange"
	"roomful/score"
)

// recordVerb shows what people scored before.
type recordVerb struct {
	People string `required:"" help:"Whose scores they are, as CSV." placeholder:"FILE"`
	pastFiles
	Name string `help:"One person only." placeholder:"NAME"`
	Of   string `help:"One sheet only, by the name of its file or its title." placeholder:"SHEET"`
	Gym  string `help:"The gym file: how the gym likes things." placeholder:"FILE"`
}

// Help implements the long help.
func (recordVerb) Help() string {
	return "What somebody did last time, with the score and what was changed. Words about the body are for the person and coaches."
}

// Run does the verb.
func (v *recordVerb) Run(p *program) error {
	var src sources
	if err := p.readEach(&src, append(p.gymInto(v.Gym), p.peopleInto(&src, v.People))); err != nil {
		return err
	}
	record, err := p.past(&src, v.pastFiles, true)
	if err != nil {
		return err
	}
	who, err := those(src.people, v.Name)
	if err != nil {
		return err
	}
	record = slices.DeleteFunc(record, func(e roomful.Entry) bool {
		return !slices.ContainsFunc(who, func(a roomful.Athlete) bool { return a.ID == e.Athlete }) || v.Of != "" && !strings.EqualFold(e.Sheet, v.Of) && !strings.EqualFold(e.Title, v.Of)
	})
	if p.json {
		out := exchange.RecordOf(record)
		out.Diagnostics = listed(src.files)
		return p.answer(out)
	}
	p.remarks(src)
	if len(record) == 0 {
		return p.print("no scores.\n")
	}
	var b strings.Builder
	for _, e := range record {
		b.WriteString(recordLine(e, v.Name != ""))
	}
	return p.print(b.String())
}

// recordLine writes one attempt: when, who, which sheet, the score and what was not
// as written.
func recordLine(e roomful.Entry, alone bool) string {
	head := e.On.String() + "  "
	if !alone {
		head += fmt.Sprintf("%-10s ", e.Name)
	}
	head += e.Title
	if piece := e.Done.Piece.Name(); piece != "main" {
		head += " (" + piece + ")"
	}
	said := []string{score.EntryWords(e)}
	said = append(said, e.Done.Changed...)
	if e.Reading.AsWritten != nil && *e.Reading.AsWritten {
		said = append(said, "as written")
	}
	return wrapped(head+": ", strings.Join(said, "; "))
}
