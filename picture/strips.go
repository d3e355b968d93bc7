package picture

import (
	"fmt"

	"roomful"
)

// Forecasts are how a piece is expected to go for several people, beside what it is
// meant to be.
type Forecasts struct {
	Piece  string // "main"
	Kind   roomful.ScoreKind
	Effort roomful.Effort
	Groups []ForecastGroup
}

// ForecastGroup is the people of one option; one group without a name is just people.
type ForecastGroup struct {
	Shape  Shape
	Option string
	People []ForecastRow
}

// ForecastRow is one person's forecast, or an option's.
type ForecastRow struct {
	Name     string
	Score    roomful.Quantiles // NaN when there is none
	PerRound float64           // repetitions and calories of one round, to write rounds with
}

// The measures of rows that share an axis: the columns in percent of the width, the rest
// in px.
const (
	rowNamePercent = 28
	rowPlotPercent = 50
	rowPx          = 28
	groupPx        = 34
	keyPx          = 22 // the line that says what is meant
	ticksPx        = 20 // the figures of the axis
	stripPx        = 8
)

// Forecast draws each person's likely range as a strip with its middle marked by the
// shape of their option, all on one axis, over a band for what is meant.
func Forecast(f Forecasts) Picture {
	s := strips{Forecasts: f, meant: windowOf(f.Effort, f.Kind)}
	values := s.meant.ends()
	height := float64(keyPx + ticksPx)
	for _, g := range f.Groups {
		for _, r := range g.People {
			if r.drawn() {
				values = append(values, r.Score.P05, r.Score.P95)
			}
		}
		height += g.height()
	}
	s.axis = newAxis(f.Kind, 6, values...)
	s.spread = s.spreadFrom()
	if s.people() == 0 {
		height = nonePx
	}
	return Picture{
		Title: "Forecast of " + piece(f.Piece),
		Desc:  s.says(),
		Table: s.table(),
		class: "strips", height: height + 2, draw: s.draw,
	}
}

// people counts the rows.
func (s strips) people() (n int) {
	for _, g := range s.Groups {
		n += len(g.People)
	}
	return n
}

// piece names a piece in a sentence.
func piece(name string) string {
	if name == "" {
		return "the piece"
	}
	return name
}

// strips are forecasts laid out.
type strips struct {
	Forecasts
	axis   axis
	meant  window
	spread int // the step from which there is room for the ranges as figures; 0 for none
}

// likely writes a row's range.
func (s strips) likely(r ForecastRow) string {
	return s.text(r.Score.P05, r) + " to " + s.text(r.Score.P95, r)
}

// spreadFrom is the step from which every range has room beside its middle, so that
// either all rows have theirs or none has.
func (s strips) spreadFrom() int {
	most := 0
	for _, g := range s.Groups {
		for _, r := range g.People {
			if !r.drawn() {
				continue
			}
			step, ok := room{100 - rowNamePercent - rowPlotPercent, 62 + 12}.step(s.likely(r))
			if !ok {
				return 0
			}
			most = max(most, step)
		}
	}
	return most
}

// drawn reports whether there is a range to draw.
func (r ForecastRow) drawn() bool {
	q := r.Score
	return known(q.P05) && known(q.P50) && known(q.P95) && q.P05 <= q.P50 && q.P50 <= q.P95
}

// height is what a group takes in px.
func (g ForecastGroup) height() float64 {
	h := float64(len(g.People)) * rowPx
	if g.headed() {
		h += groupPx
	}
	return h
}

// headed reports whether the group has a line of its own above its people.
func (g ForecastGroup) headed() bool { return g.Option != "" || g.Shape != None }

// says tells how many middles lie within what is meant.
func (s strips) says() string {
	all, within, without := 0, 0, 0
	for _, g := range s.Groups {
		for _, r := range g.People {
			switch {
			case !r.drawn():
				without++
			case s.meant.place(r.Score.P50) == "within":
				within++
			}
			all++
		}
	}
	said := "Nobody is forecast yet."
	switch {
	case all > without && s.meant.stated:
		said = fmt.Sprintf("Meant: %s. The middle of %d of %d lies within.", s.meant.words, within, all)
	case all > without:
		said = fmt.Sprintf("The likely range of %d, with its middle marked.", all-without)
	}
	if without > 0 && all > without {
		said += fmt.Sprintf(" Without a forecast: %d.", without)
	}
	return said
}

// table lists the ranges.
func (s strips) table() Table {
	t := Table{
		Caption: "Forecast of " + piece(s.Piece) + ": 9 times in 10 between low and high",
		Head:    []string{"Name", "Option", "Low", "Middle", "High"},
	}
	if s.meant.stated {
		t.Head = append(t.Head, "Meant "+s.meant.words)
	}
	for _, g := range s.Groups {
		for _, r := range g.People {
			row := []string{r.Name, optionWords(g.Shape, g.Option), "", "not known", ""}
			if q := r.Score; r.drawn() {
				row[2], row[3], row[4] = s.text(q.P05, r), s.text(q.P50, r), s.text(q.P95, r)
			}
			if s.meant.stated {
				row = append(row, s.place(r))
			}
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// place says where a row's middle lies beside what is meant.
func (s strips) place(r ForecastRow) string {
	if !r.drawn() {
		return ""
	}
	return s.meant.place(r.Score.P50)
}

// text writes a score of the row as a person would, without the unit that stands above.
func (s strips) text(v float64, r ForecastRow) string { return s.axis.text(v, r.PerRound) }

// text writes a score as a person would, without its unit.
func (a axis) text(v, perRound float64) string {
	switch a.kind {
	case roomful.LoadScore:
		return roomful.Figure(roomful.PlainKg(v))
	case roomful.DistanceScore:
		return roomful.Figure(v)
	}
	return a.kind.Text(v, perRound)
}

// optionWords names an option by its shape and its name.
func optionWords(s Shape, name string) string {
	switch {
	case name == "":
		return s.String()
	case s == None:
		return name
	}
	return s.String() + ", " + name
}

// draw paints the axis and every group beneath it.
func (s strips) draw(d *drawing, _ string) {
	if s.people() == 0 {
		d.none("Nobody is forecast yet")
		return
	}
	d.key(s.meant, s.axis.unit(s.Effort))
	d.plot(rowNamePercent, rowPlotPercent)
	d.tickFigures(s.axis, keyPx+14, rowPlotPercent)
	d.close("svg")
	y := float64(keyPx + ticksPx)
	for _, g := range s.Groups {
		if g.headed() {
			d.heading(g.Shape, g.Option, "", y)
			y += groupPx
		}
		if len(g.People) == 0 {
			continue
		}
		bottom := y + rowPx*float64(len(g.People))
		d.plot(rowNamePercent, rowPlotPercent)
		d.ground(s.axis, s.meant, y, bottom)
		d.close("svg")
		for _, r := range g.People {
			s.drawRow(d, g, r, y)
			y += rowPx
		}
	}
}

// drawRow paints a person: the name, the strip, and the middle as shape and figure.
func (s strips) drawRow(d *drawing, g ForecastGroup, r ForecastRow, y float64) {
	middle, base := y+rowPx/2, px(y+rowPx/2+4.5)
	d.line("pic-hair", "0", px(y+rowPx), "100%", px(y+rowPx))
	d.whole(r.Name, room{rowNamePercent, 10}, "pic-name", "x", "0", "y", base)
	if !r.drawn() {
		d.words("text", "not known", "class", "pic-soft", "x", "100%", "y", base, "text-anchor", "end")
		return
	}
	q := r.Score
	low, high := s.axis.at(q.P05), s.axis.at(q.P95)
	says := fmt.Sprintf("%s: %s, likely %s", r.Name, s.text(q.P50, r), s.likely(r))
	d.plot(rowNamePercent, rowPlotPercent)
	d.put("rect", "class", "pic-range", "x", percent(low), "y", px(middle-stripPx/2.0), "width", percent(high-low), "height", px(stripPx))
	d.mark(g.Shape, "pic-solid", says, percent(s.axis.at(q.P50)), px(middle))
	d.close("svg")
	class := "pic-figure-at-end"
	if at := s.place(r); at != "" && at != "within" {
		class += " pic-amber"
	}
	d.words("text", s.text(q.P50, r), "class", class, "x", "100%", "y", base, "text-anchor", "end")
	if s.spread > 0 {
		d.text(s.likely(r), "pic-soft"+from(s.spread), []string{"x", "100%", "dx", "-62", "y", base, "text-anchor", "end"})
	}
}
