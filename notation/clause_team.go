package notation

import (
	"roomful"
)

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
