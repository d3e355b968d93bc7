package roomful

import (
	"math"
	"slices"
	"sort"
)

// Kit is what a room or a home owns. A given kit is complete: what it omits is
// absent. Counts are single pieces, so that a pair of dumbbells counts 2.
type Kit struct {
	Name        string
	Unit        MassUnit
	LengthM     float64 // 0 when not said, as for the two below: then it does not limit
	WidthM      float64
	CeilingM    float64
	Stations    map[string]int // shared places by their word: row, ski, bike, fan-bike, rig, wall-target, lane
	Bars        []Stock
	Plates      []Stock
	Dumbbells   []Stock
	Kettlebells []Stock
	Balls       []Stock
	Boxes       []BoxStock
	Ropes       int
	Rings       int
	// Other holds the words of small things without a figure: band, pull-up-bar.
	Other []string
	Quiet bool // neighbours mind noise
	Home  bool // a home: even small things are there only when named
}

// Stock is a number of equal weights.
type Stock struct {
	Mass  Mass
	Count int
}

// BoxStock is a number of equal boxes, each with the heights it can stand at.
type BoxStock struct {
	HeightsCm []float64
	Count     int
}

// Has reports whether the kit has at least one thing called word: an
// implement, a station or a need of a movement.
func (k *Kit) Has(word string) bool {
	switch word {
	case "", "floor":
		return true
	case string(Barbell):
		return len(masses(k.Bars)) > 0
	case string(Dumbbell):
		return len(masses(k.Dumbbells)) > 0
	case string(Kettlebell):
		return len(masses(k.Kettlebells)) > 0
	case string(Ball):
		return len(masses(k.Balls)) > 0
	case string(Plate):
		return len(masses(k.Plates)) > 0
	case "box":
		return len(k.Heights()) > 0
	case "rope":
		return k.Ropes > 0
	case "rings":
		return k.Rings > 0
	case "pull-up-bar":
		return k.Stations["rig"] > 0 || slices.Contains(k.Other, word)
	case "rack":
		return k.Stations["rack"] > 0 || k.Stations["rig"] > 0 || slices.Contains(k.Other, word)
	}
	if n, ok := k.Stations[word]; ok {
		return n > 0
	}
	if slices.Contains(k.Other, word) {
		return true
	}
	// A gym's list names no mats, bands and the like; a home names all it has.
	return !k.Home && !slices.Contains(StationWords, word)
}

// StationWords are the shared places that a gym lists when it has them.
var StationWords = []string{"row", "ski", "bike", "fan-bike", "rig", "wall-target", "lane", "bench", "sled", "climbing-rope", "rack"}

// Loads returns the masses that one implement can be made or found at, in
// ascending order: for a barbell each bar with every equal pair of sleeves that
// the plates allow. It is empty when the kit has no such implement.
func (k *Kit) Loads(im Implement) []Mass {
	var out []Mass
	switch im {
	case Barbell:
		out = k.barLoads()
	case Dumbbell:
		out = masses(k.Dumbbells)
	case Kettlebell:
		out = masses(k.Kettlebells)
	case Ball:
		out = masses(k.Balls)
	case Plate:
		out = masses(k.Plates)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Kg() < out[j].Kg() })
	return slices.CompactFunc(out, func(a, b Mass) bool { return math.Abs(a.Kg()-b.Kg()) < 1e-6 })
}

// masses lists what there is at least one of.
func masses(stock []Stock) []Mass {
	var out []Mass
	for _, s := range stock {
		if s.Count > 0 {
			out = append(out, s.Mass)
		}
	}
	return out
}

// sleeveKg bounds what one sleeve can hold when listing loads.
const sleeveKg = 160

// barLoads lists every load that one bar can carry alone in the room.
func (k *Kit) barLoads() []Mass {
	sides := map[int]bool{0: true} // grams on one sleeve
	for _, p := range k.Plates {
		grams := int(math.Round(p.Mass.Kg() * 1000))
		pairs := min(p.Count/2, 8)
		if grams <= 0 {
			continue
		}
		grown := map[int]bool{}
		for s := range sides {
			for n := 0; n <= pairs && s+n*grams <= sleeveKg*1000; n++ {
				grown[s+n*grams] = true
			}
		}
		sides = grown
	}
	var out []Mass
	for _, b := range k.Bars {
		if b.Count <= 0 {
			continue
		}
		for s := range sides {
			m := Kg(b.Mass.Kg() + 2*float64(s)/1000).In(b.Mass.Unit)
			m.Value = math.Round(m.Value*100) / 100
			out = append(out, m)
		}
	}
	return out
}

// Heights returns the box heights the kit has in cm, ascending.
func (k *Kit) Heights() []float64 {
	var out []float64
	for _, b := range k.Boxes {
		if b.Count > 0 {
			out = append(out, b.HeightsCm...)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// Lacks returns the first word of what a movement needs and the kit does not
// have, or "" when it can be done. A ceiling or lane that the kit does not
// state does not limit.
func (k *Kit) Lacks(m *Movement) string {
	if m.Implement != NoImplement && m.Implement != Vest && !k.Has(string(m.Implement)) {
		return string(m.Implement)
	}
	for _, n := range m.Needs {
		if !k.Has(n) {
			return n
		}
	}
	switch {
	case k.CeilingM > 0 && m.Space.CeilingM > k.CeilingM:
		return "ceiling"
	case k.Quiet && m.Noisy:
		return "noise"
	}
	return ""
}
