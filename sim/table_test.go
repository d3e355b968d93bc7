package sim_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"roomful/sim"
)

// Every constant has a source or says that it is judged, and a name that
// changes it and no other.
func TestConstantsAreNamed(t *testing.T) {
	seen := map[string]bool{}
	for _, k := range sim.Table() {
		if seen[k.Name] || k.Unit == "" || k.Source == "" {
			t.Errorf("%s: named twice, or without a unit or a source", k.Name)
		}
		seen[k.Name] = true
		before, after := sim.Defaults(), sim.Defaults()
		if err := after.Set(k.Name, 123.5); err != nil {
			t.Fatal(err)
		}
		for _, other := range sim.Table() {
			if want := other.Value(&before); other.Name != k.Name && other.Value(&after) != want {
				t.Errorf("setting %s moves %s", k.Name, other.Name)
			}
		}
		if got := k.Value(&after); got != 123.5 {
			t.Errorf("%s set to 123.5 is %v", k.Name, got)
		}
	}
	c := sim.Defaults()
	if err := c.Set("Gumption", 1); err == nil {
		t.Error("a constant that is not there was set")
	}
}

// The rules in doc/model.md name figures; they are the constants'.
func TestModelDocument(t *testing.T) {
	text, err := os.ReadFile("../doc/model.md")
	if err != nil {
		t.Fatal(err)
	}
	flat := strings.Join(strings.Fields(string(text)), " ")
	c := sim.Defaults()
	for _, want := range []string{
		fmt.Sprintf("c is %v J/(kg·m) when what is lifted is lowered again and %v when", c.LoadedJoules, c.DroppedJoules),
		fmt.Sprintf("Running costs %v J/(kg·m)", c.RunJoules),
		fmt.Sprintf("with time constants of %v s and %v s", c.TauFast, c.TauSlow),
		fmt.Sprintf("(1 + %v·max(0, f − 0.5))·(1 + %v L² + %v D)", c.SlowLoad, c.SlowLocal, c.SlowReserve),
		fmt.Sprintf("W·max(0, %v − D)/%v s)", c.SpendTo, c.Sprint),
		fmt.Sprintf("κ = 1 − %v·√(120 s/H)", c.PaceCare),
		fmt.Sprintf("over %v of the time that remains", c.MachineShare),
		fmt.Sprintf("exp(−%v + %v L + %v D)", -c.BreakBase, c.BreakLocal, c.BreakReserve),
		fmt.Sprintf("%v s·(H/300 s)^%v·(1 + D + L)", c.BreakSeconds, c.BreakGrowth),
		fmt.Sprintf("plus %v·(D + L)", c.TripFatigue),
	} {
		if !strings.Contains(flat, want) {
			t.Errorf("doc/model.md does not say %q", want)
		}
	}
}
