package prior_test

import (
	"math"
	"testing"

	"roomful"
	"roomful/prior"
)

// day is the day every test reckons ages on.
var day = roomful.Date{Year: 2027, Month: 3, Day: 4}

// toy is a lexicon of a few movements with the catalogue's kind of figures.
type toy []*roomful.Movement

func (t toy) Movement(id roomful.MovementID) *roomful.Movement {
	for _, m := range t {
		if m.ID == id {
			return m
		}
	}
	return nil
}
func (t toy) Match([]string) (*roomful.Movement, int) { return nil, 0 }
func (t toy) Suggest(string) []*roomful.Movement      { return nil }
func (t toy) All() []*roomful.Movement                { return t }

// own builds a movement that is its own reference.
func own(id string, most, growth [2]float64, sd float64) *roomful.Movement {
	return &roomful.Movement{ID: roomful.MovementID(id), Name: id, Modality: roomful.Body, Units: []roomful.Unit{roomful.Rep},
		Bound: &roomful.Bound{Own: roomful.MovementID(id), Share: 1, Curve: 28, Most: most, Growth: growth, LogSD: sd}}
}

func twice(v float64) [2]float64 { return [2]float64{v, v} }

// few are the movements that the tests of a people file speak of, a hold, a
// skipping skill that needs learning and one that does not, and a lift that is
// one.
func few() toy {
	pullUp := own("pull-up", [2]float64{8, 2}, [2]float64{0.8, 1.5}, 0.36)
	pullUp.Skill.Needed = true
	hold := own("handstand-hold", twice(20), twice(0.8), 0.4)
	hold.Modality, hold.Units, hold.Skill.Needed = roomful.Hold, []roomful.Unit{roomful.Second}, true
	return toy{
		pullUp,
		own("push-up", [2]float64{20, 8}, [2]float64{0.75, 0.975}, 0.30),
		own("sit-up", [2]float64{45, 42}, twice(0.45), 0.35),
		own("air-squat", twice(60), twice(0.5), 0.35),
		own("burpee", [2]float64{40, 32}, twice(0.5), 0.35),
		hold,
		{ID: "double-under", Name: "double-under", Skill: roomful.Skill{Needed: true, Trips: true}},
		{ID: "single-under", Name: "single-under", Skill: roomful.Skill{Trips: true}},
		{ID: "snatch", Name: "snatch", Skill: roomful.Skill{Needed: true}, Bound: &roomful.Bound{Lift: roomful.Snatch, Share: 1}},
	}
}

// person builds somebody of a division, age, mass and months, with figures.
func person(d roomful.Division, age int, massKg, months float64, known ...roomful.Known) roomful.Athlete {
	return roomful.Athlete{Name: "Wren", Division: d, Born: roomful.Date{Year: day.Year - age, Month: 1, Day: 2},
		MassKg: massKg, Months: &months, Known: known}
}

func of(a roomful.Athlete) *roomful.Abilities { return prior.Of(a, few(), day) }

func median(t *testing.T, ab *roomful.Abilities, c roomful.Capacity) float64 {
	t.Helper()
	v, ok := ab.Median(c)
	if !ok {
		t.Fatalf("no %s", c)
	}
	return v
}

// near fails unless got lies within tol of want.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.4g, want %.4g ± %.2g", what, got, want, tol)
	}
}

// within fails unless got lies in a band.
func within(t *testing.T, what string, got, low, high float64) {
	t.Helper()
	if !(got >= low && got <= high) {
		t.Errorf("%s: got %.4g, want %.4g to %.4g", what, got, low, high)
	}
}

// correlation returns the correlation of two capacities.
func correlation(t *testing.T, ab *roomful.Abilities, a, b roomful.Capacity) float64 {
	t.Helper()
	x, y := &ab.Dims[ab.Index(a)], &ab.Dims[ab.Index(b)]
	var sum float64
	for _, l := range x.Loads {
		for _, m := range y.Loads {
			if l.Factor == m.Factor {
				sum += l.SD * m.SD
			}
		}
	}
	return sum / (x.SD() * y.SD())
}
