package main

import (
	"fmt"
	"slices"
	"strings"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/version"
)

// versionsVerb finds everybody's version.
type versionsVerb struct {
	inputs
	pastFiles
	Home bool `help:"Everybody trains at home with what they own."`
}

// Help implements the long help.
func (versionsVerb) Help() string {
	return "At most four options, everybody on one of them with their own load, and who needs the coach. Limits change what is done; a red flag stops and refers to a professional."
}

// Run does the verb.
func (v *versionsVerb) Run(p *program) error {
	src, err := p.read(v.inputs)
	if err != nil {
		return err
	}
	q := p.question(v.inputs, src)
	if err := p.believe(&q, &src, v.pastFiles); err != nil {
		return err
	}
	q.Runs = version.UsualRuns
	got, err := p.day.Versions(p.ctx, q, v.Home)
	if err != nil {
		return err
	}
	p.remarks(src)
	if p.json {
		out := exchange.LineupOf(got.Piece, got.Effort, got.Lineup)
		out.AddDays(q.Session, got.Days)
		if got.Bars != nil {
			loaded := exchange.BarsOf(*got.Bars, p.day.Gym.Unit)
			out.Bars = &loaded
		}
		out.Diagnostics = listed(src.files)
		return p.answer(out)
	}
	var names []string
	for _, one := range got.Versions {
		if one.Stop == "" {
			names = append(names, one.Name)
		}
	}
	head := p.pieceLine(src.session, got.Piece, got.Effort) + together(got.Piece.Team, names, false) + "\n" + attention(got.Attention)
	if v.Home {
		return p.print(head + p.daysAtHome(src.session, got, src.people))
	}
	return p.print(head + p.options(got.Lineup) + barsOfAll(got.Bars) + loadsRestOn(q) + p.people(got, src.people))
}

// loadsRestOn says what the loads rest on where heavy may say another.
func loadsRestOn(q day.Question) string {
	if q.Believed == nil {
		return ""
	}
	return wrapped("loads: ", "by everybody's scores together. heavy goes by one person's own last scores and may say another; then the proof set decides") + "\n"
}

// attention lists who needs the coach, everybody once.
func attention(all []roomful.Attention) string {
	if len(all) == 0 {
		return "nobody needs more than the briefing\n\n"
	}
	n := 0
	var order []string
	why := map[string][]string{}
	names := map[string]string{}
	for _, a := range all {
		if why[a.Athlete] == nil {
			order = append(order, a.Athlete)
		}
		n, names[a.Athlete] = max(n, width(a.Name)), a.Name
		why[a.Athlete] = append(why[a.Athlete], a.Why)
	}
	var b strings.Builder
	b.WriteString("who needs you\n")
	for _, id := range order {
		b.WriteString(wrapped("  "+pad(names[id], n)+"  ", strings.Join(why[id], " ")))
	}
	return b.String() + "\n"
}

// options lists what the coach briefs and who is on it: first those who do it as
// it stands, then those with something of their own.
func (p *program) options(l roomful.Lineup) string {
	who := map[string]roomful.Version{}
	for _, v := range l.Versions {
		who[v.Athlete] = v
	}
	var b strings.Builder
	b.WriteString("options\n")
	for _, o := range l.Options {
		var tasks []string
		for i, t := range o.Elements {
			second := t
			if i < len(o.Second) {
				second = o.Second[i]
			}
			tasks = append(tasks, p.pairWords(t, second))
		}
		fmt.Fprintf(&b, "  %s\n", o.Name)
		b.WriteString(wrapped("    ", strings.Join(tasks, ", ")))
		var plain, own []string
		for _, id := range o.People {
			if v := who[id]; v.OneOff {
				own = append(own, v.Name)
			} else {
				plain = append(plain, v.Name)
			}
		}
		if len(plain) > 0 {
			b.WriteString(wrapped("    for ", strings.Join(plain, ", ")))
		}
		if len(own) > 0 {
			b.WriteString(wrapped("    with a one-off for ", strings.Join(own, ", ")))
		}
		if len(plain)+len(own) == 0 {
			b.WriteString("    for nobody today\n")
		}
	}
	return b.String() + "\n"
}

// people writes everybody's version with its reasons.
func (p *program) people(v day.Versions, who []roomful.Athlete) string {
	var b strings.Builder
	for i, got := range v.Versions {
		b.WriteString(p.version(got, v, i, unitOf(got, who)))
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// unitOf is what somebody thinks in.
func unitOf(v roomful.Version, who []roomful.Athlete) roomful.MassUnit {
	if i := slices.IndexFunc(who, func(a roomful.Athlete) bool { return a.ID == v.Athlete }); i >= 0 {
		return who[i].Unit
	}
	return roomful.Kilogram
}

// version writes one person's version, by their place in the lineup, and what is
// theirs of the rest of the day.
func (p *program) version(v roomful.Version, all day.Versions, at int, unit roomful.MassUnit) string {
	if v.Stop != "" {
		return stopWords(v)
	}
	var b strings.Builder
	b.WriteString(titleWords(v))
	b.WriteString(p.pieceWords(lineWidth, v, unit))
	if at < len(all.Days) {
		b.WriteString(p.besides(all.Days[at], all.Piece.Name()))
	}
	b.WriteString(cautionWords(lineWidth, v))
	return b.String() + "\n"
}

// stopWords is what somebody is told who is referred out.
func stopWords(v roomful.Version) string {
	return v.Name + "\n" + wrapped("  stop: ", v.Stop) + "\n"
}

// titleWords says who somebody is today: their option, how sure, and how it will
// go.
func titleWords(v roomful.Version) string {
	title := []string{v.Option}
	if v.OneOff {
		title = append(title, "one-off")
	}
	title = append(title, string(v.Confidence)+" confidence")
	if f := v.Forecast; f.Text != "" {
		title = append(title, "about "+f.Text)
	}
	return fmt.Sprintf("%s: %s\n", v.Name, strings.Join(title, ", "))
}

// cautionWords lists what to print for somebody.
func cautionWords(columns int, v roomful.Version) string {
	var b strings.Builder
	for _, c := range v.Cautions {
		b.WriteString(wrappedTo(columns, "  caution: ", c))
	}
	return b.String()
}

// pieceWords writes what somebody does of a piece, the proof set and the bar.
func (p *program) pieceWords(columns int, v roomful.Version, unit roomful.MassUnit) string {
	var b strings.Builder
	if !v.Dose.Whole() {
		b.WriteString(wrappedTo(columns, " *", doseWords(v.Dose)))
		b.WriteString(wrappedTo(columns, "    private: ", v.Dose.Private))
	}
	n := 0
	for _, c := range v.Choices {
		n = max(n, width(p.taskWords(c.Task)))
	}
	for _, c := range v.Choices {
		mark := " "
		if c.Changed {
			mark = "*"
		}
		b.WriteString(wrappedTo(columns, " "+mark+pad(p.taskWords(c.Task), n)+"  ", c.Why+band(c, unit)))
		if c.Private != "" {
			b.WriteString(wrappedTo(columns, "    private: ", c.Private))
		}
	}
	if v.Proof != nil {
		b.WriteString(wrappedTo(columns, "  proof set: ", v.Proof.Say))
	}
	for _, s := range v.Plates {
		b.WriteString("  " + plateWords(s) + "\n")
	}
	return b.String()
}

// doseWords says how much of the piece somebody does.
func doseWords(d roomful.Dose) string {
	if d.StopAt > 0 {
		return d.Say + ": stop at " + roomful.Clock(d.StopAt.Seconds())
	}
	return d.Say
}

// band says which other loads would do, and the load in the person's own unit
// when the implement has another.
func band(c roomful.Choice, unit roomful.MassUnit) string {
	var words []string
	if c.Load.Value > 0 && c.Load.Unit != unit && !strings.Contains(c.Why, " "+unit.String()) {
		words = append(words, roomful.Figure(float64(int(c.Load.In(unit).Value+0.5)))+" "+unit.String())
	}
	if c.Low.Value > 0 && c.High.Value > 0 && c.Low != c.High {
		words = append(words, roomful.Figure(c.Low.Value)+" to "+c.High.String()+" would do")
	}
	if len(words) == 0 {
		return ""
	}
	return " (" + strings.Join(words, "; ") + ")"
}

// plateWords says what goes on a bar.
func plateWords(s roomful.SideLoad) string {
	if len(s.PerSide) == 0 {
		return "bar: " + s.Bar.String() + ", bare"
	}
	var plates []string
	for _, m := range s.PerSide {
		one := roomful.Figure(m.Value)
		if m.Unit != s.Bar.Unit {
			one = m.String()
		}
		plates = append(plates, one)
	}
	return "bar: " + s.Bar.String() + " and on each side " + strings.Join(plates, ", ")
}
