package study

import (
	"fmt"
	"math"

	"roomful"
)

// Study is one source and what it found.
type Study struct {
	Key      string // short name, "thomas-2004"
	Source   string // authors, year, journal, volume and first page
	DOI      string // empty when none is known
	Read     Reading
	Findings []Finding
}

// Reading is how the figures of a source were come by.
type Reading string

// The ways of reading a source. What is from memory, or merely habit, is
// printed for information and never decides whether the model passes; a habit
// decides only where the trade asks for it by name.
const (
	Published Reading = "read at the publisher"
	Copied    Reading = "read in a secondary copy"
	Computed  Reading = "computed from the stated formula"
	Habit     Reading = "common practice, no source"
	Memory    Reading = "from memory"
)

// Finding is one figure of a study and what the model has to make of it.
type Finding struct {
	What   string
	Unit   string
	Group  *Group
	Figure Figure
	// Mean and SD are as published; SD is 0 when none is. Mean is [Unread] when only
	// an order was read, which the rule holds.
	Mean, SD float64
	Rule     Rule
}

// Unread is the figure of a finding of which only the order was read.
var Unread = math.NaN()

// Rule is the band in which the model's figure has to lie. A loose one is
// printed and decides nothing.
type Rule struct {
	Low, High float64
	Words     string
	Loose     bool
}

// Holds reports whether a figure keeps the rule.
func (r Rule) Holds(v float64) bool { return v >= r.Low && v <= r.High }

// beyond is how far a figure lies outside the band, with its sign; 0 within.
func (r Rule) beyond(v float64) float64 { return v - min(max(v, r.Low), r.High) }

// Gates reports whether the rule can be broken at all.
func (r Rule) Gates() bool { return !r.Loose && r.banded() }

// banded reports whether the rule has a band with an end.
func (r Rule) banded() bool { return !math.IsInf(r.Low, -1) || !math.IsInf(r.High, 1) }

// withinSD is one published standard deviation about the published mean.
func withinSD(mean, sd float64) Rule { return between(mean-sd, mean+sd, "within one SD") }

// withinShare is a share of the published figure about it.
func withinShare(mean, share float64) Rule {
	return between(mean*(1-share), mean*(1+share), fmt.Sprintf("within %.0f %%", share*100))
}

// withinPoints is an amount about the published figure.
func withinPoints(mean, points float64) Rule {
	return between(mean-points, mean+points, "within "+roomful.Figure(points))
}

// between is a band of its own.
func between(low, high float64, words string) Rule { return Rule{Low: low, High: high, Words: words} }

// usually is what people of a kind usually do, for information.
func usually(low, high float64) Rule {
	return Rule{Low: low, High: high, Words: "usually " + figures(low) + " to " + figures(high), Loose: true}
}

// told is for information alone.
var told = between(math.Inf(-1), math.Inf(1), "for information")

// z is how far a figure is from the published one; where only an order was
// published, how far from that.
func (f Finding) z(v float64) float64 {
	switch {
	case !math.IsNaN(f.Mean):
	case f.Rule.Holds(v):
		return 0
	default:
		return f.Rule.beyond(v) / f.scale()
	}
	return (v - f.Mean) / f.scale()
}

// scale returns what one unit of z is: the published SD, or half the band that
// the rule leaves.
func (f Finding) scale() float64 {
	switch {
	case f.SD > 0:
		return f.SD
	case f.Rule.banded() && !math.IsInf(f.Rule.High-f.Rule.Low, 0):
		return (f.Rule.High - f.Rule.Low) / 2
	}
	return 0.1 * math.Max(math.Abs(f.Mean), 1e-9)
}
