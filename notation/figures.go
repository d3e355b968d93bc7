package notation

import (
	"math"
	"strings"
	"time"

	"roomful"
)

// figures are one or two figures with their unit, not yet put to use.
type figures struct {
	by         [2]float64
	n          int // how many figures
	unit       measureUnit
	clock      bool
	division   int // 1 or 2 when a division was named
	implements int
	at         span
	first      bool // stands before the name
	third      bool // there were more than two
}

// seconds makes a length of time.
func seconds(v float64) time.Duration {
	return time.Duration(math.Round(min(v, largest*60) * float64(time.Second)))
}

// figuresOf = figure [ unit ] [ "/" figure [ unit ] ] | figure "-" figure unit .
func (r *reading) figures() (q figures, ok bool) {
	from := r.c.i
	if !r.figure(&q) {
		return q, false
	}
	for r.c.is("/") && figureKind(r.c.peek(1)) {
		r.c.i++
		if q.n == 2 {
			r.c.i++
			q.third = true
			if u, ok := r.unit(&q, new(float64)); ok {
				q.unit = u
			}
			continue
		}
		r.figure(&q)
	}
	q.at = r.c.span(from, r.c.i)
	return q, true
}

// thirdFigure speaks of a third figure, and keeps all as a note.
func (r *reading) thirdFigure(at span, text string) {
	r.fault(at, quote(text)+" has more than two figures", "give one figure, or one for each of the two divisions")
	r.noteHere(text)
}

// figure reads one figure with its unit into q.
func (r *reading) figure(q *figures) bool {
	t := r.c.peek(0)
	if !figureKind(t) {
		return false
	}
	r.c.i++
	value := t.value
	unit, ok := measureUnit{}, false
	if t.kind == clock {
		unit, ok, q.clock = measureUnit{counted, roomful.Second, 0, 1}, true, true
		r.c.takeAny("min", "mins", "minutes")
	} else {
		unit, ok = r.unit(q, &value)
	}
	if q.n < 2 {
		q.by[q.n] = value
		q.n++
	}
	if ok {
		q.unit = unit
	}
	return true
}

// unit reads the unit after a figure. Minutes and seconds may be marked by ' and
// ", and "in" is a preposition before a time.
func (r *reading) unit(q *figures, value *float64) (measureUnit, bool) {
	t := r.c.peek(0)
	switch {
	case t.tight && t.text == "'":
		return r.minuteMark(value), true
	case t.tight && t.text == "\"":
		r.c.i++
		return measureUnit{counted, roomful.Inch, 0, 0}, true // or seconds: assign decides
	case t.text == "k" && !t.tight, t.text == "in" && r.prepositionIn():
		return measureUnit{}, false
	}
	u, ok := unitWords[t.text]
	if !ok {
		return u, false
	}
	r.c.i++
	if u.times > 1 {
		*value *= u.times
	}
	return u, true
}

// minuteMark reads 2' and 2'30".
func (r *reading) minuteMark(value *float64) measureUnit {
	r.c.i++
	s := r.c.peek(0)
	if s.kind != number || !s.tight {
		r.c.mark("'")
		return measureUnit{counted, roomful.Minute, 0, 1}
	}
	r.c.i++
	r.c.mark("\"")
	*value = min(*value*60+s.value, largest)
	return measureUnit{counted, roomful.Second, 0, 1}
}

// prepositionIn reports whether "in" is not inches: a time or a word of a team
// follows.
func (r *reading) prepositionIn() bool {
	next := r.c.peek(1)
	return figureKind(next) || next.text == "pairs" || next.text == "threes" || next.text == "teams" || next.text == "the" || next.text == "a"
}

// decimalComma says how a comma within a figure was read.
func (r *reading) decimalComma(from int) {
	for _, t := range r.c.tokens[from:r.c.i] {
		raw := r.c.raw[t.from:t.to]
		if t.kind == number && strings.Contains(raw, ",") && t.value != float64(int(t.value)) {
			r.hint(span{r.c.no, t.col, t.stop}, quote(raw)+" is read as "+roomful.Figure(t.value), "write the decimal point as a full stop")
		}
	}
}

// integer reads a whole number, in figures or as a word up to twelve.
func (r *reading) integer() (int, bool) {
	t := r.c.peek(0)
	if t.kind == number && t.value == float64(int(t.value)) {
		r.c.i++
		return int(t.value), true
	}
	if n, ok := numerals[t.text]; ok {
		r.c.i++
		return n, true
	}
	return 0, false
}

// time reads a length of time. Without a unit it is one only where the place
// says minutes; there m means minutes too.
func (r *reading) time(bareMinutes bool) (timed, bool) {
	from := r.c.i
	if r.c.takeAny("a minute", "one minute") {
		return timed{time.Minute, r.c.span(from, r.c.i)}, true
	}
	low := r.c.peek(0)
	ranged := figureKind(low) && r.c.peek(1).text == "-" && figureKind(r.c.peek(2)) && r.c.peek(3).text != "-"
	if ranged {
		r.c.i += 2
	}
	d, ok := r.timeValue(bareMinutes)
	if !ok {
		r.c.i = from
		return timed{}, false
	}
	at := r.c.span(from, r.c.i)
	if ranged {
		d = seconds(d.Seconds() * low.value / max(r.c.tokens[from+2].value, 1))
		r.hint(at, quote(r.c.slice(from, r.c.i))+" is read as "+length(d), "say one time to have it planned")
	}
	return timed{d, at}, true
}

// timeValue reads the figure and its unit.
func (r *reading) timeValue(bareMinutes bool) (time.Duration, bool) {
	t := r.c.peek(0)
	var q figures
	if !r.figure(&q) {
		return 0, false
	}
	last := r.c.tokens[r.c.i-1]
	switch {
	case q.clock:
		return seconds(t.value), true
	case q.unit.class == bare && bareMinutes:
		return seconds(t.value * 60), true
	case q.unit.class != counted:
		return 0, false
	case last.text == "\"":
		return seconds(q.by[0]), true
	case q.unit.unit == roomful.Metre && bareMinutes:
		return seconds(t.value * 60), true
	case q.unit.unit.Base() != roomful.Second:
		return 0, false
	}
	d := seconds(q.by[0] * q.unit.unit.Size())
	if q.unit.unit == roomful.Minute && r.c.peek(0).kind == number {
		before := r.c.i
		var more figures
		if r.figure(&more) && more.unit.class == counted && more.unit.unit == roomful.Second {
			return d + seconds(more.by[0]), true
		}
		r.c.i = before
	}
	return d, true
}

// timeFollows reports whether a time stands here.
func (r *reading) timeFollows(bareMinutes bool) bool {
	before := r.c.i
	defer func() { r.c.i = before }()
	d, ok := r.timeValue(bareMinutes)
	return ok && d > 0
}

// setTime reads a time into t; a second one that differs is a fault.
func (r *reading) setTime(t *timed, what string, bareMinutes bool) bool {
	read, ok := r.time(bareMinutes)
	if ok {
		r.setTimed(t, what, read)
	}
	return ok
}

// setTimed keeps a time; a second one that differs is a fault.
func (r *reading) setTimed(t *timed, what string, read timed) {
	if t.set() && t.d != read.d {
		r.clash(what, read.at)
		return
	}
	*t = read
}

// setCount keeps a count; a second one that differs is a fault.
func (r *reading) setCount(c *count, what string, n, from int) {
	read := count{n, r.c.span(from, r.c.i)}
	if c.set() && c.n != n {
		r.clash(what, read.at)
		return
	}
	*c = read
}

// clash says that a thing was said twice on one line. What came second is kept
// as a note.
func (r *reading) clash(what string, second span) {
	r.context.clash(what, second)
	r.f.notes = append(r.f.notes, r.c.textAt(second))
}
