package notation

import (
	"roomful"
)

// context is what reading one line needs to know of the sheet, and where it
// says what it has to say.
type context struct {
	diagnostics
	lex           roomful.Lexicon
	divisionNames []string // the sheet's names for its two divisions
	saidDivisions bool     // it was said that men and women are two divisions
	lastMass      *roomful.MassUnit
	ladderPart    bool       // the part being read has a ladder
	readings      []*reading // those in use, and behind them those to use again
	busy          int        // how many are in use
	quiet         *context   // for probes
}

// newContext returns a context of an empty sheet.
func newContext(lex roomful.Lexicon) context {
	return context{diagnostics: diagnostics{lex: lex}, lex: lex}
}

// nextLine gives the readings of the line before back, to be used again.
func (p *context) nextLine() {
	p.busy = 0
	if p.quiet != nil {
		p.quiet.busy = 0
	}
}

// reader returns a reading of a whole line.
func (p *context) reader(l *line, head bool) *reading { return p.readerOf(at(l), head) }

// readerOf returns a reading of a stretch. Readings are large, and are used
// again once the line is done.
func (p *context) readerOf(c cursor, head bool) *reading {
	if p.busy == len(p.readings) {
		p.readings = append(p.readings, new(reading))
	}
	r := p.readings[p.busy]
	p.busy++
	*r = reading{context: p, c: c, head: head, left: -1, elements: r.elements[:0]}
	return r
}

// probe returns a reading whose diagnostics go nowhere.
func (p *context) probe(c cursor, head bool) *reading {
	if p.quiet == nil {
		p.quiet = &context{diagnostics: diagnostics{lex: noSuggestions{p.lex}}, lex: p.lex}
	}
	q := p.quiet
	q.list, q.divisionNames, q.lastMass, q.ladderPart, q.saidDivisions = q.list[:0], p.divisionNames, p.lastMass, p.ladderPart, true
	return q.readerOf(c, head)
}

// noSuggestions is a lexicon that saves itself the search for near names.
type noSuggestions struct{ roomful.Lexicon }

// Suggest implements [roomful.Lexicon].
func (noSuggestions) Suggest(string) []*roomful.Movement { return nil }

// match finds the movement that begins at the cursor. Adjectives before a name
// stay outside it.
func (p *context) match(c cursor) (*roomful.Movement, int) {
	stop := c.i
	for stop < c.last && stop < c.i+9 && (c.tokens[stop].kind == word || stop > c.i && named(c.tokens[stop])) {
		stop++
	}
	if stop == c.i {
		return nil, 0
	}
	m, n := p.lex.Match(c.line.words[c.i:stop])
	for k := 1; k < n && adjectives[c.tokens[c.i+k-1].text]; k++ {
		if short, rest := p.lex.Match(c.line.words[c.i+k : stop]); short == m && rest == n-k {
			return nil, 0
		}
	}
	return m, n
}

// named reports whether a token that is no word may stand within a name, as in
// "90/90 switch" or "clean & jerk".
func named(t token) bool { return t.text == "&" || t.kind == number && t.tight }

// clash says that a thing was said twice.
func (p *context) clash(what string, second span) {
	p.fault(second, "a second "+what, "the first one holds; delete one of them")
}
