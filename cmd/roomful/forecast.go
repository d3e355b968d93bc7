package main

import (
	"fmt"
	"slices"
	"strings"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/notation"
)

// mostRuns is where more runs no longer change a figure that is shown: a
// probability is then sure to 0.2 in a hundred.
const mostRuns = 100_000

// forecastVerb forecasts a sheet as written.
type forecastVerb struct {
	inputs
	pastFiles
	Runs  int  `help:"How often each person is simulated." default:"1000" placeholder:"N"`
	Alone bool `help:"Leave other people and the kit out of it."`
}

// Help implements the long help.
func (forecastVerb) Help() string {
	return "Everybody does what the sheet says for their division. What is not told of a person is filled in, and the answer says so. The same seed gives the same answer."
}

// Validate refuses what cannot be meant.
func (v *forecastVerb) Validate() error {
	if v.Runs < 1 || v.Runs > mostRuns {
		return fmt.Errorf("--runs %d: ask for 1 to %d runs; 1000 is usual", v.Runs, mostRuns)
	}
	return nil
}

// Run does the verb.
func (v *forecastVerb) Run(p *program) error {
	src, err := p.read(v.inputs)
	if err != nil {
		return err
	}
	q := p.question(v.inputs, src)
	if err := p.believe(&q, &src, v.pastFiles); err != nil {
		return err
	}
	q.Runs = v.Runs
	show, done := p.progress()
	q.Progress = show
	f, err := p.day.Forecast(p.ctx, q, v.Alone)
	done()
	if err != nil {
		return err
	}
	p.remarks(src)
	if p.json {
		out := exchange.ForecastOf(f.Piece.Name(), f.Effort, f.Forecast)
		out.Runs, out.Seed, out.Diagnostics = v.Runs, v.Seed, listed(src.files)
		return p.answer(out)
	}
	var names []string
	for _, a := range f.Athletes {
		names = append(names, a.Name)
	}
	return p.print(p.pieceLine(src.session, f.Piece, f.Effort) + together(f.Piece.Team, names, v.Alone) + short(f) + "\n" + strips(f.Forecast, f.Effort, v.Runs) + assumptions(f.Athletes))
}

// together says who works with whom: people pair up in the order of the file,
// and whoever is left over works with copies of themselves.
func together(t roomful.Team, names []string, alone bool) string {
	if t.Size < 2 {
		return ""
	}
	if alone {
		return "together: everybody with somebody just like them\n"
	}
	var teams []string
	for team := range slices.Chunk(names, t.Size) {
		words := strings.Join(team, " and ")
		if len(team) < t.Size {
			words += " with somebody just like them"
		}
		teams = append(teams, words)
	}
	return wrapped("together (in the order of the file): ", strings.Join(teams, "; "))
}

// short says what there is too little of.
func short(f day.Forecast) string {
	var all []string
	for _, p := range f.Places {
		one := fmt.Sprintf("%d %s for %d", p.Count, p.Word, p.Need)
		if p.WaitMean >= 1 {
			one += fmt.Sprintf(" (%s of waiting each time)", roomful.Clock(p.WaitMean))
		}
		all = append(all, one)
	}
	if len(all) == 0 {
		return ""
	}
	return wrapped("short when all start together: ", strings.Join(all, ", "))
}

// question asks about the files that were read.
func (p *program) question(in inputs, src sources) day.Question {
	return day.Question{
		Session: src.session, Piece: in.Piece, People: src.people, Kit: src.kit,
		Today: p.today(), Seed: in.Seed, Workers: p.workers,
	}
}

// pieceLine says what is being answered.
func (p *program) pieceLine(s roomful.Session, piece roomful.Part, e roomful.Effort) string {
	out := headline(s) + "\n"
	var others []string
	for i, head := range notation.Heads(s, p.lexicon) {
		switch part := s.Parts[i]; {
		case part.Name() == piece.Name():
			out += piece.Name() + ": " + head + "\n"
		case part.Scored:
			others = append(others, fmt.Sprintf("--piece %q", part.Name()))
		}
	}
	if words := effortWords(e); words != "" {
		out += "effort: " + words + "\n"
	}
	if len(others) > 0 {
		out += "ask for the rest of the day with " + strings.Join(others, ", ") + "\n"
	}
	return out
}

// assumptions says what was filled in, a line for each person.
func assumptions(people []roomful.AthleteForecast) string {
	width := 0
	for _, a := range people {
		width = max(width, len([]rune(a.Name)))
	}
	var b strings.Builder
	for _, a := range people {
		if len(a.Assumed) == 0 {
			continue
		}
		if b.Len() == 0 {
			b.WriteString("\nnot told, so filled in\n")
		}
		var what []string
		for _, line := range a.Assumed {
			word, _, _ := strings.Cut(line, ":")
			what = append(what, word)
		}
		b.WriteString(wrapped("  "+pad(a.Name, width)+"  ", strings.Join(what, ", ")))
	}
	return b.String()
}
