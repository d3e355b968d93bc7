package phrase

import (
	"strings"

	"roomful"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// Context is what reading one line needs to know of the sheet, and where it
// says what it has to say.
type Context struct {
	diag.Diagnostics
	Lex           roomful.Lexicon
	DivisionNames []string // the sheet's names for its two divisions
	saidDivisions bool     // it was said that men and women are two divisions
	mass          sheetMass
	LadderPart    bool       // the part being read has a ladder
	readings      []*Reading // those in use, and behind them those to use again
	busy          int        // how many are in use
	quiet         *Context   // for probes
}

// NewContext returns a context of an empty sheet.
func NewContext(lex roomful.Lexicon) Context {
	return Context{Diagnostics: diag.Diagnostics{Lex: lex}, Lex: lex}
}

// CanName reports whether unknown words can stand as the name of an element: they
// do not begin like a head, a format or a unit, and name no division.
func (p *Context) CanName(words string) bool {
	for _, w := range strings.Fields(scan.Plain(words)) {
		for _, name := range p.DivisionNames {
			if w == scan.Plain(name) {
				return false
			}
		}
	}
	return vocab.PlainName(words)
}

// NextLine gives the readings of the line before back, to be used again.
func (p *Context) NextLine() {
	p.busy = 0
	if p.quiet != nil {
		p.quiet.busy = 0
	}
}

// Reader returns a reading of a whole line.
func (p *Context) Reader(l *scan.Line, head bool) *Reading { return p.ReaderOf(scan.Over(l), head) }

// ReaderOf returns a reading of a stretch. Readings are large, and are used
// again once the line is done.
func (p *Context) ReaderOf(c scan.Cursor, head bool) *Reading {
	if p.busy == len(p.readings) {
		p.readings = append(p.readings, new(Reading))
	}
	r := p.readings[p.busy]
	p.busy++
	*r = Reading{Context: p, C: c, head: head, left: -1, Elements: r.Elements[:0]}
	return r
}

// Probe returns a reading whose diagnostics go nowhere.
func (p *Context) Probe(c scan.Cursor, head bool) *Reading {
	if p.quiet == nil {
		p.quiet = &Context{Diagnostics: diag.Diagnostics{Lex: noSuggestions{p.Lex}}, Lex: p.Lex}
	}
	q := p.quiet
	q.List, q.DivisionNames, q.mass, q.LadderPart, q.saidDivisions = q.List[:0], p.DivisionNames, p.mass, p.LadderPart, true
	return q.ReaderOf(c, head)
}

// noSuggestions is a lexicon that saves itself the search for near names.
type noSuggestions struct{ roomful.Lexicon }

// Suggest implements [roomful.Lexicon].
func (noSuggestions) Suggest(string) []*roomful.Movement { return nil }

// Match finds the movement that begins at the cursor. Adjectives before a name
// stay outside it.
func (p *Context) Match(c scan.Cursor) (*roomful.Movement, int) {
	stop := c.I
	for stop < c.Last && stop < c.I+9 && (c.Tokens[stop].Kind == scan.Word || stop > c.I && named(c.Tokens[stop])) {
		stop++
	}
	if stop == c.I {
		return nil, 0
	}
	m, n := p.Lex.Match(c.Line.Words[c.I:stop])
	for k := 1; k < n && vocab.Adjectives[c.Tokens[c.I+k-1].Text]; k++ {
		if short, rest := p.Lex.Match(c.Line.Words[c.I+k : stop]); short == m && rest == n-k {
			return nil, 0
		}
	}
	return m, n
}

// named reports whether a token that is no word may stand within a name, as in
// "90/90 switch" or "clean & jerk".
func named(t scan.Token) bool { return t.Text == "&" || t.Kind == scan.Number && t.Tight }

// Clash says that a thing was said twice.
func (p *Context) Clash(what string, second scan.Span) {
	p.Fault(second, "a second "+what, "the first one holds; delete one of them").Detail = "the second is kept as a note"
}
