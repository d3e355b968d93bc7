package score

import (
	"slices"

	"roomful"
)

// ranges reads "all between 50 and 54" and "50 to 54".
func (p *parser) ranges(i int) int {
	j := i
	if p.word(j) == "between" {
		j++
	}
	dash := p.word(j+1) == "-" && (slices.Contains(minWords, p.word(j+3)) || p.isNumber(j+2) && p.asked.kind == roomful.TimeScore && p.asked.count > 2 && p.toks[j].value < p.toks[j+2].value && p.word(j+3) != "-" && !p.isNumber(j+3))
	if !p.isNumber(j) || !p.isNumber(j+2) || p.word(j+1) != "to" && !dash && !(j > i && p.word(j+1) == "and") {
		return 0
	}
	if p.asked.kind == roomful.LoadScore || p.word(j-1) == "from" || p.toks[j].value > p.toks[j+2].value && p.asked.count == 0 {
		return 0 // "from 80 to 60"
	}
	if slices.Contains(repWords, p.word(j+3)) && p.asked.window() {
		return 0
	}
	f := fact{kind: listFact, range_: true, approx: true, list: []float64{p.toks[j].value, p.toks[j+2].value}}
	return p.add(f, i, j+3-i+b2i(p.asked.kind == roomful.TimeScore && slices.Contains(minWords, p.word(j+3))))
}

// list reads three figures or more in a row.
func (p *parser) list(i int) int {
	if !p.isNumber(i) {
		return 0
	}
	return p.listFrom(i, numberToken)
}

// listFrom reads figures of one kind, apart by blanks, commas, strokes or
// hyphens; "(f)" or "x" behind one says that it was missed.
func (p *parser) listFrom(i int, kind tokenKind) int {
	f := fact{kind: listFact, clocks: kind == clockToken}
	end, masses, apart := i, 0, "?"
	for j := i; j < len(p.toks) && p.toks[j].kind == kind && !p.used[j] && len(f.list) < longestList; {
		if p.multi() && p.toks[j].clause != p.toks[i].clause {
			break
		}
		if p.toks[j].decimals > f.decimals {
			f.decimals = p.toks[j].decimals
		}
		f.list = append(f.list, p.toks[j].value)
		j++
		if kind == numberToken {
			if k := p.mass(&f, i, j); k > j {
				masses, j = masses+1, k
			}
			if miss := p.missAt(j); miss > 0 {
				f.failed = append(f.failed, len(f.list))
				j += miss
			}
			if j < len(p.toks) && p.toks[j].glued && p.word(j) == "s" && p.asked.count > 0 {
				j++ // "45s 40s 38s"
			}
		}
		end = j
		by := ""
		if w := p.word(j); w == "then" && p.asked.count > 2 && kind == numberToken || w == "-" || w == "/" || w == "," && j+1 < len(p.toks) || w == "+" && p.asked.sums() {
			by = w
			j++
		}
		if apart != "?" && by != apart && j < len(p.toks) && p.toks[j].kind == kind {
			break // "97.5 5/5" is no list, "54 54 54, 500 m bike" ends one
		}
		apart = by
	}
	least := 3
	if kind == clockToken {
		least = 2
	}
	if masses > 0 && masses < len(f.list) && (masses > 1 || !p.endsInMass(end)) {
		return 0 // "15, 37.5 kg, 17"
	}
	if len(f.list) < least || p.word(end) == "+" {
		return 0
	}
	if isSecond(p.word(end)) {
		end++
	}
	if p.asked.kind == roomful.LoadScore && p.word(end) == "x" && p.isNumber(end+1) {
		end += 2 // "60 65 70x3"
	}
	return p.add(f, i, end-i)
}

// longestList is more figures than any piece has intervals.
const longestList = 60

// endsInMass reports whether a unit of mass stands right before token end.
func (p *parser) endsInMass(end int) bool {
	var f fact
	return p.mass(&f, end-1, end-1) == end
}

// missAt returns how many tokens at j say that a lift was missed.
func (p *parser) missAt(j int) int {
	switch {
	case p.word(j) == "(" && (slices.Contains(missWords, p.word(j+1)) || p.word(j+1) == "no" || p.word(j+1) == "x") && p.word(j+2) == ")":
		return 3
	case p.word(j) == "f" && p.isGlued(j+1):
		return 0 // of the next, "95 F100"
	case p.word(j) == "f" || p.word(j) == "fail", p.word(j) == "x" && j < len(p.toks) && p.toks[j].glued && !p.number(j+1):
		return 1
	}
	return 0
}
