package study

import (
	"fmt"
	"math"
	"testing"

	"roomful"
	"roomful/catalogue"
	"roomful/prior"
)

// The people of a gym differ in age and mass as package prior says strangers do:
// heavier ones are stronger and no better at pull-ups.
func TestMixed(t *testing.T) {
	for name, want := range map[string]float64{"age": strangersAge, "mass": strangersMass} {
		if got := assumed(t, name); got != want {
			t.Errorf("%s: strangers differ by %v, by package prior %v", name, want, got)
		}
	}
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	g := &Group{Words: "men", Mean: trained(man(32, 80), 36), Mixed: true}
	var ages, masses, squats, pulls []float64
	for _, m := range g.draw(lex, 300, 1) {
		squat, _ := m.abilities.Median(roomful.OneRM(roomful.BackSquat))
		pull, _ := m.abilities.Median(roomful.OwnMax("pull-up"))
		ages, masses = append(ages, float64(on.Year-m.athlete.Born.Year)), append(masses, math.Log(m.athlete.MassKg))
		squats, pulls = append(squats, squat), append(pulls, pull)
		if m.abilities.MassKg != m.athlete.MassKg {
			t.Fatalf("%v kg and %v kg", m.abilities.MassKg, m.athlete.MassKg)
		}
	}
	near(t, "age", mean(ages), 32, 1)
	near(t, "its spread", deviation(ages), strangersAge, 1)
	near(t, "mass", math.Exp(mean(masses)), 80, 0.1)
	near(t, "its spread", deviation(masses), strangersMass, 0.002)
	if r := correlation(masses, squats); r < 0.3 {
		t.Errorf("heavier people squat hardly more: r %.2f", r)
	}
	if r := correlation(masses, pulls); r > 0 {
		t.Errorf("heavier people do more pull-ups: r %.2f", r)
	}
}

// assumed returns the spread that package prior assumes of strangers.
func assumed(t *testing.T, what string) float64 {
	t.Helper()
	for i, c := range prior.Population {
		switch {
		case what == "mass" && c.Name == "uncertainty of an assumed body mass":
			return c.Value[0]
		case what == "age" && c.Name == "age assumed":
			return prior.Population[i+1].Value[0]
		}
	}
	t.Fatalf("package prior assumes no %s", what)
	return 0
}

// Places count from below; who is level shares a place, and who has no figure has
// none.
func TestPlaces(t *testing.T) {
	x, y := places([]float64{5, 1, math.NaN(), 1, 9}, []float64{10, 40, 3, 20, math.NaN()})
	if got := fmt.Sprint(x, y); got != "[2.5 1 1] [0.5 2.5 1.5]" {
		t.Error(got)
	}
}

// Where only an order was read, z is how far the figure is from it, in half bands.
func TestOrderAlone(t *testing.T) {
	f := Finding{Mean: Unread, Rule: between(-1, 0, "below 0")}
	near(t, "kept", f.z(-0.4), 0, 0)
	near(t, "reversed", f.z(0.2), 0.4, 1e-12)
}
