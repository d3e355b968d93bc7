package main

import (
	"strings"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/score"
)

// compareVerb lays attempts beside earlier ones.
type compareVerb struct {
	Sheet  string `required:"" help:"The sheet that was done again, or for the first time." placeholder:"FILE"`
	People string `required:"" help:"Who did it, as CSV." placeholder:"FILE"`
	pastFiles
	Name  string `help:"One person only." placeholder:"NAME"`
	Piece string `help:"Which scored part. Without it every one." placeholder:"NAME"`
	Gym   string `help:"The gym file: how the gym likes things." placeholder:"FILE"`
	Seed  uint64 `help:"The seed of the random numbers." default:"1" placeholder:"N"`
}

// Help implements the long help.
func (compareVerb) Help() string {
	return "How an attempt stands beside the last one at the same work. It says what was otherwise, in one sentence for the person. It gives the number to match or beat next time, and when each round should be done. Other work is compared through what the person of that day would have scored on this."
}

// Run does the verb.
func (v *compareVerb) Run(p *program) error {
	src, record, err := p.scored(v.Sheet, v.People, v.Gym, v.pastFiles)
	if err != nil {
		return err
	}
	people, err := those(src.people, v.Name)
	if err != nil {
		return err
	}
	all, err := p.day.Compare(p.ctx, day.CompareQuestion{Session: src.session, Piece: v.Piece, People: people, Record: record, Seed: v.Seed, Workers: p.workers})
	if err != nil {
		return err
	}
	if p.json {
		out := exchange.Comparisons{Athletes: []exchange.Comparison{}, Diagnostics: listed(src.files)}
		for _, c := range all {
			if c.Only != nil {
				c.Later = *c.Only
			}
			out.Athletes = append(out.Athletes, exchange.ComparisonOf(c.Who, c.Comparison, c.Only == nil))
		}
		return p.answer(out)
	}
	p.remarks(src)
	several := len(src.session.Pieces()) > 1
	var b strings.Builder
	for _, c := range all {
		b.WriteString(p.comparedWords(c, several))
	}
	return p.print(b.String())
}

// comparedWords writes how one person did beside the last time.
func (p *program) comparedWords(c day.Compared, several bool) string {
	entries := []roomful.Entry{c.Earlier, c.Later}
	if c.Only != nil {
		entries = []roomful.Entry{*c.Only}
	}
	head := c.Who.Name
	if several {
		head += ", " + entries[0].Done.Piece.Name()
	}
	var scores []string
	for _, e := range entries {
		scores = append(scores, e.On.String()+" "+score.EntryWords(e))
	}
	out := wrapped(head+": ", strings.Join(scores, ", then "))
	switch {
	case c.Only == nil:
		out += wrapped("  ", c.Sentence)
	case len(c.Only.Done.Otherwise()) > 0:
		out += wrapped("  changed: ", strings.Join(c.Only.Done.Otherwise(), "; "))
	}
	if ask := entries[len(entries)-1].Reading.Question; ask != nil {
		return out + wrapped("  to ask: ", ask.Ask) // what there is to beat hangs on the answer
	}
	if c.Beat.Text != "" {
		out += wrapped("  next: ", c.Beat.Text)
	}
	if n := len(c.Beat.Splits); n > 1 {
		var clock []string
		for _, s := range c.Beat.Splits {
			if s.Round == 0 {
				clock = append(clock, p.named(s.Movement)+" "+roomful.Clock(s.Seconds))
				continue
			}
			clock = append(clock, roomful.Clock(s.Seconds))
		}
		out += wrapped("  done at: ", strings.Join(clock, ", "))
	}
	return out
}
