package exchange

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"roomful"
)

// lowCeilingM is what "low-ceiling" means: a common room height, under which
// nobody presses or jumps tall (common practice, no source).
const lowCeilingM = 2.2

// homeWords are the things a home may own, in singular.
var homeWords = []string{"dumbbell", "kettlebell", "ball", "bar", "plate", "box", "rope", "rings", "row", "ski", "bike",
	"fan-bike", "band", "pull-up-bar", "rack", "bench", "low-ceiling", "quiet"}

// homeNames are other words for the same things.
var homeNames = map[string]string{"barbell": "bar", "ring": "rings", "rower": "row", "jump-rope": "rope", "skipping-rope": "rope",
	"wall-ball": "ball", "medicine-ball": "ball", "pullup-bar": "pull-up-bar", "bicycle": "bike", "rowing-machine": "row"}

// homeThing takes apart one thing at home: how many, what, and how heavy or
// high, in the orders people write it: "2x dumbbell 10kg", "10 kg dumbbell",
// "pair of dumbbells 10kg", "dumbbells 2x10kg", "box 50/60cm".
var homeThing = regexp.MustCompile(`(?i)^(?:(\d{1,2})\s*[x×]\s*)?(pair of\s+)?(?:(\d+(?:[.,]\d+)?)\s*(kg|lb|cm|in|m)s?\s+)?` +
	`([a-z][a-z -]*?)(?:\s+(\d{1,2})\s*[x×])?(?:\s*((?:\d+(?:[.,]\d+)?/)*\d+(?:[.,]\d+)?)\s*(kg|lb|cm|in|m)?s?)?$`)

// decimalComma is a comma that belongs to a figure.
var decimalComma = regexp.MustCompile(`\d,\d`)

// thing is one entry of a home's list once taken apart.
type thing struct {
	item
	word    string // as in homeWords
	plural  bool
	count   int // 0 when not said
	figures []float64
	unit    string // kg, lb, cm, in, m, or empty
}

// home reads what a person owns: nil when the file does not say, a kit with
// nothing in it when the cell is empty.
func (p *people) home(unit roomful.MassUnit) *roomful.Kit {
	i, has := p.at["home"]
	if !has || i < len(p.row) && p.row[i].text == notTold {
		return nil
	}
	k := &roomful.Kit{Unit: unit, Home: true, Stations: map[string]int{}}
	if i >= len(p.row) || nothing(p.row[i]) {
		return k
	}
	c := p.row[i]
	commas := !strings.Contains(c.text, ";") && !decimalComma.MatchString(c.text)
	for _, it := range list(c, commas) {
		if t, ok := p.thing(it); ok {
			p.own(k, t)
		}
	}
	return k
}

// thing takes one entry apart.
func (p *people) thing(it item) (thing, bool) {
	t := thing{item: it}
	m := homeThing.FindStringSubmatch(it.text)
	if m == nil || m[1] != "" && m[6] != "" || m[3] != "" && m[7] != "" {
		p.fault(it.at, "write such as dumbbell 15kg; 2x dumbbell 10kg; rope; box 50cm", "%q at home was not understood", it.text)
		return t, false
	}
	t.count, _ = strconv.Atoi(m[1] + m[6])
	if m[2] != "" {
		t.count = 2 * max(t.count, 1)
	}
	for f := range strings.SplitSeq(m[3]+m[7], "/") {
		if v, ok := plainNumber(f); ok {
			t.figures = append(t.figures, v)
		}
	}
	t.unit = strings.ToLower(m[4] + m[8])
	return p.homeWord(t, strings.Join(strings.Fields(strings.ToLower(m[5])), "-"))
}

// homeWord finds what a thing is. Anything that some movement needs may stand
// in a home.
func (p *people) homeWord(t thing, word string) (thing, bool) {
	for _, w := range []string{word, strings.TrimSuffix(word, "s"), strings.TrimSuffix(word, "es")} {
		if n, ok := homeNames[w]; ok {
			w = n
		}
		if slices.Contains(homeWords, w) || p.needed(w) {
			t.word, t.plural = w, w != word
			return t, true
		}
	}
	if near := nearest(word, homeWords); near != "" {
		p.fault(t.at, "did you mean "+near+"?", "%q is not known at home", t.text)
	} else {
		p.warn(t.at, "known are "+oneOf(homeWords), "%q is not known at home and is left out", t.text)
	}
	return t, false
}

// needed reports whether some movement needs a thing by this word.
func (p *people) needed(word string) bool {
	if p.needs == nil {
		p.needs = map[string]bool{}
		for _, m := range p.lexicon.All() {
			for _, n := range m.Needs {
				p.needs[n] = true
			}
		}
	}
	return p.needs[word]
}

// own adds a thing to a home.
func (p *people) own(k *roomful.Kit, t thing) {
	count := max(t.count, 1)
	stocks := map[string]*[]roomful.Stock{"dumbbell": &k.Dumbbells, "kettlebell": &k.Kettlebells, "ball": &k.Balls, "bar": &k.Bars}
	switch {
	case stocks[t.word] != nil:
		if m, ok := p.weight(t, k.Unit); ok {
			s := stocks[t.word]
			*s = append(*s, roomful.Stock{Mass: m, Count: count})
		}
	case t.word == "plate":
		if m, ok := p.weight(t, k.Unit); ok {
			k.Plates = append(k.Plates, plates(m, t)...)
		}
	case t.word == "box":
		if heights, ok := p.heights(t); ok {
			k.Boxes = append(k.Boxes, roomful.BoxStock{HeightsCm: heights, Count: count})
		}
	case t.word == "rope":
		k.Ropes += count
	case t.word == "rings":
		k.Rings += count
	case t.word == "low-ceiling":
		k.CeilingM = lowCeilingM
		if len(t.figures) == 1 && t.unit == "m" {
			k.CeilingM = t.figures[0]
		}
	case t.word == "quiet":
		k.Quiet = true
	case slices.Contains([]string{"row", "ski", "bike", "fan-bike"}, t.word):
		k.Stations[t.word] += count
	default:
		k.Other = append(k.Other, t.word)
	}
}

// heaviest is the most one thing at home may weigh, in kg.
const heaviest = 500

// weight returns the mass of a thing, which must have one.
func (p *people) weight(t thing, unit roomful.MassUnit) (roomful.Mass, bool) {
	if len(t.figures) != 1 {
		p.fault(t.at, fmt.Sprintf("write %s 10kg", t.word), "%q needs its weight", t.text)
		return roomful.Mass{}, false
	}
	m := roomful.Mass{Value: t.figures[0], Unit: unit}
	switch t.unit {
	case "kg":
		m.Unit = roomful.Kilogram
	case "lb":
		m.Unit = roomful.Pound
	case "":
	default:
		p.fault(t.at, "write the weight in kg or lb", "%q has a weight in %s", t.text, t.unit)
		return m, false
	}
	if m.Value <= 0 || m.Kg() > heaviest {
		p.fault(t.at, "check the weight", "%q is not a weight anybody owns", t.text)
		return m, false
	}
	return m, true
}

// heights returns the heights in cm that a box can stand at.
func (p *people) heights(t thing) ([]float64, bool) {
	unit := map[string]float64{"": 1, "cm": 1, "in": 2.54, "m": 100}[t.unit]
	var out []float64
	for _, f := range t.figures {
		if h := f * unit; h >= 5 && h <= 150 {
			out = append(out, h)
		}
	}
	if len(out) == 0 || len(out) < len(t.figures) {
		p.fault(t.at, "write box 50cm", "%q needs its height, from 5 to 150 cm", t.text)
		return nil, false
	}
	return out, true
}

// Discs as they are usually sold in pairs, small ones first (common practice,
// no source).
var usualDiscs = map[roomful.MassUnit][]float64{
	roomful.Kilogram: {1.25, 2.5, 5, 10, 15, 20, 25},
	roomful.Pound:    {2.5, 5, 10, 25, 35, 45},
}

// plates reads "plates 60kg" as a total made of usual pairs, one of each from
// the small end and then the fewest that fill it, so that a bar can be stepped
// finely; "plate 10kg" is one disc and "4x plate 10kg" four.
func plates(m roomful.Mass, t thing) []roomful.Stock {
	if t.count > 0 || !t.plural {
		return []roomful.Stock{{Mass: m, Count: max(t.count, 1)}}
	}
	discs := usualDiscs[m.Unit]
	counts := make([]int, len(discs))
	left := m.Value
	for i, d := range discs {
		if left < 2*d {
			break
		}
		counts[i], left = 2, left-2*d
	}
	for i := len(discs) - 1; i >= 0; i-- {
		pairs := int(left / (2 * discs[i]))
		counts[i] += 2 * pairs
		left -= float64(2*pairs) * discs[i]
	}
	var out []roomful.Stock
	for i, n := range counts {
		if n > 0 {
			out = append(out, roomful.Stock{Mass: roomful.Mass{Value: discs[i], Unit: m.Unit}, Count: n})
		}
	}
	return out
}
