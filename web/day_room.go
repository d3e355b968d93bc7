package web

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"roomful"
	"roomful/exchange"
	"roomful/web/page"
)

// noticedWait is the waiting in seconds, each time, from which a coach is told.
const noticedWait = 5

// room is what the room has too little of, what would help, the bars and the hour.
func (c coachDay) room() page.DayRoom {
	out := page.DayRoom{Untold: c.got.Question.Kit == nil}
	c.bars(&out)
	if c.hour == nil {
		return out
	}
	out.Short = slices.Concat(c.short(), out.Short)
	for _, f := range c.hour.Fixes {
		out.Fixes = append(out.Fixes, page.DayFix{What: capital(f.What), Costs: costWords(f.Costs), Why: asSentence(f.Why), Say: f.Say})
	}
	for _, l := range c.hour.Lines {
		out.Lines = append(out.Lines, page.DayHour{At: c.at(l.Start), Length: roomful.Clock(l.Length().Seconds()), What: capital(l.What), From: fromWords(l.From)})
	}
	for _, h := range c.hour.Heats {
		out.Heats = append(out.Heats, page.DayHeat{Name: fmt.Sprintf("%s, heat %d, at %s", capital(h.Part), h.N, c.at(h.Start)), Who: enumerated(c.named(h.People))})
	}
	for _, w := range c.hour.Waves {
		name := fmt.Sprintf("%s, wave %d, %s after the first", capital(w.Part), w.N, roomful.Clock(w.After.Seconds()))
		if w.After == 0 {
			name = fmt.Sprintf("%s, wave %d, on three", capital(w.Part), w.N)
		}
		out.Heats = append(out.Heats, page.DayHeat{Name: name, Who: enumerated(c.named(w.People))})
	}
	return out
}

// fromWords says where a length comes from; which settings they are stands with the
// settings.
func fromWords(from string) string {
	if strings.HasPrefix(from, "setting") {
		return "your settings"
	}
	return from
}

// at is a time of the class: of the day when it is known when it starts.
func (c coachDay) at(d time.Duration) string {
	if c.got.Start == 0 {
		return roomful.Clock(d.Seconds())
	}
	return exchange.TimeOfDay((c.got.Start + d).Truncate(time.Minute))
}

// named are the names to ids.
func (c coachDay) named(ids []string) (out []string) {
	for _, id := range ids {
		out = append(out, c.people[id].Name)
	}
	return out
}

// short lists what is taken in turn, what is waited for first, and what is missing.
func (c coachDay) short() (out []page.DayShort) {
	for _, s := range c.hour.Short {
		if s.Have == 0 {
			out = append(out, page.DayShort{What: s.What, Says: fmt.Sprintf("none for %d in %s, so everybody does something else", s.Need, s.Part), Look: true})
		}
	}
	var enough []page.DayShort
	for _, p := range c.hour.Places {
		if p.WaitMean < noticedWait {
			enough = append(enough, page.DayShort{What: p.Word, Says: fmt.Sprintf("%d for %d in %s, free in time", p.Count, p.Need, p.Part)})
			continue
		}
		out = append(out, page.DayShort{What: p.Word, Says: fmt.Sprintf("%d for %d in %s, %s of waiting each time", p.Count, p.Need, p.Part, waitWords(p.WaitMean)), Look: true})
	}
	return append(out, enough...)
}

// waitWords writes a wait: "12 s" or "1:20".
func waitWords(seconds float64) string {
	if seconds < 60 {
		return fmt.Sprintf("%.0f s", math.Max(seconds, 1))
	}
	return roomful.Clock(seconds)
}

// costWords says what a remedy does to the clock.
func costWords(d time.Duration) string {
	switch {
	case d == 0:
		return "costs no time"
	case d < 0:
		return "gives back " + roomful.Clock(-d.Seconds())
	}
	return "costs " + roomful.Clock(d.Seconds())
}

// bars lists the bars by what is on them, the heaviest first.
func (c coachDay) bars(out *page.DayRoom) {
	if c.got.Bars == nil {
		return
	}
	all := slices.Clone(c.got.Bars.Bars)
	slices.SortStableFunc(all, func(a, b roomful.LoadedBar) int {
		switch x, y := a.Load.Kg(), b.Load.Kg(); {
		case x > y:
			return -1
		case x < y:
			return 1
		}
		return 0
	})
	for _, b := range all {
		discs := "bare " + b.Bar.String() + " bar"
		if len(b.PerSide) > 0 {
			discs = b.Bar.String() + " bar, each side " + discWords(b.Bar, b.PerSide)
		}
		load := b.Load.String()
		if b.Load != b.Target {
			load += " for " + b.Target.String()
		}
		who := append([]string{b.Name}, b.With...)
		if last := len(out.Bars) - 1; last >= 0 && out.Bars[last].Load == load && out.Bars[last].Discs == discs {
			out.Bars[last].Who += ", " + strings.Join(who, ", ")
			continue
		}
		out.Bars = append(out.Bars, page.DayBar{Load: load, Discs: discs, Who: strings.Join(who, ", ")})
	}
	for _, l := range c.got.Bars.Short {
		out.Short = append(out.Short, page.DayShort{What: l.Mass.String() + " " + l.What, Says: fmt.Sprintf("%d there, %d wanted, for %s", l.Have, l.Need, enumerated(l.For)), Look: true})
	}
	for _, q := range c.got.Bars.Questions {
		out.Ask = strings.TrimSpace(out.Ask + " " + asSentence(q))
	}
}

// discWords lists the discs of a side from the inside: "20, 10 and 2.5".
func discWords(bar roomful.Mass, side []roomful.Mass) string {
	var words []string
	for _, m := range side {
		one := roomful.Figure(m.Value)
		if m.Unit != bar.Unit {
			one = m.String()
		}
		words = append(words, one)
	}
	return enumerated(words)
}
