package score

import (
	"math"
	"slices"

	"roomful"
)

// liftable reports whether a plain figure may be a load: not a small count, unless it
// stands behind what is lifted ("swings 24", "kb 16"), ends in a half, or is near to the
// sheet's and stands beside a stretch of the piece ("last round 16") or behind another
// load ("24 kg then 16"). What nobody lifts, and a second score ("1842 or 1850"), is none.
func (r *reader) liftable(f *fact, i int) bool {
	if m, behind := r.p.named.to(f.from); behind && r.bare(m.id) {
		return false // "run 300"
	}
	if m, before := r.p.named.from(f.to); before && len(piecesWith(r.pieces, m.id)) > 0 && r.apart(f) > onePair {
		return false // "12 swings"
	}
	if r.counts(f) || f.a > mostKg || choiceWords[r.p.word(f.from-1)] || r.share(f) || r.p.unmeant(f) || r.p.elsewhen(f.from) {
		return false
	}
	if f.a >= 20 || f.decimals == 1 && f.a >= 2.5 && f.a*2 == math.Trunc(f.a*2) {
		return true
	}
	if _, near := r.p.spanNear(stretch{f.from, f.to}, true); i > 0 && r.likely(f.a, f) && (near != nil || r.turns(f)) {
		return true
	}
	if r.apart(f) <= onePair && r.p.bare(r.p.clause(f.from), nil) {
		return true // "6+3, 15" where the sheet says 15 kg
	}
	_, held := implementWords[r.p.word(f.from-1)]
	m, named := r.byIt(f)
	return f.a >= 2 && (held || r.withLoad(f) || named && !r.unloaded(m.id))
}

// apart is how far a figure is from the nearest load of the sheet, of either division, as a
// logarithm.
func (r *reader) apart(f *fact) float64 { return r.apartAt(f.a, f) }

// apartAt is apart for another figure of a fact.
func (r *reader) apartAt(v float64, f *fact) float64 {
	kg, apart := inKg(v, f, r.unitOf(f, r.p.asked.part)), math.Inf(1)
	for _, e := range r.loaded() {
		ms, _ := e.Load.(roomful.Masses)
		for _, m := range ms {
			apart = min(apart, math.Abs(math.Log(kg/m.Kg())))
		}
	}
	return apart
}

// turns reports whether a word beside a figure says that it came instead of another: "then
// 16", "dropped to 16", "16 after", "rest at 16".
func (r *reader) turns(f *fact) bool {
	j := f.from - 1
	for slices.Contains(atWords, r.p.word(j)) || r.p.word(j) == "to" || r.p.word(j) == "->" {
		j--
	}
	before, behind := r.p.word(j), r.p.word(f.to)
	return r.p.word(f.from-1) == "to" && r.p.toks[f.from-2].kind == numberToken || slices.Contains(turnWords, before) || slices.Contains(restWords, before) || r.p.word(f.from-1) == "->" || slices.Contains(restWords, behind) || behind == "the" && r.p.word(f.to+1) == "rest"
}

// counts reports whether a figure counts a line without a load: "60 burpees".
func (r *reader) counts(f *fact) bool {
	m, named := r.p.named.from(f.to)
	return named && (r.unloaded(m.id) || len(piecesWith(r.pieces, m.id)) == 0 && r.bare(m.id))
}

// share reports whether a figure counts a part of a line: "20 at 16", "the first 20 swings",
// "20 swings at 24".
func (r *reader) share(f *fact) bool {
	j := f.to
	m, named := r.p.named.from(j)
	if named {
		j = m.to
	}
	before := r.p.word(f.from - 1)
	part := slices.Contains(firstWords, before) || slices.Contains(lastWords, before)
	return part || slices.Contains(atWords, r.p.word(j)) && j+1 < len(r.p.toks) && r.p.toks[j+1].kind == numberToken
}

// unmeant reports whether a figure is what was not held: "60 not 80", "60 instead of 80", "no 16 so
// 20 kg", "24 taken so 20", and "ran 200", which no bar weighs.
func (p *parser) unmeant(f *fact) bool {
	before, behind := p.word(f.from-1), p.word(f.to)
	return slices.Contains([]string{"not", "no", "ran", "jogged", "walked"}, before) || before == "of" && p.word(f.from-2) == "instead" || slices.Contains([]string{"taken", "gone", "busy"}, behind)
}

// elsewhen reports whether the clause of a token speaks of another day or of what was not done:
// "20 kg last time", "could have done 90".
func (p *parser) elsewhen(at int) bool {
	if at >= len(p.toks) {
		return p.otherDay(p.clause(at))
	}
	clause := p.toks[at].clause
	known, asked := p.otherDays[clause]
	if !asked { // of each figure of a long clause the same
		if p.otherDays == nil {
			p.otherDays = map[int]bool{}
		}
		known = p.otherDay(p.clause(at))
		p.otherDays[clause] = known
	}
	return known
}

// otherDay reports whether a clause speaks so.
func (p *parser) otherDay(s stretch) bool {
	for i := s.from; i < s.to; i++ {
		if w := p.word(i + 1); slices.Contains([]string{"last", "next"}, p.word(i)) && (w == "time" || w == "week" || w == "month" || w == "year") {
			return true
		}
	}
	return p.says(s, "could", "should", "would", "wanted", "planned", "meant", "supposed", "sheet", "goal", "target", "usually", "usual", "normally", "yesterday")
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
	return r.apart(f) <= math.Ln2
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
