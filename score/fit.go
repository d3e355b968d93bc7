package score

import (
	"slices"

	"roomful"
)

// fit tells how well a fact is the score of a piece; 0 when it cannot be.
func fit(s *piece, f *fact) int {
	switch s.kind {
	case roomful.RoundsScore:
		return fitRounds(s, f)
	case roomful.TimeScore:
		return fitTime(s, f)
	case roomful.LoadScore:
		return fitLoad(f)
	case roomful.DistanceScore:
		return fitAmount(f, roomful.Metre)
	case roomful.HoldScore:
		if f.kind == clockFact {
			return 10
		}
		return fitAmount(f, roomful.Second)
	default:
		return fitAmount(f, roomful.Rep)
	}
}

// fitRounds is fit for rounds, rungs and intervals held.
func fitRounds(s *piece, f *fact) int {
	_, window := s.part.Format.(roomful.RoundsInTime)
	switch f.kind {
	case plusFact:
		return 10
	case unitFact: // "165 reps" of a piece with rounds
		return 8 * b2i(window && s.count == 0 && f.unit == roomful.Rep)
	case roundsFact:
		return 9
	case ofFact:
		if s.count > 0 && f.b == float64(s.count) {
			return 9
		}
		return 3
	case allFact:
		return 7 * min(s.count, 1)
	case listFact: // "between 5 and 6"
		return 5 * b2i(window && f.range_)
	case plainFact:
		switch {
		case f.decimals > 0 && window && s.alone:
			return 8
		case f.decimals == 2 && window:
			return 7
		case f.decimals > 0:
			return 0
		case s.count > 0 && f.a > float64(s.count):
			return 1
		case f.a <= mostTyped && (s.alone || f.a <= mostBeside):
			return 6
		case window && s.alone && s.count == 0:
			return 2 // all the repetitions together
		}
	case clockFact:
		return b2i(window && s.alone)
	}
	return 0
}

// mostTyped is how many rounds a bare figure may count; more are repetitions.
const mostTyped = 60

// mostBeside is how many rounds a bare figure may count beside another piece, whose load
// or number it may be.
const mostBeside = 40

// fitTime is fit for times.
func fitTime(s *piece, f *fact) int {
	switch f.kind {
	case clockFact, capFact:
		return 10
	case listFact:
		switch {
		case (s.count > 1 || f.clocks) && !f.massSaid:
			return 10
		case f.range_: // "18 to 19 minutes"
			return 5
		}
		return 0
	case allFact:
		return 2
	case plainFact:
		switch {
		case f.decimals == 2 && int(f.a*100+0.5)%100 < 60:
			return 7
		case f.decimals > 0 && !s.alone:
			return 0
		}
		return 4
	case plusFact, roundsFact:
		return 1
	}
	return 0
}

// fitLoad is fit for the heaviest load or the load of sets.
func fitLoad(f *fact) int {
	switch f.kind {
	case loadFact:
		return 9
	case setsFact:
		return 9
	case listFact:
		return 7 - 6*b2i(f.clocks)
	case plainFact:
		return 5
	}
	return 0
}

// fitAmount is fit for an amount in a unit.
func fitAmount(f *fact, u roomful.Unit) int {
	switch f.kind {
	case unitFact:
		if f.unit.Base() == u || u == roomful.Rep && f.unit == roomful.Calorie {
			return 9
		}
	case plainFact:
		return 6
	case listFact:
		return 8 - 6*b2i(f.clocks)
	case plusFact, setsFact:
		return 2
	case clockFact:
		return 0
	}
	return 0
}

// names says whether what stands right behind a figure is of a piece, 1, or of another
// one only, -1; 0 when nothing does.
func (p *parser) names(f *fact, pieces []piece, i int) int {
	n, behind := p.named.from(f.to)
	implement := implementWords[p.word(f.to)]
	if implement == "" {
		implement = implementWords[p.word(f.from-1)]
	}
	if !behind && implement == "" {
		return 0
	}
	has := func(s piece) bool {
		return slices.ContainsFunc(s.lines, func(e roomful.Element) bool {
			m := p.lex.Movement(e.Movement)
			return implement != "" && m != nil && m.Implement == implement || behind && lineOf([]roomful.Element{e}, n.id) >= 0
		})
	}
	if has(pieces[i]) {
		return 1
	}
	if slices.ContainsFunc(pieces, has) {
		return -1
	}
	return 0
}

// countsWork reports whether a plain figure counts rounds or repetitions and is no time: "round
// 5", "8 pull-ups".
func (p *parser) countsWork(f *fact) bool {
	if f.kind != plainFact || p.asked.count > 0 {
		return false
	}
	return slices.Contains(roundWords, p.word(f.from-1)) || slices.Contains(repWords, p.word(f.to)) || p.lineAt(f.to) > 0
}

// bestWords and worstWords say which of several intervals a figure was.
var (
	bestWords  = wordSet("best fastest quickest most highest")
	worstWords = wordSet("slowest worst lowest least")
)

// heavy reports whether a plain figure may well be the load of a strength piece.
func (p *parser) heavy(f *fact) bool {
	_, named := p.named.from(f.to)
	return (f.a >= 20 || f.decimals > 0) && implementWords[p.word(f.to)] == "" && !named
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// assign gives each piece at most one fact so that the order of the text is the
// order of the sheet and all fit best together. It returns the fact of each
// piece, -1 for none.
func (p *parser) assign(pieces []piece) []int {
	facts := p.facts
	n, m := len(pieces), len(facts)
	loads := slices.ContainsFunc(facts, func(f fact) bool { return f.kind == loadFact })
	best := make([]int, (n+1)*(m+1))
	at := func(i, j int) *int { return &best[i*(m+1)+j] }
	worth := func(i, j int) int {
		w := fit(&pieces[i], &facts[j]) * 10
		missed := slices.Contains(missWords, p.word(facts[j].from-1)) && facts[j].kind == plainFact
		switch load := pieces[i].kind == roomful.LoadScore; {
		case missed && !load, pieces[i].kind == roomful.TimeScore && p.countsWork(&facts[j]):
			return 0
		case missed:
			w = min(w, 10)
		case load && (facts[j].kind == plainFact || facts[j].kind == loadFact) && p.names(&facts[j], pieces, i) < 0:
			return 0 // "50 lb db" are no squats
		case !load && facts[j].kind == plainFact && p.names(&facts[j], pieces, i) < 0:
			return 0 // "24 balls" are no burpees
		case load && facts[j].kind == plainFact && j == 0 && loads && len(pieces) > 1 && p.heavy(&facts[j]):
			w = 95 // "37,5 / 25 kg / 5:31": what comes first is the strength
		}
		if by := pieces[i].part.ScoreBy; by == "slowest" || by == "lowest" {
			switch before, behind := p.word(facts[j].from-1), p.word(facts[j].to); {
			case bestWords[before], bestWords[behind] && before != "slowest":
				return 0
			case worstWords[before]:
				w += 30
			}
		}
		if w > 0 && pieces[i].asked {
			w += 15
		}
		return w
	}
	for i := n - 1; i >= 0; i-- {
		for j := m - 1; j >= 0; j-- {
			*at(i, j) = max(*at(i+1, j), *at(i, j+1))
			if w := worth(i, j); w > 0 {
				*at(i, j) = max(*at(i, j), w+*at(i+1, j+1))
			}
		}
	}
	out := make([]int, n)
	for i := range out {
		out[i] = -1
	}
	for i, j := 0, 0; i < n && j < m; {
		switch w := worth(i, j); {
		case w > 0 && *at(i, j) == w+*at(i+1, j+1):
			out[i] = j
			i, j = i+1, j+1
		case *at(i, j) == *at(i+1, j):
			i++
		default:
			j++
		}
	}
	return out
}
