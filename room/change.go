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
			if w := h.otherwise(e, workBefore(before, p.Name(), e.ID)); w.whole != "" {
				said.add(e.Name, w)
				fix.Touches = append(fix.Touches, e.Name)
			}
		}
		if fix.Say = joined(said.sentences()); fix.Say != "" {
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

// otherwise says what somebody does otherwise than before: the whole of it when it is
// not the same elements, one by one.
func (h *house) otherwise(e roomful.Entrant, before []roomful.Task) words {
	now := e.Work.All()
	same := len(before) == len(now)
	var all []words
	for i, t := range now {
		var w words
		switch m := h.Lexicon.Movement(t.Movement); {
		case !same && m != nil && t.Movement != roomful.Rest:
			w = words{whole: h.amount(t)}
		case same && t.Movement != before[i].Movement:
			w = h.swap(t, before[i].Movement)
		case same && h.amount(t) != h.amount(before[i]):
			w = words{whole: h.amount(t)}
		}
		if w.whole != "" && !slices.Contains(all, w) {
			all = append(all, w)
		}
	}
	if len(all) == 1 {
		return all[0]
	}
	var whole []string
	for _, w := range all {
		whole = append(whole, w.whole)
	}
	return words{whole: list(whole)}
}
