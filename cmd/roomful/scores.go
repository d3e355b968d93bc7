package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/score"
)

// scoresVerb shows what everybody scored on a sheet.
type scoresVerb struct {
	Sheet  string `required:"" help:"The sheet that was done." placeholder:"FILE"`
	People string `required:"" help:"Who did it, as CSV." placeholder:"FILE"`
	pastFiles
	Gym  string `help:"The gym file: what a cap means, and what else the gym likes." placeholder:"FILE"`
	Seed uint64 `help:"The seed of the random numbers." default:"1" placeholder:"N"`
}

// Help implements the long help.
func (scoresVerb) Help() string {
	return "Everybody who did it as written in places, and beside them who changed something, with about what that would have been as written. Where one interval is the score, a tie is told apart by all of them together. Else it is told apart by when the last full round was done, or the place is shared. People under 18 have none. Words about the body are left out."
}

// Run does the verb.
func (v *scoresVerb) Run(p *program) error {
	src, record, err := p.scored(v.Sheet, v.People, v.Gym, v.pastFiles)
	if err != nil {
		return err
	}
	boards, err := p.day.Boards(p.ctx, day.BoardQuestion{Session: src.session, Sheet: sheetKey(v.Sheet), People: src.people, Record: record, Seed: v.Seed, Workers: p.workers})
	if err != nil {
		return err
	}
	if p.json {
		out := exchange.Boards{Boards: []exchange.Board{}, Diagnostics: listed(src.files)}
		for _, b := range boards {
			out.Boards = append(out.Boards, exchange.BoardOf(b, score.EntryWords))
		}
		return p.answer(out)
	}
	p.remarks(src)
	var b strings.Builder
	b.WriteString(headline(src.session) + "\n")
	for _, board := range boards {
		b.WriteString(p.board(board))
	}
	return p.print(b.String())
}

// scored reads a sheet, people and their scores.
func (p *program) scored(sheet, people, gym string, f pastFiles) (sources, roomful.Record, error) {
	var src sources
	if yes, err := f.given(); err != nil {
		return src, nil, err
	} else if !yes {
		return src, nil, usageError{fmt.Errorf("no scores: name a file of them with --attempts")}
	}
	read := reading{sheet, func(text []byte) (ds []roomful.Diagnostic) {
		src.session, ds = p.day.Check(p.ctx, string(text))
		return ds
	}}
	if err := p.readEach(&src, append(p.gymInto(gym), read, p.peopleInto(&src, people))); err != nil {
		return src, nil, err
	}
	record, err := p.past(&src, f, false)
	return src, record, err
}

// sheetKey is the name of a sheet's file without the ending.
func sheetKey(file string) string { return strings.TrimSuffix(filepath.Base(file), ".txt") }

// board writes what people scored on one piece.
func (p *program) board(b roomful.Board) string {
	var out strings.Builder
	fmt.Fprintf(&out, "%s\n", b.Piece.Name())
	wide := 0
	for _, side := range [][]roomful.Placed{b.Written, b.Changed, b.Without} {
		for _, one := range side {
			wide = max(wide, width(score.OnLine(one)))
		}
	}
	side := func(head string, all []roomful.Placed, rest func(roomful.Placed) string) {
		if len(all) == 0 {
			return
		}
		fmt.Fprintf(&out, "  %s\n", head)
		for _, one := range all {
			lead := fmt.Sprintf("  %4s %s  %s", score.PlaceWord(one), pad(score.OnLine(one), wide), score.EntryWords(one.Entry))
			if words := rest(one); words != "" {
				out.WriteString(wrapped(lead+"  ", words))
				continue
			}
			out.WriteString(lead + "\n")
		}
	}
	side("as written", b.Written, func(roomful.Placed) string { return "" })
	side("changed", b.Changed, func(one roomful.Placed) string { return score.OtherwiseWords(b, one) })
	side("no score", b.Without, func(one roomful.Placed) string {
		if q := one.Reading.Question; q != nil {
			return "to ask: " + q.Ask
		}
		return ""
	})
	return out.String()
}
