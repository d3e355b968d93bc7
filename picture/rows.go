package picture

// nonePx is the height of a drawing with nothing to draw.
const nonePx = 28

// none says that there is nothing to draw yet.
func (d *drawing) none(words string) {
	d.words("text", words, "class", "pic-soft", "x", "0", "y", "18")
}

// key says above an axis what is meant and what the figures count.
func (d *drawing) key(meant window, unit string) {
	if meant.stated {
		d.put("rect", "class", "pic-meant", "x", "0", "y", "2", "width", "16", "height", "13")
		d.put("rect", "class", "pic-meant-edge", "x", "0", "y", "2", "width", "1.5", "height", "13")
		d.put("rect", "class", "pic-meant-edge", "x", "14.5", "y", "2", "width", "1.5", "height", "13")
		d.whole("meant: "+meant.words, room{100, 22 + 12 + widthPx(unit)}, "pic-word", "x", "22", "y", "13")
	}
	d.words("text", unit, "class", "pic-soft pic-unit", "x", "100%", "y", "13", "text-anchor", "end")
}

// tickFigures writes the figures of an axis in a plot of a width; where they would touch,
// every second waits for more room.
func (d *drawing) tickFigures(a axis, y, plotPercent float64) {
	between := room{plotPercent / float64(max(len(a.ticks)-1, 1)), 9}
	wait, fits := 0, true
	for _, v := range a.ticks {
		step, ok := between.step(a.tick(v))
		wait, fits = max(wait, step), fits && ok
	}
	for i, v := range a.ticks {
		class := "pic-tick"
		if i%2 == 1 {
			class += from(wait)
		}
		if i%2 == 0 || fits {
			d.text(a.tick(v), class, []string{"x", percent(a.at(v)), "y", px(y), "text-anchor", "middle"})
		}
	}
}

// ground paints in a plot what lies beneath the marks: the band of what is meant and a
// hair at each tick.
func (d *drawing) ground(a axis, meant window, top, bottom float64) {
	y1, y2 := px(top), px(bottom)
	if meant.stated {
		low, high := a.at(meant.low), a.at(meant.high)
		d.put("rect", "class", "pic-meant", "x", percent(low), "y", y1, "width", percent(high-low), "height", px(bottom-top))
	}
	for _, v := range a.ticks {
		x := percent(a.at(v))
		d.line("pic-hair", x, y1, x, y2)
	}
	if meant.stated {
		for _, v := range meant.ends() {
			x := percent(a.at(v))
			d.line("pic-meant-line", x, y1, x, y2)
		}
	}
}

// heading writes the line above a group: its shape and name, and at the right a remark.
func (d *drawing) heading(s Shape, name, remark string, y float64) {
	base := y + groupPx - 10
	x := 0.0
	if s != None {
		d.mark(s, "pic-solid", s.String(), px(shapePx), px(base-4.5))
		x = 20
	}
	if name == "" {
		name = s.String()
	}
	d.whole(name, room{100, x + 12 + widthPx(remark)}, "pic-heading", "x", px(x), "y", px(base))
	if remark != "" {
		d.words("text", remark, "class", "pic-soft", "x", "100%", "y", px(base), "text-anchor", "end")
	}
	d.line("pic-rule", "0", px(y+groupPx-1), "100%", px(y+groupPx-1))
}
