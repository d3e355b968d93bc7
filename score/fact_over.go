package score

import (
	"slices"
	"strings"

	"roomful"
)

// pair reads "5 20", "5-20" and "5/20" after rounds in a time: 5 rounds and 20, which
// it asks about.
func (p *parser) pair(i int) int {
	if !p.asked.window() || !p.isNumber(i) || p.toks[i].decimals > 0 || p.pairedBefore(i) {
		return 0
	}
	j := i + 1
	for j < len(p.toks) && j < i+3 && slices.Contains([]string{"+", "-", "/"}, p.word(j)) {
		j++
	}
	if slices.Contains(roundWords, p.word(j)) {
		j++
	}
	if w := p.word(i + 1); w == "-" && slices.Contains(roundWords, p.word(j+1)) && p.isNumber(j) && p.toks[j].value == p.toks[i].value+1 { // "5-6 rounds"
		return p.add(fact{kind: listFact, range_: true, approx: true, list: []float64{p.toks[i].value, p.toks[j].value}}, i, j+2-i)
	}
	if !p.isNumber(j) || p.toks[j].decimals > 0 || p.toks[j].clause != p.toks[i].clause && p.word(i+1) != "/" || p.toks[j].value >= p.mostInRound(int(p.toks[i].value)) {
		return 0
	}
	if s := p.clause(i); p.multi() && (j != i+1 || s.from < i && p.toks[i-1].text != "," || s.to > j+1) {
		return 0 // beside another piece only as a clause of their own
	}
	if _, _, loads := p.pairOf(p.toks[i].value, p.toks[j].value); loads && p.word(i+1) == "/" {
		return 0 // the sheet's two loads
	}
	if next := p.word(j + 1); p.isNumber(j+1) || p.toks[min(j+1, len(p.toks)-1)].glued && j+1 < len(p.toks) && next != "," && next != "." || p.unitAt(j+1) {
		return 0
	}
	return p.add(fact{kind: plusFact, a: p.toks[i].value, b: p.toks[j].value, asks: true}, i, j+1-i)
}

// pairedBefore reports whether a figure goes on from the one before it.
func (p *parser) pairedBefore(i int) bool {
	return i > 0 && (p.toks[i-1].kind == numberToken || p.word(i-1) == "+" || p.word(i-1) == "/" || p.word(i-1) == "@" || p.word(i-1) == "at")
}

// unitAt reports whether the word at a token says what the figure before it counts.
func (p *parser) unitAt(j int) bool {
	w := p.word(j)
	_, measured := measureUnits[w]
	return measured || slices.Contains(kgWords, w) || slices.Contains(lbWords, w) || isSecond(w) || implementWords[w] != "" ||
		slices.Contains([]string{"min", "mins", "minutes", "box", "band", "x", "%"}, w)
}

// mostInRound is how many repetitions and calories round n of the piece asked about
// has, from 0, in the division that does more.
func (p *parser) mostInRound(n int) (sum float64) {
	f, _ := p.asked.part.Format.(roomful.RoundsInTime)
	if step, ok := f.Ladder.Step(n); ok && n < mostRungs {
		return float64(step * len(p.asked.part.Round))
	}
	for _, e := range p.asked.lines {
		if counts(e.Amount.Unit) && e.Amount.Stated() {
			most := 0.0
			for _, n := range e.Amount.By {
				most = max(most, n)
			}
			sum += most
		}
	}
	return sum
}

// over reads what stands behind whole rounds as a count of each line, "+ 10 deadlifts +
// 4 jumps" and "10/10/3": how many repetitions, and the token behind them.
func (p *parser) over(j int) (reps float64, end int) {
	end = j
	for n := 0; n < len(p.asked.lines); n++ {
		k, sep := end, p.word(end)
		if slices.Contains(joinWords, sep) || sep == "," || sep == "/" {
			k++
		}
		if !p.isNumber(k) || p.toks[k].decimals > 0 {
			return reps, end
		}
		named := p.lineAt(k + 1)
		if k == end || named == 0 && !(n > 0 && sep != ",") || p.perRound(k+1+named) || named == 0 && p.unitAt(k+1) {
			return reps, end
		}
		reps, end = reps+p.toks[k].value, k+1+named
	}
	return reps, end
}

// perRound reports whether an amount is said of every round.
func (p *parser) perRound(j int) bool {
	return slices.Contains([]string{"per", "each", "every", "a", "pro"}, p.word(j)) || p.word(j) == "/" && slices.Contains(roundWords, p.word(j+1))
}

// lineAt returns how many tokens from j on name a line of the piece asked about, by its
// name or by a word of it ("jumps", "deads").
func (p *parser) lineAt(j int) int {
	if m, ok := p.named.from(j); ok && lineOf(p.asked.lines, m.id) >= 0 {
		return m.to - m.from
	}
	word := strings.TrimSuffix(p.word(j), "s")
	if len(word) < 3 {
		return 0
	}
	for _, e := range p.asked.lines {
		for _, part := range strings.Split(string(e.Movement), "-") {
			if part == word || len(word) > 3 && strings.HasPrefix(part, word) {
				return 1
			}
		}
	}
	return 0
}
