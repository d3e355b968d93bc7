package score

import (
	"slices"
	"strings"

	"roomful"
)

// leastFar is the shortest distance that people name without a unit, in metres.
const leastFar = 50

// amountOf takes an amount right before a movement or right behind it: "600 m runs", "row 500",
// "5 pull-ups per round".
func (p *parser) amountOf(c roomful.Change, m mention) (_ roomful.Change, end int) {
	i, j := m.from, m.to
	far := func(u roomful.Unit) bool { return u.Base() == roomful.Metre && u.Size() >= 1 || u == roomful.Calorie }
	e := p.lex.Movement(m.id)
	switch {
	case p.isNumber(j) && far(measureUnits[p.word(j+1)]):
		c.Amount, c.Unit, end = p.toks[j].value, measureUnits[p.word(j+1)], j+2
	case p.isNumber(j) && e != nil && len(e.Units) > 0 && e.Units[0].Base() == roomful.Metre && p.toks[j].decimals == 0 && p.toks[j].value >= leastFar && !p.unitAt(j+1):
		c.Amount, c.Unit, end = p.toks[j].value, roomful.Metre, j+1
	case i >= 2 && p.toks[i-2].kind == numberToken && p.toks[i-2].clause == p.toks[i].clause && p.measured(i-1):
		c.Amount, c.Unit, end = p.toks[i-2].value, measureUnits[p.word(i-1)], j
		p.use(i-2, i)
	case p.isNumber(i-1) && p.toks[i-1].decimals == 0 && (p.perRound(j) || p.ownInterval(m)):
		c.Amount, c.Unit, end = p.toks[i-1].value, roomful.Rep, j+2*b2i(p.perRound(j))
		p.use(i-1, i)
	default:
		return c, j
	}
	p.use(j, end)
	return c, end
}

// ownInterval reports whether a clause is no more than a count of a movement in a piece with an
// interval for each, "17 dubs": that many each time.
func (p *parser) ownInterval(m mention) bool {
	_, every := p.asked.part.Format.(roomful.Every)
	c := p.clause(m.from)
	for i := c.from; i < c.to; i++ {
		if t := p.toks[i]; t.kind == clockToken || t.kind == numberToken && i != m.from-1 || t.kind == wordToken && (i < m.from || i >= m.to) && !linkWords[t.text] {
			return false
		}
	}
	return every && c.from > 0
}

// measured reports whether a token is the unit of an amount.
func (p *parser) measured(i int) bool {
	_, ok := measureUnits[p.word(i)]
	return ok
}

// forWord reads "for the jumps": the lines whose names have that word, and how many
// tokens it took.
func (p *parser) forWord(pieces []piece, at int) (map[int]roomful.MovementID, int) {
	n := 1
	if p.word(at) != "for" {
		return nil, 0
	}
	if p.word(at+1) == "the" {
		n++
	}
	word := strings.TrimSuffix(p.word(at+n), "s")
	if len(word) < 3 {
		return nil, 0
	}
	out := map[int]roomful.MovementID{}
	for i := range pieces {
		for _, e := range pieces[i].lines {
			if slices.Contains(strings.Split(string(e.Movement), "-"), word) {
				out[i] = e.Movement
				break
			}
		}
	}
	if len(out) == 0 {
		return nil, 0
	}
	return out, n + 1
}

// asked reports whether a line asks for just the amount of a change.
func asked(lines []roomful.Element, id roomful.MovementID, c roomful.Change) bool {
	e := lines[lineOf(lines, id)]
	for _, n := range e.Amount.By {
		if n*e.Amount.Unit.Size() == c.Amount*c.Unit.Size() {
			return true
		}
	}
	return !e.Amount.Stated()
}
