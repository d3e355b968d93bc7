package main

import (
	"bytes"
	"fmt"
	"strings"

	"roomful"
	"roomful/exchange"
	"roomful/room"
)

// platesVerb loads bars from the discs there are.
type platesVerb struct {
	File string `arg:"" optional:"" default:"-" help:"The question as JSON, or - for standard input." placeholder:"FILE"`
}

// Help implements the long help.
func (platesVerb) Help() string {
	return `Each bar comes as near to its target as the discs allow, never above its ceiling. No other discs on these bars come nearer in all, or the answer says how near they might.

The question is an object with a list of plates and a list of bars:

  {"plates":[{"mass":20,"count":8}],"sleeve_plates":6,
   "bars":[{"name":"Marit","bar":20,"target":62.5,"ceiling":62.5,"weight":1}]}

Counts are single discs. Any plate or bar may have a "unit" of its own.

It may say more. "most_under" is how far a bar may fall short without asking. "previous" is what is on a side now, so that few discs move. With a "rack" of bars, people with "share" lift one in turn when bars are short. How near they could come is then reckoned turn by turn.`
}

// Run does the verb.
func (v *platesVerb) Run(p *program) error {
	text, err := p.readFile(v.File)
	if err != nil {
		return err
	}
	f := file{name: v.File, text: string(text)}
	var q roomful.BarQuestion
	if q, f.diagnostics = exchange.ReadBars(bytes.NewReader(text)); f.faults() > 0 {
		return &badFiles{[]file{f}}
	}
	a, err := room.Plates(q, room.UsualSteps(len(q.Wanted)))
	if err != nil {
		return err
	}
	if p.json {
		return p.answer(exchange.BarsOf(a, q.Unit))
	}
	return p.print(barLines(a) + barsShort(a) + barsSum(a, q.Unit))
}

// barLines draws every bar: its load, then the bare bar and the discs on one
// side, the largest inside.
func barLines(a roomful.BarAnswer) string {
	names, loads := 0, 0
	for _, b := range a.Bars {
		names, loads = max(names, width(b.Name)), max(loads, width(shownMass(b.Load)))
	}
	var out strings.Builder
	for _, b := range a.Bars {
		line := pad(b.Name, names) + "  " + pad(shownMass(b.Load), loads) + "  " + barDrawn(b)
		if off := offTarget(b); off != "" {
			line += "  (" + off + ")"
		}
		if len(b.With) > 0 {
			line += "  shared with " + strings.Join(b.With, ", ")
		}
		out.WriteString(line + "\n")
	}
	return out.String()
}

// barDrawn draws a bar as seen from its middle outward: "20 kg bar | 25 red,
// 10 green, 2.5 red". Discs in another unit than the bar say theirs.
func barDrawn(b roomful.LoadedBar) string {
	var discs []string
	for _, m := range b.PerSide {
		words := roomful.Figure(m.Value)
		if m.Unit != b.Bar.Unit {
			words = m.String()
		}
		if c := m.DiscColour(); c != "" {
			words += " " + c
		}
		discs = append(discs, words)
	}
	if len(discs) == 0 {
		return b.Bar.String() + " bar | bare"
	}
	return b.Bar.String() + " bar | " + strings.Join(discs, ", ")
}

// offTarget says how far a bar is from its target and what is near.
func offTarget(b roomful.LoadedBar) string {
	var near []string
	for _, m := range []roomful.Mass{b.Below, b.Above} {
		if m.Value > 0 && m != b.Load {
			near = append(near, shownMass(m))
		}
	}
	d := b.Load.Value - b.Target.Value
	words := ""
	switch {
	case d < 0:
		words = shownMass(roomful.Mass{Value: -d, Unit: b.Load.Unit}) + " under " + b.Target.String()
	case d > 0:
		words = shownMass(roomful.Mass{Value: d, Unit: b.Load.Unit}) + " over " + b.Target.String()
	default:
		return ""
	}
	if len(near) > 0 {
		words += "; with more discs " + strings.Join(near, " or ")
	}
	return words
}

// shownMass writes a mass to ten grams or a hundredth of a pound.
func shownMass(m roomful.Mass) string {
	return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.2f", m.Value), "0"), ".") + " " + m.Unit.String()
}

// barsOfAll says whether the discs do for everybody at once, and for whom not;
// nothing when nobody lifts a bar.
func barsOfAll(a *roomful.BarAnswer) string {
	if a == nil {
		return ""
	}
	var off, shared []string
	for _, b := range a.Bars {
		if b.Load != b.Target {
			off = append(off, b.Name+" "+shownMass(b.Load)+" for "+b.Target.String())
		}
		if len(b.With) > 0 {
			shared = append(shared, b.Name+" with "+strings.Join(b.With, ", "))
		}
	}
	words := plural(len(a.Bars), "bar") + " at once"
	switch {
	case len(a.Short) > 0 && len(off) == 0:
		words += ", more than there are"
	case len(off) == 0:
		words += ", each as it stands below"
	default:
		words += ", except " + strings.Join(off, "; ")
	}
	out := wrapped("bars: ", words)
	if len(shared) > 0 {
		out += wrapped("  shared: ", strings.Join(shared, "; "))
	}
	for _, line := range strings.Split(strings.TrimSpace(barsShort(*a)), "\n") {
		if line != "" {
			out += "  " + line + "\n"
		}
	}
	return out + "\n"
}

// barsShort says what is short and what is asked.
func barsShort(a roomful.BarAnswer) string {
	var out strings.Builder
	for _, l := range a.Short {
		out.WriteString(wrapped("short: ", fmt.Sprintf("%s %ss: %d there, %d wanted, for %s", l.Mass, l.What, l.Have, l.Need, strings.Join(l.For, ", "))))
	}
	for _, q := range a.Questions {
		out.WriteString(wrapped("ask: ", q))
	}
	if out.Len() > 0 {
		return "\n" + out.String()
	}
	return ""
}

// barsSum says how good the answer is.
func barsSum(a roomful.BarAnswer, u roomful.MassUnit) string {
	off := shownMass(roomful.Mass{Value: a.Deviation, Unit: u})
	moved := ""
	if a.Moved > 0 {
		moved = "; " + plural(a.Moved, "disc") + " to move"
	}
	switch {
	case a.Deviation == 0:
		return "\nevery bar is at its target" + moved + "\n"
	case a.Proven:
		return "\n" + off + " off in all, weighted; no other discs on these bars come nearer" + moved + "\n"
	}
	if a.Bound == 0 {
		return "\n" + off + " off in all, weighted; other discs on these bars may come nearer" + moved + "\n"
	}
	return "\n" + off + " off in all, weighted; no discs on these bars come below " + shownMass(roomful.Mass{Value: a.Bound, Unit: u}) + moved + "\n"
}
