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
	text     string
}

// capWord says what a figure beside a cap counts.
type capWord uint8

// What the figure counts; capOpen could be either.
const (
	capOpen capWord = iota
	capDone
	capLeft
	capNothing
)

// parser turns tokens into facts, one production to a method. Used tokens are
// those that stand in a fact, a change or the private words.
type parser struct {
	raw   string
	toks  []token
	used  []bool
	facts []fact
	multi bool // the sheet has further pieces: a list keeps to its clause
	count int  // intervals of the piece asked about, 0 when it has none
}

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
	productions := []func(int) int{p.cap, p.all, p.clock, p.sets, p.ranges, p.list, p.plus, p.rounds, p.measure, p.of, p.plain}
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
	p.facts = append(p.facts, f)
	return n
}

var (
	aboutWords  = []string{"~", "about", "around", "roughly", "approx", "nearly", "almost", "circa", "ca", "maybe"}
	ishWords    = []string{"ish", "?"}
	roundWords  = []string{"round", "rounds", "rd", "rds", "r", "runden", "runde", "tours", "tour", "rnds", "rnd"}
	repWords    = []string{"rep", "reps", "wdh", "more", "extra"}
	joinWords   = []string{"+", "and", "&", "plus", "und", "et"}
	kgWords     = []string{"kg", "kgs", "kilo", "kilos", "k"}
	lbWords     = []string{"lb", "lbs", "#", "pounds", "pound"}
	missWords   = []string{"f", "fail", "failed", "miss", "missed", "no", "x"}
	finishWords = []string{"completed", "complete", "finished", "done"}
)

// cap reads "TC", "cap, 9 left", "capped at 112", "cap+12" and "9 left at cap".
func (p *parser) cap(i int) int {
	w := p.word(i)
	if p.isNumber(i) && p.word(i+1) == "left" && p.word(i+2) != "early" {
		return p.add(fact{kind: capFact, a: p.toks[i].value, says: capLeft}, i, 2)
	}
	if w == "time" && p.word(i+1) == "cap" {
		return 1 + p.cap(i+1)
	}
	if w != "cap" && w != "capped" && w != "tc" && w != "dnf" {
		return 0
	}
	j := i + 1
	for j < len(p.toks) && slices.Contains([]string{"+", ",", "at", "with", "-", ":", "(", "."}, p.word(j)) {
		j++
	}
	if !p.isNumber(j) || p.toks[j].decimals > 0 {
		return p.add(fact{kind: capFact, says: capNothing}, i, 1)
	}
	f, n := fact{kind: capFact, a: p.toks[j].value}, j-i+1
	k := j + 1
	if slices.Contains(repWords, p.word(k)) {
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

// all reads "all", "all 15", "all of it", "completed".
func (p *parser) all(i int) int {
	w := p.word(i)
	if slices.Contains(finishWords, w) {
		return p.add(fact{kind: allFact}, i, 1)
	}
	if w != "all" {
		return 0
	}
	if p.isNumber(i + 1) {
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
	case p.word(i+1) == "of" && p.word(i+2) == "it":
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
		if p.isNumber(i+2) && p.toks[i+2].value < 60 && p.toks[i+2].clause == t.clause {
			f.a, n = f.a+p.toks[i+2].value, 3
			if isSecond(p.word(i + 3)) {
				n = 4
			}
		}
		return p.add(f, i, n)
	case isSecond(w) && !(w == "s" && t.text == "7.5"):
		return p.add(fact{kind: clockFact, a: t.value}, i, 2)
	}
	return 0
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

// sets reads "5x5 @ 60", "5@60", "205 x 3" and "2 x 12.5".
func (p *parser) sets(i int) int {
	if !p.isNumber(i) {
		return 0
	}
	t, j := p.toks[i], i+1
	f := fact{kind: setsFact, a: t.value, decimals: t.decimals}
	if w := p.word(j); w == "@" && t.decimals == 0 && t.value <= 30 && p.isNumber(j+1) {
		f.b, f.a, f.list = t.value, 1, []float64{p.toks[j+1].value}
		return p.add(f, i, p.mass(&f, i, j+2)-i)
	}
	j = p.mass(&f, i, j)
	switch w := p.word(j); {
	case (w == "x" || w == "*" || w == "for") && p.isNumber(j+1):
		f.b = p.toks[j+1].value
		j += 2
	default:
		return 0
	}
	if (p.word(j) == "x") && p.isNumber(j+1) {
		f.list, f.a = []float64{t.value}, p.toks[j+1].value
		return p.add(f, i, j+2-i)
	}
	if w := p.word(j); (w == "@" || w == "at") && p.isNumber(j+1) {
		f.list = []float64{p.toks[j+1].value}
		return p.add(f, i, p.mass(&f, i, j+2)-i)
	}
	if p.isNumber(j) && f.a <= 12 && f.b <= 12 && p.toks[j].value > 12 && p.toks[j].clause == t.clause {
		f.list = []float64{p.toks[j].value}
		return p.add(f, i, p.mass(&f, i, j+1)-i)
	}
	if !f.massSaid && f.a > 12 {
		f.list, f.a = []float64{f.a}, 1
	} else if f.massSaid {
		f.list, f.a = []float64{f.a}, 1
	} else if k := p.mass(&f, i, j); k > j || f.b != float64(int(f.b)) { // 2 x 12.5: two of a load
		f.kind, f.a = loadFact, f.b
		return p.add(f, i, k-i)
	}
	return p.add(f, i, j-i)
}

// mass takes a unit of mass at token j, if one stands there.
func (p *parser) mass(f *fact, i, j int) int {
	switch w := p.word(j); {
	case slices.Contains(kgWords, w):
		f.mass, f.massSaid = roomful.Kilogram, true
		return j + 1
	case slices.Contains(lbWords, w):
		f.mass, f.massSaid = roomful.Pound, true
		return j + 1
	}
	return j
}

// ranges reads "all between 50 and 54" and "50 to 54".
func (p *parser) ranges(i int) int {
	j := i
	if p.word(j) == "between" {
		j++
	}
	if !p.isNumber(j) || !p.isNumber(j+2) || p.word(j+1) != "to" && !(j > i && p.word(j+1) == "and") {
		return 0
	}
	f := fact{kind: listFact, range_: true, approx: true, list: []float64{p.toks[j].value, p.toks[j+2].value}}
	return p.add(f, i, j+3-i)
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
	for j := i; j < len(p.toks) && p.toks[j].kind == kind && !p.used[j]; {
		if p.multi && p.toks[j].clause != p.toks[i].clause {
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
		}
		end = j
		by := ""
		if w := p.word(j); w == "-" || w == "/" || w == "," && j+1 < len(p.toks) {
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
	return p.add(f, i, end-i)
}

// endsInMass reports whether a unit of mass stands right before token end.
func (p *parser) endsInMass(end int) bool {
	var f fact
	return p.mass(&f, end-1, end-1) == end
}

// missAt returns how many tokens at j say that a lift was missed.
func (p *parser) missAt(j int) int {
	switch {
	case p.word(j) == "(" && slices.Contains(missWords, p.word(j+1)) && p.word(j+2) == ")":
		return 3
	case p.word(j) == "f" || p.word(j) == "fail":
		return 1
	}
	return 0
}

// plus reads "5+20", "5 rds + 20", "5 and 20", "5 rounds 20 reps".
func (p *parser) plus(i int) int {
	if !p.isNumber(i) || p.toks[i].decimals > 0 || p.multi && p.count > 0 {
		return 0 // with intervals and a second piece, "12 + 12" is two scores
	}
	j, rounds := i+1, false
	if slices.Contains(roundWords, p.word(j)) {
		rounds = true
		j++
	}
	joined := slices.Contains(joinWords, p.word(j)) || rounds && p.word(j) == ","
	if joined {
		j++
	}
	if joined && rounds && p.word(j) == "a" && p.word(j+1) == "bit" {
		return 0
	}
	if !p.isNumber(j) || !(joined || rounds && slices.Contains(repWords, p.word(j+1))) || p.toks[j].decimals > 0 {
		return 0
	}
	if w := p.word(j + 1); slices.Contains(kgWords, w) || slices.Contains(lbWords, w) || w == "cm" || w == "band" {
		return 0
	}
	f := fact{kind: plusFact, a: p.toks[i].value, b: p.toks[j].value}
	if slices.Contains(repWords, p.word(j+1)) {
		j++
	}
	return p.add(f, i, j+1-i)
}

// rounds reads "5 rounds", "12 Rd.", "5 rounds nearly 6".
func (p *parser) rounds(i int) int {
	if !p.isNumber(i) {
		return 0
	}
	if p.word(i+1) == "and" && p.word(i+2) == "a" && p.word(i+3) == "bit" {
		return p.add(fact{kind: roundsFact, a: p.toks[i].value, approx: true}, i, 4)
	}
	if !slices.Contains(roundWords, p.word(i+1)) || p.toks[i].decimals > 0 {
		return 0
	}
	f, n := fact{kind: roundsFact, a: p.toks[i].value}, 2
	if w := p.word(i + 2); (w == "nearly" || w == "almost") && p.isNumber(i+3) {
		f.approx, f.nearly, n = true, true, 4
	}
	return p.add(f, i, n)
}

// measureUnits are the units an amount may have, as typed.
var measureUnits = map[string]roomful.Unit{"reps": roomful.Rep, "rep": roomful.Rep, "wdh": roomful.Rep, "total": roomful.Rep,
	"cal": roomful.Calorie, "cals": roomful.Calorie, "calories": roomful.Calorie, "m": roomful.Metre, "metres": roomful.Metre,
	"meters": roomful.Metre, "km": roomful.Kilometre, "mi": roomful.Mile, "cm": roomful.Centimetre, "in": roomful.Inch}

// measure reads a figure with a unit: a load, a height, an amount.
func (p *parser) measure(i int) int {
	j := i
	if p.word(i) == "@" {
		j++
	}
	if !p.isNumber(j) {
		return 0
	}
	f := fact{kind: loadFact, a: p.toks[j].value, decimals: p.toks[j].decimals}
	k := j + 1
	for slices.Contains(ishWords, p.word(k)) {
		f.approx = true
		k++
	}
	if m := p.mass(&f, i, k); m > k {
		if p.word(k+1) == "?" {
			f.approx = true
		}
		return p.add(f, i, m-i)
	}
	if j > i {
		return p.add(f, i, 2)
	}
	if p.word(j+1) == "box" {
		u := roomful.Centimetre
		if f.a <= 36 {
			u = roomful.Inch
		}
		return p.add(fact{kind: unitFact, a: f.a, unit: u}, i, 2)
	}
	u, ok := measureUnits[p.word(j+1)]
	if !ok || u == roomful.Inch && !p.toks[j+1].glued {
		return 0
	}
	return p.add(fact{kind: unitFact, a: p.toks[j].value, unit: u, decimals: p.toks[j].decimals}, i, 2)
}

// of reads "15/15", "5 of 5", "9 von 12".
func (p *parser) of(i int) int {
	w := p.word(i + 1)
	if !p.isNumber(i) || !p.isNumber(i+2) || w != "of" && w != "von" && !(w == "/" && p.toks[i+1].glued) {
		return 0
	}
	if p.multi && p.count > 0 && int(p.toks[i+2].value) != p.count {
		return 0 // "12/9" is two scores
	}
	return p.add(fact{kind: ofFact, a: p.toks[i].value, b: p.toks[i+2].value}, i, 3)
}

// plain reads a number with nothing to say what it counts.
func (p *parser) plain(i int) int {
	if !p.isNumber(i) {
		return 0
	}
	if w := p.word(i + 1); w == "st" || w == "nd" || w == "rd" || w == "th" {
		return 0
	}
	return p.add(fact{kind: plainFact, a: p.toks[i].value, decimals: p.toks[i].decimals}, i, 1)
}
