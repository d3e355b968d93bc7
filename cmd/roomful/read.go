package main

import (
	"slices"
	"strings"

	"roomful"
	"roomful/exchange"
	"roomful/score"
)

// readVerb reads a score as a person typed it.
type readVerb struct {
	Sheet    string   `required:"" help:"The sheet it is a score of." placeholder:"FILE"`
	Text     []string `arg:"" optional:"" help:"The score as it was typed. Write -- before it."`
	People   string   `help:"Who trains here, as CSV: names that may stand in a score." placeholder:"FILE"`
	Piece    string   `help:"Which scored part of the sheet." default:"main" placeholder:"PART"`
	Division string   `help:"Whose figures count in totals, a or b." enum:"a,b," default:"" placeholder:"a|b"`
	Unit     string   `help:"The unit of loads that come without one." enum:"kg,lb" default:"kg" placeholder:"kg|lb"`
}

// Help implements the long help.
func (readVerb) Help() string {
	return "Says what was understood, what was changed, and asks one short question when two readings are possible. Words about the body stand apart: they are for the person and coaches."
}

// Run does the verb.
func (v *readVerb) Run(p *program) error {
	var src sources
	sheet := reading{v.Sheet, func(text []byte) (ds []roomful.Diagnostic) {
		src.session, ds = p.day.Check(p.ctx, string(text))
		return ds
	}}
	files := []reading{sheet}
	if v.People != "" {
		files = append(files, p.peopleInto(&src, v.People))
	}
	if err := p.readEach(&src, files); err != nil {
		return err
	}
	q := score.Asked{Session: src.session, Piece: v.Piece, People: src.people, Lexicon: p.lexicon}
	if v.Division != "" {
		q.Division = roomful.DivisionA + roomful.Division(v.Division[0]-'a')
	}
	if v.Unit == "lb" {
		q.Unit = roomful.Pound
	}
	got, err := score.Read(q, strings.Join(v.Text, " "))
	if err != nil {
		return err
	}
	if p.json {
		return p.answer(exchange.AttemptOf(got))
	}
	var b strings.Builder
	for _, r := range got.Readings {
		b.WriteString(p.readingWords(r))
	}
	return p.print(b.String())
}

// readingWords writes a reading, a line to each thing said.
func (p *program) readingWords(r roomful.Reading) string {
	var b strings.Builder
	b.WriteString(wrapped(r.Piece+": ", score.Words(r)))
	for _, c := range r.Changes {
		b.WriteString(wrapped("  changed: ", p.changeWords(c)))
	}
	if words := loadsUnsaid(r); words != "" {
		b.WriteString(wrapped("  load: ", words))
	}
	if len(r.Splits) > 0 {
		b.WriteString(wrapped("  rounds: ", clocks(r.Splits)))
	}
	if r.StoppedSeconds > 0 {
		b.WriteString("  stopped: " + roomful.Clock(r.StoppedSeconds) + "\n")
	}
	if r.AsWritten != nil && *r.AsWritten {
		b.WriteString("  as written\n")
	}
	if r.Partner != "" {
		b.WriteString(wrapped("  with: ", r.Partner))
	}
	if r.Note != "" {
		b.WriteString(wrapped("  note: ", r.Note))
	}
	for _, w := range r.Private {
		b.WriteString(wrapped("  private: ", w))
	}
	for _, w := range r.Unread {
		b.WriteString(wrapped("  not read: ", w))
	}
	if q := r.Question; q != nil {
		b.WriteString(wrapped("  to ask: ", q.Ask+" ("+q.Answers[0]+", or "+q.Answers[1]+")"))
	}
	return b.String()
}

// loadsUnsaid writes the loads beside a score that no other line of the answer speaks of.
func loadsUnsaid(r roomful.Reading) string {
	if r.Kind == roomful.LoadScore || r.AsWritten != nil && *r.AsWritten {
		return ""
	}
	var words []string
	for _, kg := range r.LoadsKg {
		if !slices.ContainsFunc(r.Changes, func(c roomful.Change) bool { return c.LoadKg == kg }) {
			words = append(words, roomful.Kg(kg).String())
		}
	}
	return strings.Join(words, ", ")
}

// clocks writes times one after another.
func clocks(each []float64) string {
	words := make([]string, len(each))
	for i, s := range each {
		words[i] = roomful.Clock(s)
	}
	return strings.Join(words, " ")
}

// changeWords writes a change, "toes-to-bar: knee raise".
func (p *program) changeWords(c roomful.Change) string {
	var to []string
	if c.Amount > 0 {
		to = append(to, roomful.Figure(c.Amount)+" "+c.Unit.String())
	}
	switch {
	case c.To != "" && c.To == c.Of:
		to = append(to, "as written")
	case c.To != "":
		to = append(to, p.named(c.To))
	}
	if c.Assist != "" {
		to = append(to, "with "+c.Assist)
	}
	if c.LoadKg > 0 {
		to = append(to, roomful.Kg(c.LoadKg).String())
	}
	if c.HeightCm > 0 {
		to = append(to, roomful.Figure(c.HeightCm)+" cm")
	}
	if len(to) == 0 {
		to = append(to, "left out")
	}
	if c.AtSeconds > 0 {
		to = append(to, "from "+roomful.Clock(c.AtSeconds)+" on")
	}
	what := strings.Join(to, ", ")
	if c.Of == "" {
		return what
	}
	return p.named(c.Of) + ": " + what
}
