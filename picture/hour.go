package picture

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"roomful"
)

// The heights of the hour's ribbon in px: the words, the figures and the bar, and a row
// beneath for each thing that is said there.
const (
	hourWordsY   = 13
	hourFiguresY = 30
	hourBarY     = 40
	hourBarPx    = 14
	hourRowPx    = 20
	wordDx       = 5 // from a rule to the words beside it
)

// ribbon is an hour to scale.
type ribbon struct {
	lines  []roomful.HourLine // those that can be drawn
	length time.Duration      // of the class
	ends   time.Duration      // of the last line
	total  time.Duration      // of the drawing
	now    *time.Duration     // on the clock of the class
}

// Hour draws a class as a ribbon to scale, with what is spare or too much at its end,
// and where it stands now when that is told.
func Hour(h *roomful.Hour, now *time.Duration) Picture {
	r := newRibbon(h, now)
	p := Picture{
		Title: "The hour, minute by minute",
		Desc:  r.says(),
		Table: r.table(),
		class: "hour", height: hourBarY + hourBarPx + 4, draw: r.draw,
	}
	if r.over() > 0 {
		p.height += hourRowPx
	}
	if r.now != nil {
		p.height += hourRowPx
	}
	return p
}

// HourWords says the hour in a line, a word to each stretch with its minutes: a drawing has
// no room for the words of the short ones.
func HourWords(h *roomful.Hour) string {
	r := newRibbon(h, nil)
	var words []string
	for _, l := range r.lines {
		words = append(words, lineWords(l)+"\u00a0"+minutes(l.Length()))
	}
	if r.length > r.ends && len(words) > 0 {
		words = append(words, "spare\u00a0"+minutes(r.length-r.ends))
	}
	return strings.Join(words, " · ")
}

// longestHour is what no class exceeds.
const longestHour = 24 * time.Hour

// newRibbon keeps what can be drawn of an hour.
func newRibbon(h *roomful.Hour, now *time.Duration) ribbon {
	var r ribbon
	if h != nil {
		r.length = min(max(h.Length, 0), longestHour)
		for _, l := range h.Lines {
			if l.Start >= r.ends && l.End > l.Start && l.End <= longestHour {
				r.lines, r.ends = append(r.lines, l), l.End
			}
		}
	}
	r.total = max(r.length, r.ends)
	if now != nil && *now >= 0 && r.total > 0 {
		r.now = now
	}
	return r
}

// over is how long after the end of the class the last line ends.
func (r ribbon) over() time.Duration { return max(r.ends-r.length, 0) }

// at is where a time of the class lies in percent of the width.
func (r ribbon) at(t time.Duration) float64 {
	return min(max(float64(t)/float64(r.total), 0), 1) * 100
}

// says tells the hour in a sentence or two.
func (r ribbon) says() string {
	if r.total == 0 {
		return "Nothing is planned yet."
	}
	said := fmt.Sprintf("%s of %s planned.", minutes(r.ends), minutesLong(r.length))
	switch spare := r.length - r.ends; {
	case spare > 0:
		said += fmt.Sprintf(" %s to spare.", minutesLong(spare))
	case spare < 0:
		said += fmt.Sprintf(" It runs %s over.", minutesLong(-spare))
	}
	if r.now != nil {
		said += " It is " + r.nowSays() + "."
	}
	return said
}

// nowSays tells where the class stands.
func (r ribbon) nowSays() string {
	said := "now " + clock(*r.now)
	for _, l := range r.lines {
		if *r.now >= l.Start && *r.now < l.End {
			return said + ", " + lineWords(l)
		}
	}
	if *r.now >= r.length {
		return said + ", the class is over"
	}
	return said
}

// table lists the lines.
func (r ribbon) table() Table {
	t := Table{Caption: "The hour, from the start of the class in min:s", Head: []string{"What", "From", "To", "Lasts"}}
	row := func(what string, from, to time.Duration) {
		t.Rows = append(t.Rows, []string{what, clock(from), clock(to), clock(to - from)})
	}
	for _, l := range r.lines {
		what := l.What
		if what == "" {
			what = lineWords(l)
		}
		row(what, l.Start, l.End)
	}
	if r.length > r.ends {
		row("spare", r.ends, r.length)
	}
	if r.over() > 0 {
		row("over the class", r.length, r.ends)
	}
	return t
}

// draw paints the ribbon from its lines to what stands beneath it.
func (r ribbon) draw(d *drawing, id string) {
	d.put("rect", "class", "pic-ground", "x", "0", "y", px(hourBarY), "width", "100%", "height", px(hourBarPx))
	if r.total == 0 {
		d.words("text", "Nothing is planned yet", "class", "pic-soft", "x", "0", "y", px(hourFiguresY))
		return
	}
	for _, l := range r.lines {
		r.drawLine(d, l)
	}
	r.drawSpare(d, id)
	y := float64(hourBarY + hourBarPx + 4)
	over := r.over()
	if over > 0 {
		r.band(d, "pic-over", "", r.length, r.ends)
		d.line("pic-end", percent(r.at(r.length)), "0", percent(r.at(r.length)), px(y-4))
	}
	if r.now != nil {
		r.drawNow(d, y)
		y += hourRowPx
	}
	if over > 0 {
		d.words("text", minutes(over)+" over the "+minutesLong(r.length),
			"class", "pic-brick pic-bold", "x", "100%", "y", px(y+hourRowPx-7), "text-anchor", "end")
	}
}

// drawLine paints one line: its band, the rule at its start and its words.
func (r ribbon) drawLine(d *drawing, l roomful.HourLine) {
	r.band(d, "pic-"+hourClass(l.Kind), lineWords(l)+", "+minutesLong(l.Length()), l.Start, l.End)
	share := r.at(l.End) - r.at(l.Start)
	x := percent(r.at(l.Start))
	d.line("pic-rule", x, "0", x, px(hourBarY+hourBarPx))
	class := "pic-word"
	if l.Kind == roomful.HourWork {
		class += " pic-bold"
	}
	d.either(lineWords(l), lineBrief(l), room{share, wordDx + 2}, class, "x", x, "dx", px(wordDx), "y", px(hourWordsY))
	d.when(minutes(l.Length()), room{share, wordDx}, "pic-count", "x", x, "dx", px(wordDx), "y", px(hourFiguresY))
}

// band paints a stretch of the ribbon.
func (r ribbon) band(d *drawing, class, says string, from, to time.Duration) {
	attributes := []string{
		"class", class, "x", percent(r.at(from)), "y", px(hourBarY),
		"width", percent(r.at(to) - r.at(from)), "height", px(hourBarPx),
	}
	if says == "" {
		d.put("rect", attributes...)
		return
	}
	d.open("rect", attributes...)
	d.words("title", says)
	d.close("rect")
}

// drawSpare hatches what the class has left at its end.
func (r ribbon) drawSpare(d *drawing, id string) {
	if r.length <= r.ends {
		return
	}
	d.open("defs")
	d.open("pattern", "id", id+"-hatch", "width", "9", "height", "9", "patternUnits", "userSpaceOnUse", "patternTransform", "rotate(45)")
	d.put("rect", "class", "pic-hatch", "width", "4", "height", "9")
	d.close("pattern")
	d.close("defs")
	d.put("rect", "class", "pic-spare", "fill", "url(#"+id+"-hatch)", "x", percent(r.at(r.ends)), "y", px(hourBarY),
		"width", percent(100-r.at(r.ends)), "height", px(hourBarPx))
	x := percent(r.at(r.ends))
	d.line("pic-rule", x, "0", x, px(hourBarY+hourBarPx))
	in := room{100 - r.at(r.ends), wordDx}
	d.when("spare", in, "pic-word pic-soft", "x", x, "dx", px(wordDx), "y", px(hourWordsY))
	d.when(minutes(r.length-r.ends), in, "pic-count pic-soft", "x", x, "dx", px(wordDx), "y", px(hourFiguresY))
}

// drawNow marks where the class stands, with its words on the side that has room.
func (r ribbon) drawNow(d *drawing, y float64) {
	at := r.at(*r.now)
	x := percent(at)
	d.line("pic-halo", x, px(hourBarY-4), x, px(hourBarY+hourBarPx))
	d.line("pic-now", x, px(hourBarY-4), x, px(y+hourRowPx-6))
	anchor, dx := "start", "7"
	if at > 50 {
		anchor, dx = "end", "-7"
	}
	d.whole(r.nowSays(), room{max(at, 100-at), 7}, "pic-bold", "x", x, "dx", dx, "y", px(y+hourRowPx-7), "text-anchor", anchor)
}

// hourClass is the class of a kind of line: what is done is filled, the piece in ink,
// and what is only listened to or tidied stays open.
func hourClass(k roomful.HourKind) string {
	switch k {
	case roomful.HourWork:
		return "work"
	case roomful.HourWarmUp, roomful.HourRamp:
		return "ready"
	}
	return "open"
}

// lineWords names a line shortly: the part for work, else its kind, and the heat.
func lineWords(l roomful.HourLine) string {
	words := "line"
	if l.Kind <= roomful.HourReset {
		words = l.Kind.String()
	}
	if l.Kind == roomful.HourWork && l.Part != "" {
		words = l.Part
	}
	if l.Heat > 0 {
		words += ", " + lineBrief(l)
	}
	return words
}

// lineBrief names a line where there is little room: by its heat when it has one.
func lineBrief(l roomful.HourLine) string {
	if l.Heat > 0 {
		return "heat " + strconv.Itoa(l.Heat)
	}
	return lineWords(l)
}

// clock writes a time of the class in minutes and seconds, "61:30": a coach counts a
// class in minutes beyond the hour too.
func clock(t time.Duration) string {
	s := int(t.Round(time.Second) / time.Second)
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}

// minutes writes a length in minutes: "9", or "5:20" between two.
func minutes(t time.Duration) string { return strings.TrimSuffix(clock(t), ":00") }

// minutesLong writes a length with its unit.
func minutesLong(t time.Duration) string {
	if t == time.Minute {
		return "1 minute"
	}
	return minutes(t) + " minutes"
}
