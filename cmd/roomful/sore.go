package main

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/version"
)

// soreVerb answers somebody who says that something hurts.
type soreVerb struct {
	inputs
	Who     string   `required:"" help:"Who says so: a name among the people." placeholder:"NAME"`
	Area    string   `help:"Where: ${areas}." placeholder:"AREA"`
	Pain    *int     `help:"How much, from 0 to 10." placeholder:"N"`
	Element string   `help:"Which line hurts. Without it, whatever loads the area." placeholder:"MOVEMENT"`
	Flag    []string `help:"A question that was answered with yes, by its id." placeholder:"ID"`
	At      string   `help:"The time on the piece's clock when it has begun, such as 6:00." placeholder:"M:SS"`
}

// Help implements the long help.
func (soreVerb) Help() string {
	return "Lists the questions to ask first. A yes, or pain of 6 or more, stops and refers. Pain of 3 to 5 gives three ways to go on, in order. Each has its amount, its load, the words to say, and the change as it is noted. It diagnoses nothing."
}

// Run does the verb.
func (v *soreVerb) Run(p *program) error {
	c := roomful.Complaint{Area: v.Area, Pain: v.Pain, Flags: v.Flag}
	if err := c.Check(); err != nil {
		return err
	}
	var err error
	if c.At, err = clockTime(v.At); err != nil {
		return err
	}
	src, err := p.read(v.inputs)
	if err != nil {
		return p.whatever(v.Who, c, err)
	}
	who, err := person(src.people, v.Who)
	if err != nil {
		return p.whatever(v.Who, c, err)
	}
	if v.Element != "" {
		m, err := p.movement(v.Element)
		if err != nil {
			return p.whatever(v.Who, c, err)
		}
		c.Of = m.ID
	}
	got, err := p.day.Relieve(p.ctx, p.question(v.inputs, src), false, who, c)
	if err != nil {
		return p.whatever(v.Who, c, err)
	}
	p.remarks(src)
	return p.relieve(got, src.files)
}

// whatever answers what stops somebody although the files could not be read: a
// red flag does not wait for them. Else it hands the error back.
func (p *program) whatever(who string, c roomful.Complaint, err error) error {
	if got, stops := version.Refer(roomful.Athlete{Name: who}, p.today(), p.day.Gym, c); stops {
		return p.relieve(day.Relief{Relief: got}, nil)
	}
	return err
}

// relieve writes the answer to a complaint.
func (p *program) relieve(got day.Relief, files []file) error {
	if p.json {
		out := exchange.ReliefOf(got.Piece, got.Relief)
		out.Diagnostics = listed(files)
		return p.answer(out)
	}
	return p.print(p.relief(got))
}

// clockTime reads a time on the piece's clock, minutes and seconds or minutes
// alone; nothing is the start.
func clockTime(text string) (time.Duration, error) {
	if text == "" {
		return 0, nil
	}
	minutes, seconds, both := strings.Cut(text, ":")
	m, err := strconv.ParseUint(minutes, 10, 16)
	s := uint64(0)
	if both && err == nil {
		s, err = strconv.ParseUint(seconds, 10, 16)
	}
	if err != nil || s > 59 || both && len(seconds) != 2 {
		return 0, &roomful.Error{Summary: fmt.Sprintf("%q is no time on a clock", text), Hint: "write minutes and seconds, such as 6:00"}
	}
	return time.Duration(m)*time.Minute + time.Duration(s)*time.Second, nil
}

// relief writes the answer to a complaint, what is pressing first.
func (p *program) relief(r day.Relief) string {
	var b strings.Builder
	head := []string{r.Complaint.Area}
	if r.Complaint.Pain != nil {
		head = append(head, fmt.Sprintf("%d of 10", *r.Complaint.Pain))
	}
	head = append(head, r.Complaint.Flags...)
	b.WriteString(wrapped(r.Name+": ", strings.Join(head, " ")))
	if r.Stop != "" {
		b.WriteString(wrapped("  stop: ", r.Stop))
		if r.Card != nil {
			b.WriteString(card(*r.Card))
		}
		b.WriteString(wrapped("  say: ", r.Say))
	} else {
		b.WriteString(asked(r.Ask))
		if r.Note != "" {
			b.WriteString(wrapped("  note: ", r.Note))
		}
		if r.Say != "" {
			b.WriteString(wrapped("  say: ", r.Say))
		}
		b.WriteString(p.remedies(r.Remedies))
	}
	for _, c := range r.Cautions {
		b.WriteString(wrapped("  caution: ", c))
	}
	return b.String()
}

// card writes what the gym's emergency card says.
func card(e roomful.Emergency) string {
	var b strings.Builder
	for _, line := range []struct{ word, text string }{
		{"call", e.Number}, {"address", e.Address}, {"calls", e.Calls}, {"fetches the defibrillator", e.Fetches},
		{"defibrillator", e.Defibrillator}, {"meets them", e.Meets},
	} {
		if line.text != "" {
			b.WriteString(wrapped("    "+line.word+": ", line.text))
		}
	}
	return b.String()
}

// asked lists the questions to ask first.
func asked(flags []roomful.RedFlag) string {
	n := 0
	for _, f := range flags {
		n = max(n, width(f.ID))
	}
	var b strings.Builder
	b.WriteString("  ask first; a yes stops it: say so with --flag and the word\n")
	for _, f := range flags {
		b.WriteString(wrapped("    "+pad(f.ID, n)+"  ", f.Ask))
	}
	return b.String()
}

// remedies lists the ways to go on.
func (p *program) remedies(all []roomful.Remedy) string {
	if len(all) == 0 {
		return ""
	}
	var b strings.Builder
	b.WriteString("  then, in this order\n")
	beside := p.beside(all[0])
	shared := !slices.ContainsFunc(all, func(r roomful.Remedy) bool { return p.beside(r) != beside })
	for i, r := range all {
		b.WriteString(wrapped(fmt.Sprintf("    %d. ", i+1), p.taskWords(r.Task)))
		b.WriteString(wrapped("       say: ", r.Say))
		b.WriteString(wrapped("       why: ", r.Why))
		if r.Private != "" {
			b.WriteString(wrapped("       private: ", r.Private))
		}
		if !shared && len(r.Also) > 0 {
			b.WriteString(wrapped("       also: ", p.beside(r)))
		}
	}
	if shared && beside != "" {
		b.WriteString(wrapped("    with each: ", beside))
	}
	b.WriteString(wrapped("  noted with the first: ", all[0].Segment.Say))
	return b.String()
}

// beside writes what else changes with a way to go on.
func (p *program) beside(r roomful.Remedy) string {
	var words []string
	for _, c := range r.Also {
		words = append(words, p.taskWords(c.Task))
	}
	return strings.Join(words, ", ")
}
