package score

import (
	"math"
	"slices"

	"roomful"
)

// liftable reports whether a plain figure may be a load: not a small count, unless it
// stands behind what is lifted ("swings 24", "kb 16"), ends in a half, or follows
// another load ("24 kg then 16").
func (r *reader) liftable(f *fact, i int) bool {
	if r.counts(f) {
		return false
	}
	if f.a >= 20 || r.p.word(f.from-1) == "then" && i > 0 || f.decimals == 1 && f.a >= 2.5 && f.a*2 == math.Trunc(f.a*2) {
		return true
	}
	if _, apart := r.closest(r.loaded(), inKg(f.a, f, r.q.Unit)); apart <= onePair && r.p.bare(r.p.clause(f.from), nil) {
		return true // "6+3, 15" where the sheet says 15 kg
	}
	_, held := implementWords[r.p.word(f.from-1)]
	m, named := r.p.named.to(f.from)
	return f.a >= 2 && (held || r.withLoad(f) || named && !r.unloaded(m.id))
}

// counts reports whether a figure counts a line without a load: "60 burpees".
func (r *reader) counts(f *fact) bool {
	m, named := r.p.named.from(f.to)
	return named && r.unloaded(m.id)
}

// unloaded reports whether a movement is a line of a piece that asks for no load.
func (r *reader) unloaded(id roomful.MovementID) bool {
	for _, i := range piecesWith(r.pieces, id) {
		es := r.pieces[i].lines
		return es[lineOf(es, id)].Load == nil
	}
	return false
}

// withLoad reports whether "with" stands before a figure near to one of the sheet's
// loads and nothing behind it says what it counts.
func (r *reader) withLoad(f *fact) bool {
	if !slices.Contains([]string{"with", "w", "using", "mit", "avec", "con", "sa"}, r.p.word(f.from-1)) || f.to < len(r.p.toks) && r.p.toks[f.to].kind == wordToken && r.p.toks[f.to].clause == r.p.toks[f.from].clause {
		return false
	}
	_, apart := r.closest(r.loaded(), inKg(f.a, f, r.q.Unit))
	return apart <= math.Ln2
}

// loaded lists the lines of the pieces that are not for load.
func (r *reader) loaded() (out []roomful.Element) {
	for _, s := range r.pieces {
		if s.kind != roomful.LoadScore {
			out = append(out, s.lines...)
		}
	}
	return out
}
