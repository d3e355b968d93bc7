package phrase

import (
	"roomful"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// asManyClause = "AMRAP" [ [ "in" ] time ] | ( "as many" | "max" | "most" ) what "in" time .
// A movement between is left for the element that follows.
func (r *Reading) asManyClause() bool {
	from := r.C.I
	switch {
	case r.C.TakeAny("amrap", "amreps"):
		r.F.AsMany = r.C.Span(from, r.C.I)
		r.C.TakeAny("in", "for", "of", "x")
		colon := r.C.Mark(":")
		if r.negativeFollows() || (colon || r.F.Total.Set()) && r.repsFollow() {
			return true
		}
		r.C.Mark("-")
		r.setTime(&r.F.Window, "window", true)
		return true
	case r.C.TakeAny("as many", "as much"):
		return r.asPossible(from)
	case r.C.TakeAny("max", "maximum", "most"):
		return r.mostClause(from)
	}
	return false
}

// repsFollow reports whether a bare figure and a movement stand here, "10
// push-ups".
func (r *Reading) repsFollow() bool {
	before := r.C.I
	defer func() { r.C.I = before }()
	r.C.I++
	return r.C.Tokens[min(before, len(r.C.Tokens)-1)].Kind == scan.Number && r.movementFollows()
}

// asPossible reads what follows "as many": a word for what is counted, or a
// movement, then "as possible". Words that are counted stay for the element.
func (r *Reading) asPossible(from int) bool {
	skip := r.C.I
	for n := 0; n < 6 && !r.C.Take("as possible"); n++ {
		if r.C.Peek(0).Kind != scan.Word {
			return false
		}
		r.C.I++
	}
	if r.C.Tokens[r.C.I-1].Text != "possible" {
		return false
	}
	r.F.AsMany = r.C.Span(from, r.C.I)
	what := r.C.Line.Words[skip : r.C.I-2]
	r.C.TakeAny("in", "for", "within")
	r.setTime(&r.F.Window, "window", true)
	r.countedWords(what, skip)
	return true
}

// countedWords opens an element for a movement named within the clause, "as
// many burpees as possible". General words count nothing of their own.
func (r *Reading) countedWords(what []string, from int) {
	if len(what) == 0 || what[0] == "rounds" || what[0] == "reps" && len(what) == 1 || what[0] == "rounds/reps" {
		return
	}
	if what[0] == "distance" {
		r.Counts, what, from = roomful.Metre, what[1:], from+1
		if len(what) == 0 {
			return
		}
	}
	inner := r.ReaderOf(scan.Cursor{Line: r.C.Line, I: from, Last: from + len(what)}, false)
	inner.Scored = r.Scored
	inner.Run()
	if len(inner.Elements) == 1 && (inner.Elements[0].Move != nil || len(what) > 1) {
		r.Elements = append(r.Elements, inner.Elements...)
	} else if u, ok := vocab.UnitWords[what[0]]; ok && u.Class == vocab.Counted {
		r.Counts = u.Unit
	}
}

// mostClause reads "max burpees in 5 min": only the time at the end makes it a
// format, and what is counted stays for the element.
func (r *Reading) mostClause(from int) bool {
	skip := r.C.I
	if r.head && r.F.Total.Set() && !r.F.Begins() && r.countedFollows() {
		r.F.AsMany = r.C.Span(from, skip) // 5 min of max burpees
		return true
	}
	for n := 0; n < 7; n++ {
		if r.C.Peek(0).Kind != scan.Word {
			return false
		}
		if r.C.I > skip && r.C.TakeAny("in", "within") {
			words := r.C.Line.Words[skip : r.C.I-1]
			if !r.setTime(&r.F.Window, "window", true) {
				return false
			}
			r.F.AsMany = r.C.Span(from, skip)
			r.countedWords(words, skip)
			return true
		}
		r.C.I++
	}
	return false
}
