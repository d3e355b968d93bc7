package score

import (
	"slices"

	"roomful"
)

// factKind says what a fact is.
type factKind uint8

// The kinds of fact.
const (
	plainFact  factKind = iota // a number and no more
	plusFact                   // a rounds and b
	roundsFact                 // a rounds
	ofFact                     // a of b, "15/15"
	clockFact                  // a seconds
	listFact                   // several figures
	loadFact                   // a, in kilograms or pounds
	setsFact                   // a sets of b, or a lifted b times
	unitFact                   // an amount with its unit
	capFact                    // the cap came first, a done or left
	allFact                    // everything was done
)

// fact is one thing a text says.
type fact struct {
	kind     factKind
	a, b     float64
	list     []float64
	failed   []int // which figures of a list, or the only one, were missed
	mass     roomful.MassUnit
	massSaid bool
	unit     roomful.Unit
	decimals int
	says     capWord
	from, to int // tokens
	approx   bool
	nearly   bool
	clocks   bool // the list is of clock times
	range_   bool // between the first figure of the list and the last
	rung     bool // named by its step: no other reading
	asks     bool // another reading is possible
	text     string
	// oddSeconds says that a clock time in it has 60 seconds or minutes and more.
	oddSeconds bool
	// short says that the work was not finished, and not that the cap had come.
	short bool
}

// capWord says what a figure beside a cap counts.
type capWord uint8

// What the figure counts; capOpen could be either.
const (
	capOpen capWord = iota
	capDone
	capLeft
	capRounds
	capNothing
)

// parser turns tokens into facts, one production to a method. Used tokens are
// those that stand in a fact, a change or the private words.
type parser struct {
	places
	typed  string // the whole text as it was typed
	raw    string // what is read of it, with the digits and signs that scores are made of
	toks   []token
	used   []bool
	facts  []fact
	named  names
	when   [][]spoken // spans, by clause
	lex    roomful.Lexicon
	people []roomful.Athlete
	pieces []piece
	asked  *piece // the piece asked about
	// otherDays says by clause whether it speaks of another day, where that was asked.
	otherDays map[int]bool
	barKg     float64     // of a bare bar of the division
	rungs     map[int]int // rounds of a ladder by their step, for pieces that have one
	huge      bool        // a figure is beyond all that anybody scores
}

// multi reports whether the sheet has several pieces: a list then keeps to its clause.
func (p *parser) multi() bool { return len(p.pieces) > 1 }

// word returns the text of token i, or "".
func (p *parser) word(i int) string {
	if i < 0 || i >= len(p.toks) {
		return ""
	}
	return p.toks[i].text
}

// isNumber reports whether token i is an unused number.
func (p *parser) isNumber(i int) bool {
	return i >= 0 && i < len(p.toks) && p.toks[i].kind == numberToken && !p.used[i]
}

// collect makes facts of everything not used yet.
func (p *parser) collect() {
	productions := []func(int) int{p.away, p.cap, p.apiece, p.all, p.halves, p.short, p.into, p.beyond, p.parted, p.clock, p.sets, p.ranges, p.list, p.plus, p.pair, p.rounds, p.of, p.measure, p.plain}
	for i := 0; i < len(p.toks); {
		n := 0
		for _, production := range productions {
			if p.used[i] {
				break
			}
			if n = production(i); n > 0 {
				break
			}
		}
		for k := i; k < i+n; k++ {
			p.used[k] = true
		}
		i += max(n, 1)
	}
	slices.SortStableFunc(p.facts, func(a, b fact) int { return a.from - b.from })
	p.atCap()
	p.oneLoad()
}

// add keeps a fact of n tokens from i on, with the doubt around it.
func (p *parser) add(f fact, i, n int) int {
	f.from, f.to = i, i+n
	f.text = p.raw[p.toks[i].start:p.toks[i+n-1].end]
	if slices.Contains(aboutWords, p.word(i-1)) {
		f.approx, p.used[i-1] = true, true
	}
	for i+n < len(p.toks) && slices.Contains(ishWords, p.word(i+n)) {
		f.approx = true
		n++
	}
	f.to = i + n
	for _, t := range p.toks[i:f.to] {
		f.oddSeconds = f.oddSeconds || t.odd
	}
	p.facts = append(p.facts, f)
	return n
}

var (
	aboutWords  = []string{"~", "about", "around", "roughly", "approx", "nearly", "almost", "circa", "ca", "maybe", "≈", "cca", "sub", "approx", "approximately", "under", "unter", "etwa", "oko", "unos", "env", "environ", "ungefähr", "otprilike", "rund"}
	ishWords    = []string{"ish", "?"}
	roundWords  = []string{"round", "rounds", "rd", "rds", "r", "rung", "rungs", "runden", "runde", "tours", "tour", "rnds", "rnd", "krug", "kruga", "krugova", "krugovi", "rundor", "varv", "vueltas", "rondas", "giri", "ronden", "rundy"}
	repWords    = []string{"rep", "reps", "wdh", "more", "extra"}
	joinWords   = []string{"+", "and", "&", "plus", "und", "et"}
	kgWords     = []string{"kg", "kgs", "kilo", "kilos", "k"}
	lbWords     = []string{"lb", "lbs", "#", "pounds", "pound"}
	missWords   = []string{"f", "fail", "failed", "miss", "missed"}
	finishWords = []string{"completed", "complete", "finished", "done"}
)
