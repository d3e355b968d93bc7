package main

import (
	"fmt"
	"math"
	"strings"

	"roomful"
)

// stripWidth is how many characters a strip of scores is wide.
const stripWidth = 44

// The marks of a strip. The range is told from the window by shape, never by
// colour.
const (
	markOut    = '·' // nothing
	markWindow = '░' // what is asked for
	markRange  = '━' // nine runs in ten
	markMedian = '●' // the middle
)

// axis maps scores to columns.
type axis struct {
	kind      roomful.ScoreKind
	low, high float64
}

// axisOf spans all the forecasts and the window.
func axisOf(k roomful.ScoreKind, people []roomful.AthleteForecast, e roomful.Effort) axis {
	a := axis{kind: k, low: math.Inf(1), high: math.Inf(-1)}
	grow := func(v float64) {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			a.low, a.high = min(a.low, v), max(a.high, v)
		}
	}
	for _, p := range people {
		grow(p.Score.P05)
		grow(p.Score.P95)
	}
	if e.Stated() {
		low, high := e.Window()
		grow(low)
		grow(high)
	}
	if a.high < a.low {
		a.low, a.high = 0, 1
	}
	if a.high-a.low < 1e-6 {
		a.low, a.high = a.low-0.5, a.high+0.5
	}
	return a
}

// column returns where a score stands.
func (a axis) column(v float64) int {
	c := math.Round((v - a.low) / (a.high - a.low) * (stripWidth - 1))
	return int(max(0, min(c, stripWidth-1)))
}

// strip draws one forecast.
func (a axis) strip(q roomful.Quantiles, e roomful.Effort) string {
	out := []rune(strings.Repeat(string(markOut), stripWidth))
	fill := func(from, to float64, mark rune) {
		for c := a.column(from); c <= a.column(to); c++ {
			out[c] = mark
		}
	}
	if e.Stated() {
		low, high := e.Window()
		fill(low, math.Nextafter(high, 0), markWindow)
	}
	if math.IsNaN(q.P50) {
		return string(out)
	}
	fill(q.P05, q.P95, markRange)
	out[a.column(q.P50)] = markMedian
	return string(out)
}

// ends writes the figures at both ends of the axis.
func (a axis) ends() string {
	low, high := a.kind.Text(a.low, 0), a.kind.Text(a.high, 0)
	return low + strings.Repeat(" ", max(1, stripWidth-len(low)-len(high))) + high
}

// strips draws everybody's forecast on one axis.
func strips(f roomful.Forecast, e roomful.Effort, runs int) string {
	a := axisOf(f.Kind, f.Athletes, e)
	name, text := 0, 0
	for _, p := range f.Athletes {
		name, text = max(name, width(p.Name)), max(text, width(middle(p)))
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%s  %s\n", pad("", name), a.ends())
	for _, p := range f.Athletes {
		line := pad(p.Name, name) + "  " + a.strip(p.Score, e) + "  " + pad(middle(p), text) + "  " + spread(f.Kind, p)
		b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
	legend := string(markMedian) + " middle of " + plural(runs, "run") + ", " + string(markRange) + " nine in ten of them"
	if e.Stated() {
		legend += ", " + string(markWindow) + " what is asked for"
	}
	fmt.Fprintf(&b, "%s  %s\n", pad("", name), legend)
	if n := notes(f); n != "" {
		fmt.Fprintf(&b, "%s  %s\n", pad("", name), n)
	}
	return b.String()
}

// middle writes the median score.
func middle(p roomful.AthleteForecast) string {
	if math.IsNaN(p.Score.P50) {
		return "-"
	}
	return p.Text
}

// spread says the range and what is worth knowing beside it.
func spread(k roomful.ScoreKind, p roomful.AthleteForecast) string {
	var words []string
	if low, high := k.Text(p.Score.P05, 0), k.Text(p.Score.P95, 0); !math.IsNaN(p.Score.P50) && low != high {
		words = append(words, low+" to "+high)
	}
	if p.OnIntent != nil {
		words = append(words, "as asked "+inTen(*p.OnIntent))
	}
	if p.Capped >= noteworthy {
		words = append(words, "cap "+inTen(p.Capped))
	}
	if p.Cannot >= noteworthy {
		words = append(words, "cannot "+inTen(p.Cannot))
	}
	if p.WaitMean >= 1 {
		words = append(words, "waits "+roomful.Clock(p.WaitMean))
	}
	return strings.Join(words, ", ")
}

// noteworthy is the probability from which a coach is told.
const noteworthy = 0.05

// inTen writes a probability as it is sure: in tenths.
func inTen(p float64) string { return fmt.Sprintf("%d in 10", int(math.Round(p*10))) }

// notes explains the words beside the strips that are there.
func notes(f roomful.Forecast) string {
	var asked, capped, cannot bool
	for _, p := range f.Athletes {
		asked, capped, cannot = asked || p.OnIntent != nil, capped || p.Capped >= noteworthy, cannot || p.Cannot >= noteworthy
	}
	var words []string
	if asked {
		words = append(words, "as asked: ends within the effort")
	}
	if capped {
		words = append(words, "cap: reaches it before the end")
	}
	if cannot {
		words = append(words, "cannot: an element is beyond them that day")
	}
	return strings.Join(words, "; ")
}
