package roomful

import (
	"maps"
	"slices"
	"strings"
)

// Place is a shared thing by the word a kit counts it by, "row", "rig" or
// "kettlebell 24 kg", and how many of it there are or are held.
type Place struct {
	Word  string
	Count int
}

// BarWord is what bars of any mass are counted by.
const BarWord = "bar"

// places of the room that serve a need called otherwise.
var servedBy = map[string]string{"pull-up-bar": "rig", "rack": "rig"}

// Places returns what somebody holds while they do a task, of the things that
// the kit counts: a machine, a bay of the rig, a box, the bells in their hands, a
// bar of whatever mass. Each has their own small things, and a thing of which the kit
// has none is not waited for.
func (k *Kit) Places(m *Movement, t Task) []Place {
	var out []Place
	for _, word := range m.Needs {
		if k.count(word) == 0 && servedBy[word] != "" {
			word = servedBy[word]
		}
		out = append(out, Place{word, 1})
	}
	switch m.Implement {
	case Dumbbell, Kettlebell, Ball:
		out = append(out, Place{string(m.Implement) + " " + t.Load.String(), max(t.Implements, 1)})
	case Barbell:
		out = append(out, Place{BarWord, 1})
	case NoImplement, Plate, Vest:
	default:
		out = append(out, Place{string(m.Implement), 1})
	}
	return slices.DeleteFunc(out, func(p Place) bool { return k.Count(p.Word) == 0 })
}

// Held returns what somebody holds of the kit who does some tasks: each thing once, the
// greatest number of it that a task takes.
func (k *Kit) Held(tasks []Task, lex Lexicon) (out []Place) {
	for _, t := range tasks {
		m := lex.Movement(t.Movement)
		if m == nil {
			continue
		}
		for _, p := range k.Places(m, t) {
			at := slices.IndexFunc(out, func(q Place) bool { return q.Word == p.Word })
			if at < 0 {
				out = append(out, p)
				continue
			}
			out[at].Count = max(out[at].Count, p.Count)
		}
	}
	return out
}

// WeightOf returns the implement of whose weights a thing is one by its word, which
// somebody keeps in their hands throughout; "" for any other thing.
func WeightOf(word string) Implement {
	for _, im := range []Implement{Dumbbell, Kettlebell, Ball} {
		if strings.HasPrefix(word, string(im)+" ") {
			return im
		}
	}
	return NoImplement
}

// Count returns how many the kit has of a thing by its word as [Kit.Places]
// gives it; 0 also for what the kit does not count.
func (k *Kit) Count(word string) (n int) {
	for _, shelf := range []struct {
		name  Implement
		stock []Stock
	}{{Dumbbell, k.Dumbbells}, {Kettlebell, k.Kettlebells}, {Ball, k.Balls}} {
		for _, s := range shelf.stock {
			if word == string(shelf.name)+" "+s.Mass.String() {
				n += s.Count
			}
		}
	}
	if word == BarWord {
		for _, s := range k.Bars {
			n += s.Count
		}
	}
	return n + k.count(word)
}

// Less returns a kit with so many fewer of a thing by its word, all of them when
// n is 0, and whether it counts that thing at all.
func (k *Kit) Less(word string, n int) (*Kit, bool) {
	have := k.Count(word)
	if have == 0 {
		return k, false
	}
	if n <= 0 || n > have {
		n = have
	}
	out := *k
	fewer := func(stock []Stock, name Implement) []Stock {
		stock = slices.Clone(stock)
		for i, s := range stock {
			if word == string(name)+" "+s.Mass.String() {
				gone := min(n, s.Count)
				stock[i].Count, n = s.Count-gone, n-gone
			}
		}
		return stock
	}
	out.Dumbbells, out.Kettlebells, out.Balls = fewer(k.Dumbbells, Dumbbell), fewer(k.Kettlebells, Kettlebell), fewer(k.Balls, Ball)
	switch word {
	case BarWord:
		out.Bars = slices.Clone(k.Bars)
		for i := range out.Bars {
			gone := min(n, out.Bars[i].Count)
			out.Bars[i].Count, n = out.Bars[i].Count-gone, n-gone
		}
	case "box":
		out.Boxes = slices.Clone(k.Boxes)
		for i := range out.Boxes {
			gone := min(n, out.Boxes[i].Count)
			out.Boxes[i].Count, n = out.Boxes[i].Count-gone, n-gone
		}
	case "rings":
		out.Rings -= n
	case "rope":
		out.Ropes -= n
	default:
		if k.Stations[word] > 0 {
			out.Stations = maps.Clone(k.Stations)
			out.Stations[word] -= n
		}
	}
	return &out, true
}

// Words lists the things that a kit counts, as [Kit.Count] knows them.
func (k *Kit) Words() []string {
	var out []string
	add := func(word string) {
		if k.Count(word) > 0 && !slices.Contains(out, word) {
			out = append(out, word)
		}
	}
	for _, word := range slices.Concat(slices.Sorted(maps.Keys(k.Stations)), []string{BarWord, "box", "rings", "rope"}) {
		add(word)
	}
	for _, s := range k.Dumbbells {
		add(string(Dumbbell) + " " + s.Mass.String())
	}
	for _, s := range k.Kettlebells {
		add(string(Kettlebell) + " " + s.Mass.String())
	}
	for _, s := range k.Balls {
		add(string(Ball) + " " + s.Mass.String())
	}
	return out
}

// count returns how many places or loose things of a kind there are.
func (k *Kit) count(word string) (n int) {
	switch word {
	case "box":
		for _, b := range k.Boxes {
			n += b.Count
		}
		return n
	case "rings":
		return k.Rings
	case "rope":
		return k.Ropes
	}
	return k.Stations[word]
}
