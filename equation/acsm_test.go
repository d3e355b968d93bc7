package equation_test

import (
	"fmt"
	"math"
	"testing"

	"roomful/equation"
)

const mPerMinPerMph = 26.8 // as the guidelines round it

// Worked as published in the guidelines' teaching material (secondary source).
func ExampleWalkOxygen() {
	fmt.Printf("3.5 mph at 10 %%: %.2f mL/kg/min\n", equation.WalkOxygen(3.5*mPerMinPerMph, 0.10))
	// Output:
	// 3.5 mph at 10 %: 29.76 mL/kg/min
}

// Worked as published (secondary source): 8 mph on the flat, 50 kg.
func ExampleRunOxygen() {
	gross := equation.RunOxygen(8*mPerMinPerMph, 0)
	net := gross - equation.RestOxygen
	fmt.Printf("%.2f gross, %.2f net, %.2f MET net, %.2f kcal/min\n",
		gross, net, equation.METs(net), equation.KcalPerMinute(net, 50))
	// Output:
	// 46.38 gross, 42.88 net, 12.25 MET net, 10.72 kcal/min
}

// Worked as published (secondary source): the flat speed of an 8 MET jog.
func ExampleRunSpeed() {
	fmt.Printf("%.1f m/min\n", equation.RunSpeed(equation.METOxygen(8), 0))
	// Output:
	// 122.5 m/min
}

// Worked as published (secondary source): 62 kg at 450 kg·m/min and 86.36 kg
// at 840.
func ExampleCycleOxygen() {
	fmt.Printf("%.2f\n", equation.CycleOxygen(450/equation.KgMetresPerMinute, 62))
	fmt.Printf("%.2f\n", equation.CycleOxygen(840/equation.KgMetresPerMinute, 86.36))
	// Output:
	// 20.06
	// 24.51
}

// Worked as published (secondary source): 30 steps a minute at 12 in, and 24
// at 15 in.
func ExampleStepOxygen() {
	fmt.Printf("%.1f\n", equation.StepOxygen(30, 0.3048))
	fmt.Printf("%.1f\n", equation.StepOxygen(24, 0.381))
	// Output:
	// 31.4
	// 30.2
}

// Worked as published (secondary source): 7 MET at 60 kg is 420 kcal an hour.
// The rounding of 1.05 kcal/kg/h to 1 lies in the published figure.
func TestEnergyOfMETs(t *testing.T) {
	near(t, "7 MET at 60 kg", 60*equation.KcalPerMinute(equation.METOxygen(7), 60)/1.05, 420, 0.5)
	// MET·3.5·M/200, the guidelines' short form.
	near(t, "short form", equation.KcalPerMinute(equation.METOxygen(9), 71), 9*3.5*71/200, 1e-9)
}

func TestMetabolicInverses(t *testing.T) {
	for oxygen := 10.0; oxygen <= 60; oxygen += 5 {
		for _, grade := range []float64{0, 0.05, 0.15} {
			near(t, "walk", equation.WalkOxygen(equation.WalkSpeed(oxygen, grade), grade), oxygen, 1e-9)
			near(t, "run", equation.RunOxygen(equation.RunSpeed(oxygen, grade), grade), oxygen, 1e-9)
		}
		near(t, "cycle", equation.CycleOxygen(equation.CyclePower(oxygen, 77), 77), oxygen, 1e-9)
		near(t, "arms", equation.ArmCycleOxygen(equation.ArmCyclePower(oxygen, 77), 77), oxygen, 1e-9)
		near(t, "step", equation.StepOxygen(equation.StepRate(oxygen, 0.3), 0.3), oxygen, 1e-9)
		near(t, "energy", equation.WattsPerKgOxygen(equation.OxygenWattsPerKg(oxygen)), oxygen, 1e-9)
	}
	// Arms cost more than legs at the same power once past the pedals' own 3.5
	// (from memory: arm work reaches a given uptake at about 60 % of the power).
	if equation.ArmCycleOxygen(100, 75) <= equation.CycleOxygen(100, 75) {
		t.Error("arms cost no more than legs at 100 W")
	}
}

// Net running cost in the guidelines, 0.2 mL/kg/m, against the classical
// 1 kcal/kg/km (R. Margaria et al. 1963, J Appl Physiol 18:367-370, from
// memory), 4.184 J/kg/m: they are the same law to 0.2 %.
func TestRunningCostACSMAgainstMargaria(t *testing.T) {
	for speed := 134.0; speed <= 350; speed += 27 {
		net := equation.RunOxygen(speed, 0) - equation.RestOxygen
		perMetre := equation.OxygenWattsPerKg(net) / (speed / 60)
		near(t, "J/kg/m", perMetre, equation.MargariaRunCost, 0.002*equation.MargariaRunCost)
	}
}

// Against an independent polynomial for running outdoors (Daniels and Gilbert
// 1979): from 5:00 to 3:20 a km the guidelines ask 6 to 21 % more, the more the
// slower. Daniels fitted trained runners, who are economical.
func TestRunningCostACSMAgainstDaniels(t *testing.T) {
	low, high := math.Inf(1), math.Inf(-1)
	for speed := 200.0; speed <= 300; speed += 10 {
		r := equation.RunOxygen(speed, 0) / equation.DanielsRunOxygen(speed)
		low, high = min(low, r), max(high, r)
	}
	t.Logf("ACSM over Daniels: %.3f to %.3f", low, high)
	if low < 1.06 || high > 1.21 {
		t.Errorf("ACSM over Daniels: %.3f to %.3f", low, high)
	}
}
