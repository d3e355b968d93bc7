package notation

import (
	"time"

	"roomful"
)

// ladderClause = n "-" n "-" n { "-" n } [ "-" "..." [ n ] ] [ "reps" ] | n "down to" n .
// Commas and slashes may stand for the dashes.
func (r *reading) ladderClause() bool {
	from := r.c.i
	ofSets := r.c.take("sets of")
	steps, ok := r.steps()
	if !ok {
		return false
	}
	open, filled := r.goesOn(&steps)
	if len(steps) < 2 || len(steps) == 2 && !open && !filled && !ofSets && !r.twoSteps() {
		return false
	}
	r.c.takeAny("reps of", "reps", "repetitions", "rep scheme")
	if len(r.f.ladder.Steps) > 0 {
		r.fault(r.c.span(from, r.c.i), "a second ladder in one piece", "write two pieces, main a: and main b:")
		return true
	}
	r.f.ladder, r.f.ladderAt, r.f.ofSets = roomful.Ladder{Steps: steps, Open: open}, r.c.span(from, r.c.i), ofSets
	return true
}

// steps reads the figures of a ladder.
func (r *reading) steps() (steps []int, ok bool) {
	sep := ""
	for {
		t := r.c.peek(0)
		if t.kind != number || t.value != float64(int(t.value)) {
			break
		}
		next := r.c.peek(1)
		if len(steps) > 0 && unitWords[next.text].class != bare && unitWords[next.text].unit != roomful.Rep && sep != "-" {
			return nil, false
		}
		r.c.i++
		steps = append(steps, int(t.value))
		if sep == "" {
			sep = next.text
		}
		after := r.c.peek(1).kind
		if next.text != sep || sep != "-" && (r.open() || sep != "," && sep != "/") || after != number && after != dots {
			break
		}
		r.c.i++
	}
	return steps, len(steps) > 0 && (sep == "-" || len(steps) > 2 || r.downFollows())
}

// downFollows reports whether "down to" or "to" continues a ladder of one step.
func (r *reading) downFollows() bool { return r.c.is("down") || r.c.is("up") }

// goesOn reads an ellipsis, "and so on" or "down to 1". Open means that it has
// no end; filled means that steps were put in up to a last one.
func (r *reading) goesOn(steps *[]int) (open, filled bool) {
	n := len(*steps)
	from := r.c.i
	r.c.mark("-")
	r.c.mark(",")
	switch {
	case r.c.peek(0).kind == dots:
		r.c.i++
	case r.c.takeAny("down to", "up to"):
		*steps = fill(*steps, r.last(steps))
		return false, len(*steps) > n
	case r.c.takeAny("and so on", "etc", "and up"):
		r.c.mark(".")
		return n > 1, false
	default:
		r.c.i = from
		return false, false
	}
	before := r.c.i
	r.c.mark("-")
	if t := r.c.peek(0); t.kind == number && n > 1 && unitWords[r.c.peek(1).text].class == bare {
		*steps = fill(*steps, r.last(steps))
		return false, len(*steps) > n
	}
	r.c.i = before
	return true, false
}

// last reads the last step of a ladder.
func (r *reading) last(steps *[]int) int {
	if n, ok := r.integer(); ok {
		return n
	}
	return (*steps)[len(*steps)-1]
}

// fill puts in the steps up to the last, by the difference of the two before.
func fill(steps []int, last int) []int {
	k := len(steps)
	by := 1
	if k > 1 {
		by = steps[k-1] - steps[k-2]
	} else if last < steps[0] {
		by = -1
	}
	const most = 100
	for n := steps[k-1] + by; by != 0 && len(steps) < most && (by > 0 && n <= last || by < 0 && n >= last); n += by {
		steps = append(steps, n)
	}
	return steps
}

// twoSteps reports whether two figures are a ladder, "12-9 for time", rather
// than a range.
func (r *reading) twoSteps() bool {
	return r.c.done() || r.c.is("reps") || r.c.is("for") || r.c.is("of") || r.c.is(":")
}

// buildClause = ( "build" | "work up" | "find" | "establish" ) [ "to" ] [ "a" ] [ "heavy" ] ( n | word ) [ "RM" ] .
func (r *reading) buildClause() bool {
	from := r.c.i
	if n, ok := r.integer(); ok { // 3RM
		if !r.head || !r.c.takeAny("rm", "rep max") {
			return false
		}
		r.f.build = r.c.span(from, r.c.i)
		r.f.reps = count{n, r.f.build}
		return true
	}
	if !r.c.takeAny("build up to", "build to", "build", "work up to", "work to", "find", "establish", "heavy", "max out") {
		return false
	}
	said := r.c.tokens[r.c.i-1].text
	r.c.takeAny("a", "an", "the", "your")
	heavy := r.c.takeAny("heavy", "max", "heaviest") || said == "heavy"
	reps, ok := r.integer()
	switch {
	case ok:
		rm := r.c.takeAny("rm", "rep max")
		r.c.takeAny("reps", "rep")
		ok = rm || heavy
	case heavy && r.c.take("set"):
	case r.c.takeAny("single", "singles"):
		reps, ok = 1, true
	case r.c.takeAny("double", "doubles"):
		reps, ok = 2, true
	case r.c.takeAny("triple", "triples"):
		reps, ok = 3, true
	}
	if !ok && (said == "heavy" || said == "find" || !heavy) {
		return false
	}
	r.f.build = r.c.span(from, r.c.i)
	if ok {
		r.f.reps = count{reps, r.f.build}
	}
	r.c.takeAny("for the day", "of the day")
	before := r.c.i
	if r.c.takeAny("in", "within") {
		if t, ok := r.time(false); ok {
			r.f.total = t
		} else {
			r.c.i = before
		}
	}
	return true
}

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

// scoreRules are the stated rules of a score, with what coaches write for them.
var scoreRules = []struct{ phrase, rule string }{
	{"total", "total"}, {"the total", "total"}, {"sum", "sum"}, {"the sum", "sum"},
	{"slowest", "slowest"}, {"the slowest", "slowest"}, {"lowest", "lowest"}, {"the lowest", "lowest"}, {"worst", "lowest"},
	{"each", "each"}, {"every", "each"}, {"load", "load"}, {"the load", "load"}, {"heaviest", "load"}, {"the heaviest", "load"}, {"weight", "load"},
	{"time", "time"}, {"the time", "time"}, {"reps", "reps"}, {"repetitions", "reps"}, {"max load", "load"},
}

// scoreClause = "score" ( "is" | ":" | "=" ) rule { word } | rule "counts" .
func (r *reading) scoreClause() bool {
	from := r.c.i
	counts := false
	if r.c.take("slowest") || r.c.take("lowest") {
		r.c.takeAny("round", "interval", "set")
		counts = r.c.take("counts")
		r.c.i = from
		if !counts {
			return false
		}
	} else {
		r.c.take("your")
		if !r.c.take("score") || !r.c.take("is") && !r.c.mark(":") && !r.c.mark("=") && !r.c.mark("-") {
			return false
		}
	}
	before := r.c.i
	for _, s := range scoreRules {
		if r.c.take(s.phrase) {
			r.f.score = s.rule
			r.restOfClause(s.rule)
			return true
		}
	}
	r.restOfClause("")
	r.warn(r.c.span(before, r.c.i), quote(r.c.slice(before, r.c.i))+" is no score rule I know",
		"write score is total, sum, slowest, lowest, each, load, time or reps")
	r.f.notes = append(r.f.notes, r.c.slice(from, r.c.i))
	return true
}

// restOfClause passes over the words up to the next comma; "total time" and
// "total reps" say the rule by their second word.
func (r *reading) restOfClause(rule string) {
	for !r.c.done() && r.c.peek(0).kind == word {
		switch t := r.c.peek(0).text; {
		case rule == "total" && (t == "time" || t == "load"):
			r.f.score = t
		case rule == "total" && t == "weight":
			r.f.score = "load"
		}
		r.c.i++
	}
}

// teams and styles are what coaches call them.
var (
	teams = []struct {
		phrase string
		size   int
	}{
		{"in pairs", 2}, {"pairs", 2}, {"with a partner", 2}, {"partner", 2}, {"partners", 2}, {"in twos", 2}, {"in teams of two", 2}, {"teams of two", 2},
		{"in threes", 3}, {"threes", 3}, {"in teams of three", 3}, {"teams of three", 3}, {"trios", 3}, {"in fours", 4}, {"teams of four", 4},
	}
	styles = []struct {
		phrase string
		style  roomful.TeamStyle
	}{
		{"share the work", roomful.Shared}, {"sharing the work", roomful.Shared}, {"split the work", roomful.Shared}, {"work shared", roomful.Shared}, {"share reps", roomful.Shared},
		{"split as needed", roomful.Shared}, {"split as you like", roomful.Shared}, {"split reps as needed", roomful.Shared}, {"split however", roomful.Shared}, {"share as needed", roomful.Shared}, {"shared", roomful.Shared}, {"split", roomful.Shared},
		{"you go i go", roomful.Alternating}, {"i go you go", roomful.Alternating}, {"ygig", roomful.Alternating}, {"igyg", roomful.Alternating},
		{"one works at a time", roomful.Shared}, {"one working at a time", roomful.Shared}, {"one person works at a time", roomful.Shared}, {"one works one rests", roomful.Alternating}, {"alternating rounds", roomful.Alternating}, {"alternate rounds", roomful.Alternating}, {"round for round", roomful.Alternating},
		{"synchronised", roomful.Synchronised}, {"synchronized", roomful.Synchronised}, {"synchro", roomful.Synchronised}, {"in sync", roomful.Synchronised}, {"sync", roomful.Synchronised},
	}
)

// teamClause = "in pairs" | "in threes" | "in teams of" n | style .
func (r *reading) teamClause() bool {
	from := r.c.i
	if r.naming() {
		return false
	}
	for _, t := range teams {
		if r.c.take(t.phrase) {
			r.f.team.Size, r.f.teamAt = t.size, r.c.span(from, r.c.i)
			return true
		}
	}
	if r.c.takeAny("in teams of", "teams of", "team of", "in groups of") {
		n, ok := r.integer()
		r.f.team.Size, r.f.teamAt = n, r.c.span(from, r.c.i)
		return ok
	}
	for _, s := range styles {
		if r.c.take(s.phrase) {
			r.f.team.Style, r.f.teamAt = s.style, r.c.span(from, r.c.i)
			return true
		}
	}
	return false
}

// wordClause = "unbroken" | "alternating" | "not scored" .
func (r *reading) wordClause() bool {
	from := r.c.i
	if r.naming() || r.movementFollows() {
		return false
	}
	switch {
	case r.c.takeAny("unbroken"):
		r.f.unbroken = r.c.span(from, r.c.i)
	case r.c.takeAny("alternating stations", "alternating", "alternate", "alt"):
		r.f.alternating = r.c.span(from, r.c.i)
	case r.head && r.c.take("stations"):
		r.f.stations = r.c.span(from, r.c.i)
	case r.c.takeAny("not scored", "no score", "not for score", "not for time"):
		r.f.notScored = true
	default:
		return false
	}
	return true
}

// workRestClause = time [ "work" | "on" ] "/" time [ "rest" | "off" ] | n "/" n | time ( "work" | "on" ) .
func (r *reading) workRestClause() bool {
	from := r.c.i
	work, ok := r.boutTime()
	if !ok {
		return false
	}
	named := r.c.takeAny("work", "on", "working", "of work") || r.timedToken(from) && r.c.take("hard")
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
