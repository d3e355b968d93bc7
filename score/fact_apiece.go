package score

import (
	"slices"

	"roomful"
)

// apiece reads a figure that was the same each time, in a piece of intervals: "51 each", "all
// 51", "13 every round", "4x51" and "51 x4".
func (p *parser) apiece(i int) int {
	count := p.asked.count
	if count < 2 || p.asked.kind == roomful.RoundsScore || p.asked.kind == roomful.LoadScore || p.multi() {
		return 0
	}
	figure := func(j int) bool { return p.isNumber(j) || p.isClock(j) }
	same := func(j, end int, approx bool) int {
		f := fact{kind: listFact, list: slices.Repeat([]float64{p.toks[j].value}, count), clocks: p.isClock(j), decimals: p.toks[j].decimals, approx: approx}
		return p.add(f, i, end-i)
	}
	if p.word(i) == "all" {
		j := i + 1
		for slices.Contains([]string{"were", "under", "sub", "about", "around", "at"}, p.word(j)) {
			j++
		}
		if figure(j) && (p.isClock(j) || p.whole(j) != count) && !slices.Contains(roundWords, p.word(j+1)) {
			return same(j, j+1+b2i(isSecond(p.word(j+1))), j > i+1 && p.word(j-1) != "were" && p.word(j-1) != "at")
		}
		return 0
	}
	if p.isNumber(i) && p.whole(i) == count && p.word(i+1) == "x" && figure(i+2) {
		return same(i+2, i+3, false)
	}
	if !figure(i) {
		return 0
	}
	j := i + 1
	if _, ok := measureUnits[p.word(j)]; ok || isSecond(p.word(j)) {
		j++
	}
	switch w := p.word(j); {
	case w == "each", w == "across":
		return same(i, j+1, false)
	case w == "for" && p.word(j+1) == "all", (w == "every" || w == "per" || w == "a") && slices.Contains(append(roundWords, "time", "set", "interval"), p.word(j+1)):
		return same(i, j+2, false)
	case w == "x" && p.isNumber(j+1) && p.whole(j+1) == count:
		return same(i, j+2, false)
	}
	return 0
}

// numbered reads intervals that stand behind their numbers, "1) 52 2) 51 3) 49" and "r1 52 r2
// 51 r3 49", before the numbers are taken for anything else.
func (p *parser) numbered() {
	if p.asked.count < 2 || p.asked.kind == roomful.RoundsScore {
		return
	}
	for i := range p.toks {
		f := fact{kind: listFact}
		j := i
		for n := 1; ; n++ {
			k, label := j, false
			for k > i && slices.Contains([]string{",", "/", ";"}, p.word(k)) {
				k++
			}
			if slices.Contains(roundWords, p.word(k)) || p.word(k) == "#" || p.word(k) == "set" {
				k, label = k+1, true
			}
			if !p.isNumber(k) || p.whole(k) != n {
				break
			}
			for k++; slices.Contains([]string{")", ":", ".", "-", "="}, p.word(k)); k++ {
				label = true
			}
			if !label || !p.isNumber(k) && !p.isClock(k) || n > 1 && p.isClock(k) != f.clocks {
				break
			}
			f.list, f.clocks, f.decimals = append(f.list, p.toks[k].value), p.isClock(k), max(f.decimals, p.toks[k].decimals)
			j = k + 1 + b2i(isSecond(p.word(k+1)))
		}
		if len(f.list) >= 3 {
			p.add(f, i, j-i)
			p.use(i, j)
			return
		}
	}
}
