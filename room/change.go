package room

import (
	"slices"

	"roomful"
)

// Changed says what people do otherwise than before a change on the day, piece by
// piece; before are the pieces as they were. Who was not there before is told what
// they do.
func Changed(q Request, before []Piece, because string) []roomful.Fix {
	h := &house{Request: q}
	var out []roomful.Fix
	for _, p := range q.Pieces {
		fix := roomful.Fix{What: because, Part: p.Name(), Why: "changed on the day"}
		var said told
		for _, e := range p.Entrants {
			if words := h.otherwise(e, workBefore(before, p.Name(), e.ID)); len(words) > 0 {
				said.add(e.Name, list(words))
				fix.Touches = append(fix.Touches, e.Name)
			}
		}
		if fix.Say = joined(said.words()); fix.Say != "" {
			out = append(out, fix)
		}
	}
	return out
}

// workBefore returns what somebody did of a piece, nil when they were not in it.
func workBefore(before []Piece, part, id string) []roomful.Task {
	for _, p := range before {
		for _, e := range p.Entrants {
			if p.Name() == part && e.ID == id {
				return e.Work.All()
			}
		}
	}
	return nil
}

// otherwise says what somebody does otherwise than before.
func (h *house) otherwise(e roomful.Entrant, before []roomful.Task) []string {
	now := e.Work.All()
	var words []string
	if len(before) != len(now) {
		for _, t := range now {
			if m := h.Lexicon.Movement(t.Movement); m != nil && t.Movement != roomful.Rest {
				words = append(words, h.amount(t))
			}
		}
		return words
	}
	for i, t := range now {
		switch was := before[i]; {
		case t.Movement != was.Movement:
			words = append(words, h.amount(t)+" instead of the "+h.named(was.Movement))
		case h.amount(t) != h.amount(was):
			words = append(words, h.amount(t))
		}
	}
	return slices.Compact(words)
}
