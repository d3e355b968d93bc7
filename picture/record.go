package picture

import (
	"fmt"
	"slices"
	"strconv"

	"roomful"
)

// Attempts are one person's scores on a piece over time.
type Attempts struct {
	Piece  string
	Kind   roomful.ScoreKind
	Scores []Attempt
	// Beat is the number to beat; NaN when there is none.
	Beat     float64
	PerRound float64 // of the number to beat
}

// Attempt is one score.
type Attempt struct {
	On       roomful.Date
	Score    float64
	PerRound float64 // repetitions and calories of one round, to write rounds with
	Changed  string  // what was otherwise than the work that is compared; empty for the same
	AtLeast  bool    // the time ran out before the end
}

// The measures of a record: columns in percent, the rest in px.
const (
	recordLeftPercent = 17
	recordPlotPercent = 77
	recordTopY        = 58
	recordBottomY     = 206
	recordHigh        = 236

	// Rules and hairs reach a little beyond the first and the last day.
	beyondLeft, beyondRight = "-2.5%", "103.5%"
)

// Record draws attempts at one piece by day, the same work as discs and changed work as
// rings, with the number to beat as a line. Better is up, for times too.
func Record(a Attempts) Picture {
	r := record{Attempts: a}
	values := []float64{a.Beat}
	for _, s := range a.Scores {
		if known(s.Score) && !s.On.IsZero() {
			s.On = s.On.Plus(0) // a day that is on the calendar
			r.drawn = append(r.drawn, s)
			values = append(values, s.Score)
		}
	}
	slices.SortStableFunc(r.drawn, func(a, b Attempt) int { return a.On.Days(b.On) })
	r.axis = newAxis(a.Kind, 5, values...)
	height := float64(recordHigh)
	if len(r.drawn) == 0 {
		height = nonePx
	}
	return Picture{
		Title: "Record of " + piece(a.Piece),
		Desc:  r.says(),
		Table: r.table(),
		class: "record", height: height, draw: r.draw,
	}
}

// record is attempts laid out.
type record struct {
	Attempts
	drawn []Attempt // by day
	axis  axis
}

// across is where a day lies in percent of the plot.
func (r record) across(on roomful.Date) float64 {
	first, last := r.drawn[0].On, r.drawn[len(r.drawn)-1].On
	if span := last.Days(first); span > 0 {
		return float64(on.Days(first)) / float64(span) * 100
	}
	return 50
}

// up is where a score lies in px from the top: the better, the higher.
func (r record) up(v float64) float64 {
	share := r.axis.at(v) / 100
	if r.Kind.HigherIsBetter() {
		share = 1 - share
	}
	return recordTopY + share*(recordBottomY-recordTopY)
}

// best returns the best score on the same work, or -1.
func (r record) best() int {
	best := -1
	for i, s := range r.drawn {
		if s.Changed != "" || s.AtLeast {
			continue
		}
		if best < 0 || (s.Score > r.drawn[best].Score) == r.Kind.HigherIsBetter() && s.Score != r.drawn[best].Score {
			best = i
		}
	}
	return best
}

// says tells the best, the latest and the number to beat.
func (r record) says() string {
	if len(r.drawn) == 0 {
		return "No score yet."
	}
	last := r.drawn[len(r.drawn)-1]
	said := fmt.Sprintf("%s is up. Latest %s on %s.", r.better(), r.text(last), last.On)
	if best := r.best(); best >= 0 {
		said = fmt.Sprintf("%s is up. Best %s on %s, latest %s on %s.", r.better(),
			r.text(r.drawn[best]), r.drawn[best].On, r.text(last), last.On)
	}
	if known(r.Beat) {
		said += " To beat: " + r.beat() + "."
	}
	return said
}

// better is the word for what is up.
func (r record) better() string {
	if r.Kind.HigherIsBetter() {
		return "More"
	}
	return "Faster"
}

// beat writes the number to beat.
func (r record) beat() string { return r.Kind.Text(r.Beat, r.PerRound) }

// text writes a score as a person would.
func (r record) text(s Attempt) string {
	if s.AtLeast {
		return r.Kind.Text(s.Score, s.PerRound) + ", time ran out"
	}
	return r.Kind.Text(s.Score, s.PerRound)
}

// table lists the attempts, the latest first.
func (r record) table() Table {
	t := Table{Caption: "Record of " + piece(r.Piece), Head: []string{"Day", "Score", "Work"}}
	if known(r.Beat) {
		t.Caption += ", to beat " + r.beat()
	}
	for _, s := range slices.Backward(r.drawn) {
		work := "the same"
		if s.Changed != "" {
			work = "changed: " + s.Changed
		}
		t.Rows = append(t.Rows, []string{s.On.String(), r.text(s), work})
	}
	return t
}

// draw paints the key, the axes, the number to beat and the attempts.
func (r record) draw(d *drawing, _ string) {
	if len(r.drawn) == 0 {
		d.none("No score yet")
		return
	}
	r.drawKey(d)
	d.words("text", r.better()+" is up", "class", "pic-soft", "x", "0", "y", px(recordTopY-20))
	for _, v := range r.axis.ticks {
		y := r.up(v)
		d.words("text", r.axis.tick(v), "class", "pic-tick", "x", percent(recordLeftPercent-4), "y", px(y+4.5), "text-anchor", "end")
	}
	d.plot(recordLeftPercent, recordPlotPercent)
	for _, v := range r.axis.ticks {
		y := px(r.up(v))
		d.line("pic-hair", beyondLeft, y, beyondRight, y)
	}
	r.drawDays(d)
	if known(r.Beat) {
		d.line("pic-beat", beyondLeft, px(r.up(r.Beat)), beyondRight, px(r.up(r.Beat)))
	}
	r.drawAttempts(d)
	d.close("svg")
}

// drawKey says what the marks mean.
func (r record) drawKey(d *drawing) {
	put := func(x, class string) {
		d.open("svg", "class", "pic-key", "x", x, "y", "9", "overflow", "visible")
		Disc.outline(d, class)
		d.close("svg")
	}
	put("7", "pic-solid")
	d.words("text", "same", "class", "pic-word", "x", "18", "y", "13")
	put("68", "pic-hollow")
	d.words("text", "changed", "class", "pic-word", "x", "79", "y", "13")
	if known(r.Beat) {
		d.line("pic-beat", "148", "9", "168", "9")
		d.words("text", "to beat "+r.beat(), "class", "pic-word pic-bold", "x", "174", "y", "13")
	}
}

// drawDays writes the first and the last day, and a hair at each turn of a year between.
func (r record) drawDays(d *drawing) {
	first, last := r.drawn[0].On, r.drawn[len(r.drawn)-1].On
	y := px(recordBottomY + 20)
	d.line("pic-rule", beyondLeft, px(recordBottomY), beyondRight, px(recordBottomY))
	if first == last {
		d.words("text", first.String(), "class", "pic-tick", "x", "50%", "y", y, "text-anchor", "middle")
		return
	}
	d.words("text", first.String(), "class", "pic-tick", "x", "0", "dx", "-6", "y", y)
	d.words("text", last.String(), "class", "pic-tick", "x", "100%", "dx", "14", "y", y, "text-anchor", "end")
	if last.Year-first.Year > 10 {
		return
	}
	for year := first.Year + 1; year <= last.Year; year++ {
		at := r.across(roomful.Date{Year: year, Month: 1, Day: 1})
		x := percent(at)
		d.line("pic-hair", x, px(recordTopY), x, px(recordBottomY+5))
		d.when(strconv.Itoa(year), room{2 * min(at, 100-at) * recordPlotPercent / 100, 2 * 80}, "pic-tick", "x", x, "y", y, "text-anchor", "middle")
	}
}

// drawAttempts joins what was the same work, marks every attempt and writes the figures
// of two.
func (r record) drawAttempts(d *drawing) {
	var before *Attempt
	for _, s := range r.drawn {
		if s.Changed != "" {
			continue
		}
		if before != nil {
			d.line("pic-join", percent(r.across(before.On)), px(r.up(before.Score)), percent(r.across(s.On)), px(r.up(s.Score)))
		}
		before = &s
	}
	for _, s := range r.drawn {
		class, says := "pic-solid", s.On.String()+": "+r.text(s)
		if s.Changed != "" {
			class, says = "pic-hollow", says+", changed: "+s.Changed
		}
		d.mark(Disc, class, says, percent(r.across(s.On)), px(r.up(s.Score)))
	}
	r.drawFigures(d)
}

// drawFigures writes the figures of the latest and the best attempt, that of the latest
// beneath its mark when there is room, so that they do not meet.
func (r record) drawFigures(d *drawing) {
	const above, beneath = -11, 20
	best, last := r.best(), len(r.drawn)-1
	switch {
	case best < 0 || best == last:
		r.drawFigure(d, r.drawn[last], above)
	case r.up(r.drawn[last].Score) < recordBottomY-24:
		r.drawFigure(d, r.drawn[best], above)
		r.drawFigure(d, r.drawn[last], beneath)
	default:
		r.drawFigure(d, r.drawn[last], above)
		if r.across(r.drawn[last].On)-r.across(r.drawn[best].On) > 30 {
			r.drawFigure(d, r.drawn[best], above)
		}
	}
}

// drawFigure writes the figure of an attempt so far below its mark.
func (r record) drawFigure(d *drawing, s Attempt, below float64) {
	x, anchor := r.across(s.On), "middle"
	if x > 90 {
		anchor = "end"
	} else if x < 10 {
		anchor = "start"
	}
	d.words("text", r.Kind.Text(s.Score, s.PerRound), "class", "pic-figure-at-mark",
		"x", percent(x), "y", px(r.up(s.Score)+below), "text-anchor", anchor)
}
