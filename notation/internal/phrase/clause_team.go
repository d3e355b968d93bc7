package phrase

import (
	"strings"

	"roomful"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// scoreRules are the stated rules of a score, with what coaches write for them.
var scoreRules = []struct{ phrase, rule string }{
	{"total", "total"}, {"the total", "total"}, {"sum", "sum"}, {"the sum", "sum"},
	{"slowest", "slowest"}, {"the slowest", "slowest"}, {"lowest", "lowest"}, {"the lowest", "lowest"}, {"worst", "lowest"},
	{"each", "each"}, {"every", "each"}, {"load", "load"}, {"the load", "load"}, {"heaviest", "load"}, {"the heaviest", "load"}, {"weight", "load"},
	{"time", "time"}, {"the time", "time"}, {"reps", "reps"}, {"repetitions", "reps"}, {"max load", "load"},
}

// scoreClause = "score" ( "is" | ":" | "=" ) rule { word } | rule "counts" .
func (r *Reading) scoreClause() bool {
	from := r.C.I
	counts := false
	if r.C.Take("slowest") || r.C.Take("lowest") {
		r.C.TakeAny("round", "interval", "set")
		counts = r.C.Take("counts")
		r.C.I = from
		if !counts {
			return false
		}
	} else {
		r.C.Take("your")
		if !r.C.Take("score") || !r.C.Take("is") && !r.C.Mark(":") && !r.C.Mark("=") && !r.C.Mark("-") {
			return false
		}
	}
	before := r.C.I
	for _, s := range scoreRules {
		if r.C.Take(s.phrase) {
			r.F.Score = s.rule
			r.restOfClause(s.rule)
			return true
		}
	}
	r.restOfClause("")
	r.Warn(r.C.Span(before, r.C.I), diag.Quote(r.C.Slice(before, r.C.I))+" is no score rule I know",
		"write score is total, sum, slowest, lowest, each, load, time or reps")
	r.F.Notes = append(r.F.Notes, r.C.Slice(from, r.C.I))
	return true
}

// restOfClause passes over the words up to the next comma; "total time" and
// "total reps" say the rule by their second word.
func (r *Reading) restOfClause(rule string) {
	for !r.C.Done() && r.C.Peek(0).Kind == scan.Word {
		switch t := r.C.Peek(0).Text; {
		case rule == "total" && (t == "time" || t == "load"):
			r.F.Score = t
		case rule == "total" && t == "weight":
			r.F.Score = "load"
		}
		r.C.I++
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
func (r *Reading) teamClause() bool {
	from := r.C.I
	if r.naming() && !r.teamAfterName() {
		return false
	}
	if _, n := r.Match(r.C); n > 1 { // split jerk
		return false
	}
	for _, t := range teams {
		if r.C.Take(t.phrase) {
			r.F.Team.Size, r.F.TeamAt = t.size, r.C.Span(from, r.C.I)
			return true
		}
	}
	if r.C.TakeAny("in teams of", "teams of", "team of", "in groups of") {
		n, ok := r.Integer()
		r.F.Team.Size, r.F.TeamAt = n, r.C.Span(from, r.C.I)
		return ok
	}
	if r.oneWorks() {
		r.F.Team.Style, r.F.TeamAt = roomful.Shared, r.C.Span(from, r.C.I)
		return true
	}
	for _, s := range styles {
		if r.C.Take(s.phrase) {
			if s.style == roomful.Synchronised && r.movementFollows() {
				return false // synchro burpees
			}
			r.F.Team.Style, r.F.TeamAt = s.style, r.C.Span(from, r.C.I)
			return true
		}
	}
	return false
}

// oneWorks reads "1 works, 2 rest" and "1 works at a time".
func (r *Reading) oneWorks() bool {
	from := r.C.I
	if n, ok := r.Integer(); ok && n == 1 && r.C.TakeAny("works at a time", "working at a time", "works") {
		r.C.Mark(",")
		rest := r.C.I
		if _, ok := r.Integer(); !ok || !r.C.TakeAny("rests", "rest", "resting") {
			r.C.I = rest
		}
		return true
	}
	r.C.I = from
	return false
}

// teamAfterName reports whether words after a name at a head are of a team: a
// comma stands before them, or they can mean nothing else.
func (r *Reading) teamAfterName() bool {
	if !r.head || r.C.I == 0 {
		return false
	}
	before := r.C.Tokens[r.C.I-1].Text
	return before == "," || before == "(" || r.C.Is("in") || r.C.Is("you") || r.C.Is("you-go-i-go")
}

// vestClause = ( "with" | "w/" | "wearing" ) [ "a" ] [ "weighted" ] "vest" [ figures mass ] .
// Nothing carries it in a forecast.
func (r *Reading) vestClause() bool {
	from := r.C.I
	r.C.Mark("(")
	if !r.C.TakeAny("with", "wearing", "in", "w") {
		return false
	}
	r.C.Mark("/")
	r.C.TakeAny("a", "your")
	r.C.TakeAny("weight", "weighted")
	if !r.C.TakeAny("vest", "vests") {
		return false
	}
	stop := r.C.I
	r.C.Mark("(")
	if q, ok := r.figures(); ok && q.Unit.Class == vocab.Massed {
		stop = r.C.I
	}
	r.C.I = stop
	r.Warn(r.C.Span(from, stop), "a vest is kept as a note: no forecast carries it", "write what it weighs beside the movements that take a load")
	r.F.Notes = append(r.F.Notes, strings.Trim(r.C.Slice(from, stop), "( "))
	return true
}

// wordClause = "unbroken" | "alternating" | "not scored" .
func (r *Reading) wordClause() bool {
	from := r.C.I
	if r.head && r.C.TakeAny("not scored", "no score", "not for score", "unscored") {
		r.F.NotScored = true
		return true
	}
	if r.naming() || r.movementFollows() {
		return false
	}
	switch {
	case r.C.TakeAny("unbroken"):
		r.F.Unbroken = r.C.Span(from, r.C.I)
	case r.C.TakeAny("alternating stations", "alternating", "alternate", "alt"):
		r.F.Alternating = r.C.Span(from, r.C.I)
	case r.head && r.C.Take("stations"):
		r.F.Stations = r.C.Span(from, r.C.I)
	case r.C.TakeAny("for quality", "for skill"):
		r.F.NotScored = true
		r.F.Notes = append(r.F.Notes, r.C.Slice(from, r.C.I))
	case r.C.TakeAny("not scored", "no score", "not for score", "unscored", "not for time"):
		r.F.NotScored = true
	default:
		return false
	}
	return true
}
