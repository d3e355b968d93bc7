package main

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"roomful"
	"roomful/day"
	"roomful/exchange"
	"roomful/room"
)

// hourVerb lays out a class minute by minute.
type hourVerb struct {
	inputs
	pastFiles
	Start string        `help:"When the class starts, such as 17:30. Without it times count from nought." placeholder:"HH:MM"`
	Late  string        `help:"How many minutes late the class is at which minute, such as 7@24: cuts what is left." placeholder:"N@M"`
	Heats int           `help:"In how many heats the main piece is done." default:"1" placeholder:"N"`
	Waves int           `help:"In how many waves the main piece is started." default:"1" placeholder:"N"`
	Gap   time.Duration `help:"How far apart waves start, such as 90s." default:"1m" placeholder:"TIME"`

	Down    []string `help:"What is out of order: row for all of them, row:2 for two. May be given again." placeholder:"THING[:N]"`
	Extra   int      `help:"How many more people came than signed up." placeholder:"N"`
	Without []string `help:"Who stays away." placeholder:"NAME"`
	Only    []string `help:"Who comes, when most of the list does not." placeholder:"NAME"`

	start  time.Duration
	behind *room.Behind
	change day.Change
}

// Help implements the long help.
func (hourVerb) Help() string {
	return "The hour from the first word to the last plate: what takes how long and why, who waits for what, and what would help, the cheapest first. With --late it cuts what is left so that the class ends on time; the briefing and a ramp are never cut."
}

// Validate refuses what cannot be meant.
func (v *hourVerb) Validate() error {
	if v.Start != "" {
		at, err := time.Parse("15:04", v.Start)
		if err != nil {
			return fmt.Errorf("--start %s: write a time such as 17:30", v.Start)
		}
		v.start = time.Duration(at.Hour())*time.Hour + time.Duration(at.Minute())*time.Minute
	}
	if v.Late != "" {
		var by, at int
		n, err := fmt.Sscanf(v.Late+" ", "%d@%d ", &by, &at)
		if n != 2 || err != nil || by < 1 || at < by || at > 300 {
			return fmt.Errorf("--late %s: write minutes late and the minute of the hour, such as 7@24", v.Late)
		}
		v.behind = &room.Behind{By: time.Duration(by) * time.Minute, At: time.Duration(at) * time.Minute}
	}
	v.change = day.Change{Extra: v.Extra, Without: v.Without, Only: v.Only}
	for _, d := range v.Down {
		word, count, counted := strings.Cut(d, ":")
		n, err := strconv.Atoi(count)
		if counted && (err != nil || n < 1) {
			return fmt.Errorf("--down %s: write a thing of the kit, and how many after a colon, such as row:2", d)
		}
		v.change.Down = append(v.change.Down, roomful.Place{Word: strings.TrimSpace(word), Count: n})
	}
	switch {
	case v.Extra < 0 || v.Extra > 60:
		return fmt.Errorf("--extra %d: say 1 to 60", v.Extra)
	case v.Heats < 1 || v.Heats > 6:
		return fmt.Errorf("--heats %d: ask for 1 to 6", v.Heats)
	case v.Waves < 1 || v.Waves > 6:
		return fmt.Errorf("--waves %d: ask for 1 to 6", v.Waves)
	case v.Gap < 5*time.Second || v.Gap > 15*time.Minute:
		return fmt.Errorf("--gap %s: waves start 5s to 15m apart", v.Gap)
	}
	return nil
}

// Run does the verb.
func (v *hourVerb) Run(p *program) error {
	src, err := p.read(v.inputs)
	if err != nil {
		return err
	}
	q := p.question(v.inputs, src)
	if err := p.believe(&q, &src, v.pastFiles); err != nil {
		return err
	}
	h, err := p.day.Hour(p.ctx, day.HourQuestion{Question: q, Heats: v.Heats, Waves: v.Waves, Gap: v.Gap, Behind: v.behind, Change: v.change})
	if err != nil {
		return err
	}
	p.remarks(src)
	name := nameOf(src.people)
	if p.json {
		out := exchange.HourOf(h, v.start, name)
		out.Diagnostics = listed(src.files)
		return p.answer(out)
	}
	return p.print(headline(src.session) + "\n" + hourText(h, v.start, name))
}

// hourText writes an hour: the verdict, the lines, who is in which heat or wave,
// what is short, and what would help.
func hourText(h roomful.Hour, start time.Duration, name func(string) string) string {
	var b strings.Builder
	b.WriteString(verdict(h) + "\n\n")
	at := func(d time.Duration) string { return exchange.TimeOfDay((start + d).Truncate(time.Minute)) }
	for _, l := range h.Lines {
		b.WriteString(wrapped(fmt.Sprintf("%s  %5s  ", at(l.Start), roomful.Clock(l.Length().Seconds())), l.What+" ("+l.From+")"))
	}
	fmt.Fprintf(&b, "%s         end\n", at(h.Ends()+time.Minute-1))
	for _, d := range h.Dropped {
		b.WriteString(wrapped("cut: ", d))
	}
	if h.NoMore {
		b.WriteString(wrapped("", fmt.Sprintf("nothing more can be cut: it ends %s late, so tell whoever has the room next", roomful.Clock((h.Ends()-h.Length).Seconds()))))
	}
	for _, c := range h.Changes {
		b.WriteString(wrapped(c.Part+": ", c.What+touches(c.Touches)))
		b.WriteString(wrapped("  say: ", c.Say))
	}
	for _, t := range h.Heats {
		b.WriteString(wrapped(fmt.Sprintf("heat %d: ", t.N), names(t.People, name)))
	}
	for _, w := range h.Waves {
		b.WriteString(wrapped(waveName(w), names(w.People, name)))
	}
	b.WriteString(shortText(h.Places, h.Short))
	if len(h.Fixes) > 0 {
		b.WriteString("\nwhat would help, the cheapest first\n")
	}
	for i, f := range h.Fixes {
		b.WriteString(wrapped(fmt.Sprintf("  %d. ", i+1), f.What+": "+cost(f.Costs)+"; "+f.Why+touches(f.Touches)))
		b.WriteString(wrapped("     say: ", f.Say))
	}
	return b.String()
}

// waveName is what a wave's people are listed under.
func waveName(w roomful.Wave) string {
	name := fmt.Sprintf("wave %d, at %s: ", w.N, roomful.Clock(w.After.Seconds()))
	if w.Heat > 0 {
		name = fmt.Sprintf("heat %d, %s", w.Heat, name)
	}
	return name
}

// noticed is the waiting in seconds, each time, from which a coach is told.
const noticed = 5

// shortText says what people wait for, and what there is less of than people
// without anybody waiting.
func shortText(places []roomful.PieceUse, short []roomful.Shortage) string {
	var b strings.Builder
	for _, s := range short {
		if s.Have == 0 {
			b.WriteString(wrapped("  "+s.What+": ", fmt.Sprintf("none for %d in %s, so everybody does something else", s.Need, s.Part)))
		}
	}
	var enough []string
	for _, u := range places {
		if u.WaitMean < noticed {
			enough = append(enough, fmt.Sprintf("%s (%d for %d)", u.Word, u.Count, u.Need))
			continue
		}
		line := fmt.Sprintf("%d for %d in %s, %s of waiting each time, in use %s of the time", u.Count, u.Need, u.Part, roomful.Clock(u.WaitMean), inTen(u.Busy))
		if u.Load > 1 {
			line += fmt.Sprintf("; enough for %d of the %d, so somebody waits in any order", max(u.Count, int(float64(u.Need)/u.Load)), u.Need)
		}
		b.WriteString(wrapped("  "+u.Word+": ", line))
	}
	text := b.String()
	if text != "" {
		text = "\nshort\n" + text
	}
	if len(enough) > 0 {
		text += "\n" + wrapped("enough, taken in turn: ", strings.Join(enough, ", "))
	}
	return text
}

// verdict says whether the hour fits.
func verdict(h roomful.Hour) string {
	planned := fmt.Sprintf("%s planned for %s", wholeMinutes(h.Ends()), wholeMinutes(h.Length))
	switch h.Verdict() {
	case roomful.Over:
		return fmt.Sprintf("over: %s, and beyond %s a class runs over", planned, wholeMinutes(h.Red))
	case roomful.Tight:
		return fmt.Sprintf("tight: %s, with little to spare beyond %s", planned, wholeMinutes(h.Amber))
	}
	return "fits: " + planned
}

// wholeMinutes writes a length in whole minutes, the fuller one.
func wholeMinutes(d time.Duration) string {
	return fmt.Sprintf("%d min", (d+time.Minute-1)/time.Minute)
}

// cost says what a fix costs the clock.
func cost(d time.Duration) string {
	switch {
	case d > 0:
		return "costs " + roomful.Clock(d.Seconds())
	case d < 0:
		return "gives " + roomful.Clock(-d.Seconds())
	}
	return "costs no time"
}

// touches says for whom something changes.
func touches(names []string) string {
	switch {
	case len(names) == 0:
		return ""
	case len(names) <= 4:
		return "; changes for " + strings.Join(names, ", ")
	}
	return fmt.Sprintf("; changes for %d people", len(names))
}

// nameOf finds the name to an id.
func nameOf(people []roomful.Athlete) func(id string) string {
	return func(id string) string {
		for _, a := range people {
			if a.ID == id {
				return a.Name
			}
		}
		return strings.ReplaceAll(id, "-", " ") // a guest
	}
}

// names writes ids as names.
func names(ids []string, name func(string) string) string {
	var out []string
	for _, id := range ids {
		out = append(out, name(id))
	}
	return strings.Join(out, ", ")
}
