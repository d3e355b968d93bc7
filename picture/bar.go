package picture

import (
	"fmt"
	"math"
	"strings"

	"roomful"
)

// The measures of a loaded bar in px of a drawing 320 wide that grows as a whole.
const (
	barWide   = 320 // with as many discs as fit
	barHigh   = 104 // and with figures beneath, barLow more
	barLow    = 14
	barY      = 58 // its middle
	shaftHalf = 44 // from the middle of the bar to the collar
	discMost  = 26 // from one disc to the next
	discLeast = 12 // the same, when there are many
	sleeveEnd = 14 // of sleeve beyond the last disc
)

// Bar draws a bar with its discs, innermost first and the same on both sides, each with
// its figure. Discs are the bigger the heavier; those of kilograms have the colours of
// the international weightlifting rules. The rules give none for pounds and gyms differ
// (common practice, no source), so those are plain and their figure tells them.
func Bar(load roomful.SideLoad) Picture {
	b := loadedBar{SideLoad: load}
	for _, m := range load.PerSide {
		if m.Value > 0 && m.Kg() <= 1000 { // what no bar carries is not drawn
			b.discs = append(b.discs, m)
			b.tallest = max(b.tallest, discHigh(m))
		}
	}
	room := float64(barWide)/2 - shaftHalf - sleeveEnd
	b.pitch = min(max(room/float64(max(len(b.discs), 1)), discLeast), discMost)
	b.half = max(barWide/2, shaftHalf+sleeveEnd+b.pitch*float64(len(b.discs)))
	high := barHigh
	if b.below(1) {
		high += barLow
	}
	return Picture{
		Title: b.title(),
		Desc:  b.says(),
		Table: b.table(),
		class: "bar", height: float64(high), grows: 2 * b.half, draw: b.draw,
	}
}

// loadedBar is a bar laid out.
type loadedBar struct {
	roomful.SideLoad
	discs   []roomful.Mass // those that can be drawn
	pitch   float64        // from one disc to the next
	half    float64        // of the drawing
	tallest float64        // disc
}

// total is the bar with its discs in the bar's unit.
func (b loadedBar) total() roomful.Mass {
	sum := b.Bar.Kg()
	for _, m := range b.discs {
		sum += 2 * m.Kg()
	}
	return roomful.Kg(sum).Near(b.unit())
}

// unit is what the bar is counted in: as its discs are, or else as the bar itself.
func (b loadedBar) unit() roomful.MassUnit {
	if len(b.discs) > 0 {
		return b.discs[0].Unit
	}
	return b.Bar.Unit
}

// title says what the bar weighs.
func (b loadedBar) title() string {
	if !b.barKnown() {
		return "A bar and its discs"
	}
	return b.total().String() + " on the bar"
}

// barKnown reports whether the bare bar's mass is told.
func (b loadedBar) barKnown() bool { return b.Bar.Value > 0 && b.Bar.Kg() <= 1000 }

// bare names the bare bar.
func (b loadedBar) bare() string {
	if !b.barKnown() {
		return "bar"
	}
	return b.Bar.String() + " bar"
}

// says tells how to load the bar.
func (b loadedBar) says() string {
	if len(b.discs) == 0 {
		return b.bare() + " with nothing on it."
	}
	var figures []string
	for _, m := range b.discs {
		figures = append(figures, b.figure(m))
	}
	return fmt.Sprintf("%s, and on each side from the inside: %s.", b.bare(), strings.Join(figures, ", "))
}

// figure writes a disc's mass, with its unit when the bar does not tell it.
func (b loadedBar) figure(m roomful.Mass) string {
	if m.Unit != b.Bar.Unit || !b.barKnown() {
		return m.String()
	}
	return roomful.Figure(m.Value)
}

// table lists the discs of one side.
func (b loadedBar) table() Table {
	t := Table{
		Caption: b.title() + ": " + b.bare() + ", without collars",
		Head:    []string{"Disc on each side", "Mass", "Colour"},
	}
	for i, m := range b.discs {
		colour := m.DiscColour()
		if colour == "" {
			colour = "by its figure"
		}
		t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), m.String(), colour})
	}
	return t
}

// draw paints the bar, its discs from the outside in and their figures.
func (b loadedBar) draw(d *drawing, _ string) {
	middle := b.half
	d.put("rect", "class", "pic-shaft", "x", "0", "y", px(barY-2.5), "width", px(2*b.half), "height", "5")
	for _, side := range []float64{-1, 1} {
		d.put("rect", "class", "pic-shaft", "x", px(middle+side*(shaftHalf-5)-2.5), "y", px(barY-7), "width", "5", "height", "14")
	}
	d.words("text", b.bare(), "class", "pic-word", "x", px(middle), "y", px(barY-13), "text-anchor", "middle")
	for i, m := range b.discs {
		for _, side := range []float64{-1, 1} {
			b.disc(d, m, middle+side*(shaftHalf+b.pitch*(float64(i)+.5)), b.below(i))
		}
	}
}

// below reports whether the figure of a disc stands beneath it: where figures would
// touch, every second does.
func (b loadedBar) below(i int) bool { return b.pitch < discMost-2 && i%2 == 1 }

// disc paints one disc around x with its figure above or below.
func (b loadedBar) disc(d *drawing, m roomful.Mass, x float64, below bool) {
	high, wide := discHigh(m), min(9+m.Kg()/3, b.pitch-2)
	class := "pic-disc"
	if colour := m.DiscColour(); colour != "" {
		class += " pic-disc-" + colour
	}
	d.put("rect", "class", class, "x", px(x-wide/2), "y", px(barY-high/2), "width", px(wide), "height", px(high), "rx", "1.5")
	y := barY - b.tallest/2 - 6
	if below {
		y = barY + b.tallest/2 + 15
	}
	d.words("text", roomful.Figure(m.Value), "class", "pic-count", "x", px(x), "y", px(y), "text-anchor", "middle")
}

// discHigh is how high a disc is drawn. In the rules the discs from 10 kg up are equally
// high; here each is a little bigger than the next lighter one, so that they are told
// apart at arm's length (judgement).
func discHigh(m roomful.Mass) float64 { return 24 + 54*math.Sqrt(min(m.Kg(), 25)/25) }
