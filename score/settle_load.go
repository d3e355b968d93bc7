package score

import (
	"math"
	"slices"

	"roomful"
)

// loads settles the sets of a strength piece.
func (r *reader) loads(out *roomful.Reading, s *piece, facts []fact) {
	unit := r.unit(s.part)
	for i := range facts {
		f := &facts[i]
		if i > 0 && (r.p.elsewhen(f.from) || slices.Contains([]string{"more", "less", "heavier", "lighter"}, r.p.word(f.to)) || r.elsewhere(s, f) || r.another(&facts[0], f) || choiceWords[r.p.word(f.from-1)]) {
			continue
		}
		if i > 0 && f.massSaid && facts[i-1].massSaid && f.mass != facts[i-1].mass && len(out.LoadsKg) > 0 && math.Abs(math.Log(inKg(f.a, f, unit)/out.LoadsKg[len(out.LoadsKg)-1])) <= onePair {
			r.take(f) // "61 kg (135 lb)"
			continue
		}
		if f.massSaid {
			unit = f.mass
		}
		kg := func(v float64) float64 { return inKg(v, f, unit) }
		switch {
		case f.kind == setsFact && len(f.list) > 0:
			for range min(max(int(f.a), 1), 30) {
				out.LoadsKg = append(out.LoadsKg, kg(f.list[0]))
			}
		case f.kind == listFact && !f.clocks && !f.range_:
			for _, n := range f.failed {
				out.Misses = append(out.Misses, len(out.LoadsKg)+n)
			}
			for _, v := range f.list {
				out.LoadsKg = append(out.LoadsKg, kg(v))
			}
		case f.kind == loadFact, f.kind == plainFact && (i == 0 || f.a >= 20):
			out.LoadsKg = append(out.LoadsKg, kg(f.a))
			if r.missed(f) {
				out.Misses = append(out.Misses, len(out.LoadsKg))
			}
		case f.kind == setsFact && i == 0 && i+1 < len(facts) && (facts[1].kind == loadFact || facts[1].kind == plainFact):
			continue
		default:
			continue
		}
		r.take(f)
	}
	if r.lastFailed() && len(out.LoadsKg) > 0 && !slices.Contains(out.Misses, len(out.LoadsKg)) {
		out.Misses = append(out.Misses, len(out.LoadsKg))
	}
}

// another reports whether a load stands in a sentence of its own behind the load of
// the strength piece and is no miss: then it is what was lifted in the next one.
func (r *reader) another(first, f *fact) bool {
	return f.kind == loadFact && !r.missed(f) && r.p.sentences[f.from] != r.p.sentences[first.from] && slices.ContainsFunc(r.pieces, func(s piece) bool {
		return s.kind != roomful.LoadScore && loaded(s.part)
	})
}

// elsewhere reports whether a load is of a line of another piece that stands beside
// it.
func (r *reader) elsewhere(s *piece, f *fact) bool {
	other := func(m mention, named bool) bool {
		return named && lineOf(s.lines, m.id) < 0 && len(piecesWith(r.pieces, m.id)) > 0
	}
	return other(r.p.named.to(f.from)) || other(r.p.named.from(f.to))
}

// missed reports whether a word of failing stands beside a load.
func (r *reader) missed(f *fact) bool {
	before, after := r.p.word(f.from-1), r.p.word(f.to)
	if after == "f" && r.p.isGlued(f.to+1) {
		after = "" // of the next, "95 F100"
	}
	return slices.Contains(missWords, before) || slices.Contains(missWords, after) || after == "no" || r.p.missAt(f.to) > 0
}

// outOfOrder gives a strength piece the load that stands by its name behind the score of a later
// one, "6+3, squats 60".
func (r *reader) outOfOrder() {
	for i := range r.pieces {
		if r.pieces[i].kind != roomful.LoadScore || r.got[i] >= 0 {
			continue
		}
		for k := range r.p.facts {
			f := &r.p.facts[k]
			m, named := r.byIt(f)
			if named && (f.kind == plainFact && f.a >= 20 || f.kind == loadFact || f.kind == listFact || f.kind == setsFact) && !slices.Contains(r.got, k) && lineOf(r.pieces[i].lines, m.id) >= 0 {
				r.got[i] = k
				break
			}
		}
	}
}

// lastFailed reports whether the last set is said to have failed.
func (r *reader) lastFailed() bool {
	for i := range r.p.toks {
		if r.p.at(i, []string{"last", "set", "failed"}) || r.p.at(i, []string{"failed", "last", "set"}) || r.p.at(i, []string{"missed", "the", "last"}) {
			return true
		}
	}
	return false
}

// unitOf is the unit of a load that comes without one: that of the loads beside it, "53 lb
// first round then 35", else as for any load of the piece.
func (r *reader) unitOf(f *fact, p roomful.Part) roomful.MassUnit {
	at := slices.IndexFunc(r.p.facts, func(g fact) bool { return g.from == f.from })
	for _, step := range []int{-1, 1} {
		for k := at; k >= 0 && k < len(r.p.facts); k += step {
			if g := &r.p.facts[k]; g.massSaid {
				return g.mass
			} else if g.kind != plainFact && g.kind != listFact {
				break
			}
		}
	}
	return r.unit(p)
}

// unit is the unit of loads that come without one: the person's, unless the
// sheet is written in pounds.
func (r *reader) unit(p roomful.Part) roomful.MassUnit {
	for _, e := range p.All() {
		if ms, ok := e.Load.(roomful.Masses); ok && len(ms) > 0 {
			return ms[0].Unit
		}
	}
	return r.q.Unit
}

// inKg returns a figure in kilograms.
func inKg(v float64, f *fact, unit roomful.MassUnit) float64 {
	if f.massSaid {
		unit = f.mass
	}
	if !f.massSaid && v != math.Trunc(v) {
		unit = roomful.Kilogram // pounds come whole, halves are kilograms
	}
	return math.Round(roomful.Mass{Value: v, Unit: unit}.Kg()*1000) / 1000
}
