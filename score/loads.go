package score

import (
	"math"
	"slices"
	"strings"

	"roomful"
)

// owned is a change with the piece that it is of.
type owned struct {
	saidChange
	piece int
}

// heights adds stated heights to changes.
func (r *reader) heights(changes []owned) []owned {
	for i := range r.p.facts {
		f := &r.p.facts[i]
		if r.taken[f.from] || f.kind != unitFact || f.unit != roomful.Centimetre && f.unit != roomful.Inch {
			continue
		}
		at := r.owner(f.from)
		c := roomful.Change{HeightCm: math.Round(f.a*f.unit.Size()*1000) / 10}
		for _, n := range []int{at, r.asked()} {
			for _, e := range r.pieces[n].lines {
				if len(e.Heights) > 0 && c.Of == "" {
					c.Of, at = e.Movement, n
				}
			}
		}
		r.take(f)
		if e := slices.IndexFunc(r.pieces[at].lines, func(e roomful.Element) bool { return e.Movement == c.Of }); e >= 0 && r.asHigh(r.pieces[at].lines[e], c.HeightCm) {
			continue
		}
		said := saidChange{Change: c}
		said.span, _ = r.p.spanOf(stretch{f.from, f.to}, false)
		changes = append(changes, owned{said, at})
	}
	return changes
}

// amounts adds amounts without a name to changes, "15, 10 cal" where one line is counted so.
func (r *reader) amounts(changes []owned) []owned {
	at := r.asked()
	for i := range r.p.facts {
		f := &r.p.facts[i]
		base := f.unit.Base()
		if s := r.p.clause(f.from); r.taken[f.from] || f.kind != unitFact || base != roomful.Metre && base != roomful.Calorie || f.unit.Size() < 1 || !r.p.bare(stretch{s.from, f.from}, onlyWords) || !r.p.bare(stretch{f.to, max(s.to, f.to)}, onlyWords) {
			continue
		}
		var of []roomful.Element
		for _, e := range r.pieces[at].lines {
			if e.Amount.Unit.Base() == base && e.Amount.Stated() {
				of = append(of, e)
			}
		}
		if c := (roomful.Change{Amount: f.a, Unit: f.unit}); len(of) == 1 {
			r.take(f)
			if c.Of = of[0].Movement; !asked(of, c.Of, c) {
				changes = append(changes, owned{saidChange{Change: c}, at})
			}
		}
	}
	return changes
}

// asHigh reports whether a height is one that the sheet asks of the person, or may ask of them.
func (r *reader) asHigh(e roomful.Element, cm float64) bool {
	for i, h := range e.Heights {
		mine := r.q.Division == roomful.AnyDivision || len(e.Heights) == 1 || e.HeightCm(r.q.Division) == e.Heights[i].Cm()
		if mine && math.Abs(math.Log(cm/h.Cm())) <= 1.5*onePair { // 24 in and 60 cm are one box
			return true
		}
	}
	return false
}

// loadPiece finds the piece that a load is of and the lines it may be of; -1 when no
// piece has a load.
func (r *reader) loadPiece(f *fact) (int, []roomful.Element) {
	named := r.beside(f)
	fits := map[int][]roomful.Element{}
	for i, s := range r.pieces {
		for _, e := range s.lines {
			if s.kind != roomful.LoadScore && named(e) {
				fits[i] = append(fits[i], e)
			}
		}
	}
	m, ok := r.byIt(f)
	if bare := ok && r.bare(m.id); bare || len(fits) == 0 { // nothing beside it, or nothing there that is meant
		loaded := map[int][]roomful.Element{}
		for i, s := range r.pieces {
			for _, e := range s.lines {
				if e.Load != nil && s.kind != roomful.LoadScore && (!bare || r.prescribed(e, f)) {
					loaded[i] = append(loaded[i], e)
				}
			}
		}
		if len(loaded) > 0 {
			fits = loaded
		}
	}
	for _, i := range []int{r.owner(f.from), r.asked()} {
		if len(fits[i]) > 0 {
			return i, fits[i]
		}
	}
	for i := range r.pieces {
		if len(fits[i]) > 0 {
			return i, fits[i]
		}
	}
	if f.kind == loadFact { // what was held instead of nothing
		return r.asked(), nil
	}
	return -1, nil
}

// implementWords are what people call what they hold.
var implementWords = map[string]roomful.Implement{
	"kb": roomful.Kettlebell, "kbs": roomful.Kettlebell, "bell": roomful.Kettlebell, "bells": roomful.Kettlebell, "kettlebell": roomful.Kettlebell, "kettlebells": roomful.Kettlebell,
	"db": roomful.Dumbbell, "dbs": roomful.Dumbbell, "dumbbell": roomful.Dumbbell, "dumbbells": roomful.Dumbbell,
	"ball": roomful.Ball, "balls": roomful.Ball, "wb": roomful.Ball, "medball": roomful.Ball, "lopta": roomful.Ball,
	"bar": roomful.Barbell, "barbell": roomful.Barbell,
}

// beside returns what fits the movement or the implement that is named right before or
// behind a load; everything fits when none is.
func (r *reader) beside(f *fact) func(roomful.Element) bool {
	if m, ok := r.byIt(f); ok {
		return func(e roomful.Element) bool {
			return e.Movement == m.id || strings.HasSuffix(string(e.Movement), "-"+string(m.id)) || r.swapped(e.Movement, m.id)
		}
	}
	for _, i := range []int{f.to, f.from - 1} {
		if implement, ok := implementWords[r.p.word(i)]; ok {
			r.p.use(i, i+1)
			return func(e roomful.Element) bool {
				m := r.q.Lexicon.Movement(e.Movement)
				return m != nil && m.Implement == implement
			}
		}
	}
	return func(e roomful.Element) bool { return e.Load != nil }
}

// byIt is the movement that is named right before or behind a load.
func (r *reader) byIt(f *fact) (mention, bool) {
	m, named := r.p.named.to(f.from)
	if !named {
		m, named = r.p.named.from(f.to)
	}
	if !named && slices.Contains([]string{"@", "at", "with", "w"}, r.p.word(f.from-1)) {
		m, named = r.p.named.to(f.from - 1)
	}
	return m, named
}

// bare reports whether a movement is done without a load, so that one which stands by
// its name may be of another line: "16 kg push-ups slow".
func (r *reader) bare(id roomful.MovementID) bool {
	m := r.q.Lexicon.Movement(id)
	return m != nil && !m.TakesLoad()
}

// prescribed reports whether a load is the one that the sheet has on a line.
func (r *reader) prescribed(e roomful.Element, f *fact) bool {
	_, off := r.closest([]roomful.Element{e}, inKg(f.a, f, r.unit(roomful.Part{Round: []roomful.Element{e}})))
	return off <= onePair
}

// swapped reports whether a line was said to be done as another movement.
func (r *reader) swapped(line, to roomful.MovementID) bool {
	return slices.ContainsFunc(r.said.changes, func(c saidChange) bool {
		for _, of := range c.of {
			if c.To == to && of == line {
				return true
			}
		}
		return false
	})
}

// line finds the line that a load belongs to, by the nearest prescription; ok
// is true when the load is another than the sheet's.
func (r *reader) line(lines []roomful.Element, kg float64) (of roomful.MovementID, ok bool) {
	of, best := r.closest(lines, kg)
	if of == "" && len(lines) > 0 { // a load where the sheet has none
		return lines[0].Movement, true
	}
	return of, of != "" && best > onePair || of == "" && len(lines) == 0
}

// onePair is how far apart two loads are one, as a logarithm: 95 lb and 43 kg are a
// known pair, and 2 % covers the plates' rounding.
const onePair = 0.02

// heaviest reports whether a load is the most that a line asks of anybody.
func (r *reader) heaviest(lines []roomful.Element, kg float64) bool {
	return slices.ContainsFunc(lines, func(e roomful.Element) bool {
		ms, _ := e.Load.(roomful.Masses)
		most := 0.0
		for _, m := range ms {
			most = max(most, m.Kg())
		}
		return most > 0 && math.Abs(math.Log(kg/most)) <= onePair
	})
}

// closest finds the line whose prescription a load is nearest to, and how far it is.
func (r *reader) closest(lines []roomful.Element, kg float64) (of roomful.MovementID, best float64) {
	best = math.Inf(1)
	for _, e := range lines {
		ms, ok := e.Load.(roomful.Masses)
		if !ok || len(ms) == 0 {
			continue
		}
		if r.q.Division != roomful.AnyDivision {
			ms = roomful.Masses{ms.For(r.q.Division)}
		}
		for _, m := range ms {
			if d := math.Abs(math.Log(kg / m.Kg())); d < best {
				of, best = e.Movement, d
			}
		}
	}
	return of, best
}

// loaded reports whether a part says a load anywhere.
func loaded(p roomful.Part) bool {
	return slices.ContainsFunc(p.All(), func(e roomful.Element) bool { return e.Load != nil })
}
