package web

import (
	"slices"
	"strings"

	"roomful"
	"roomful/web/page"
)

// on are the versions of those who stand on an option, in the order of the list of people.
func (c coachDay) on(o roomful.Option) (out []roomful.Version) {
	for _, v := range c.got.Lineup.Versions {
		if slices.Contains(o.People, v.Athlete) {
			out = append(out, v)
		}
	}
	return out
}

// options are what the coach briefs, with who is on each.
func (c coachDay) options() (out []page.DayOption) {
	plain := wording{c.lexicon, c.got.Day.Gym.Unit}
	for i, o := range c.got.Options {
		option := page.DayOption{Shape: i, Name: capital(o.Name)}
		for k := range o.Elements {
			option.Lines = append(option.Lines, plain.optionLine(o, k, c.got.Piece.Format))
		}
		for _, v := range c.on(o) {
			option.People = append(option.People, c.person(v))
		}
		out = append(out, option)
	}
	return out
}

// optionLine is a line of an option, with both divisions' figures where they differ.
func (w wording) optionLine(o roomful.Option, k int, f roomful.Format) page.DayLine {
	t := o.Elements[k]
	line := page.DayLine{Amount: w.amount(t, f), Words: w.name(t)}
	load, other := w.load(t)
	if k < len(o.Second) {
		second := o.Second[k]
		if a := w.amount(second, f); a != line.Amount {
			line.Amount += "/" + a
		}
		if l, _ := w.load(second); l != load {
			load = pairOf(load, l)
		}
	}
	if load == "" {
		load = other
	}
	if load != "" {
		line.Words += " " + load
	}
	return line
}

// pairOf writes two loads as a pair, the unit once: "60/42.5 kg".
func pairOf(a, b string) string {
	of, unitA, okA := strings.Cut(a, " ")
	_, unitB, okB := strings.Cut(b, " ")
	if okA && okB && unitA == unitB {
		return of + "/" + b
	}
	return a + " or " + b
}

// person is somebody on an option: the load that counts most, and what is otherwise.
func (c coachDay) person(v roomful.Version) page.DayPerson {
	out := page.DayPerson{ID: v.Athlete, Name: v.Name}
	w := wording{c.lexicon, c.people[v.Athlete].Unit}
	if h := heaviest(v); h != nil {
		out.Load, out.Other = w.load(h.Task)
	}
	if v.ByHand {
		out.Marks = append(out.Marks, c.words[v.Athlete])
	}
	if v.Confidence == roomful.Low {
		out.Marks = append(out.Marks, "new")
	}
	if len(c.people[v.Athlete].Limits) > 0 {
		out.Marks = append(out.Marks, "limit")
	}
	if v.OneOff && !v.ByHand {
		out.Marks = append(out.Marks, "one-off")
	}
	return out
}

// heaviest is the line of a version with the most to lift, nil when nothing is lifted.
func heaviest(v roomful.Version) (most *roomful.Choice) {
	for i := range v.Choices {
		if ch := &v.Choices[i]; ch.Load.Value > 0 && (most == nil || ch.LoadKg() > most.LoadKg()) {
			most = ch
		}
	}
	return most
}
