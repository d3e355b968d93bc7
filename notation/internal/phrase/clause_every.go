package phrase

import (
	"strings"
	"time"

	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// everyClause = ( "every" time | "EMOM" | "E2MOM" | "E2:30" ) [ "on the minute" ] [ "x" n | [ "for" ] n ] .
func (r *Reading) everyClause() bool {
	from := r.C.I
	each := Timed{D: time.Minute}
	switch {
	case r.C.TakeAny("emom", "on the minute", "every minute"):
	case r.C.Take("every") || r.C.Take("on the"):
		var ok bool
		if each, ok = r.Time(false); !ok {
			return false
		}
	case r.emomWord(&each):
	default:
		return false
	}
	r.C.TakeAny("on the minute", "on the clock", "on the")
	each.At = r.C.Span(from, r.C.I)
	r.F.Interval = each
	r.C.Mark(":")
	r.everyLength(each)
	return true
}

// emomWord reads E2MOM and E90S.
func (r *Reading) emomWord(each *Timed) bool {
	t := r.C.Peek(0).Text
	n := scan.Digits(strings.TrimPrefix(t, "e"))
	if t == "e" && r.C.Peek(1).Tight && r.C.Peek(1).Kind == scan.Clock {
		each.D = time.Duration(r.C.Peek(1).Value) * time.Second
		r.C.I += 2
		r.C.Take("mom")
		return true
	}
	if !strings.HasPrefix(t, "e") || n == 0 || n > 4 {
		return false
	}
	_, value, _ := scan.Figure(t[1 : 1+n])
	switch t[1+n:] {
	case "mom", "min", "m":
		each.D = time.Duration(value) * time.Minute
	case "":
		// e2:30, which the scanner parts at the colon.
		colon, seconds := r.C.Peek(1), r.C.Peek(2)
		if colon.Text != ":" || !colon.Tight || seconds.Kind != scan.Number || !seconds.Tight || seconds.Value >= 60 {
			return false
		}
		each.D = time.Duration(value)*time.Minute + time.Duration(seconds.Value)*time.Second
		r.C.I += 2
	case "s", "sec":
		each.D = time.Duration(value) * time.Second
	default:
		return false
	}
	r.C.I++
	return true
}

// everyLength reads how often or how long: "x 5", "for 12 min", or a figure
// alone, which is minutes.
func (r *Reading) everyLength(each Timed) {
	before := r.C.I
	if r.C.Take("x") {
		if n, ok := r.Integer(); ok && vocab.UnitWords[r.C.Peek(0).Text].Class == vocab.Bare {
			if r.C.TakeAny("rounds", "rds") {
				r.F.Rounds = Count{n, r.C.Span(before, r.C.I)}
				return
			}
			r.C.TakeAny("sets", "times", "intervals")
			r.F.Times = Count{n, r.C.Span(before, r.C.I)}
			return
		}
		r.C.I = before
		r.C.Take("x")
	}
	r.C.Take("for")
	start := r.C.I
	if r.countFollows("rounds", "rds", "sets", "times", "intervals", "x") {
		r.C.I = start
		return
	}
	if t, ok := r.Time(true); ok && !(r.C.I == start+1 && start == before && r.C.Tokens[start].Kind == scan.Number && r.movementFollows()) {
		r.F.Total = t
		return
	}
	r.C.I = before
}

// countFollows reports whether a whole number and one of the words stand here.
func (r *Reading) countFollows(words ...string) bool {
	before := r.C.I
	defer func() { r.C.I = before }()
	_, ok := r.Integer()
	return ok && r.C.TakeAny(words...)
}
