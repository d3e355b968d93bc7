package main

import (
	"fmt"
	"strconv"
	"strings"

	"roomful"
	"roomful/day"
	"roomful/exchange"
)

// behindVerb answers about somebody who is far behind in the middle of a piece.
type behindVerb struct {
	inputs
	pastFiles
	Who  string `required:"" help:"Whom it is about: a name among the people." placeholder:"NAME"`
	At   string `required:"" help:"The time on the piece's clock, such as 4:00." placeholder:"M:SS"`
	Done string `required:"" help:"What is done: rounds and repetitions of the next, such as 1+12, or repetitions in all." placeholder:"N+N"`
}

// Help implements the long help.
func (behindVerb) Help() string {
	return "Says where this ends. Then what to cut now to end within the effort: the load, the repetitions, or both. Each comes with the words to say, and is noted with its time."
}

// Run does the verb.
func (v *behindVerb) Run(p *program) error {
	done, err := progressOf(v.Done)
	if err != nil {
		return err
	}
	if done.At, err = clockTime(v.At); err != nil {
		return err
	}
	src, err := p.read(v.inputs)
	if err != nil {
		return err
	}
	who, err := person(src.people, v.Who)
	if err != nil {
		return err
	}
	q := p.question(v.inputs, src)
	if err := p.believe(&q, &src, v.pastFiles); err != nil {
		return err
	}
	got, err := p.day.CutBack(p.ctx, q, who, done)
	if err != nil {
		return err
	}
	p.remarks(src)
	if p.json {
		out := exchange.CutBackOf(got.Piece, got.CutBack)
		out.Diagnostics = listed(src.files)
		return p.answer(out)
	}
	return p.print(cutBack(got))
}

// progressOf reads what is done, "1+12" or "40".
func progressOf(text string) (day.Progress, error) {
	rounds, extra, both := strings.Cut(text, "+")
	if !both {
		rounds, extra = "0", text
	}
	n, err := strconv.ParseUint(strings.TrimSpace(rounds), 10, 16)
	m, err2 := strconv.ParseUint(strings.TrimSpace(extra), 10, 32)
	if err != nil || err2 != nil {
		return day.Progress{}, &roomful.Error{Summary: fmt.Sprintf("%q does not say what is done", text), Hint: "write whole rounds and repetitions of the next, such as 1+12, or repetitions in all"}
	}
	return day.Progress{Rounds: int(n), Extra: float64(m), Plain: !both}, nil
}

// cutBack writes the answer.
func cutBack(c day.CutBack) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s at %s: %s done, %s to %s were to be expected\n", c.Name, roomful.Clock(c.At.Seconds()),
		roomful.Figure(c.Done), roomful.Figure(float64(int(c.Expected.P05))), roomful.Figure(float64(int(c.Expected.P95))))
	b.WriteString("as it is: " + ending(c.Ends) + "\n")
	switch {
	case c.Meets:
		b.WriteString("that is what was asked: change nothing\n")
	case len(c.Cuts) == 0 && c.Effort.Stated():
		b.WriteString("nothing that can be cut now brings it nearer to what was asked\n")
	}
	for i, cut := range c.Cuts {
		b.WriteString(wrapped(fmt.Sprintf("  %d. ", i+1), cut.What+": "+ending(cut.Ends)))
		b.WriteString(wrapped("     say: ", cut.Say))
	}
	if len(c.Cuts) > 0 {
		b.WriteString(wrapped("noted when it is taken: ", "changed at "+roomful.Clock(c.At.Seconds())+", "+c.Cuts[0].Segment.Say))
	}
	return b.String()
}

// ending says where somebody ends.
func ending(f roomful.AthleteForecast) string {
	words := "ends at about " + f.Text
	if f.Text == "" {
		words = "no end in sight"
	}
	if f.OnIntent != nil {
		words += ", as asked " + inTen(*f.OnIntent)
	}
	return words
}
