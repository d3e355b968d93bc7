// Package rack is what a person can lift and stand on: which loads exist in a
// kit or in a gym's usual steps, the one nearest to a wish, the plates that make
// it, and the heights of boxes.
package rack

import (
	"math"
	"slices"
	"sort"

	"roomful"
)

// tiny absorbs rounding when masses in kg are compared.
const tiny = 1e-6

// Stock answers which loads and heights exist for one person: those of a given
// kit, or the usual steps when none is given. It remembers what it has worked
// out and is not for use from several goroutines.
type Stock struct {
	Kit     *roomful.Kit
	Given   bool         // the kit was given and is complete
	pair    roomful.Mass // the usual step on a bar, in the unit of most plates
	masses  map[Tool][]roomful.Mass
	heights []float64
}

// Tool is what is held: an implement, and how many of one mass at once; 0
// counts as 1.
type Tool struct {
	Implement roomful.Implement
	Count     int
}

// ToolOf returns what a task of a movement is held with.
func ToolOf(m *roomful.Movement, t roomful.Task) Tool { return Tool{m.Implement, t.Implements} }

// New returns the stock of a kit; of the gym's usual kit for a division,
// in the unit the sheet is written in, when kit is nil.
func New(kit *roomful.Kit, gym roomful.Gym, d roomful.Division, unit roomful.MassUnit) *Stock {
	if gym.SmallestPair.Value <= 0 {
		gym.SmallestPair = roomful.DefaultGym().SmallestPair
	}
	s := &Stock{Kit: kit, Given: kit != nil, pair: gym.SmallestPair, masses: map[Tool][]roomful.Mass{}}
	if kit == nil {
		if gym.Unit != unit {
			gym.Unit, gym.SmallestPair = unit, usualPair(unit)
			s.pair = gym.SmallestPair
		}
		s.Kit = gym.UsualKit(d)
	} else if u := plateUnit(kit, s.pair.Unit); u != s.pair.Unit {
		s.pair = usualPair(u)
	}
	s.heights = s.Kit.Heights()
	return s
}

// plateUnit is the unit of most plates of a kit, or the one usual when there
// are none.
func plateUnit(k *roomful.Kit, usual roomful.MassUnit) roomful.MassUnit {
	n := 0
	for _, p := range k.Plates {
		if p.Mass.Unit == usual {
			n += p.Count
		} else {
			n -= p.Count
		}
	}
	switch {
	case n >= 0:
		return usual
	case usual == roomful.Pound:
		return roomful.Kilogram
	}
	return roomful.Pound
}

// usualPair is the usual smallest pair of plates in a unit: 2.5 kg or 5 lb in
// all (common practice, no source).
func usualPair(u roomful.MassUnit) roomful.Mass {
	if u == roomful.Pound {
		return roomful.Lb(5)
	}
	return roomful.Kg(2.5)
}

// Of lists the masses of a tool, ascending. Sleds and vests are not counted in a
// kit; they come in the gym's usual steps. Of dumbbells and kettlebells only
// those there are enough of count.
func (s *Stock) Of(tool Tool) []roomful.Mass {
	if m, ok := s.masses[tool]; ok {
		return m
	}
	var m []roomful.Mass
	switch tool.Implement {
	case roomful.Sled, roomful.Vest:
		for n := 1; n <= 80; n++ {
			m = append(m, roomful.Mass{Value: float64(n) * s.pair.Value, Unit: s.pair.Unit})
		}
	case roomful.Barbell:
		m = s.plain(s.Kit.Loads(tool.Implement))
	default:
		m = slices.DeleteFunc(s.Kit.Loads(tool.Implement), func(m roomful.Mass) bool {
			return s.count(tool.Implement, m) < tool.Count
		})
	}
	s.masses[tool] = m
	return m
}

// nearEnough is how near a load in usual steps makes an odd one needless, as a
// share: plates of two units make 60.82 kg beside 60 (judgement: no coach writes
// it).
const nearEnough = 0.02

// plain drops odd loads that have one in usual steps beside them.
func (s *Stock) plain(loads []roomful.Mass) []roomful.Mass {
	var out, usual []roomful.Mass
	for _, m := range loads {
		if s.inSteps(m) {
			usual = append(usual, m)
		}
	}
	for _, m := range loads {
		kg := m.Kg()
		i := sort.Search(len(usual), func(i int) bool { return usual[i].Kg() >= kg*(1-nearEnough) })
		if s.inSteps(m) || i == len(usual) || usual[i].Kg() > kg*(1+nearEnough) {
			out = append(out, m)
		}
	}
	return out
}

// inSteps reports whether a load is a whole number of usual steps.
func (s *Stock) inSteps(m roomful.Mass) bool {
	n := m.Value / s.pair.Value
	return m.Unit == s.pair.Unit && math.Abs(n-math.Round(n)) < tiny
}

// count returns how many of one mass of dumbbells or kettlebells there are;
// other implements are never short in pairs.
func (s *Stock) count(im roomful.Implement, m roomful.Mass) int {
	var all []roomful.Stock
	switch im {
	case roomful.Dumbbell:
		all = s.Kit.Dumbbells
	case roomful.Kettlebell:
		all = s.Kit.Kettlebells
	default:
		return math.MaxInt
	}
	n := 0
	for _, have := range all {
		if math.Abs(have.Mass.Kg()-m.Kg()) < tiny {
			n += have.Count
		}
	}
	return n
}

// next returns how many masses of a tool weigh at most kg.
func (s *Stock) next(tool Tool, kg float64) int {
	all := s.Of(tool)
	return sort.Search(len(all), func(i int) bool { return all[i].Kg() > kg+tiny })
}

// Below returns the greatest mass of at most kg; ok is false when none is
// light enough. Fractional plates make odd loads, so one that stands in the
// gym's usual steps is preferred when it is less than a step lighter.
func (s *Stock) Below(tool Tool, kg float64) (m roomful.Mass, ok bool) {
	all := s.Of(tool)
	top := s.next(tool, kg) - 1
	if top < 0 {
		return roomful.Mass{}, false
	}
	if tool.Implement != roomful.Barbell {
		return all[top], true
	}
	for i := top; i >= 0 && all[i].Kg() > kg-s.pair.Kg()+tiny; i-- {
		if s.inSteps(all[i]) {
			return all[i], true
		}
	}
	return all[top], true
}

// Nearest returns the mass nearest to kg, the lighter of two equally near;
// never more than half a step above, unless kg is below the lightest.
func (s *Stock) Nearest(tool Tool, kg float64) (m roomful.Mass, ok bool) {
	all := s.Of(tool)
	if len(all) == 0 {
		return roomful.Mass{}, false
	}
	i := s.next(tool, kg)
	switch {
	case i == 0:
		return all[0], true
	case i == len(all) || all[i].Kg()-kg >= kg-all[i-1].Kg()-tiny:
		if kg-all[i-1].Kg() < tiny {
			return all[i-1], true
		}
		m, _ = s.Below(tool, kg)
		return m, true
	}
	return all[i], true
}

// Lightest returns the lightest mass of a tool.
func (s *Stock) Lightest(tool Tool) (m roomful.Mass, ok bool) {
	all := s.Of(tool)
	if len(all) == 0 {
		return roomful.Mass{}, false
	}
	return all[0], true
}

// Lighter returns the next lighter mass that a coach would load: the next in
// the rack or, on a bar, one usual step down.
func (s *Stock) Lighter(tool Tool, m roomful.Mass) (roomful.Mass, bool) {
	kg := m.Kg() - 2*tiny
	if tool.Implement == roomful.Barbell {
		kg = m.Kg() - s.pair.Kg()
	}
	return s.Below(tool, kg)
}

// Heavier returns the next heavier mass, the counterpart of Lighter.
func (s *Stock) Heavier(tool Tool, m roomful.Mass) (roomful.Mass, bool) {
	all := s.Of(tool)
	kg := m.Kg()
	if tool.Implement == roomful.Barbell {
		if up, ok := s.Below(tool, kg+s.pair.Kg()); ok && up.Kg() > kg+tiny {
			return up, true
		}
	}
	if i := s.next(tool, kg); i < len(all) {
		return all[i], true
	}
	return roomful.Mass{}, false
}

// Height returns the box height the kit has that is nearest below or at cm;
// the lowest when all are higher, and cm itself when heights do not matter.
func (s *Stock) Height(m *roomful.Movement, cm float64) float64 {
	if cm == 0 || len(s.heights) == 0 || !slices.Contains(m.Needs, "box") || !s.Given {
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

// Lower returns the next lower height that a movement can be done at, cm itself
// when there is none.
func (s *Stock) Lower(m *roomful.Movement, cm float64) float64 {
	if cm == 0 {
		return cm
	}
	if m.Implement == roomful.Ball {
		return math.Round(cm*lowerTarget/5) * 5
	}
	best := cm
	for _, h := range s.heights {
		if h < cm-tiny {
			best = h
		}
	}
	return best
}

// lowerTarget is how much lower an easier throwing target is: 9 ft for 10
// (common practice, no source).
const lowerTarget = 0.9

// Lacks returns the first word of what a movement needs and a given kit does
// not have, or "" when it can be done.
func (s *Stock) Lacks(m *roomful.Movement) string {
	if !s.Given {
		return ""
	}
	hands := 1
	if m.Pair {
		hands = 2
	}
	switch w := s.Kit.Lacks(m); {
	case w != "" || !m.TakesLoad() || len(s.Of(Tool{m.Implement, hands})) > 0:
		return w
	case m.Pair && len(s.Of(Tool{m.Implement, 1})) > 0:
		return "pair of " + string(m.Implement) + "s"
	}
	return string(m.Implement)
}

// Home reports whether the kit is what somebody owns at home.
func (s *Stock) Home() bool { return s.Given && s.Kit.Home }

// UsualHeight is the box or target height of a movement when the sheet names
// none, in cm.
func UsualHeight(m *roomful.Movement, d roomful.Division) float64 {
	if d != roomful.DivisionA && m.Travel.UsualHigher > 0 {
		return m.Travel.UsualHigher
	}
	return m.Travel.UsualHeight
}
