package notation

import (
	"strings"
	"time"

	"roomful"
)

// clause reads one clause of a head and reports whether there was one. The
// order matters only where one clause is the beginning of another.
func (r *reading) clause() bool {
	for _, production := range [...]func(*reading) bool{
		(*reading).asManyClause,
		(*reading).everyClause,
		(*reading).ladderClause,
		(*reading).forTimeClause,
		(*reading).timesClause,
		(*reading).roundsClause,
		(*reading).buildClause,
		(*reading).capClause,
		(*reading).scoreClause,
		(*reading).teamClause,
		(*reading).wordClause,
		(*reading).workRestClause,
		(*reading).restClause,
		(*reading).windowClause,
	} {
		before, said := r.c.i, len(r.list)
		if production(r) {
			return true
		}
		r.c.i, r.list = before, r.list[:said]
	}
	return false
}

// asManyClause = "AMRAP" [ [ "in" ] time ] | ( "as many" | "max" | "most" ) what "in" time .
// A movement between is left for the element that follows.
func (r *reading) asManyClause() bool {
	from := r.c.i
	switch {
	case r.c.takeAny("amrap", "amreps"):
		r.f.asMany = r.c.span(from, r.c.i)
		r.c.takeAny("in", "for", "of", "x")
		r.c.mark(":")
		r.c.mark("-")
		r.setTime(&r.f.window, "window", true)
		return true
	case r.c.takeAny("as many", "as much"):
		return r.asPossible(from)
	case r.c.takeAny("max", "maximum", "most"):
		return r.mostClause(from)
	}
	return false
}

// asPossible reads what follows "as many": a word for what is counted, or a
// movement, then "as possible". Words that are counted stay for the element.
func (r *reading) asPossible(from int) bool {
	skip := r.c.i
	for n := 0; n < 6 && !r.c.take("as possible"); n++ {
		if r.c.peek(0).kind != word {
			return false
		}
		r.c.i++
	}
	if r.c.tokens[r.c.i-1].text != "possible" {
		return false
	}
	r.f.asMany = r.c.span(from, r.c.i)
	what := r.c.line.words[skip : r.c.i-2]
	r.c.takeAny("in", "for", "within")
	r.setTime(&r.f.window, "window", true)
	r.countedWords(what, skip)
	return true
}

// countedWords opens an element for a movement named within the clause, "as
// many burpees as possible". General words count nothing of their own.
func (r *reading) countedWords(what []string, from int) {
	if len(what) == 0 || what[0] == "rounds" || what[0] == "reps" && len(what) == 1 || what[0] == "rounds/reps" {
		return
	}
	inner := r.readerOf(cursor{line: r.c.line, i: from, last: from + len(what)}, false)
	inner.scored = r.scored
	inner.run()
	if len(inner.elements) == 1 && inner.elements[0].move != nil {
		r.elements = append(r.elements, inner.elements...)
	} else if u, ok := unitWords[what[0]]; ok && u.class == counted {
		r.counts = u.unit
	}
}

// mostClause reads "max burpees in 5 min": only the time at the end makes it a
// format, and what is counted stays for the element.
func (r *reading) mostClause(from int) bool {
	skip := r.c.i
	for n := 0; n < 7; n++ {
		if r.c.peek(0).kind != word {
			return false
		}
		if r.c.i > skip && r.c.takeAny("in", "within") {
			words := r.c.line.words[skip : r.c.i-1]
			if !r.setTime(&r.f.window, "window", true) {
				return false
			}
			r.f.asMany = r.c.span(from, skip)
			r.countedWords(words, skip)
			return true
		}
		r.c.i++
	}
	return false
}

// everyClause = ( "every" time | "EMOM" | "E2MOM" | "E2:30" ) [ "on the minute" ] [ "x" n | [ "for" ] n ] .
func (r *reading) everyClause() bool {
	from := r.c.i
	each := timed{d: time.Minute}
	switch {
	case r.c.takeAny("emom", "on the minute", "every minute"):
	case r.c.take("every"):
		var ok bool
		if each, ok = r.time(false); !ok {
			return false
		}
	case r.emomWord(&each):
	default:
		return false
	}
	r.c.takeAny("on the minute", "on the clock", "on the")
	each.at = r.c.span(from, r.c.i)
	r.f.interval = each
	r.c.mark(":")
	r.everyLength(each)
	return true
}

// emomWord reads E2MOM and E90S.
func (r *reading) emomWord(each *timed) bool {
	t := r.c.peek(0).text
	n := digits(strings.TrimPrefix(t, "e"))
	if t == "e" && r.c.peek(1).tight && r.c.peek(1).kind == clock {
		each.d = time.Duration(r.c.peek(1).value) * time.Second
		r.c.i += 2
		r.c.take("mom")
		return true
	}
	if !strings.HasPrefix(t, "e") || n == 0 || n > 4 {
		return false
	}
	_, value, _ := figure(t[1 : 1+n])
	switch t[1+n:] {
	case "mom", "min":
		each.d = time.Duration(value) * time.Minute
	case "s", "sec":
		each.d = time.Duration(value) * time.Second
	default:
		return false
	}
	r.c.i++
	return true
}

// everyLength reads how often or how long: "x 5", "for 12 min", or a figure
// alone, which is minutes.
func (r *reading) everyLength(each timed) {
	before := r.c.i
	if r.c.take("x") {
		if n, ok := r.integer(); ok && unitWords[r.c.peek(0).text].class == bare {
			if r.c.takeAny("rounds", "rds") {
				r.f.rounds = count{n, r.c.span(before, r.c.i)}
				return
			}
			r.c.takeAny("sets", "times", "intervals")
			r.f.times = count{n, r.c.span(before, r.c.i)}
			return
		}
		r.c.i = before
		r.c.take("x")
	}
	r.c.take("for")
	start := r.c.i
	if r.countFollows("rounds", "rds", "sets", "times", "intervals", "x") {
		r.c.i = start
		return
	}
	if t, ok := r.time(true); ok {
		r.f.total = t
		return
	}
	r.c.i = before
}

// countFollows reports whether a whole number and one of the words stand here.
func (r *reading) countFollows(words ...string) bool {
	before := r.c.i
	defer func() { r.c.i = before }()
	_, ok := r.integer()
	return ok && r.c.takeAny(words...)
}

// forTimeClause = "for time" | "FT" | [ n ] "RFT" [ n ] | "each for time" .
func (r *reading) forTimeClause() bool {
	from := r.c.i
	if n, ok := r.integer(); ok {
		if !r.c.takeAny("rft", "rfts", "rds ft", "rounds ft") {
			return false
		}
		r.f.forTime = r.c.span(from, r.c.i)
		r.f.rounds = count{n, r.f.forTime}
		return true
	}
	switch {
	case r.c.takeAny("each for time", "each round for time", "every round for time"):
		r.f.eachForTime = r.c.span(from, r.c.i)
	case r.c.takeAny("for time", "ft", "against the clock"):
		r.f.forTime = r.c.span(from, r.c.i)
	case r.c.take("rft"):
		r.f.forTime = r.c.span(from, r.c.i)
		if n, ok := r.integer(); ok {
			r.f.rounds = count{n, r.c.span(from, r.c.i)}
		}
	default:
		return false
	}
	return true
}

// roundsClause = n ( "rounds" | "sets" | "intervals" | "stations" | "slots" ) [ "of" ] [ reps ] .
func (r *reading) roundsClause() bool {
	from := r.c.i
	n, ok := r.integer()
	if !ok {
		return false
	}
	low := n
	if r.c.mark("-") {
		if _, ok = r.integer(); !ok {
			return false
		}
	}
	named := r.c.i
	ranged := named > from+1
	switch {
	case r.c.takeAny("rounds", "round", "rds", "rd", "rnds", "rounds through"):
		r.setCount(&r.f.rounds, "number of rounds", low, from)
	case r.c.takeAny("sets", "set"):
		r.setCount(&r.f.sets, "number of sets", low, from)
		r.setReps()
	case r.c.takeAny("intervals", "interval", "bouts", "efforts", "repeats"):
		r.setCount(&r.f.intervals, "number of intervals", low, from)
	case r.c.takeAny("times through", "times"):
		r.setCount(&r.f.rounds, "number of rounds", low, from)
	default:
		return false
	}
	if ranged {
		r.hint(r.c.span(from, r.c.i), quote(r.c.slice(from, r.c.i))+" is read as "+roomful.Figure(float64(low)), "say one number to have it planned")
		r.f.notes = append(r.f.notes, r.c.slice(from, r.c.i))
	}
	return true
}

// setReps reads "of 5" and ": 5 reps" after "5 sets".
func (r *reading) setReps() {
	before := r.c.i
	r.c.take("of")
	if n, ok := r.integer(); ok && (r.c.takeAny("reps", "repetitions") || r.c.i > before+1 && r.plainNumber()) {
		r.f.reps = count{n, r.c.span(before, r.c.i)}
		return
	}
	r.c.i = before
}

// plainNumber reports whether the number just taken counts repetitions: no unit
// and no dash follows.
func (r *reading) plainNumber() bool {
	t := r.c.peek(0)
	if t.text == "-" && t.tight && r.c.peek(1).kind == number || t.text == "/" || t.tight && (t.text == "'" || t.text == "\"") {
		return false
	}
	u, ok := unitWords[t.text]
	return !ok || u.class == counted && u.unit == roomful.Rep || t.text == "in"
}

// timesClause = n "x" [ n [ "reps" ] | "max" | time ] | "x" n .
func (r *reading) timesClause() bool {
	from := r.c.i
	if r.c.take("x") {
		n, ok := r.integer()
		if !ok || !r.head && (r.open() || r.movementFollows()) || unitWords[r.c.peek(0).text].class != bare || r.c.is("/") {
			return false
		}
		r.c.takeAny("rounds", "sets", "times")
		r.setCount(&r.f.times, "number of times", n, from)
		return true
	}
	n, ok := r.integer()
	if !ok || !r.c.take("x") || r.massFollows() || r.bodyMass(false) || r.pairOfLoads(n) || !r.head && r.movementFollows() {
		return false
	}
	r.setCount(&r.f.times, "number of times", n, from)
	before := r.c.i
	switch reps, ok := r.integer(); {
	case ok && r.plainNumber():
		r.c.takeAny("reps", "rep", "repetitions")
		r.f.reps = count{reps, r.c.span(before, r.c.i)}
	case ok && r.c.is("-") && r.c.peek(0).tight && r.c.peek(1).kind == number && r.c.peek(2).text != "-":
		r.c.i += 2
		r.c.takeAny("reps", "repetitions")
		r.f.reps = count{reps, r.c.span(before, r.c.i)}
		r.f.notes = append(r.f.notes, r.c.slice(before, r.c.i))
		r.hint(r.f.reps.at, quote(r.c.slice(before, r.c.i))+" is read as "+roomful.Figure(float64(reps)), "the range is kept as a note")
	default:
		r.c.i = before
		r.afterTimes()
	}
	return true
}

// afterTimes reads "max" or a time after "5 x".
func (r *reading) afterTimes() {
	before := r.c.i
	if r.c.takeAny("max", "amrap") && !r.timeFollows(r.c.tokens[before].text == "amrap") {
		r.f.open = r.c.span(before, r.c.i)
		r.c.takeAny("effort", "reps", "set")
		return
	}
	r.c.i = before
	if r.workRestClause() {
		return
	}
	r.c.i = before
	if t, ok := r.time(false); ok && !r.movementFollows() && !r.eachFollows() {
		r.f.work = t
		return
	}
	r.c.i = before
}

// massFollows reports whether figures with a unit of mass stand here, as in
// "2 x 24/16 kg".
func (r *reading) massFollows() bool {
	before := r.c.i
	defer func() { r.c.i = before }()
	q, ok := r.figures()
	return ok && q.unit.class == massed
}

// pairOfLoads reports whether "2x15/10" after a name is two implements rather
// than sets: their loads have no unit.
func (r *reading) pairOfLoads(n int) bool {
	if n > 2 || !r.open() && r.left < 0 || !figureKind(r.c.peek(0)) {
		return false
	}
	t := r.c.peek(0)
	return r.c.peek(1).text == "/" && figureKind(r.c.peek(2)) || t.value != float64(int(t.value)) || r.open() && r.cur.amounted()
}

// movementFollows reports whether a movement is named here, after little words.
func (r *reading) movementFollows() bool {
	c := r.c
	for c.peek(0).kind == word && (little[c.peek(0).text] || adjectives[c.peek(0).text]) {
		c.i++
	}
	_, n := r.match(c)
	return n > 0 || c.is("rest")
}
