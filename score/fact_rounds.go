package score

import (
	"slices"

	"roomful"
)

// plus reads "5+20", "5 rds + 20", "5 and 20", "5 rounds 20 reps".
func (p *parser) plus(i int) int {
	if !p.isNumber(i) || p.toks[i].decimals > 0 || p.multi() && p.asked.count > 0 {
		return 0 // with intervals and a second piece, "12 + 12" is two scores
	}
	j, rounds := i+1, false
	j += b2i(p.word(j) == "full" || p.word(j) == "complete")
	if slices.Contains(roundWords, p.word(j)) {
		rounds = true
		j++
	}
	joined := slices.Contains(joinWords, p.word(j)) || rounds && (p.word(j) == "," || p.word(j) == "-" || slices.Contains(letterJoins, p.word(j)))
	if p.asked.window() && joined && (p.isNumber(j+1) || p.lineAt(j+1) > 0 || p.word(j+1) == "the" || p.word(j+1) == "all") {
		if reps, end := p.through(j + 1); end > j+2 || end > j+1 && !p.isNumber(j+1) {
			return p.add(fact{kind: plusFact, a: p.toks[i].value, b: reps}, i, end-i)
		}
	}
	if rounds && joined && p.lineAt(j+2) > 0 {
		if reps, end := p.over(j); end > j {
			return p.add(fact{kind: plusFact, a: p.toks[i].value, b: reps}, i, end-i)
		}
	}
	if p.asked.count > 0 && (p.word(j) == "and" && !rounds || p.word(j) == ",") {
		return 0 // "min 7 and 9", "15 rounds, 60"
	}
	if (p.word(j) == "," || p.word(j) == "-") && p.asked.window() && p.isNumber(j+1) && !slices.Contains(repWords, p.word(j+2)) && p.toks[j+1].value >= p.mostInRound(p.whole(i)) {
		return 0 // "5 rounds, 60"
	}
	if joined {
		j++
	}
	if joined && rounds && p.word(j) == "a" && p.word(j+1) == "bit" {
		return 0
	}
	if !p.isNumber(j) || !(joined || rounds && slices.Contains(repWords, p.word(j+1))) || p.toks[j].decimals > 0 {
		return 0
	}
	if p.multi() && p.word(j+1) == "+" && p.number(j+2) {
		return 0 // "60 & 6+3"
	}
	if w := p.word(j + 1); w == "no-reps" || w == "no" && slices.Contains(repWords, p.word(j+2)) {
		return 0 // "53 + 2 no reps"
	}
	if w := p.word(j + 1); slices.Contains(kgWords, w) || slices.Contains(lbWords, w) || w == "cm" || w == "band" {
		return 0
	}
	f := fact{kind: plusFact, a: p.toks[i].value, b: p.toks[j].value}
	if slices.Contains(repWords, p.word(j+1)) {
		j++
	}
	if k := j + 2 + b2i(p.word(j+2) == "the"); p.word(j+1) == "of" && p.isNumber(k) {
		j = k // "9 of the 15"
	}
	if more, end := p.over(j + 1); end > j+1 && p.word(j+1) == "/" {
		f.b, j = f.b+more, end-1
	}
	return p.add(f, i, j+1-i)
}

// letterJoins are words for "and" of one letter or two; they join only behind rounds.
var letterJoins = []string{"i", "y", "e", "och", "og", "en"}

// rounds reads "5 rounds", "12 Rd.", "5 rounds nearly 6".
func (p *parser) rounds(i int) int {
	if !p.isNumber(i) {
		return 0
	}
	if p.word(i+1) == "and" && p.word(i+2) == "a" && p.word(i+3) == "bit" && p.asked.kind == roomful.TimeScore && !p.multi() {
		return p.add(fact{kind: clockFact, a: p.toks[i].value * 60, approx: true}, i, 4)
	}
	if p.word(i+1) == "and" && p.word(i+2) == "a" && p.word(i+3) == "bit" {
		return p.add(fact{kind: roundsFact, a: p.toks[i].value, approx: true}, i, 4)
	}
	if !slices.Contains(roundWords, p.word(i+1)) || p.used[i+1] || p.toks[i].decimals > 0 {
		return 0
	}
	f, n := fact{kind: roundsFact, a: p.toks[i].value}, 2
	if w := p.word(i + 2); (w == "nearly" || w == "almost") && p.isNumber(i+3) {
		f.approx, f.nearly, n = true, true, 4
	}
	return p.add(f, i, n)
}

// of reads "15/15", "5 of 5", "9 von 12" and "@ 24/16 kg".
func (p *parser) of(i int) int {
	if p.word(i) == "@" && p.word(i+2) == "/" {
		if n := p.of(i + 1); n > 0 {
			return n + 1
		}
	}
	w := p.word(i + 1)
	if !p.isNumber(i) || !p.isNumber(i+2) || w != "of" && w != "von" && !(w == "/" && p.toks[i+1].glued) {
		return 0
	}
	if f, ok := p.asked.part.Format.(roomful.ForTime); ok && f.Rounds > 1 && p.whole(i+2) == f.Rounds && p.whole(i) <= f.Rounds && !p.isClock(i+3) { // "4/5 rounds"
		return p.add(fact{kind: roundsFact, a: p.toks[i].value}, i, 3+b2i(slices.Contains(roundWords, p.word(i+3))))
	}
	if p.asked.kind == roomful.TimeScore && p.toks[i].value >= 100 && p.toks[i+2].value >= 100 {
		return 0 // "1842/1850" are two times
	}
	if p.multi() && p.asked.count > 0 && int(p.toks[i+2].value) != p.asked.count {
		return 0 // "12/9" is two scores
	}
	f := fact{kind: ofFact, a: p.toks[i].value, b: p.toks[i+2].value}
	return p.add(f, i, p.mass(&f, i, i+3)-i)
}

// plain reads a number with nothing to say what it counts.
func (p *parser) plain(i int) int {
	if !p.isNumber(i) {
		return 0
	}
	if i+1 < len(p.toks) && p.toks[i+1].glued && ordinalEnds[p.word(i+1)] && !p.used[i+1] {
		return 0
	}
	return p.add(fact{kind: plainFact, a: p.toks[i].value, decimals: p.toks[i].decimals}, i, 1)
}
