package main

import (
	"fmt"
	"math"
	"strings"

	"roomful"
	"roomful/day"
	"roomful/exchange"
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
			out.Pieces = append(out.Pieces, exchange.AfterOf(a, middleWords(a), scoreText))
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

// middleWords writes the middle score.
func middleWords(a roomful.After) string {
	if math.IsNaN(a.Middle) {
		return ""
	}
	if a.Kind == roomful.LoadScore {
		return roomful.Figure(math.Round(a.Middle*10)/10) + " kg" // pounds come as 68.039 kg
	}
	return a.Kind.Text(a.Middle, 0)
}

// afterWords writes what came of a piece: at most four lines, and who is to be asked.
func afterWords(a roomful.After) string {
	var head string
	switch {
	case a.Scored == 0:
		head = "Nobody has a score that can be read yet."
	case !a.Effort.Stated() || !a.Effort.Counts(a.Kind):
		head = fmt.Sprintf("No window was set for this. The middle of %d was %s.", a.Scored, middleWords(a))
	case a.Effort.Proposed:
		head = fmt.Sprintf("You set no window; %s would be usual. The middle of %d was %s, and %d ended in it.", effortWindow(a.Effort), a.Scored, middleWords(a), a.Within)
	default:
		head = fmt.Sprintf("You said %s. The middle of %d was %s, and %d ended in it.", effortWindow(a.Effort), a.Scored, middleWords(a), a.Within)
	}
	out := wrapped("", head)
	for _, f := range a.Far {
		line := f.Why
		if f.Private != "" {
			line += " (private: " + f.Private + ")"
		}
		out += wrapped(f.Name+" "+scoreText(f.Entry)+": ", line)
	}
	for _, e := range a.Open {
		out += wrapped("ask "+e.Name+": ", e.Reading.Question.Ask)
	}
	return out
}

// effortWindow writes a window, "5-7 rounds".
func effortWindow(e roomful.Effort) string {
	if e.Low == e.High {
		return roomful.Figure(e.Low) + " " + e.Unit
	}
	return roomful.Figure(e.Low) + "-" + roomful.Figure(e.High) + " " + e.Unit
}
