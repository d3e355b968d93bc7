package version

import (
	"math"
	"slices"
	"sort"

	"roomful"
)

// tiny absorbs rounding when masses in kg are compared.
const tiny = 1e-6

// stock answers which loads and heights exist for one person: those of a given
// kit, or the usual steps when none is given.
type stock struct {
	kit     *roomful.Kit
	given   bool
	pair    roomful.Mass // the gym's usual step on a bar
	masses  map[roomful.Implement][]roomful.Mass
	heights []float64
}

// newStock returns the stock of a kit; of the gym's usual kit for a division,
// in the unit the sheet is written in, when kit is nil.
func newStock(kit *roomful.Kit, gym roomful.Gym, d roomful.Division, unit roomful.MassUnit) *stock {
	if gym.SmallestPair.Value <= 0 {
		gym.SmallestPair = roomful.DefaultGym().SmallestPair
	}
	s := &stock{kit: kit, given: kit != nil, pair: gym.SmallestPair, masses: map[roomful.Implement][]roomful.Mass{}}
	if kit == nil {
		if gym.Unit != unit {
			gym.Unit, gym.SmallestPair = unit, usualPair(unit)
			s.pair = gym.SmallestPair
		}
		s.kit = gym.UsualKit(d)
	}
	s.heights = s.kit.Heights()
	return s
}

// usualPair is the usual smallest pair of plates in a unit: 2.5 kg or 5 lb in
// all (common practice, no source).
func usualPair(u roomful.MassUnit) roomful.Mass {
	if u == roomful.Pound {
		return roomful.Lb(5)
	}
	return roomful.Kg(2.5)
}

// of lists the masses of one implement, ascending. Sleds and vests are not
// counted in a kit; they come in the gym's usual steps.
func (s *stock) of(im roomful.Implement) []roomful.Mass {
	if m, ok := s.masses[im]; ok {
		return m
	}
	var m []roomful.Mass
	switch im {
	case roomful.Sled, roomful.Vest:
		for n := 1; n <= 80; n++ {
			m = append(m, roomful.Mass{Value: float64(n) * s.pair.Value, Unit: s.pair.Unit})
		}
	default:
		m = s.kit.Loads(im)
	}
	s.masses[im] = m
	return m
}

// count returns how many of one mass of dumbbells or kettlebells there are;
// other implements are never short in pairs.
func (s *stock) count(im roomful.Implement, m roomful.Mass) int {
	var all []roomful.Stock
	switch im {
	case roomful.Dumbbell:
		all = s.kit.Dumbbells
	case roomful.Kettlebell:
		all = s.kit.Kettlebells
	default:
		return math.MaxInt
	}
	n := 0
	for _, have := range all {
		if have.Mass == m {
			n += have.Count
		}
	}
	return n
}

// next returns how many masses of an implement weigh at most kg.
func (s *stock) next(im roomful.Implement, kg float64) int {
	all := s.of(im)
	return sort.Search(len(all), func(i int) bool { return all[i].Kg() > kg+tiny })
}

// below returns the greatest mass of at most kg; ok is false when none is
// light enough. Fractional plates make odd loads, so one that stands in the
// gym's usual steps is preferred when it is less than a step lighter.
func (s *stock) below(im roomful.Implement, kg float64) (m roomful.Mass, ok bool) {
	all := s.of(im)
	top := s.next(im, kg) - 1
	if top < 0 {
		return roomful.Mass{}, false
	}
	if im != roomful.Barbell {
		return all[top], true
	}
	for i := top; i >= 0 && all[i].Kg() > kg-s.pair.Kg()+tiny; i-- {
		if steps := all[i].Value / s.pair.Value; all[i].Unit == s.pair.Unit && math.Abs(steps-math.Round(steps)) < tiny {
			return all[i], true
		}
	}
	return all[top], true
}

// nearest returns the mass nearest to kg, the lighter of two equally near;
// never more than half a step above, unless kg is below the lightest.
func (s *stock) nearest(im roomful.Implement, kg float64) (m roomful.Mass, ok bool) {
	all := s.of(im)
	if len(all) == 0 {
		return roomful.Mass{}, false
	}
	i := s.next(im, kg)
	switch {
	case i == 0:
		return all[0], true
	case i == len(all) || all[i].Kg()-kg >= kg-all[i-1].Kg()-tiny:
		if kg-all[i-1].Kg() < tiny {
			return all[i-1], true
		}
		m, _ = s.below(im, kg)
		return m, true
	}
	return all[i], true
}

// lightest returns the lightest mass of an implement.
func (s *stock) lightest(im roomful.Implement) (m roomful.Mass, ok bool) {
	all := s.of(im)
	if len(all) == 0 {
		return roomful.Mass{}, false
	}
	return all[0], true
}

// lighter returns the next lighter mass that a coach would load: the next in
// the rack or, on a bar, one usual step down.
func (s *stock) lighter(im roomful.Implement, m roomful.Mass) (roomful.Mass, bool) {
	kg := m.Kg() - 2*tiny
	if im == roomful.Barbell {
		kg = m.Kg() - s.pair.Kg()
	}
	return s.below(im, kg)
}

// heavier returns the next heavier mass, the counterpart of lighter.
func (s *stock) heavier(im roomful.Implement, m roomful.Mass) (roomful.Mass, bool) {
	all := s.of(im)
	kg := m.Kg()
	if im == roomful.Barbell {
		if up, ok := s.below(im, kg+s.pair.Kg()); ok && up.Kg() > kg+tiny {
			return up, true
		}
	}
	if i := s.next(im, kg); i < len(all) {
		return all[i], true
	}
	return roomful.Mass{}, false
}

// height returns the box height the kit has that is nearest below or at cm;
// the lowest when all are higher, and cm itself when heights do not matter.
func (s *stock) height(m *roomful.Movement, cm float64) float64 {
	if cm == 0 || len(s.heights) == 0 || !slices.Contains(m.Needs, "box") || !s.given {
		return cm
	}
	best := s.heights[0]
	for _, h := range s.heights {
		if h <= cm+tiny {
			best = h
		}
	}
	return best
}
