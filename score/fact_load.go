package score

import (
	"slices"
	"strings"

	"roomful"
)

// sets reads "5x5 @ 60", "5@60", "205 x 3" and "2 x 12.5".
func (p *parser) sets(i int) int {
	if !p.isNumber(i) {
		return 0
	}
	t, j := p.toks[i], i+1
	if w := p.word(j); p.asked.kind == roomful.RoundsScore && p.asked.alone && (w == "@" || w == "x" && p.asked.count > 0 && p.whole(i) == p.asked.count) {
		return 0 // "15 @ 60", "15x60"
	}
	f := fact{kind: setsFact, a: t.value, decimals: t.decimals}
	if n := p.setsOf(i); n > 0 {
		return n
	}
	if w := p.word(j); (w == "@" || w == "at" && p.asked.kind == roomful.LoadScore && t.value <= 12) && t.decimals == 0 && t.value <= 30 && p.isNumber(j+1) {
		f.b, f.a, f.list = t.value, 1, []float64{p.toks[j+1].value}
		return p.add(f, i, p.mass(&f, i, j+2)-i)
	}
	j = p.mass(&f, i, j)
	switch w := p.word(j); {
	case w == "for" && slices.Contains(roundWords, p.word(j+2)), p.used[min(j, len(p.used)-1)]:
		return 0 // "24 kg for 3 rounds then 16"
	case (w == "x" || w == "*" || w == "for") && p.isNumber(j+1):
		f.b = p.toks[j+1].value
		j += 2
	default:
		return 0
	}
	if p.word(j) == "x" && p.isNumber(j+1) && f.a <= 12 && f.b <= 12 && p.toks[j+1].value > 12 { // "5x5x60"
		f.list = []float64{p.toks[j+1].value}
		return p.add(f, i, p.mass(&f, i, j+2)-i)
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
	if p.asked.kind == roomful.LoadScore && f.a <= 12 && f.b >= leastLoad && !f.massSaid { // "5x60"
		f.list, f.b, f.a = []float64{f.b}, f.a, 1
		return p.add(f, i, p.mass(&f, i, j)-i)
	}
	if !f.massSaid && f.a > 12 {
		f.list, f.a = []float64{f.a}, 1
	} else if f.massSaid {
		f.list, f.a = []float64{f.a}, 1
	} else if k := p.mass(&f, i, j); k > j || p.asked.kind != roomful.LoadScore && f.a == 2 && f.b >= 4 || f.b != float64(int(f.b)) { // 2 x 12.5: two of a load
		f.kind, f.a = loadFact, f.b
		return p.add(f, i, k-i)
	}
	return p.add(f, i, j-i)
}

// leastLoad is more than the repetitions of any set of few.
const leastLoad = 30

// setsOf reads "5 sets of 5 at 60" and "5 sets @ 60".
func (p *parser) setsOf(i int) int {
	if p.word(i+1) != "sets" {
		return 0
	}
	f, j := fact{kind: setsFact, a: p.toks[i].value}, i+2
	if p.word(j) == "of" && p.isNumber(j+1) {
		f.b, j = p.toks[j+1].value, j+2
	}
	if w := p.word(j); w != "at" && w != "@" && w != "with" || !p.isNumber(j+1) {
		return 0
	}
	f.list = []float64{p.toks[j+1].value}
	return p.add(f, i, p.mass(&f, i, j+2)-i)
}

// oneLoad gives the repetitions of sets, "60 5x5" and "5 5 5 5 3 at 60", the load beside them.
func (p *parser) oneLoad() {
	if p.asked.kind != roomful.LoadScore || len(p.facts) != 2 {
		return
	}
	for load := range p.facts {
		f, sets := &p.facts[load], &p.facts[1-load]
		n := 0.0
		switch {
		case f.kind != plainFact && f.kind != loadFact:
		case sets.kind == setsFact && len(sets.list) == 0 && load == 0:
			n = sets.a
		case sets.kind == listFact && !sets.clocks && !sets.massSaid && f.a >= 2*slices.Max(sets.list):
			n = float64(len(sets.list))
		}
		if n > 0 && f.a >= 20 {
			one := fact{kind: setsFact, a: n, list: []float64{f.a}, mass: f.mass, massSaid: f.massSaid, approx: f.approx, decimals: f.decimals, text: f.text}
			one.from, one.to = min(f.from, sets.from), max(f.to, sets.to)
			p.facts = []fact{one}
			return
		}
	}
}

// mass takes a unit of mass at token j, if one stands there.
func (p *parser) mass(f *fact, i, j int) int {
	switch w := p.word(j); {
	case w == "k" && p.inKilometres(j-1):
		return j
	case slices.Contains(kgWords, w):
		f.mass, f.massSaid = roomful.Kilogram, true
		return j + 1
	case slices.Contains(lbWords, w):
		f.mass, f.massSaid = roomful.Pound, true
		return j + 1
	}
	return j
}

// digitsIn reports whether a text has any figure.
func (p *parser) digitsIn() bool {
	return slices.ContainsFunc(p.toks, func(t token) bool { return isDigit(p.raw[t.start]) })
}

// inKilometres reports whether a figure before "k" is a distance: small, and beside something
// that goes one, "bike 1k".
func (p *parser) inKilometres(i int) bool {
	far := func(m mention, named bool) bool {
		e := p.lex.Movement(m.id)
		return named && e != nil && len(e.Units) > 0 && e.Units[0].Base() != roomful.Rep && !e.TakesLoad()
	}
	return i >= 0 && p.toks[i].value <= mostK && (p.asked.kind == roomful.DistanceScore || far(p.named.to(i)) || far(p.named.from(i+2)))
}

// mostK is the longest distance that a class goes, in kilometres (judgement).
const mostK = 15

// measureUnits are the units an amount may have, as typed.
var measureUnits = map[string]roomful.Unit{"reps": roomful.Rep, "rep": roomful.Rep, "wdh": roomful.Rep, "total": roomful.Rep,
	"cal": roomful.Calorie, "cals": roomful.Calorie, "calories": roomful.Calorie, "m": roomful.Metre, "metres": roomful.Metre,
	"meters": roomful.Metre, "km": roomful.Kilometre, "mi": roomful.Mile, "mile": roomful.Mile, "miles": roomful.Mile, "kms": roomful.Kilometre, "k": roomful.Kilometre, "kcal": roomful.Calorie, "cm": roomful.Centimetre, "in": roomful.Inch, "inch": roomful.Inch, "inches": roomful.Inch}

// measure reads a figure with a unit: a load, a height, an amount.
func (p *parser) measure(i int) int {
	j := i
	switch {
	case p.word(i) == "empty" && p.word(i+1) == "bar":
		return p.add(fact{kind: loadFact, a: p.barKg, massSaid: true}, i, 2)
	case p.word(i) == "bar" && p.asked.kind == roomful.LoadScore && !p.digitsIn():
		return p.add(fact{kind: loadFact, a: p.barKg, massSaid: true}, i, 1)
	case p.word(i) == "bar" && i == 0 && p.multi():
		return p.add(fact{kind: loadFact, a: p.barKg, massSaid: true}, i, 1)
	case p.word(i) == "@":
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
	if next := p.word(j + 2); p.word(j+1) == "box" && !strings.HasPrefix(next, "jump") && !strings.HasPrefix(next, "step") && !strings.HasPrefix(next, "over") {
		u := roomful.Centimetre
		if f.a <= 36 {
			u = roomful.Inch
		}
		return p.add(fact{kind: unitFact, a: f.a, unit: u}, i, 2)
	}
	if p.word(j-1) == "total" && p.word(j+1) == "" && p.asked.kind != roomful.HoldScore && p.asked.kind != roomful.DistanceScore {
		return p.add(fact{kind: unitFact, a: p.toks[j].value, unit: roomful.Rep}, i, 1)
	}
	u, ok := measureUnits[p.word(j+1)]
	if short := p.word(j+1) == "in"; !ok || short && !p.toks[j+1].glued {
		return 0
	}
	return p.add(fact{kind: unitFact, a: p.toks[j].value, unit: u, decimals: p.toks[j].decimals}, i, 2+b2i(p.word(j+2) == "box" && u.Base() == roomful.Metre))
}
