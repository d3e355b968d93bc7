package main

import (
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strconv"
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
			out.Boards = append(out.Boards, exchange.BoardOf(b, scoreText))
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

// scoreText writes the score of an attempt.
func scoreText(e roomful.Entry) string {
	read := e.Reading
	if !math.IsNaN(e.Done.Score) {
		read.SameAs = ""
	}
	if read.Kind != roomful.LoadScore || len(read.LoadsKg) == 0 {
		return score.Words(read)
	}
	var words []string
	for i, kg := range read.LoadsKg {
		word := roomful.Figure(roomful.Kg(kg).Near(e.Unit).Value)
		if slices.Contains(read.Misses, i+1) {
			word = "(" + word + " missed)"
		}
		words = append(words, word)
	}
	return strings.Join(words, " ") + " " + e.Unit.String()
}

// board writes what people scored on one piece.
func (p *program) board(b roomful.Board) string {
	var out strings.Builder
	fmt.Fprintf(&out, "%s\n", b.Piece.Name())
	wide := 0
	for _, side := range [][]roomful.Placed{b.Written, b.Changed, b.Without} {
		for _, one := range side {
			wide = max(wide, width(onLine(one)))
		}
	}
	side := func(head string, all []roomful.Placed, rest func(roomful.Placed) string) {
		if len(all) == 0 {
			return
		}
		fmt.Fprintf(&out, "  %s\n", head)
		for _, one := range all {
			lead := fmt.Sprintf("  %4s %s  %s", placeWord(one), pad(onLine(one), wide), scoreText(one.Entry))
			if words := rest(one); words != "" {
				out.WriteString(wrapped(lead+"  ", words))
				continue
			}
			out.WriteString(lead + "\n")
		}
	}
	side("as written", b.Written, func(roomful.Placed) string { return "" })
	side("changed", b.Changed, func(one roomful.Placed) string {
		words := one.Done.Otherwise()
		if len(words) == 0 {
			words = append(words, one.Done.Assumed...)
		}
		if !math.IsNaN(one.Equivalent) {
			words = append(words, "about "+equivalentText(b, one)+" as written")
		}
		return strings.Join(words, "; ")
	})
	side("no score", b.Without, func(one roomful.Placed) string {
		if q := one.Reading.Question; q != nil {
			return "to ask: " + q.Ask
		}
		return ""
	})
	return out.String()
}

// equivalentText writes about what a changed attempt would have been as written.
func equivalentText(b roomful.Board, one roomful.Placed) string {
	size := 0
	if _, ok := b.Piece.Format.(roomful.RoundsInTime); ok {
		size = score.RoundSize(b.Piece, one.Division, int(one.Equivalent))
	}
	return b.Kind.Text(one.Equivalent, float64(size))
}

// onLine are those who share a line.
func onLine(one roomful.Placed) string {
	if who := one.Reading.Partner; len(one.With) == 0 && who != "" && one.Done.Piece.Team.Size > 1 {
		return one.Name + " with " + who
	}
	return strings.Join(append([]string{one.Name}, one.With...), ", ")
}

// placeWord writes a place.
func placeWord(one roomful.Placed) string {
	switch {
	case one.Place == 0:
		return ""
	case one.Tied:
		return strconv.Itoa(one.Place) + "="
	}
	return strconv.Itoa(one.Place)
}
