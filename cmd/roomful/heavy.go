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

// heavyVerb answers "how heavy?".
type heavyVerb struct {
	inputs
	pastFiles
	Who     string `required:"" help:"Who asks: a name among the people." placeholder:"NAME"`
	Element string `help:"Which line. Without it the one that the ramp is for, or that has a repetition test." placeholder:"MOVEMENT"`
	Set     string `help:"A set of it that they remember just managing, such as 5x50kg." placeholder:"NxLOAD"`
}

// Help implements the long help.
func (heavyVerb) Help() string {
	return "The load, the loads around it that would do, the proof set, what goes on the bar, one line why, and how sure it is. A remembered set and earlier scores count. When nothing is known it starts light, and the proof set decides. It answers in a second by this person's own last scores; versions learns from everybody's, takes longer and may say another load."
}

// Run does the verb.
func (v *heavyVerb) Run(p *program) error {
	src, err := p.read(v.inputs)
	if err != nil {
		return err
	}
	q := day.LoadQuestion{Question: p.question(v.inputs, src)}
	q.Runs = version.UsualRuns
	if q.Who, err = person(src.people, v.Who); err != nil {
		return err
	}
	if v.Element != "" {
		m, err := p.movement(v.Element)
		if err != nil {
			return err
		}
		q.Movement = m.ID
	}
	if q.Set, err = roomful.ReadKnownSet(v.Set, q.Who.Unit); err != nil {
		return err
	}
	p.remarks(src)
	if yes, err := v.given(); err != nil {
		return err
	} else if yes { // what is odd about them is for record to tell
		if q.Past, err = p.past(&src, v.pastFiles, false); err != nil {
			return err
		}
	}
	got, err := p.day.OwnLoad(p.ctx, q)
	if err != nil {
		return err
	}
	if p.json {
		out := exchange.OwnLoadOf(got.Piece, got.OwnLoad, q.Who.Unit)
		out.Diagnostics = listed(src.files)
		return p.answer(out)
	}
	return p.print(p.ownLoad(got.OwnLoad, q.Who.Unit))
}

// mostAnswerLines is how long an answer between two sets may be, cautions and a
// refusal apart.
const mostAnswerLines = 5

// ownLoad writes the answer: the load first, then what goes on the bar, the proof set,
// why, and what would make it surer.
func (p *program) ownLoad(l roomful.OwnLoad, unit roomful.MassUnit) string {
	if l.Refer != "" {
		return l.Name + "\n" + wrapped("  stop: ", l.Refer)
	}
	if l.None != "" {
		out := wrapped(l.Name+": ", l.None)
		if l.Private != "" {
			out += wrapped("  private: ", l.Private)
		}
		return out
	}
	lines := []string{wrapped(l.Name+": ", p.loadHead(l, unit))}
	if l.Found && l.BuildUp != nil {
		lines = append(lines, wrapped("  ramp: ", p.buildUpWords(l.BuildUp)))
	}
	if l.StopRule != "" {
		lines = append(lines, wrapped("  then: ", l.StopRule))
	}
	if l.Bar != nil {
		lines = append(lines, wrapped("  ", barWhole(*l.Bar)))
	}
	if len(l.Short) > 0 {
		lines = append(lines, wrapped("  short for all at once: ", shortOf(l.Short)))
	}
	if l.Proof != nil {
		lines = append(lines, wrapped("  proof set: ", p.shortProof(*l.Proof)))
	}
	why := "  why: " + l.Why
	last := ""
	switch {
	case l.Private != "" && len(l.Cautions) > 0:
		last = wrapped("  private: ", l.Private)
	case l.Surer != "" && width(why+". Surer with "+l.Surer) <= lineWidth:
		why += ". Surer with " + l.Surer
	case l.Surer != "":
		last = wrapped("  surer with ", l.Surer)
	}
	lines = append(lines, wrapped("  ", strings.TrimSpace(why)))
	text := strings.Join(lines, "")
	if strings.Count(text+last, "\n") <= mostAnswerLines || l.Private != "" {
		text += last
	}
	for _, c := range l.Cautions {
		text += wrapped("  caution: ", c)
	}
	return text
}

// shortOf lists what there is too little of.
func shortOf(all []roomful.Lack) string {
	var words []string
	for _, s := range all {
		words = append(words, fmt.Sprintf("%s %ss, %d of %d", s.Mass, s.What, s.Have, s.Need))
	}
	return strings.Join(words, "; ")
}

// shortProof says a proof set in fewer words, since the movement stands above it.
func (p *program) shortProof(s roomful.Proof) string {
	say := strings.Replace(s.Say, " without putting it down", " unbroken", 1)
	if m := p.lexicon.Movement(s.Movement); m != nil {
		say = strings.Replace(say, " "+m.Plural+" at ", " at ", 1)
	}
	return say
}

// barWhole draws a bar, with how far it is from the load that was meant.
func barWhole(b roomful.LoadedBar) string {
	words := barDrawn(b)
	switch d := b.Load.Value - b.Target.Value; {
	case d < 0:
		words += " (" + shownMass(roomful.Mass{Value: -d, Unit: b.Load.Unit}) + " less)"
	case d > 0:
		words += " (" + shownMass(roomful.Mass{Value: d, Unit: b.Load.Unit}) + " more)"
	}
	if len(b.With) > 0 {
		words += ", shared with " + strings.Join(b.With, ", ")
	}
	return words
}

// loadHead is the load with its band, the person's own unit first, and how sure it is.
func (p *program) loadHead(l roomful.OwnLoad, unit roomful.MassUnit) string {
	name := string(l.Movement)
	if m := p.lexicon.Movement(l.Movement); m != nil {
		name = m.Name
	}
	if l.Found {
		return name + ": no load to aim at, build up to today's, " + string(l.Confidence) + " confidence"
	}
	words := name + " " + ownFirst(l.Load, unit)
	if l.Implements > 1 {
		words = name + ": a pair of " + ownFirst(l.Load, unit)
	}
	if l.Low.Value > 0 && l.Low != l.High {
		if l.Load.Unit == unit {
			words += ", " + roomful.Figure(l.Low.Value) + " to " + l.High.String()
		} else {
			words += fmt.Sprintf(", %s-%s %s (%s-%s)", shownOwn(l.Low, unit), shownOwn(l.High, unit), unit, roomful.Figure(l.Low.Value), l.High)
		}
		words += " would do"
	}
	return words + ", " + string(l.Confidence) + " confidence"
}

// ownFirst writes a load in the person's unit, and beside it what stands on the
// implement when that is another.
func ownFirst(m roomful.Mass, unit roomful.MassUnit) string {
	own := shownOwn(m, unit) + " " + unit.String()
	if m.Unit == unit {
		return own
	}
	return own + " (" + m.String() + ")"
}

// shownOwn is a load's figure in a person's unit, whole when it had to be converted.
func shownOwn(m roomful.Mass, unit roomful.MassUnit) string {
	if m.Unit == unit {
		return roomful.Figure(m.Value)
	}
	return roomful.Figure(math.Round(m.In(unit).Value))
}
