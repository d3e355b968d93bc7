package prior

import (
	"slices"
	"strings"

	"roomful"
)

// Of returns what is believed of a person on a day, under the movements of a
// lexicon. Its dims stand in a fixed order for one lexicon, and so do its
// factors, whatever is known: streams of random numbers stay comparable.
// Assumed has one line for each thing that was filled in.
func Of(a roomful.Athlete, lex roomful.Lexicon, on roomful.Date) *roomful.Abilities {
	r, said := reckon(a, on)
	ab := frameOf(lex).believe(r)
	spare(a, ab, lex)
	condition(ab, readings(a, ab, lex))
	holdSkills(a, ab, lex)
	ab.Assumed = append(said, assumedFigures(a, ab)...)
	return ab
}

// assumedFigures says of each figure not told where its capacity comes from
// instead.
func assumedFigures(a roomful.Athlete, ab *roomful.Abilities) []string {
	var said []string
	var done []roomful.Capacity
	for _, t := range tests {
		dim := ab.Index(t.capacity)
		if dim < 0 || slices.Contains(done, t.capacity) || measured(a, t.capacity) {
			continue
		}
		done = append(done, t.capacity)
		words := t.words
		if t.capacity == roomful.CapVO2max {
			words = "VO2max"
		}
		from := nothingKnown
		if known := ab.Dims[dim].Informed; len(known) > 0 {
			from = strings.Join(known, ", ")
		}
		said = append(said, words+": from "+from)
	}
	return said
}

// Like returns the abilities of somebody of whom is said that they are like a
// friend, both under one lexicon. What the person's own figures do not tell
// takes the friend's median. The spread stays the person's own: how alike two
// people are is a guess.
func Like(own, friend *roomful.Abilities) *roomful.Abilities {
	out := *own
	out.Dims = slices.Clone(own.Dims)
	for i := range out.Dims {
		d := &out.Dims[i]
		if j := friend.Index(d.Capacity); j >= 0 && len(d.Informed) == 0 {
			d.Centre, d.Informed = friend.Dims[j].Centre, []string{likeness}
		}
	}
	out.Assumed = slices.Clone(own.Assumed)
	for i, line := range out.Assumed {
		if words, found := strings.CutSuffix(line, ": from "+nothingKnown); found {
			out.Assumed[i] = words + ": from " + likeness
		}
	}
	return &out
}

// What a capacity comes from when no figure tells it.
const (
	nothingKnown = "age, body mass and training"
	likeness     = "somebody like them"
)
