package score

import (
	"slices"

	"roomful"
)

// cap reads "TC", "cap, 9 left", "capped at 112" and "cap+12".
func (p *parser) cap(i int) int {
	w := p.word(i)
	if w == "time" && (p.word(i+1) == "cap" || p.word(i+1) == "capped") {
		return 1 + p.cap(i+1)
	}
	short := p.unfinished(i)
	if short == 0 && !slices.Contains([]string{"cap", "capped", "tc", "timecap", "timecapped"}, w) {
		return 0
	}
	j := i + max(1, short)
	for j < len(p.toks) && slices.Contains([]string{"+", ",", "at", "@", "with", "-", ":", "(", "."}, p.word(j)) {
		j++
	}
	if !p.isNumber(j) || p.toks[j].decimals > 0 {
		return p.add(fact{kind: capFact, says: capNothing, short: short > 0}, i, max(1, short))
	}
	f, n := fact{kind: capFact, a: p.toks[j].value, short: short > 0}, j-i+1
	k := j + 1
	if slices.Contains(repWords, p.word(k)) {
		k++
	} else if named := p.lineAt(k); p.word(k+named) == "left" || p.word(k+named) == "to" {
		k += named
	}
	if slices.Contains(roundWords, p.word(k)) {
		f.says, n = capRounds, k-i+1
		if slices.Contains(joinWords, p.word(k+1)) && p.isNumber(k+2) {
			f.b, n = p.toks[k+2].value, k-i+3
			n += p.lineAt(k + 3)
		}
		return p.add(f, i, n)
	}
	if p.word(k) == "+" && p.isNumber(k+1) { // "cap 3+12"
		f.says, f.b = capRounds, p.toks[k+1].value
		return p.add(f, i, k-i+2)
	}
	if measureUnits[p.word(k)] == roomful.Calorie {
		k++
	}
	switch p.word(k) {
	case "left", "short", "remaining", "missing", "togo":
		f.says, n = capLeft, k-i+1
	case "to":
		if p.word(k+1) == "go" {
			f.says, n = capLeft, k-i+2
		}
	case "done", "in":
		f.says, n = capDone, k-i+1
	default:
		n = k - i
		if w == "capped" && p.word(i+1) == "at" {
			f.says = capDone
		}
	}
	return p.add(f, i, n)
}

// unfinished returns how many tokens from i on say that the work was not finished, "DNF"
// and "didn't finish". Beside a time they are left to the question about it.
func (p *parser) unfinished(i int) int {
	for _, words := range [][]string{{"dnf"}, {"did", "not", "finish"}, {"didn't", "finish"}, {"didn’t", "finish"}, {"didnt", "finish"}, {"not", "finished"}, {"never", "finished"}} {
		if p.at(i, words) && !slices.ContainsFunc(p.toks, func(t token) bool { return t.kind == clockToken }) {
			return len(words)
		}
	}
	return 0
}

// all reads "all", "all 15", "all of it", "completed".
func (p *parser) all(i int) int {
	w := p.word(i)
	if slices.Contains(finishWords, w) {
		return p.add(fact{kind: allFact}, i, 1)
	}
	if w != "all" {
		return 0
	}
	if p.word(i+1) == "but" && p.isNumber(i+2) && p.asked.count > 0 {
		return p.add(fact{kind: roundsFact, a: max(0, float64(p.asked.count)-p.toks[i+2].value)}, i, 3)
	}
	if p.isNumber(i+1) && (p.asked.count > 0 || slices.Contains(roundWords, p.word(i+2))) {
		n := 2
		if slices.Contains(roundWords, p.word(i+2)) {
			n = 3
		}
		return p.add(fact{kind: roundsFact, a: p.toks[i+1].value}, i, n)
	}
	switch {
	case i+1 == len(p.toks):
		return p.add(fact{kind: allFact}, i, 1)
	case slices.Contains(roundWords, p.word(i+1)):
		return p.add(fact{kind: allFact}, i, 2)
	case p.word(i+1) == "of" && (p.word(i+2) == "it" || p.word(i+2) == "them"):
		return p.add(fact{kind: allFact}, i, 3)
	}
	return 0
}

// clock reads "7:13", "95 s", "12 flat", "9 and a half", "18 min".
func (p *parser) clock(i int) int {
	t := p.toks[i]
	if t.kind == clockToken {
		if n := p.listFrom(i, clockToken); n > 0 {
			return n
		}
		n := 1
		if w := p.word(i + 1); w == "min" || w == "mins" {
			n = 2
		}
		return p.add(fact{kind: clockFact, a: t.value}, i, n)
	}
	if !p.isNumber(i) {
		return 0
	}
	switch w := p.word(i + 1); {
	case w == "flat":
		return p.add(fact{kind: clockFact, a: t.value * 60}, i, 2)
	case w == "and" && p.word(i+2) == "a" && p.word(i+3) == "half":
		return p.add(fact{kind: clockFact, a: t.value*60 + 30}, i, 4)
	case w == "min" || w == "mins" || w == "minutes" || w == "m" && p.isNumber(i+2) && (p.word(i+3) == "s" || p.toks[i+2].glued):
		f, n := fact{kind: clockFact, a: minutes(t)}, 2
		and := b2i(p.word(i+2) == "and" && isSecond(p.word(i+4)))
		if j := i + 2 + and; p.isNumber(j) && p.toks[j].value < 60 && p.toks[j].clause == t.clause {
			f.a, n = f.a+p.toks[j].value, 3+and
			if isSecond(p.word(j + 1)) {
				n++
			}
		}
		return p.add(f, i, n)
	case w == "s" && p.rungs[int(t.value)] > 0 && t.decimals == 0 && p.toks[i+1].glued:
		return p.rung(i, i+2)
	case w == "-" && p.rungs[int(t.value)] > 0 && i+2 < len(p.toks) && p.toks[i+2].kind == wordToken && p.toks[i+2].glued:
		return p.rung(i, i+3)
	case isSecond(w) && p.asked.count > 0 && p.listFrom(i, numberToken) > 0:
		return p.facts[len(p.facts)-1].to - i
	case isSecond(w) && !(w == "s" && t.text == "7.5"):
		return p.add(fact{kind: clockFact, a: t.value}, i, 2)
	}
	return 0
}

// rung reads "12s done + 9" and "12-ke": a rung of a ladder that was finished.
func (p *parser) rung(i, j int) int {
	f := fact{kind: plusFact, a: float64(p.rungs[int(p.toks[i].value)]), rung: true}
	if p.word(i-1) == "into" || p.word(i-1) == "the" && p.word(i-2) == "into" || p.word(j) == "not" { // not done yet
		f.kind, f.a, f.approx = roundsFact, f.a-1, true
		return p.add(f, i, j-i)
	}
	if slices.Contains(finishWords, p.word(j)) {
		j++
	}
	if slices.Contains(joinWords, p.word(j)) && p.isNumber(j+1) {
		f.b = p.toks[j+1].value
		j += 2
	}
	return p.add(f, i, j-i)
}

// minutes reads "18.42" before "min" as 18 minutes 42, "9.5" as nine and a half.
func minutes(t token) float64 {
	if t.decimals == 2 {
		return pointed(t.value)
	}
	return t.value * 60
}

// pointed reads a point as the colon of a clock: 7.13 is 7 min 13.
func pointed(v float64) float64 {
	whole := float64(int(v))
	return whole*60 + float64(int((v-whole)*100+0.5))
}

func isSecond(w string) bool {
	return w == "s" || w == "sec" || w == "secs" || w == "sek" || w == "seconds"
}
