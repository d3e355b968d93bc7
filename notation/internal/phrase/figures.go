package phrase

import (
	"math"
	"strings"
	"time"

	"roomful"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// Figures are one or two figures with their unit, not yet put to use.
type Figures struct {
	By         [2]float64
	N          int // how many figures
	Unit       vocab.MeasureUnit
	Clock      bool
	division   int // 1 or 2 when a division was named
	implements int
	at         scan.Span
	lifted     bool // an @ stood before them
	first      bool // stands before the name
	third      bool // there were more than two
}

// Seconds makes a length of time.
func Seconds(v float64) time.Duration {
	return time.Duration(math.Round(min(v, longestTime) * float64(time.Second)))
}

// longestTime is the longest time that is read, in seconds; no figure that needs
// more digits is one.
const longestTime = 999999 * 60

// figuresOf = figure [ unit ] [ "/" figure [ unit ] ] | figure "-" figure unit .
func (r *Reading) figures() (q Figures, ok bool) {
	from := r.C.I
	if !r.Figure(&q) {
		return q, false
	}
	for r.C.Is("/") && scan.FigureKind(r.C.Peek(1)) {
		r.C.I++
		r.sameImplements(from)
		if q.N == 2 {
			r.C.I++
			q.third = true
			if u, ok := r.unit(&q, new(float64)); ok {
				q.Unit = u
			}
			continue
		}
		r.Figure(&q)
	}
	q.at = r.C.Span(from, r.C.I)
	return q, true
}

// sameImplements passes over the second "2 x" of "2 x 24/2 x 16 kg".
func (r *Reading) sameImplements(from int) {
	t := r.C.Peek(0)
	if from < 2 || r.C.Tokens[from-1].Text != "x" || r.C.Tokens[from-2].Kind != scan.Number || r.C.Tokens[from-2].Value != t.Value {
		return
	}
	if r.C.Peek(1).Text == "x" && scan.FigureKind(r.C.Peek(2)) {
		r.C.I += 2
	}
}

// thirdFigure speaks of a third figure, and keeps all as a note.
func (r *Reading) thirdFigure(at scan.Span, text string) {
	r.Fault(at, diag.Quote(text)+" has more than two figures", "give one figure, or one for each of the two divisions")
	r.noteHere(text)
}

// Figure reads one figure with its unit into q.
func (r *Reading) Figure(q *Figures) bool {
	t := r.C.Peek(0)
	if !scan.FigureKind(t) {
		return false
	}
	r.C.I++
	value := t.Value
	unit, ok := vocab.MeasureUnit{}, false
	if t.Kind == scan.Clock {
		unit, ok, q.Clock = vocab.In(roomful.Second), true, true
		r.C.TakeAny("min", "mins", "minutes")
	} else {
		unit, ok = r.unit(q, &value)
	}
	if q.N < 2 {
		q.By[q.N] = value
		q.N++
	}
	if ok {
		q.Unit = unit
	}
	return true
}

// unit reads the unit after a figure. Minutes and seconds may be marked by ' and
// ", and "in" is a preposition before a time.
func (r *Reading) unit(q *Figures, value *float64) (vocab.MeasureUnit, bool) {
	t := r.C.Peek(0)
	switch {
	case t.Tight && t.Text == "'":
		return r.minuteMark(value), true
	case t.Tight && t.Text == "\"" && r.closesQuote(t):
		return vocab.MeasureUnit{}, false
	case t.Tight && t.Text == "\"":
		r.C.I++
		return vocab.MeasureUnit{Class: vocab.Counted, Unit: roomful.Inch}, true // or seconds: assign decides
	case t.Text == "k" && !t.Tight, t.Text == "in" && r.prepositionIn():
		return vocab.MeasureUnit{}, false
	}
	u, ok := vocab.UnitWords[t.Text]
	if !ok || r.nameBegins(t.Text) {
		return vocab.MeasureUnit{}, false
	}
	r.C.I++
	if u.Times > 1 {
		*value *= u.Times
	}
	return u, true
}

// closesQuote reports whether a quotation mark ends a quotation, rather than
// meaning inches or seconds.
func (r *Reading) closesQuote(t scan.Token) bool {
	open := false
	last := ' '
	for _, c := range r.C.Raw[:t.From] {
		if strings.ContainsRune("\"“”", c) && (last < '0' || last > '9') {
			open = !open
		}
		last = c
	}
	return open
}

// nameBegins reports whether a unit word is the first of a movement's name, as
// in "10 step ups".
func (r *Reading) nameBegins(word string) bool {
	if word != "step" && word != "foot" {
		return false
	}
	_, n := r.Match(r.C)
	return n > 1
}

// minuteMark reads 2' and 2'30".
func (r *Reading) minuteMark(value *float64) vocab.MeasureUnit {
	r.C.I++
	s := r.C.Peek(0)
	if s.Kind != scan.Number || !s.Tight {
		r.C.Mark("'")
		return vocab.In(roomful.Minute)
	}
	r.C.I++
	r.C.Mark("\"")
	*value = min(*value*60+s.Value, scan.Largest)
	return vocab.In(roomful.Second)
}

// prepositionIn reports whether "in" is not inches: a time or a word of a team
// follows.
func (r *Reading) prepositionIn() bool {
	next := r.C.Peek(1)
	return scan.FigureKind(next) || next.Text == "pairs" || next.Text == "threes" || next.Text == "teams" || next.Text == "the" || next.Text == "a"
}

// decimalComma says how a comma within a figure was read.
func (r *Reading) decimalComma(from int) {
	for _, t := range r.C.Tokens[from:r.C.I] {
		raw := r.C.Raw[t.From:t.To]
		if t.Kind == scan.Number && strings.Contains(raw, ",") && t.Value != float64(int(t.Value)) {
			r.Hint(t.Place(r.C.No), diag.Quote(raw)+" is read as "+roomful.Figure(t.Value), "write the decimal point as a full stop")
		}
	}
}

// Integer reads a whole number, in figures or as a word up to twelve.
func (r *Reading) Integer() (int, bool) {
	t := r.C.Peek(0)
	if t.Kind == scan.Number && t.Value == float64(int(t.Value)) {
		r.C.I++
		return int(t.Value), true
	}
	if n, ok := vocab.Numerals[t.Text]; ok {
		r.C.I++
		return n, true
	}
	return 0, false
}

// Time reads a length of time. Without a unit it is one only where the place
// says minutes; there m means minutes too.
func (r *Reading) Time(bareMinutes bool) (Timed, bool) {
	from := r.C.I
	if r.C.TakeAny("a minute", "one minute") {
		return Timed{time.Minute, r.C.Span(from, r.C.I)}, true
	}
	low := r.C.Peek(0)
	ranged := scan.FigureKind(low) && r.C.Peek(1).Text == "-" && scan.FigureKind(r.C.Peek(2)) && r.C.Peek(3).Text != "-"
	if ranged {
		r.C.I += 2
	}
	d, ok := r.timeValue(bareMinutes)
	if !ok {
		r.C.I = from
		return Timed{}, false
	}
	at := r.C.Span(from, r.C.I)
	if ranged {
		d = Seconds(d.Seconds() * low.Value / max(r.C.Tokens[from+2].Value, 1))
		r.Hint(at, diag.Quote(r.C.Slice(from, r.C.I))+" is read as "+vocab.Length(d), "say one time to have it planned")
	}
	return Timed{d, at}, true
}

// timeValue reads the figure and its unit.
func (r *Reading) timeValue(bareMinutes bool) (time.Duration, bool) {
	t := r.C.Peek(0)
	var q Figures
	if !r.Figure(&q) {
		return 0, false
	}
	last := r.C.Tokens[r.C.I-1]
	switch {
	case t.Value*60 > longestTime && q.Unit.Class == vocab.Bare:
		return 0, false
	case q.Clock:
		return Seconds(t.Value), true
	case q.Unit.Class == vocab.Bare && bareMinutes:
		return Seconds(t.Value * 60), true
	case q.Unit.Class != vocab.Counted:
		return 0, false
	case last.Text == "\"":
		return Seconds(q.By[0]), true
	case q.Unit.Unit == roomful.Metre && bareMinutes:
		return Seconds(t.Value * 60), true
	case q.Unit.Unit.Base() != roomful.Second:
		return 0, false
	}
	if q.By[0]*q.Unit.Unit.Size() > longestTime {
		return 0, false
	}
	d := Seconds(q.By[0] * q.Unit.Unit.Size())
	if q.Unit.Unit == roomful.Minute && r.C.Peek(0).Kind == scan.Number {
		before := r.C.I
		var more Figures
		if r.Figure(&more) && more.Unit.Class == vocab.Counted && more.Unit.Unit == roomful.Second {
			return d + Seconds(more.By[0]), true
		}
		r.C.I = before
	}
	return d, true
}

// timeFollows reports whether a time stands here.
func (r *Reading) timeFollows(bareMinutes bool) bool {
	before := r.C.I
	defer func() { r.C.I = before }()
	d, ok := r.timeValue(bareMinutes)
	return ok && d > 0
}

// setTime reads a time into t; a second one that differs is a fault.
func (r *Reading) setTime(t *Timed, what string, bareMinutes bool) bool {
	read, ok := r.Time(bareMinutes)
	if ok {
		r.setTimed(t, what, read)
	}
	return ok
}

// setTimed keeps a time; a second one that differs is a fault.
func (r *Reading) setTimed(t *Timed, what string, read Timed) {
	if t.Set() && t.D != read.D {
		r.clash(what, read.At)
		return
	}
	*t = read
}

// setCount keeps a count; a second one that differs is a fault.
func (r *Reading) setCount(c *Count, what string, n, from int) {
	read := Count{n, r.C.Span(from, r.C.I)}
	if c.Set() && c.N != n {
		r.clash(what, read.At)
		return
	}
	*c = read
}

// clash says that a thing was said twice on one line. What came second is kept
// as a note.
func (r *Reading) clash(what string, second scan.Span) {
	r.Context.Clash(what, second)
	r.F.Notes = append(r.F.Notes, r.C.TextAt(second))
}
