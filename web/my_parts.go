package web

import (
	"cmp"
	"fmt"
	"math"
	"net/url"
	"regexp"
	"slices"
	"time"

	"roomful"
	"roomful/notation"
	"roomful/picture"
	"roomful/web/page"
)

// mine is a day as one person has it, on its way to a page.
type mine struct {
	wording
	session roomful.Session
	version roomful.Version
	stages  []roomful.Stage
	sheet   string // its name, in addresses
	person  string // their id
	class   string // that they come to; empty for none
	home    bool
}

// parts are all parts of the day as they do it, in order.
func (m mine) parts() (out []page.MyPart) {
	heads := notation.Heads(m.session, m.lexicon)
	for _, g := range m.stages {
		p := page.MyPart{Name: capital(g.Part), Long: spell(g.Length), Note: asSentence(g.Note)}
		at := slices.IndexFunc(m.session.Parts, func(q roomful.Part) bool { return q.Name() == g.Part })
		p.Drills = m.rounds(g.Drills)
		if g.BuildUp != nil {
			p.Ramp = m.ramp(g.BuildUp)
			p.Long = fmt.Sprintf("about %d min", max(int(math.Round(g.BuildUp.Length.Minutes())), 1))
		}
		if g.Version != nil && at >= 0 {
			m.piece(&p, g, m.session.Parts[at])
			p.Head, p.Long = longhand(heads[at]), ""
		}
		out = append(out, p)
	}
	return out
}

// piece fills in a scored part.
func (m mine) piece(p *page.MyPart, g roomful.Stage, of roomful.Part) {
	v := g.Version
	p.Piece = true
	if !v.Dose.Whole() {
		p.Dose, p.DoseBy = asSentence(v.Dose.Say), asSentence(v.Dose.Private)
		if v.Dose.StopAt > 0 {
			p.Dose = asSentence(v.Dose.Say + ": stop at " + roomful.Clock(v.Dose.StopAt.Seconds()))
		}
	}
	p.Groups = m.groups(*v, of)
	if v.Proof != nil {
		p.Proof = asSentence(v.Proof.Say)
	}
	if g.Counts != nil && !g.Counts.Comparable {
		p.Counts = asSentence("your score counts as " + g.Counts.Say)
	}
}

// groups are the lines of a piece by where they stand in it.
func (m mine) groups(v roomful.Version, of roomful.Part) (out []page.MyGroup) {
	said := map[string]bool{"": true} // a private reason stands once
	once, round := len(v.Work.Once), len(v.Work.Once)+len(v.Work.Round)
	several := once > 0 || len(v.Work.Last) > 0
	for i, c := range v.Choices {
		name := ""
		switch {
		case c.Slot > 0:
			name = fmt.Sprintf("Interval %d", c.Slot)
		case i < once:
			name = "Once, first"
		case several && i < round:
			name = "Then, each round"
		case i >= round:
			name = "Once, at the end"
		}
		if len(out) == 0 || out[len(out)-1].Name != name {
			out = append(out, page.MyGroup{Name: name})
		}
		last := &out[len(out)-1]
		line := m.line(v, c, of)
		if said[line.Private] {
			line.Private = ""
		}
		said[line.Private] = true
		last.Lines = append(last.Lines, line)
	}
	return out
}

// line is one line of a piece.
func (m mine) line(v roomful.Version, c roomful.Choice, of roomful.Part) page.MyLine {
	out := page.MyLine{Amount: m.amount(c.Task, of.Format), Name: m.name(c.Task), Private: asSentence(c.Private)}
	out.Load, out.Other = m.load(c.Task)
	if c.Why != "as written" && !v.ByHand { // whose word it is stands above
		out.Why = asSentence(c.Why)
	}
	if at := slices.IndexFunc(v.Plates, func(s roomful.SideLoad) bool { return s.Movement == c.Movement }); at >= 0 {
		out.Bar, out.BarSays = picture.Bar(v.Plates[at]).SVG(fmt.Sprintf("bar-%s-%s", of.Name(), c.Movement)), barWords(v.Plates[at])
	}
	out.Band = m.band(c)
	if m.person != "" && c.Load.Value > 0 && !m.home {
		out.Heavy = "/sheets/" + url.PathEscape(m.sheet) + "/load/" + url.PathEscape(m.person) + "?movement=" + url.QueryEscape(string(c.Movement))
		if m.class != "" {
			out.Heavy += "&class=" + url.QueryEscape(m.class)
		}
	}
	m.how(&out, c, of)
	return out
}

// how adds what counts, what to think of and what is easier.
func (m mine) how(out *page.MyLine, c roomful.Choice, of roomful.Part) {
	known := m.lexicon.Movement(c.Movement)
	for _, s := range of.Standards {
		if s.Movement == c.Movement {
			out.Counts = append(out.Counts, asSentence(s.Text))
		}
	}
	if known == nil {
		return
	}
	if len(out.Counts) == 0 && known.Standard != "" {
		out.Counts = []string{asSentence(known.Standard)}
	}
	for _, cue := range known.Cues {
		out.Cues = append(out.Cues, asSentence(cue))
	}
	for _, instead := range of.Instead {
		if instead.Movement == c.Movement {
			for _, e := range instead.Options {
				out.Easier = append(out.Easier, m.called(e.Movement))
			}
		}
	}
	for _, id := range known.Easier {
		if name := m.called(id); !slices.Contains(out.Easier, name) {
			out.Easier = append(out.Easier, name)
		}
	}
}

// rounds are the drills of a warm-up by round; one that is as the first says so.
func (m mine) rounds(all []roomful.Drill) (out []page.MyRound) {
	said := map[string]bool{}
	var first []page.MyDrill
	for i := 0; i < len(all); {
		n := i
		for n < len(all) && all[n].Round == all[i].Round {
			n++
		}
		one := page.MyRound{Name: fmt.Sprintf("Round %d", all[i].Round)}
		var plain []page.MyDrill
		for _, d := range all[i:n] {
			drill := m.drill(d, said)
			one.Drills = append(one.Drills, drill)
			if !d.Rest {
				plain = append(plain, page.MyDrill{Name: drill.Name, Long: drill.Long})
			}
		}
		if i == 0 {
			first = plain
		} else if slices.Equal(first, plain) {
			one.Same, one.Drills = true, nil
		}
		out, i = append(out, one), n
	}
	if len(out) == 1 {
		out[0].Name = ""
	}
	return out
}

// drill is one line of a warm-up; a reason that was given stands once.
func (m mine) drill(d roomful.Drill, said map[string]bool) page.MyDrill {
	out := page.MyDrill{At: roomful.Clock(d.From.Seconds()), Long: spell(d.Length), Name: d.Words}
	switch {
	case d.Rest:
		out.Name = "rest"
	case d.Movement != "":
		t := d.Task
		if t.Unit == roomful.Second {
			t.Amount = 0 // the length says it
		}
		out.Name = m.wording.line(t, nil)
	}
	if d.Say != "" {
		out.Name += ", " + d.Say
	}
	if d.Choice.Changed && !said[d.Why] {
		out.Why = asSentence(d.Why)
	}
	if !said[d.Private] {
		out.Private = asSentence(d.Private)
	}
	said[d.Why], said[d.Private] = true, true
	return out
}

// ramp is the sets that lead to their load.
func (m mine) ramp(u *roomful.BuildUp) *page.MyRamp {
	out := &page.MyRamp{Of: m.called(u.Movement), Says: asSentence(u.Say)}
	for _, s := range u.Sets {
		if s.Proof {
			continue // said beside the piece
		}
		t := roomful.Task{Movement: u.Movement, Load: s.Load, Implements: s.Implements}
		load, other := m.load(t)
		if load == "" {
			load = "without a weight"
		}
		if other != "" {
			load += " (" + other + ")"
		}
		one := page.MySet{Reps: fmt.Sprintf("%d ×", s.Reps), Load: load}
		for _, p := range s.Plates.PerSide {
			one.Plates += " " + roomful.Figure(p.Value)
		}
		if one.Plates != "" {
			one.Plates = "each side" + one.Plates
		}
		out.Sets = append(out.Sets, one)
	}
	out.Then = asSentence("then " + cmp.Or(u.Then, "the proof set"))
	return out
}

// spell writes a length: "40 s", "8 min", "1:45".
func spell(d time.Duration) string {
	switch {
	case d <= 0:
		return ""
	case d < 100*time.Second:
		return fmt.Sprintf("%d s", int(d.Seconds()))
	case d%time.Minute == 0:
		return fmt.Sprintf("%d min", int(d/time.Minute))
	}
	return roomful.Clock(d.Seconds())
}

// shortMinutes are minutes as a board has them.
var shortMinutes = regexp.MustCompile(`\b(\d+) min\b`)

// longhand writes the head of a piece as a sentence without its stop.
func longhand(head string) string {
	return capital(shortMinutes.ReplaceAllStringFunc(head, func(m string) string {
		if m == "1 min" {
			return "1 minute"
		}
		return m + "utes"
	}))
}
