package score

import (
	"math"
	"slices"

	"roomful"
)

// halves reads "5 and a half", "5½" and "5 1/2 rounds" after rounds in a time: so many and half
// of the next, about.
func (p *parser) halves(i int) int {
	if !p.asked.window() || !p.isNumber(i) || p.toks[i].decimals > 0 {
		return 0
	}
	n := 0
	switch {
	case p.at(i+1, []string{"and", "a", "half"}):
		n = 4
	case p.word(i+1) == "½":
		n = 2
	case p.at(i+1, []string{"1", "/", "2"}):
		n = 4
	default:
		return 0
	}
	f := fact{kind: plusFact, a: p.toks[i].value, b: float64(int(p.mostInRound(p.whole(i)) / 2)), approx: true}
	return p.add(f, i, n+b2i(slices.Contains(roundWords, p.word(i+n))))
}

// short reads "6 rounds minus 3", "6 less 2", "3 reps short of 6" and "one short of 6 rounds":
// all of the rounds but so many repetitions.
func (p *parser) short(i int) int {
	if !p.asked.window() {
		return 0
	}
	minus := func(rounds, reps float64, n int) int {
		size := p.mostInRound(int(rounds) - 1)
		if rounds < 1 || reps <= 0 || reps >= size {
			return 0
		}
		return p.add(fact{kind: plusFact, a: rounds - 1, b: size - reps}, i, n)
	}
	if p.isNumber(i) {
		j := i + 1 + b2i(slices.Contains(roundWords, p.word(i+1)))
		if w := p.word(j); (w == "minus" || w == "less" || w == "bar") && p.isNumber(j+1) {
			return minus(p.toks[i].value, p.toks[j+1].value, j+2-i+b2i(slices.Contains(repWords, p.word(j+2))))
		}
	}
	reps := 0.0
	switch {
	case p.word(i) == "one":
		reps = 1
	case p.isNumber(i):
		reps = p.toks[i].value
	}
	j := i + 1 + b2i(slices.Contains(repWords, p.word(i+1)))
	if reps == 0 || !p.at(j, []string{"short", "of"}) || !p.isNumber(j+2) {
		return 0
	}
	return minus(p.toks[j+2].value, reps, j+3-i+b2i(slices.Contains(roundWords, p.word(j+3))))
}

// into reads "20 into the 6th round" and "into round 6": the rounds before it, and what was
// done of it.
func (p *parser) into(i int) int {
	j := i + b2i(p.isNumber(i))
	j += b2i(j > i && slices.Contains(repWords, p.word(j)))
	if w := p.word(j); !p.asked.window() && p.asked.kind != roomful.TimeScore || w != "into" && (w != "to" || p.word(j-1) != "got" && p.word(j-1) != "it") {
		return 0
	}
	at, _, end := p.pointAt(j + 1)
	if end == j+1 || at.round < 2 {
		return 0
	}
	if j == i {
		return p.add(fact{kind: roundsFact, a: float64(at.round - 1), approx: true}, i, end-i)
	}
	return p.add(fact{kind: plusFact, a: float64(at.round - 1), b: p.toks[i].value}, i, end-i)
}

// beyond reads "5 + ?", "5+something" and "5 rounds and change", and "19+" after a piece for
// time: more than so many.
func (p *parser) beyond(i int) int {
	if p.asked.kind == roomful.TimeScore && p.asked.count == 0 && p.isNumber(i) && p.word(i+1) == "+" && i+2 == len(p.toks) {
		return p.add(fact{kind: clockFact, a: pointed(p.toks[i].value), approx: true}, i, 2)
	}
	if !p.asked.window() || !p.isNumber(i) || p.toks[i].decimals > 0 {
		return 0
	}
	j := i + 1 + b2i(slices.Contains(roundWords, p.word(i+1)))
	if w := p.word(j); w != "+" && w != "and" && w != "plus" {
		return 0
	}
	k := j + 1 + b2i(p.word(j+1) == "a")
	switch w := p.word(k); {
	case w == "?", slices.Contains([]string{"something", "some", "bit", "change", "few"}, w):
		for k < len(p.toks) && p.word(k) == "?" {
			k++
		}
		if k == j+1 || w != "?" {
			k++
		}
		return p.add(fact{kind: roundsFact, a: p.toks[i].value, approx: true}, i, k-i)
	case p.word(j) == "+" && k == len(p.toks):
		return p.add(fact{kind: roundsFact, a: p.toks[i].value, approx: true}, i, j+1-i)
	}
	return 0
}

// through reads on in "5+10+10+3" and "5 + DLs + 8", where each figure is all of its line but
// the last: how many repetitions from token j on, and the token behind them; j when it is
// something else.
func (p *parser) through(j int) (reps float64, end int) {
	k := j
	for n, e := range p.asked.lines {
		if n > 0 {
			if !slices.Contains(joinWords, p.word(k)) && p.word(k) != "/" && p.word(k) != "," {
				break
			}
			k++
		}
		for slices.Contains([]string{"all", "the"}, p.word(k)) {
			k++
		}
		most := 0.0
		for _, by := range e.Amount.By {
			most = max(most, by)
		}
		named := p.lineAt(k)
		if named == 0 && !p.isNumber(k) {
			break
		}
		if !counts(e.Amount.Unit) || most == 0 {
			return 0, j
		}
		if named > 0 {
			reps, k, end = reps+most, k+named, k+named
			continue
		}
		v := p.toks[k].value
		if p.toks[k].decimals > 0 || v > most || p.lineAt(k+1) == 0 && p.unitAt(k+1) {
			return 0, j
		}
		k++
		k += p.lineAt(k)
		reps, end = reps+v, k
		if v < most {
			return reps, end
		}
	}
	return reps, end
}

// inAll takes a figure that says the whole of the score beside it, "5+20 (180 total)" and
// "47 48 47 = 142", and asks where it says another.
func (r *reader) inAll(out *roomful.Reading) {
	at := r.got[r.asked()]
	if at < 0 {
		return
	}
	whole := math.NaN()
	switch f := &r.p.facts[at]; {
	case f.kind == plusFact && out.TotalReps != nil:
		whole = float64(*out.TotalReps)
	case f.kind == listFact && !f.range_:
		whole = sum(f.list)
	}
	for i := range r.p.facts {
		f := &r.p.facts[i]
		said := slices.Contains([]string{"=", "total", "totalling"}, r.p.word(f.from-1)) || r.p.word(f.to) == "total"
		counted := f.kind == plainFact || f.kind == unitFact && f.unit == roomful.Rep || f.kind == clockFact
		level := math.Abs(f.a-whole) <= 1
		if i == at || math.IsNaN(whole) || !counted || !said && !(level && (f.kind != plainFact || r.p.facts[at].kind == listFact)) {
			continue
		}
		r.take(f)
		if !level {
			ask(out, Words(*out)+" is "+roomful.Figure(whole)+" in all; which is it?", Words(*out), f.text)
		}
	}
}
