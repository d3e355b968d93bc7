package version

import (
	"roomful"
	"roomful/version/internal/care"
)

// Held says in private words which limit of somebody rules out a line that was set for
// them; empty when none does, and when it is at most two thirds of what is written.
func Held(a roomful.Athlete, on roomful.Date, lex roomful.Lexicon, set, written roomful.Task) string {
	m := lex.Movement(set.Movement)
	if m == nil {
		return ""
	}
	bounds := care.Of(a, on)
	limit := bounds.HeldBy(m)
	if limit == nil || eased(set, written) {
		return ""
	}
	return care.Avoid(*limit)
}

// eased reports whether a line is at most two thirds of another, in load where there is
// one, else in amount to the nearest repetition.
func eased(t, than roomful.Task) bool {
	if t.Movement != than.Movement {
		return false
	}
	if than.Load.Value > 0 {
		return t.LoadKg() <= than.LoadKg()*care.TwoThirds+tiny
	}
	return than.Amount > 0 && t.Amount <= than.Amount*care.TwoThirds+0.5
}
