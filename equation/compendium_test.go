package equation_test

import (
	"fmt"
	"testing"

	"roomful/equation"
)

// One code, two editions, two meanings.
func ExampleFindActivity() {
	for _, e := range []equation.Edition{equation.Compendium2011, equation.Compendium2024} {
		a, _ := equation.FindActivity(e, "02073")
		fmt.Printf("%d: %s, %.1f MET\n", a.Edition, a.Name, a.METs)
	}
	// Output:
	// 2011: rowing machine, 150 W, 8.5 MET
	// 2024: rowing machine, 150-199 W, 11.0 MET
}

func TestCompendiumRowsAreDistinct(t *testing.T) {
	for i, a := range equation.Activities() {
		found, ok := equation.FindActivity(a.Edition, a.Code)
		if !ok || found != a {
			t.Errorf("row %d: %d %s leads to %+v", i, a.Edition, a.Code, found)
		}
		if a.METs < 1 || a.METs > 20 || len(a.Code) != 5 {
			t.Errorf("row %d: %+v", i, a)
		}
	}
	if a, ok := equation.FindActivity(equation.Compendium2011, "15554"); ok {
		t.Errorf("2011 knows double-unders: %+v", a)
	}
}

// The guidelines' running equation and step equation against the compendium's
// rows: two sources for one thing. Running at 5-8 mph it asks 2 to 12 % more in
// both editions; stepping 30 times a minute, a usual class tempo (common
// practice, no source), at 7 and 11 in, 6 to 13 % less.
func TestACSMAgainstCompendium(t *testing.T) {
	mph := map[string]float64{"12030": 5, "12050": 6, "12070": 7, "12090": 8}
	for _, a := range equation.Activities() {
		if v, ok := mph[a.Code]; ok {
			r := equation.METs(equation.RunOxygen(v*mPerMinPerMph, 0)) / a.METs
			t.Logf("%d run %v mph: %.3f", a.Edition, v, r)
			near(t, a.Name, r, 1.07, 0.055)
		}
	}
	for code, inches := range map[string]float64{"02002": 7, "02003": 11} {
		a, _ := equation.FindActivity(equation.Compendium2024, code)
		r := equation.METs(equation.StepOxygen(30, inches*0.0254)) / a.METs
		t.Logf("%s: %.3f", a.Name, r)
		near(t, a.Name, r, 0.905, 0.035)
	}
}
