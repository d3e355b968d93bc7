package main

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"roomful"
)

// lineWidth is where text for people wraps, in characters.
const lineWidth = 100

// width counts characters.
func width(s string) int { return utf8.RuneCountInString(s) }

// pad fills a text up to n characters.
func pad(s string, n int) string { return s + strings.Repeat(" ", max(0, n-width(s))) }

// wrapped writes text behind a first indent and below its end, a line at a
// time.
func wrapped(indent, text string) string { return wrappedTo(lineWidth, indent, text) }

// wrappedTo is wrapped for a screen of another width.
func wrappedTo(columns int, indent, text string) string {
	var b strings.Builder
	line, empty := indent, true
	for _, word := range strings.Fields(text) {
		if !empty && width(line)+1+width(word) > columns {
			b.WriteString(line + "\n")
			line, empty = strings.Repeat(" ", width(indent)), true
		}
		if !empty {
			line += " "
		}
		line, empty = line+word, false
	}
	b.WriteString(line + "\n")
	return b.String()
}

// taskWords writes a task as on a board: "8 deadlifts 55 kg".
func (p *program) taskWords(t roomful.Task) string { return p.pairWords(t, t) }

// pairWords writes a task with the figures of both divisions: "8 deadlifts
// 80/55 kg".
func (p *program) pairWords(a, b roomful.Task) string {
	if a.Movement != b.Movement || a.Unit != b.Unit {
		return p.taskWords(a) + " / " + p.taskWords(b)
	}
	name, many, thrown := string(a.Movement), string(a.Movement), false
	if m := p.lexicon.Movement(a.Movement); m != nil {
		name, many, thrown = m.Name, m.Plural, m.Implement == roomful.Ball
	}
	words := name
	switch amount := both(roomful.Figure(a.Amount), roomful.Figure(b.Amount)); {
	case a.Amount == 0 && a.Unit == roomful.Rep:
		words = many
	case a.Amount == 0:
	case a.Unit == roomful.Rep && amount == "1":
		words = "1 " + name
	case a.Unit == roomful.Rep:
		words = amount + " " + many
	default:
		words = amount + " " + a.Unit.String() + " " + name
	}
	if l := loadWords(a, b); l != "" {
		words += " " + l
	}
	if h := heightWords(a, b, thrown); h != "" {
		words += " " + h
	}
	return words
}

// both writes two figures as a pair, equal ones once.
func both(a, b string) string {
	if a == b {
		return a
	}
	return a + "/" + b
}

// heightWords writes how high the box is, or the target of a ball.
func heightWords(a, b roomful.Task, thrown bool) string {
	switch {
	case a.HeightCm <= 0:
		return ""
	case thrown:
		return "to " + both(roomful.Figure(a.HeightCm/100), roomful.Figure(b.HeightCm/100)) + " m"
	}
	return both(roomful.Figure(a.HeightCm), roomful.Figure(b.HeightCm)) + " cm"
}

// loadWords writes what is held.
func loadWords(a, b roomful.Task) string {
	var words []string
	switch {
	case a.Load.Value > 0:
		load := both(a.Load.String(), b.Load.String())
		if a.Load.Unit == b.Load.Unit {
			load = both(roomful.Figure(a.Load.Value), roomful.Figure(b.Load.Value)) + " " + a.Load.Unit.String()
		}
		if a.Implements > 1 {
			load = roomful.Figure(float64(a.Implements)) + " x " + load
		}
		words = append(words, load)
	case a.Percent > 0:
		words = append(words, "@ "+roomful.Figure(a.Percent)+" %")
	case a.Fresh > 0:
		words = append(words, fmt.Sprintf("fresh %d+", a.Fresh))
	}
	if a.RPE > 0 {
		words = append(words, "@ RPE "+roomful.Figure(a.RPE))
	}
	return strings.Join(words, " ")
}
