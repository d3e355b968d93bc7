package roomful

import "slices"

// Place is a shared thing by the word a kit counts it by, "row", "rig" or
// "kettlebell 24 kg", and how many of it there are or are held.
type Place struct {
	Word  string
	Count int
}

// places of the room that serve a need called otherwise.
var servedBy = map[string]string{"pull-up-bar": "rig", "rack": "rig"}

// Places returns what somebody holds while they do a task, of the things that
// the kit counts: a machine, a bay of the rig, a box, the bells in their hands.
// Each has their own bar and small things, and a thing of which the kit has none
// is not waited for.
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
	case NoImplement, Barbell, Plate, Vest:
	default:
		out = append(out, Place{string(m.Implement), 1})
	}
	return slices.DeleteFunc(out, func(p Place) bool { return k.Count(p.Word) == 0 })
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
	return n + k.count(word)
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
