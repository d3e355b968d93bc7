package phrase

import (
	"time"

	"roomful/notation/internal/diag"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// capClause = ( "cap" | "TC" | "time limit" ) time | time ( "cap" | "TC" ) .
func (r *Reading) capClause() bool {
	from := r.C.I
	if r.C.TakeAny("time cap", "timecap", "cap", "tc", "time limit", "capped") {
		r.C.TakeAny("of", "at", "is", "in")
		r.C.Mark(":")
		r.C.Mark("=")
		if !r.negativeFollows() {
			r.C.Mark("-")
		}
		if t, ok := r.Time(true); ok {
			r.setTimed(&r.F.Cap, "cap", Timed{t.D, r.C.Span(from, r.C.I)})
		} else {
			r.Fault(r.C.Span(from, r.C.I), "a cap without a time", "write cap 12 min")
		}
		return true
	}
	t, ok := r.Time(true)
	if !ok || !r.C.TakeAny("time cap", "timecap", "cap", "tc", "time limit") {
		return false
	}
	r.setTimed(&r.F.Cap, "cap", Timed{t.D, r.C.Span(from, r.C.I)})
	return true
}

// workRestClause = time [ "work" | "on" ] "/" time [ "rest" | "off" ] | n "/" n | time ( "work" | "on" ) .
func (r *Reading) workRestClause() bool {
	from := r.C.I
	work, ok := r.boutTime()
	if !ok {
		return false
	}
	named := r.C.TakeAny("work", "on", "working", "of work") || r.head && r.timedToken(from) && r.C.Take("hard")
	mid := r.C.I
	if named {
		r.C.Mark(",")
	}
	slash := r.C.Mark("/") || named && r.C.TakeAny("and", "then")
	rest, ok := r.boutTime()
	off := ok && r.C.TakeAny("rest", "off", "of rest", "recovery", "easy", "recover")
	switch {
	case ok && (slash && (named || off || r.barePair(from)) || named && off):
		at := r.C.Span(from, r.C.I)
		r.F.Work, r.F.Rest = Timed{work, at}, Timed{rest, at}
		r.restWhere()
	case named:
		r.C.I = mid
		r.F.Work = Timed{work, r.C.Span(from, mid)}
	default:
		return false
	}
	return true
}

// boutTime reads the time of a bout; a figure alone is seconds.
func (r *Reading) boutTime() (time.Duration, bool) {
	if t, ok := r.Time(false); ok {
		return t.D, true
	}
	t := r.C.Peek(0)
	if _, unit := vocab.UnitWords[r.C.Peek(1).Text]; t.Kind != scan.Number || t.Value > longestTime || unit || !r.head {
		return 0, false
	}
	r.C.I++
	return Seconds(t.Value), true
}

// barePair reports whether the figures just taken can be work and rest though
// neither word was said: they stand in a head and no movement follows.
func (r *Reading) barePair(from int) bool {
	_, unit := vocab.UnitWords[r.C.Peek(0).Text]
	return r.head && !r.open() && !unit && !r.movementFollows() && (r.F.Times.Set() || r.F.Rounds.Set() || r.C.Is("x") || r.timedToken(from))
}

// timedToken reports whether a time, rather than a bare figure, stands at i.
func (r *Reading) timedToken(i int) bool {
	return r.C.Tokens[i].Kind == scan.Clock || i+1 < len(r.C.Tokens) && vocab.UnitWords[r.C.Tokens[i+1].Text].Class == vocab.Counted
}

// restClause = "rest" time [ where ] | time ( "rest" | "off" ) [ where ] | time ( "change" | "each" | "stations" ) .
// On a line of its own among elements, "rest 1 min" is an element.
func (r *Reading) restClause() bool {
	from := r.C.I
	if r.C.TakeAny("rest", "resting", "change", "changeover", "transition") {
		changes := r.C.Tokens[r.C.I-1].Text[0] != 'r'
		if !changes && r.untimedRest(from) {
			return true
		}
		r.C.TakeAny("for", "is", "of")
		t, ok := r.Time(false)
		if !ok {
			return false
		}
		return r.setRest(Timed{t.D, r.C.Span(from, r.C.I)}, changes)
	}
	t, ok := r.Time(false)
	if !ok {
		return false
	}
	switch {
	case r.C.TakeAny("rest", "off", "recovery", "of rest"):
		return r.setRest(Timed{t.D, r.C.Span(from, r.C.I)}, false)
	case r.C.TakeAny("changeover", "change", "transition", "to change", "to move"):
		return r.setRest(Timed{t.D, r.C.Span(from, r.C.I)}, true)
	case !r.open() && r.eachClause(t):
		return true
	}
	return false
}

// untimedRest reads "rest 1:1" and, at a head, "rest as needed": rests that no
// clock can be set to.
func (r *Reading) untimedRest(from int) bool {
	if r.ratio() {
		r.noTime(from)
		return true
	}
	if !r.head || !r.C.TakeAny("as needed", "as required", "as long as needed", "as you need", "when needed", "fully", "until ready", "to recovery") {
		return false
	}
	r.F.Notes = append(r.F.Notes, r.C.Slice(from, r.C.I))
	return true
}

// ratio reads "1:1".
func (r *Reading) ratio() bool {
	if r.C.Peek(0).Kind != scan.Number || r.C.Peek(1).Text != ":" || r.C.Peek(2).Kind != scan.Number || !r.C.Peek(2).Tight {
		return false
	}
	r.C.I += 3
	return true
}

// noTime says that a rest by what the work took cannot be planned.
func (r *Reading) noTime(from int) {
	text := r.C.Slice(from, r.C.I)
	r.Fault(r.C.Span(from, r.C.I), diag.Quote(text)+" gives no time", "write one, such as rest 2 min").Detail = "a rest by what the work took cannot be planned; kept as a note"
	r.F.Notes = append(r.F.Notes, text)
}

// ratioClause = n ":" n ( "work" [ mark ] "rest" | "rest" ) .
func (r *Reading) ratioClause() bool {
	from := r.C.I
	if !r.ratio() {
		return false
	}
	if r.C.TakeAny("work to rest", "work", "on") {
		if !r.C.Mark(":") && !r.C.Mark("/") {
			r.C.Take("to")
		}
		r.C.TakeAny("rest", "off", "ratio")
	} else if !r.C.TakeAny("rest", "w r", "off") {
		return false
	}
	r.C.Take("ratio")
	r.noTime(from)
	return true
}

// setRest keeps a rest or a change by where it was said to stand.
func (r *Reading) setRest(t Timed, changes bool) bool {
	where := r.restWhereWord()
	if !r.head && where == "" && !changes {
		return false
	}
	switch {
	case where == "rounds":
		r.setTimed(&r.F.Between, "rest between rounds", t)
	case changes:
		r.setTimed(&r.F.Change, "change", t)
	case where == "stations":
		r.setTimed(&r.F.Rest, "rest", t)
		r.F.RestRange = t.At
	default:
		r.setTimed(&r.F.Rest, "rest", t)
	}
	return true
}

// restWhere reads where the rest of a pair stands.
func (r *Reading) restWhere() {
	if r.restWhereWord() == "stations" {
		r.F.RestRange = r.F.Rest.At
	}
}

// restWhereWord reads "between rounds" and the like.
func (r *Reading) restWhereWord() string {
	switch {
	case r.C.TakeAny("between rounds", "after each round", "between each round", "after every round", "between round"):
		return "rounds"
	case r.C.TakeAny("between stations", "after each station", "between each station", "between movements", "between exercises", "at each station"):
		return "stations"
	case r.C.TakeAny("between sets", "between each set", "between intervals", "between efforts", "after each set", "after each interval", "between", "after each", "each"):
		return "sets"
	}
	return ""
}

// eachFollows reports whether "each" or a station follows a time.
func (r *Reading) eachFollows() bool {
	before := r.C.I
	defer func() { r.C.I = before }()
	return r.C.TakeAny("each", "per", "a station", "at each", "station", "stations")
}

// eachClause reads what follows the time of each element.
func (r *Reading) eachClause(t Timed) bool {
	from := r.C.I
	switch {
	case r.C.TakeAny("at each station", "per station", "a station", "each station", "stations", "station", "on each station"):
		r.F.Stations = r.C.Span(from, r.C.I)
	case r.C.TakeAny("per movement", "per exercise", "at each movement", "each movement", "each exercise", "each one"):
	case r.C.Reach("each side") > 0 || r.C.Reach("each way") > 0 || r.C.Reach("each arm") > 0 || r.C.Reach("each leg") > 0:
		return false
	case r.C.Take("each"):
	default:
		return false
	}
	r.setTimed(&r.F.Each, "time for each", t)
	return true
}

// windowClause = [ "in" | "within" | "for" ] time .
// Among elements a time is an amount, unless it stands alone on its line.
func (r *Reading) windowClause() bool {
	from := r.C.I
	in := r.C.TakeAny("in", "within", "for", "over")
	t, ok := r.Time(false)
	afterComma := from > 0 && (r.C.Tokens[from-1].Text == "," || r.C.Tokens[from-1].Text == "(") && !r.movementFollows()
	if !ok || r.open() && !(r.head && (afterComma || in)) || !r.head && !(from == 0 && r.C.Done()) {
		return false
	}
	if !in && r.F.Structured() && r.movementFollows() {
		return false
	}
	t.At = r.C.Span(from, r.C.I)
	if in && !r.F.AsMany.IsZero() {
		r.setTimed(&r.F.Window, "window", t)
		return true
	}
	r.setTimed(&r.F.Total, "length", t)
	return true
}
