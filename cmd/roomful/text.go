package main

import (
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
func wrapped(indent, text string) string {
	var b strings.Builder
	line, empty := indent, true
	for _, word := range strings.Fields(text) {
		if !empty && width(line)+1+width(word) > lineWidth {
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
func (p *program) taskWords(t roomful.Task) string {
	name, many := string(t.Movement), string(t.Movement)
	if m := p.lexicon.Movement(t.Movement); m != nil {
		name, many = m.Name, m.Plural
	}
	words := name
	switch {
	case t.Amount == 0 && t.Unit == roomful.Rep:
		words = many
	case t.Amount == 0:
	case t.Unit == roomful.Rep && t.Amount == 1:
		words = "1 " + name
	case t.Unit == roomful.Rep:
		words = roomful.Figure(t.Amount) + " " + many
	default:
		words = roomful.Figure(t.Amount) + " " + t.Unit.String() + " " + name
	}
	if l := loadWords(t); l != "" {
		words += " " + l
	}
	return words
}

// loadWords writes what is held and how high the box is.
func loadWords(t roomful.Task) string {
	var words []string
	if t.Load.Value > 0 {
		load := t.Load.String()
		if t.Implements > 1 {
			load = roomful.Figure(float64(t.Implements)) + " x " + load
		}
		words = append(words, load)
	}
	if t.RPE > 0 {
		words = append(words, "@ RPE "+roomful.Figure(t.RPE))
	}
	if t.HeightCm > 0 {
		words = append(words, roomful.Figure(t.HeightCm)+" cm")
	}
	return strings.Join(words, " ")
}
