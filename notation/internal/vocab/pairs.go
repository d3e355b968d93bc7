package vocab

import (
	"slices"

	"roomful"
)

// pair is the loads of the two divisions.
type pair [2]float64

// usualPairs are the loads that gyms write without a unit, by what is lifted.
// Common practice, no source. A pair that is usual in both units is in neither.
var usualPairs = map[roomful.Implement]map[roomful.MassUnit][]pair{
	roomful.Barbell: {
		roomful.Pound: {{35, 25}, {45, 35}, {65, 45}, {75, 55}, {85, 55}, {95, 65}, {115, 75}, {115, 80}, {115, 85}, {125, 85}, {135, 95}, {145, 100}, {155, 105}, {165, 115}, {175, 125},
			{185, 125}, {185, 135}, {205, 145}, {225, 155}, {245, 165}, {255, 175}, {275, 185}, {275, 195}, {315, 205}, {315, 225}},
		roomful.Kilogram: {{20, 15}, {30, 20}, {30, 22.5}, {34, 25}, {35, 22.5}, {40, 25}, {40, 27.5}, {40, 30}, {42.5, 30}, {43, 30}, {50, 35}, {52, 34}, {52.5, 35}, {55, 37.5}, {60, 40}, {60, 42.5}, {60, 43}, {61, 43},
			{70, 47.5}, {70, 48}, {70, 50}, {80, 55}, {84, 56}, {84, 57}, {85, 57.5}, {90, 60}, {100, 70}, {102, 70}, {102.5, 70}, {120, 80}, {120, 85}, {140, 95}, {140, 100}},
	},
	roomful.Dumbbell: {
		roomful.Pound:    {{35, 20}, {35, 25}, {45, 30}, {50, 35}, {55, 35}, {60, 40}, {65, 45}, {70, 45}, {70, 50}},
		roomful.Kilogram: {{10, 7.5}, {12.5, 7.5}, {12.5, 10}, {15, 10}, {17.5, 12.5}, {20, 12.5}, {20, 15}, {22.5, 15}, {22.5, 17.5}, {25, 17.5}, {27.5, 17.5}, {30, 22.5}, {32.5, 22.5}},
	},
	roomful.Kettlebell: {
		roomful.Pound:    {{35, 26}, {44, 26}, {44, 35}, {53, 35}, {53, 44}, {62, 44}, {70, 44}, {70, 53}, {88, 62}, {88, 70}},
		roomful.Kilogram: {{12, 8}, {16, 12}, {20, 12}, {20, 14}, {20, 16}, {24, 16}, {24, 20}, {28, 20}, {32, 20}, {32, 24}},
	},
	roomful.Ball: {
		roomful.Pound:    {{14, 10}, {20, 14}, {30, 20}},
		roomful.Kilogram: {{6, 4}, {9, 6}, {9, 7}, {10, 6}},
	},
}

// usualHeights are the heights of boxes that gyms write without a unit. Common
// practice, no source.
var usualHeights = []pair{{24, 20}, {30, 24}, {20, 16}, {60, 50}, {75, 60}, {61, 51}, {76, 61}, {50, 40}}

// UsualHeights reports whether two figures are the usual heights of a box.
func UsualHeights(by []float64) bool {
	return len(by) == 2 && slices.Contains(usualHeights, pair{by[0], by[1]})
}

// UsualPair returns the unit in which the loads of both divisions are a usual
// pair for a movement; ok is false where they are none, or could be either.
func UsualPair(m *roomful.Movement, by []float64) (unit roomful.MassUnit, ok bool) {
	if m == nil || len(by) != 2 {
		return 0, false
	}
	for _, unit := range [...]roomful.MassUnit{roomful.Kilogram, roomful.Pound} {
		for _, p := range usualPairs[m.Implement][unit] {
			if p == (pair{by[0], by[1]}) {
				return unit, true
			}
		}
	}
	return 0, false
}
