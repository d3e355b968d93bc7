package notation

import (
	"time"
)

// capClause = ( "cap" | "TC" | "time limit" ) time | time ( "cap" | "TC" ) .
func (r *reading) capClause() bool {
	from := r.c.i
	if r.c.takeAny("time cap", "timecap", "cap", "tc", "time limit", "capped") {
		r.c.takeAny("of", "at", "is", "in")
		r.c.mark(":")
		r.c.mark("=")
		r.c.mark("-")
		if t, ok := r.time(true); ok {
			r.setTimed(&r.f.cap, "cap", timed{t.d, r.c.span(from, r.c.i)})
		} else {
			r.fault(r.c.span(from, r.c.i), "a cap without a time", "write cap 12 min")
		}
		return true
	}
	t, ok := r.time(true)
	if !ok || !r.c.takeAny("time cap", "timecap", "cap", "tc", "time limit") {
		return false
	}
	r.setTimed(&r.f.cap, "cap", timed{t.d, r.c.span(from, r.c.i)})
	return true
}

// workRestClause = time [ "work" | "on" ] "/" time [ "rest" | "off" ] | n "/" n | time ( "work" | "on" ) .
func (r *reading) workRestClause() bool {
	from := r.c.i
	work, ok := r.boutTime()
	if !ok {
		return false
	}
	named := r.c.takeAny("work", "on", "working", "of work") || r.head && r.timedToken(from) && r.c.take("hard")
	mid := r.c.i
	if named {
		r.c.mark(",")
	}
	slash := r.c.mark("/") || named && r.c.takeAny("and", "then")
	rest, ok := r.boutTime()
	off := ok && r.c.takeAny("rest", "off", "of rest", "recovery", "easy", "recover")
	switch {
	case ok && (slash && (named || off || r.barePair(from)) || named && off):
		at := r.c.span(from, r.c.i)
		r.f.work, r.f.rest = timed{work, at}, timed{rest, at}
		r.restWhere()
	case named:
		r.c.i = mid
		r.f.work = timed{work, r.c.span(from, mid)}
	default:
		return false
	}
	return true
}

// boutTime reads the time of a bout; a figure alone is seconds.
func (r *reading) boutTime() (time.Duration, bool) {
	if t, ok := r.time(false); ok {
		return t.d, true
	}
	t := r.c.peek(0)
	if _, unit := unitWords[r.c.peek(1).text]; t.kind != number || unit || !r.head {
		return 0, false
	}
	r.c.i++
	return seconds(t.value), true
}

// barePair reports whether the figures just taken can be work and rest though
// neither word was said: they stand in a head and no movement follows.
func (r *reading) barePair(from int) bool {
	_, unit := unitWords[r.c.peek(0).text]
	return r.head && !r.open() && !unit && !r.movementFollows() && (r.f.times.set() || r.f.rounds.set() || r.c.is("x") || r.timedToken(from))
}

// timedToken reports whether a time, rather than a bare figure, stands at i.
func (r *reading) timedToken(i int) bool {
	return r.c.tokens[i].kind == clock || i+1 < len(r.c.tokens) && unitWords[r.c.tokens[i+1].text].class == counted
}

// restClause = "rest" time [ where ] | time ( "rest" | "off" ) [ where ] | time ( "change" | "each" | "stations" ) .
// On a line of its own among elements, "rest 1 min" is an element.
func (r *reading) restClause() bool {
	from := r.c.i
	if r.c.takeAny("rest", "resting", "change", "changeover", "transition") {
		changes := r.c.tokens[r.c.i-1].text[0] != 'r'
		r.c.takeAny("for", "is", "of")
		t, ok := r.time(false)
		if !ok {
			return false
		}
		return r.setRest(timed{t.d, r.c.span(from, r.c.i)}, changes)
	}
	t, ok := r.time(false)
	if !ok {
		return false
	}
	switch {
	case r.c.takeAny("rest", "off", "recovery", "of rest"):
		return r.setRest(timed{t.d, r.c.span(from, r.c.i)}, false)
	case r.c.takeAny("changeover", "change", "transition", "to change", "to move"):
		return r.setRest(timed{t.d, r.c.span(from, r.c.i)}, true)
	case !r.open() && r.eachClause(t):
		return true
	}
	return false
}

// setRest keeps a rest or a change by where it was said to stand.
func (r *reading) setRest(t timed, changes bool) bool {
	where := r.restWhereWord()
	if !r.head && where == "" && !changes {
		return false
	}
	switch {
	case where == "rounds":
		r.setTimed(&r.f.between, "rest between rounds", t)
	case changes:
		r.setTimed(&r.f.change, "change", t)
	case where == "stations":
		r.setTimed(&r.f.rest, "rest", t)
		r.f.restRange = t.at
	default:
		r.setTimed(&r.f.rest, "rest", t)
	}
	return true
}

// restWhere reads where the rest of a pair stands.
func (r *reading) restWhere() {
	if r.restWhereWord() == "stations" {
		r.f.restRange = r.f.rest.at
	}
}

// restWhereWord reads "between rounds" and the like.
func (r *reading) restWhereWord() string {
	switch {
	case r.c.takeAny("between rounds", "after each round", "between each round", "after every round", "between round"):
		return "rounds"
	case r.c.takeAny("between stations", "after each station", "between each station", "between movements", "between exercises", "at each station"):
		return "stations"
	case r.c.takeAny("between sets", "between each set", "between intervals", "between efforts", "after each set", "after each interval", "between", "after each", "each"):
		return "sets"
	}
	return ""
}

// eachFollows reports whether "each" or a station follows a time.
func (r *reading) eachFollows() bool {
	before := r.c.i
	defer func() { r.c.i = before }()
	return r.c.takeAny("each", "per", "a station", "at each", "station", "stations")
}

// eachClause reads what follows the time of each element.
func (r *reading) eachClause(t timed) bool {
	from := r.c.i
	switch {
	case r.c.takeAny("at each station", "per station", "a station", "each station", "stations", "station", "on each station"):
		r.f.stations = r.c.span(from, r.c.i)
	case r.c.takeAny("per movement", "per exercise", "at each movement", "each movement", "each exercise", "each one"):
	case r.c.reach("each side") > 0 || r.c.reach("each way") > 0 || r.c.reach("each arm") > 0 || r.c.reach("each leg") > 0:
		return false
	case r.c.take("each"):
	default:
		return false
	}
	r.setTimed(&r.f.each, "time for each", t)
	return true
}

// windowClause = [ "in" | "within" | "for" ] time .
// Among elements a time is an amount, unless it stands alone on its line.
func (r *reading) windowClause() bool {
	from := r.c.i
	in := r.c.takeAny("in", "within", "for", "over")
	t, ok := r.time(false)
	afterComma := from > 0 && (r.c.tokens[from-1].text == "," || r.c.tokens[from-1].text == "(") && !r.movementFollows()
	if !ok || r.open() && !(r.head && (afterComma || in)) || !r.head && !(from == 0 && r.c.done()) {
		return false
	}
	if !in && r.f.structured() && r.movementFollows() {
		return false
	}
	t.at = r.c.span(from, r.c.i)
	if in && !r.f.asMany.isZero() {
		r.setTimed(&r.f.window, "window", t)
		return true
	}
	r.setTimed(&r.f.total, "length", t)
	return true
}
