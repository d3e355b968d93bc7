package roomful

import (
	"maps"
	"slices"
	"strings"
)

// Ratios convert amounts from one movement to another: Ratios[from][to] is so
// many of to for one of from.
type Ratios map[MovementID]map[MovementID]float64

// leastRatio and mostRatio bound a ratio.
const leastRatio, mostRatio = 0.01, 100

// RatioHolds reports whether ratios convert amounts of a unit: repetitions and
// distances. Machines count calories much alike, and seconds are seconds.
func RatioHolds(u Unit) bool { return u.Base() == Rep || u.Base() == Metre }

// For returns how many of to stand for one of from, 0 when the gym does not
// say. A ratio holds both ways. Two that are both given for a third convert
// distances through it: with 2 for the bike and 0.8 for the run beside the
// rower, a metre of run is 2.5 of bike.
func (r Ratios) For(from, to MovementID, unit Unit) float64 {
	back, there := r[to][from], r[from][to]
	switch {
	case !RatioHolds(unit):
		return 0
	case there > 0:
		return there
	case back > 0:
		return 1 / back
	case unit.Base() != Metre:
		return 0
	}
	for _, third := range slices.Sorted(maps.Keys(r)) {
		if a, b := r[third][from], r[third][to]; a > 0 && b > 0 {
			return b / a
		}
	}
	return 0
}

// String writes the ratios in the order of their ids, "row: bike 2, ski 1".
func (r Ratios) String() string {
	var all []string
	for _, from := range slices.Sorted(maps.Keys(r)) {
		var to []string
		for _, id := range slices.Sorted(maps.Keys(r[from])) {
			to = append(to, string(id)+" "+Figure(r[from][id]))
		}
		all = append(all, string(from)+": "+strings.Join(to, ", "))
	}
	return strings.Join(all, "; ")
}
