package main

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"roomful"
	"roomful/day"
	"roomful/notation"
)

// phoneWidth is where a person's own day wraps, in characters.
const phoneWidth = 64

// besides writes what is somebody's own beside the piece asked about: other
// pieces, the ramp, and a warm-up that is not the room's.
func (p *program) besides(it roomful.Itinerary, asked string) string {
	var b strings.Builder
	for _, s := range it.Stages {
		switch {
		case s.BuildUp != nil:
			b.WriteString(wrapped("  "+s.Part+": ", p.buildUpWords(s.BuildUp)))
		case s.Kind == roomful.Ramp && s.Note != "":
			b.WriteString(wrapped("  "+s.Part+": ", s.Note))
		case s.Version != nil && s.Part != asked:
			b.WriteString(wrapped("  "+s.Part+": ", p.versionLine(*s.Version)))
		case s.Changed():
			b.WriteString(wrapped("  "+s.Part+": ", p.changedDrills(s)))
		}
	}
	return b.String()
}

// buildUpWords is a ramp in one line: "20 x 8, 40 x 5, 50 x 3, then the proof set
// (about 4 min)".
func (p *program) buildUpWords(u *roomful.BuildUp) string {
	var sets []string
	unit := ""
	for _, s := range u.Sets {
		if s.Proof {
			continue
		}
		load := roomful.Figure(s.Load.Value)
		if unit == "" && s.Load.Value > 0 {
			load, unit = s.Load.String(), s.Load.Unit.String()
		}
		if s.Implements > 1 {
			load = fmt.Sprintf("2 x %s", load)
		}
		sets = append(sets, fmt.Sprintf("%s x %d", load, s.Reps))
	}
	words := p.name(u.Movement) + " " + strings.Join(sets, ", ")
	switch then := "the proof set"; {
	case u.Then != "":
		words += ", then " + u.Then
	case len(sets) == 0:
		words += then
	default:
		words += ", then " + then
	}
	words += fmt.Sprintf(" (about %d min)", rounded(u.Length))
	if u.Say != "" {
		words += ". " + strings.ToUpper(u.Say[:1]) + u.Say[1:]
	}
	return words
}

// name is a movement's name, its id when the lexicon does not know it.
func (p *program) name(id roomful.MovementID) string {
	if m := p.lexicon.Movement(id); m != nil {
		return m.Name
	}
	return string(id)
}

// versionLine is a piece beside the one asked about, in one line.
func (p *program) versionLine(v roomful.Version) string {
	var tasks []string
	for _, c := range v.Choices {
		tasks = append(tasks, p.taskWords(c.Task))
	}
	words := strings.Join(tasks, ", ")
	if !v.Dose.Whole() {
		words += " (" + doseWords(v.Dose) + ")"
	}
	return words
}

// changedDrills lists the drills that are not the room's, each once.
func (p *program) changedDrills(s roomful.Stage) string {
	var out []string
	for _, d := range s.Drills {
		if !d.Choice.Changed {
			continue
		}
		words := p.drillWords(d)
		if d.Words != "" {
			words += " for the " + d.Words
		}
		if !slices.Contains(out, words) {
			out = append(out, words)
		}
	}
	return strings.Join(out, ", ")
}

// drillWords is one line of a warm-up as on a board.
func (p *program) drillWords(d roomful.Drill) string {
	switch {
	case d.Rest:
		return "rest"
	case d.Movement == "":
		return d.Words
	}
	t := d.Task
	if t.Unit == roomful.Second {
		t.Amount = 0 // the length says it
	}
	return p.taskWords(t)
}

// daysAtHome writes everybody's whole day in order, to be read on a phone.
func (p *program) daysAtHome(s roomful.Session, v day.Versions, who []roomful.Athlete) string {
	var b strings.Builder
	for i, got := range v.Versions {
		if got.Stop != "" || i >= len(v.Days) {
			b.WriteString(stopWords(got))
			continue
		}
		fmt.Fprintf(&b, "%s at home\n", got.Name)
		for _, stage := range v.Days[i].Stages {
			b.WriteString(p.stage(s, stage, unitOf(got, who)))
		}
		b.WriteString(cautionWords(phoneWidth, got) + "\n")
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// stage writes one part of somebody's day.
func (p *program) stage(s roomful.Session, g roomful.Stage, unit roomful.MassUnit) string {
	var b strings.Builder
	switch i := slices.IndexFunc(s.Parts, func(q roomful.Part) bool { return q.Name() == g.Part }); {
	case i >= 0 && g.Version != nil:
		b.WriteString(wrappedTo(phoneWidth, "  "+g.Part+": ", notation.Heads(s, p.lexicon)[i]))
	case g.BuildUp != nil:
		fmt.Fprintf(&b, "  %s, about %d min\n", g.Part, rounded(g.BuildUp.Length))
	case g.Length > 0:
		fmt.Fprintf(&b, "  %s, %s\n", g.Part, minutes(g.Length))
	default:
		fmt.Fprintf(&b, "  %s\n", g.Part)
	}
	b.WriteString(p.drills(g.Drills))
	if g.BuildUp != nil {
		b.WriteString(p.buildUpLines(g.BuildUp))
	}
	if g.Version != nil {
		b.WriteString(shifted(p.pieceWords(phoneWidth-2, *g.Version, unit)))
	}
	if g.Counts != nil {
		score := g.Counts.Say
		if about := g.Version.Forecast.Text; about != "" && about != "0" {
			score = "about " + about + ". Counts as " + score
		}
		b.WriteString(wrappedTo(phoneWidth, "    score: ", score))
	}
	if g.Note != "" {
		b.WriteString(wrappedTo(phoneWidth, "    ", g.Note))
	}
	return b.String()
}

// rounded is a length in whole minutes, at least one.
func rounded(d time.Duration) int { return max(int(math.Round(d.Minutes())), 1) }

// shifted moves every line of a text two characters to the right.
func shifted(text string) string {
	var b strings.Builder
	for line := range strings.Lines(text) {
		b.WriteString("  " + line)
	}
	return b.String()
}

// minutes writes a length as a clock shows it, whole minutes in words.
func minutes(d time.Duration) string {
	if d%time.Minute == 0 {
		return fmt.Sprintf("%d min", int(d/time.Minute))
	}
	return roomful.Clock(d.Seconds())
}

// drills lists the lines of a warm-up with their times, a round that is as the
// first in one line, and every reason once.
func (p *program) drills(all []roomful.Drill) string {
	var b strings.Builder
	rounds := byRound(all)
	said := map[string]bool{}
	for r, drills := range rounds {
		if r > 0 && p.same(rounds[0], drills) {
			fmt.Fprintf(&b, "    %5s  round %d: the same again\n", roomful.Clock(drills[0].From.Seconds()), r+1)
			continue
		}
		if len(rounds) > 1 {
			fmt.Fprintf(&b, "           round %d\n", r+1)
		}
		for _, d := range drills {
			b.WriteString(p.drill(d, said))
		}
	}
	return b.String()
}

// drill writes one line of a warm-up, with its reason unless that was said.
func (p *program) drill(d roomful.Drill, said map[string]bool) string {
	at := fmt.Sprintf("    %5s  %s ", roomful.Clock(d.From.Seconds()), pad(spell(d.Length), 5))
	words := p.drillWords(d)
	if d.Say != "" {
		words += ", " + d.Say
	}
	text := wrappedTo(phoneWidth, at, words)
	if d.Choice.Changed && !said[d.Why] {
		text += wrappedTo(phoneWidth, strings.Repeat(" ", width(at)), d.Why)
	}
	if d.Private != "" && !said[d.Private] {
		text += wrappedTo(phoneWidth, strings.Repeat(" ", width(at))+"private: ", d.Private)
	}
	said[d.Why], said[d.Private] = true, true
	return text
}

// spell writes a short length in seconds and a longer one as a clock.
func spell(d time.Duration) string {
	if d < 100*time.Second {
		return fmt.Sprintf("%d s", int(d.Seconds()))
	}
	return roomful.Clock(d.Seconds())
}

// byRound puts drills together that are of one round.
func byRound(all []roomful.Drill) [][]roomful.Drill {
	var out [][]roomful.Drill
	for i, d := range all {
		if i == 0 || d.Round != all[i-1].Round {
			out = append(out, nil)
		}
		out[len(out)-1] = append(out[len(out)-1], d)
	}
	return out
}

// same reports whether two rounds ask the same; the rest at their ends does not
// count.
func (p *program) same(a, b []roomful.Drill) bool {
	work := func(all []roomful.Drill) []roomful.Drill {
		return slices.DeleteFunc(slices.Clone(all), func(d roomful.Drill) bool { return d.Rest })
	}
	return slices.EqualFunc(work(a), work(b), func(x, y roomful.Drill) bool {
		return x.Length == y.Length && p.drillWords(x) == p.drillWords(y) && x.Say == y.Say
	})
}

// buildUpLines lists the sets of a ramp with what goes on the bar.
func (p *program) buildUpLines(u *roomful.BuildUp) string {
	var b strings.Builder
	for _, s := range u.Sets {
		if s.Proof {
			continue // said beside the piece
		}
		t := roomful.Task{Movement: u.Movement, Amount: float64(s.Reps), Load: s.Load, Implements: s.Implements}
		words := p.taskWords(t)
		if len(s.Plates.PerSide) > 0 {
			words += ", " + strings.TrimPrefix(plateWords(s.Plates), "bar: "+s.Plates.Bar.String()+" and ")
		}
		b.WriteString(wrappedTo(phoneWidth, "    ", words))
	}
	then := "then the proof set"
	if u.Then != "" {
		then = "then " + u.Then
	}
	b.WriteString(wrappedTo(phoneWidth, "    ", then))
	if u.Say != "" {
		b.WriteString(wrappedTo(phoneWidth, "    ", u.Say))
	}
	return b.String()
}
