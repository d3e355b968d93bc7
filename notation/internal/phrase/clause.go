package phrase

import (
	"strings"

	"roomful"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// Clause reads one clause of a head and reports whether there was one. The
// order matters only where one clause is the beginning of another.
func (r *Reading) Clause() bool {
	if !r.mayBegin() {
		return false
	}
	for _, production := range [...]func(*Reading) bool{
		(*Reading).ratioClause,
		(*Reading).asManyClause,
		(*Reading).everyClause,
		(*Reading).ladderClause,
		(*Reading).forTimeClause,
		(*Reading).timesClause,
		(*Reading).roundsClause,
		(*Reading).buildClause,
		(*Reading).capClause,
		(*Reading).scoreClause,
		(*Reading).teamClause,
		(*Reading).wordClause,
		(*Reading).vestClause,
		(*Reading).workRestClause,
		(*Reading).restClause,
		(*Reading).windowClause,
	} {
		before, said := r.C.I, len(r.List)
		if production(r) {
			return true
		}
		r.C.I, r.List = before, r.List[:said]
	}
	return false
}

// leads are the words that a clause may begin with.
var leads = func() map[string]bool {
	m := vocab.Set("amrap amreps as max maximum most every emom e on sets ladder for ft against rft each x build work find establish heavy " +
		"time timecap cap tc capped your score slowest lowest team teams in unbroken alternating alternate alt stations not no unscored " +
		"rest resting change changeover transition within over a with wearing w")
	add := func(phrase string) {
		first, _, _ := strings.Cut(phrase, " ")
		m[first] = true
	}
	for _, t := range teams {
		add(t.phrase)
	}
	for _, s := range styles {
		add(s.phrase)
		m[strings.ReplaceAll(s.phrase, " ", "-")] = true // you-go-I-go
	}
	for w := range vocab.Numerals {
		m[w] = true
	}
	return m
}()

// mayBegin reports whether a clause may begin here, by its first words alone.
// Most words and figures begin none, and need not be tried.
func (r *Reading) mayBegin() bool {
	switch t := r.C.Peek(0); t.Kind {
	case scan.Word:
		return leads[t.Text] || vocab.EveryWord(t.Text)
	case scan.Number:
		next := r.C.Peek(1)
		return next.Kind != scan.Word || follows[next.Text] || vocab.FormatHints[next.Text]
	}
	return true
}

// follows are the words, beside those of formats, that may follow the figure of
// a clause: units of time, and what a ladder or a cap goes on with.
var follows = func() map[string]bool {
	m := vocab.Set("to works working m down up cap tc timecap rep hard rest off")
	for w, u := range vocab.UnitWords {
		if u.Class == vocab.Counted && u.Unit.Base() == roomful.Second {
			m[w] = true
		}
	}
	return m
}()

// forTimeClause = "for time" | "FT" | [ n ] "RFT" [ n ] | "each for time" .
func (r *Reading) forTimeClause() bool {
	from := r.C.I
	if n, ok := r.Integer(); ok {
		if !r.C.TakeAny("rft", "rfts", "rds ft", "rounds ft") {
			return false
		}
		r.F.ForTime = r.C.Span(from, r.C.I)
		r.F.Rounds = Count{n, r.F.ForTime}
		return true
	}
	switch {
	case r.C.TakeAny("each for time", "each round for time", "every round for time"):
		r.F.EachForTime = r.C.Span(from, r.C.I)
	case r.C.TakeAny("for time", "ft", "against the clock"):
		r.F.ForTime = r.C.Span(from, r.C.I)
	case r.C.Take("rft"):
		r.F.ForTime = r.C.Span(from, r.C.I)
		if n, ok := r.Integer(); ok {
			r.F.Rounds = Count{n, r.C.Span(from, r.C.I)}
		}
	default:
		return false
	}
	return true
}

// roundsClause = n ( "rounds" | "sets" | "intervals" | "stations" | "slots" ) [ "of" ] [ reps ] .
func (r *Reading) roundsClause() bool {
	from := r.C.I
	n, ok := r.Integer()
	if !ok {
		return false
	}
	low := n
	if r.C.Mark("-") {
		if _, ok = r.Integer(); !ok {
			return false
		}
	}
	named := r.C.I
	ranged := named > from+1
	switch {
	case r.C.TakeAny("rounds", "round", "rds", "rd", "rnds", "rounds through"):
		r.setCount(&r.F.Rounds, "number of rounds", low, from)
	case r.C.TakeAny("rnft", "rounds nft", "rds nft"):
		r.setCount(&r.F.Rounds, "number of rounds", low, from)
		r.F.NotScored = true
	case r.C.TakeAny("sets", "set"):
		r.setCount(&r.F.Sets, "number of sets", low, from)
		r.setReps()
	case r.C.TakeAny("intervals", "interval", "bouts", "efforts", "repeats"):
		r.setCount(&r.F.Intervals, "number of intervals", low, from)
	case r.C.TakeAny("times through", "times"):
		r.setCount(&r.F.Rounds, "number of rounds", low, from)
	default:
		return false
	}
	if ranged {
		r.Hint(r.C.Span(from, r.C.I), diag.Quote(r.C.Slice(from, r.C.I))+" is read as "+roomful.Figure(float64(low)), "say one number to have it planned")
		r.F.Notes = append(r.F.Notes, r.C.Slice(from, r.C.I))
	}
	return true
}
