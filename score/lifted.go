package score

import (
	"math"
	"slices"

	"roomful"
)

// lifted is a load that a text states beside a score.
type lifted struct {
	kg     float64
	span   span // the stretch of the piece that it was held for
	spoken bool // the text says which
	piece  int
	of     roomful.MovementID // the line
	lines  []roomful.Element  // that it may be of
	turned bool               // "dropped to 16"
	then   bool               // it came later, and nobody says when
	partly bool               // "half the swings at 16", nobody says which
}

// stated takes loads that are no score as what was lifted, in the piece whose line or
// implement stands beside them, else the one they stand by. A load that is not the
// sheet's is a change.
func (r *reader) stated(out []roomful.Reading) (changes []owned) {
	r.matched = map[string]bool{}
	var all []lifted
	for i := range r.p.facts {
		f := &r.p.facts[i]
		if r.taken[f.from] {
			continue
		}
		if r.choice(f, all, out) || r.asPair(f, out) {
			continue
		}
		all = append(all, r.lifts(out, all, i)...)
	}
	for len(all) > 0 {
		line, rest := all[:0:0], all[:0:0]
		for _, l := range all {
			if l.piece == all[0].piece && l.of == all[0].of {
				line = append(line, l)
			} else {
				rest = append(rest, l)
			}
		}
		changes = append(changes, r.held(r.readingOf(out, line[0].piece), line)...)
		all = rest
	}
	return changes
}

// readingOf is the reading of a piece, the first when it has none.
func (r *reader) readingOf(out []roomful.Reading, piece int) *roomful.Reading {
	for k := range out {
		if out[k].Piece == r.pieces[piece].part.Name() {
			return &out[k]
		}
	}
	return &out[0]
}

// choice takes a second load of which one is meant, "24 or 16 kg", and asks.
func (r *reader) choice(f *fact, before []lifted, out []roomful.Reading) bool {
	if len(before) == 0 || !choiceWords[r.p.word(f.from-1)] || r.p.unmeant(f) || f.kind != loadFact && f.kind != plainFact {
		return false
	}
	last := before[len(before)-1]
	kg := inKg(f.a, f, r.unitOf(f, r.pieces[last.piece].part))
	if math.Abs(math.Log(kg/last.kg)) > math.Ln2 {
		return false
	}
	r.take(f)
	ask(r.readingOf(out, last.piece), "which load was it?", roomful.Figure(last.kg)+" kg", roomful.Figure(kg)+" kg")
	return true
}

// asPair takes the sheet's two figures, "24/16" and "50/35", as said: the work was as written.
func (r *reader) asPair(f *fact, out []roomful.Reading) bool {
	if _, counts := measureUnits[r.p.word(f.from-1)]; counts || f.kind != ofFact || r.p.unitAt(f.to) {
		return false
	}
	piece, lines, ok := r.p.pairOf(f.a, f.b)
	if !ok {
		return false
	}
	r.take(f)
	one := r.readingOf(out, piece)
	if ms, _ := lines.Load.(roomful.Masses); r.q.Division != roomful.AnyDivision {
		one.LoadsKg = append(one.LoadsKg, ms.For(r.q.Division).Kg())
	}
	r.match(one.Piece, true)
	return true
}

// pairOf finds the line that has two figures as its loads, in kilograms or in pounds, and
// its piece.
func (p *parser) pairOf(a, b float64) (int, roomful.Element, bool) {
	near := func(x, y float64) bool { return math.Abs(math.Log(x/y)) <= pairsApart }
	for i, s := range p.pieces {
		for _, e := range s.lines {
			if ms, ok := e.Load.(roomful.Masses); ok && len(ms) == 2 {
				x, y := ms[0].Kg(), ms[1].Kg()
				if near(a, x) && near(b, y) || near(roomful.Lb(a).Kg(), x) && near(roomful.Lb(b).Kg(), y) {
					return i, e, true
				}
			}
		}
	}
	return 0, roomful.Element{}, false
}

// pairsApart is how far each of two loads may be from its own in the other unit, as a
// logarithm: 50/35 lb are 22.5/15 kg (common practice, no source).
const pairsApart = 0.08

// lifts makes a load of a fact, one to a round of a list of them; none when it is something
// else, or the load before it in the other unit.
func (r *reader) lifts(out []roomful.Reading, before []lifted, i int) []lifted {
	f := &r.p.facts[i]
	rounds := f.kind == listFact && r.byRound(out, f)
	if r.p.elsewhen(f.from) || r.p.unmeant(f) || f.kind != loadFact && !rounds && !(f.kind == plainFact && r.liftable(f, i)) {
		return nil
	}
	at, lines := r.loadPiece(f)
	if at < 0 || r.readingOf(out, at).Kind == roomful.LoadScore {
		return nil
	}
	reading, l := r.readingOf(out, at), lifted{piece: at, lines: lines}
	r.take(f)
	l.kg = r.kilograms(reading, f, f.a, l)
	if len(before) > 0 && i > 0 && f.massSaid && r.p.facts[i-1].massSaid && r.p.facts[i-1].mass != f.mass && math.Abs(math.Log(l.kg/before[len(before)-1].kg)) <= onePair {
		return nil // "80 kg (175 lb)"
	}
	if m, ok := r.byIt(f); ok && lineOf(lines, m.id) >= 0 {
		r.p.use(m.from, m.to)
	}
	if rounds {
		return r.roundByRound(reading, f, l)
	}
	l.span, l.spoken = r.p.spanOf(stretch{f.from, f.to}, true)
	if !l.spoken && r.said.asWritten && r.turns(f) { // "first round rx, then 16"
		l.span, l.spoken = span{since: r.p.firstEnd(f.from)}, true
		l.then = l.span.since == point{}
	}
	l.partly = !l.spoken && r.partly(f)
	if w := r.p.word(f.from - 1); w == "dropped" || w == "lowered" {
		kg := roomful.Figure(l.kg) + " kg"
		ask(reading, "was that "+kg+", or "+kg+" less?", kg, kg+" less")
	}
	l.turned = r.turned(f)
	l.of, _ = r.line(lines, l.kg)
	reading.LoadsKg = append(reading.LoadsKg, l.kg)
	return []lifted{l}
}

// roundByRound makes a load of each round of a list that has one to a round.
func (r *reader) roundByRound(out *roomful.Reading, f *fact, l lifted) (loads []lifted) {
	l.spoken = true
	for n, v := range f.list {
		l.kg, l.span = r.kilograms(out, f, v, l), span{startOf(n + 1), startOf(n + 2)}
		l.of, _ = r.line(l.lines, l.kg)
		if n > 0 && loads[len(loads)-1].kg == l.kg {
			loads[len(loads)-1].span.until = l.span.until
			continue
		}
		out.LoadsKg = append(out.LoadsKg, l.kg)
		loads = append(loads, l)
	}
	loads[len(loads)-1].span.until = point{}
	return loads
}

// kilograms is a figure of a load in kg. One that only makes sense in pounds is read so, and
// asked about.
func (r *reader) kilograms(out *roomful.Reading, f *fact, v float64, l lifted) float64 {
	unit := r.unitOf(f, r.pieces[l.piece].part)
	if !f.massSaid && unit == roomful.Kilogram && r.inPounds(v, l.lines) {
		unit = roomful.Pound
		ask(out, "is that "+roomful.Figure(v)+" lb, or kilograms?", roomful.Figure(v)+" lb", roomful.Figure(v)+" kg")
	}
	return inKg(v, f, unit)
}

// inPounds reports whether a figure is far above the sheet's load in kilograms, and near to it
// in pounds: "135" where the sheet has 60 kg.
func (r *reader) inPounds(v float64, lines []roomful.Element) bool {
	_, kg := r.closest(lines, v)
	_, lb := r.closest(lines, roomful.Lb(v).Kg())
	return lb <= pairsApart && kg > math.Log(1.5)
}

// turned reports whether a load is said to have come on the way, and takes the words that say
// so, and those that say what it was held for.
func (r *reader) turned(f *fact) (turned bool) {
	says := func(w string) bool {
		return slices.Contains(atWords, w) || slices.Contains(turnWords, w) || slices.Contains(restWords, w) || slices.Contains([]string{"to", "->", "started", "for", "the", "a"}, w)
	}
	j := f.from - 1
	for ; j >= r.p.clause(f.from).from && says(r.p.word(j)); j-- {
		turned = turned || slices.Contains([]string{"dropped", "switched", "swapped", "down", "lowered", "moved"}, r.p.word(j))
	}
	r.p.use(j+1, f.from)
	for j = f.to; j < r.p.clause(f.from).to && (slices.Contains([]string{"for", "the", "that"}, r.p.word(j)) || slices.Contains(restWords, r.p.word(j))) && r.p.word(j) != "then"; {
		j++
	}
	if j > f.to && (slices.Contains(restWords, r.p.word(j-1)) || r.p.word(j-1) == "that") {
		r.p.use(f.to, j)
	}
	return turned
}

// partly reports whether a load is said to have been held for a part that cannot be placed.
func (r *reader) partly(f *fact) bool {
	s := r.p.clause(f.from)
	for i := s.from; i < s.to; i++ {
		w, next := r.p.word(i), r.p.word(i+1)
		switch {
		case r.p.used[i]:
		case w == "half", w == "some", w == "odd", w == "even", w == "alternating", w == "alternate", w == "every" && next == "other",
			(slices.Contains(firstWords, w) || slices.Contains(lastWords, w)) && i+1 < s.to && r.p.toks[i+1].kind == numberToken:
			return true
		}
	}
	return false
}

// byRound reports whether a list has a load for each round that was done.
func (r *reader) byRound(out []roomful.Reading, f *fact) bool {
	s := &r.pieces[r.asked()]
	rounds := r.lasted(s, &out[0]).rounds
	if m, named := r.p.named.to(f.from); f.clocks || f.range_ || r.counts(f) || named && r.unloaded(m.id) {
		return false
	}
	if n := float64(len(f.list)); n != math.Floor(rounds) && n != math.Ceil(rounds) {
		return false
	}
	return !slices.ContainsFunc(f.list, func(v float64) bool { return !r.likely(v, f) })
}

// likely reports whether a figure is within a factor of two of a load on the sheet.
func (r *reader) likely(v float64, f *fact) bool { return r.apartAt(v, f) <= math.Ln2 }

// held turns the loads of a line into changes. What has no span fills the stretches that no
// other load has: "first round at 24, rest at 16" is 16 from the second round on.
func (r *reader) held(out *roomful.Reading, loads []lifted) (changes []owned) {
	t := timeline{r: r, out: out, piece: loads[0].piece, of: loads[0].of, lines: loads[0].lines}
	for _, l := range loads {
		if l.spoken {
			t.spans = append(t.spans, l)
		} else if n := len(t.base); n == 0 || t.base[n-1].kg != l.kg {
			t.base = append(t.base, l)
		}
	}
	t.fill()
	switch one := loads[0]; {
	case len(loads) > 1 || one.spoken || out.Question != nil:
	case one.partly:
		out.Question = question("was it "+roomful.Figure(one.kg)+" kg for all of it?", "for all of it", "for a part of it")
	case one.turned:
		out.Question = question("was it "+roomful.Figure(loads[0].kg)+" kg from the start?", "from the start", "later on")
	}
	r.match(out.Piece, !t.differs && len(t.changes) == 0)
	return t.changes
}

// match keeps whether the loads of a piece are all the sheet's.
func (r *reader) match(piece string, sheets bool) {
	before, said := r.matched[piece]
	r.matched[piece] = sheets && (before || !said)
}
