package picture

import (
	"fmt"
	"slices"

	"roomful"
)

// Outcome is what people scored on a piece, beside what it was meant to be.
type Outcome struct {
	Piece  string
	Kind   roomful.ScoreKind
	Effort roomful.Effort
	Groups []OutcomeGroup
}

// OutcomeGroup is the scores of one option.
type OutcomeGroup struct {
	Shape  Shape
	Option string
	Scores []Scored
}

// Scored is what one person scored.
type Scored struct {
	Name     string
	Score    float64 // NaN when there is none
	PerRound float64 // repetitions and calories of one round, to write rounds with
	// AtLeast says that the time ran out before the end: a time would have been more.
	AtLeast bool
}

// The measures of the plots after class: a margin in percent, the rest in px.
const (
	afterPlotPercent = 90
	afterLevelPx     = 15 // from one mark to the one above it
)

// After draws a small plot for each option on one axis: what was meant as a band, and
// each score as a mark of the option's shape. A mark that is open is of a piece whose
// time ran out.
func After(o Outcome) Picture {
	a := outcome{Outcome: o, meant: windowOf(o.Effort, o.Kind)}
	values := a.meant.ends()
	for _, g := range o.Groups {
		for _, s := range g.Scores {
			values = append(values, s.Score)
		}
	}
	a.axis = newAxis(o.Kind, 8, values...)
	height := float64(keyPx + ticksPx)
	for _, g := range o.Groups {
		height += groupPx + a.plotHeight(g)
	}
	if a.all() == 0 {
		height = nonePx
	}
	return Picture{
		Title: "What came of " + piece(o.Piece),
		Desc:  a.says(),
		Table: a.table(),
		class: "after", height: height + 4, draw: a.draw,
	}
}

// outcome is what was scored, laid out.
type outcome struct {
	Outcome
	axis  axis
	meant window
}

// dot is a score where it is drawn: level 0 stands on the line, 1 above it.
type dot struct {
	Scored
	at    float64 // percent
	level int
}

// dots stacks the scores of a group, so that no two cover each other where the drawing
// is narrowest.
func (a outcome) dots(g OutcomeGroup) []dot {
	var dots []dot
	for _, s := range g.Scores {
		if known(s.Score) {
			dots = append(dots, dot{Scored: s, at: a.axis.at(s.Score)})
		}
	}
	slices.SortStableFunc(dots, func(a, b dot) int {
		switch {
		case a.at < b.at:
			return -1
		case a.at > b.at:
			return 1
		}
		return 0
	})
	const wide = 100 * 2 * shapePx / (narrowest * afterPlotPercent / 100.0)
	var ends []float64 // of each level, the last mark on it
	for i := range dots {
		level := 0
		for level < len(ends) && dots[i].at-ends[level] < wide {
			level++
		}
		if level == len(ends) {
			ends = append(ends, 0)
		}
		dots[i].level, ends[level] = level, dots[i].at
	}
	return dots
}

// plotHeight is what the plot of a group takes in px.
func (a outcome) plotHeight(g OutcomeGroup) float64 {
	dots := a.dots(g)
	if len(dots) == 0 {
		return 0
	}
	most := 0
	for _, d := range dots {
		most = max(most, d.level)
	}
	return float64(most+1)*afterLevelPx + 10
}

// count tells how many scores a group has and how many lie within what was meant.
func (a outcome) count(g OutcomeGroup) (all, within int) {
	for _, s := range g.Scores {
		if known(s.Score) {
			all++
			if a.place(s) == "within" {
				within++
			}
		}
	}
	return all, within
}

// all counts the scores.
func (a outcome) all() (n int) {
	for _, g := range a.Groups {
		in, _ := a.count(g)
		n += in
	}
	return n
}

// place says where a score lies beside what was meant. Whoever met the cap would have
// been later than the window, wherever the cap lies in it.
func (a outcome) place(s Scored) string {
	if s.AtLeast && a.Kind == roomful.TimeScore && a.meant.stated {
		return "later"
	}
	return a.meant.place(s.Score)
}

// says tells how many came within what was meant.
func (a outcome) says() string {
	all, within := 0, 0
	for _, g := range a.Groups {
		n, in := a.count(g)
		all, within = all+n, within+in
	}
	switch {
	case all == 0:
		return "Nobody has a score yet."
	case a.meant.stated:
		return fmt.Sprintf("Meant: %s. %d of %d came within.", a.meant.words, within, all)
	}
	return fmt.Sprintf("The scores of %d.", all)
}

// table lists the scores.
func (a outcome) table() Table {
	t := Table{Caption: "What came of " + piece(a.Piece) + ", in " + a.axis.unit(a.Effort), Head: []string{"Name", "Option", "Score"}}
	if a.meant.stated {
		t.Head = append(t.Head, "Meant "+a.meant.words)
	}
	for _, g := range a.Groups {
		for _, s := range g.Scores {
			row := []string{s.Name, optionWords(g.Shape, g.Option), a.text(s)}
			if a.meant.stated {
				row = append(row, a.place(s))
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// text writes a score as a person would.
func (a outcome) text(s Scored) string {
	if !known(s.Score) {
		return "none"
	}
	if s.AtLeast {
		return a.axis.text(s.Score, s.PerRound) + ", time ran out"
	}
	return a.axis.text(s.Score, s.PerRound)
}

// draw paints the key, the plots from top to bottom and the axis beneath them.
func (a outcome) draw(d *drawing, _ string) {
	if a.all() == 0 {
		d.none("Nobody has a score yet")
		return
	}
	d.key(a.meant, a.axis.unit(a.Effort))
	y := float64(keyPx)
	const margin = (100 - afterPlotPercent) / 2.0
	for _, g := range a.Groups {
		all, within := a.count(g)
		remark := fmt.Sprint(all)
		switch {
		case all == 0:
			remark = "no score yet"
		case a.meant.stated:
			remark = fmt.Sprintf("%d of %d within", within, all)
		}
		d.heading(g.Shape, g.Option, remark, y)
		if y += groupPx; all == 0 {
			continue
		}
		bottom := y + a.plotHeight(g)
		d.plot(margin, afterPlotPercent)
		d.ground(a.axis, a.meant, y, bottom)
		for _, o := range a.dots(g) {
			class := "pic-solid"
			if o.AtLeast {
				class = "pic-hollow"
			}
			d.mark(g.Shape, class, o.Name+": "+a.text(o.Scored), percent(o.at), px(bottom-shapePx-4-float64(o.level)*afterLevelPx))
		}
		d.close("svg")
		d.line("pic-hair", "0", px(bottom), "100%", px(bottom))
		y = bottom
	}
	d.plot(margin, afterPlotPercent)
	d.tickFigures(a.axis, y+15, afterPlotPercent)
	d.close("svg")
}
