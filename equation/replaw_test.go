package equation_test

import (
	"fmt"
	"math"
	"testing"

	"roomful/equation"
)

// The maximum that 100 kg for 5, 8 and 10 repetitions suggests, computed by
// hand from each stated formula.
func ExampleRepLaw_OneRM() {
	for _, law := range equation.RepLaws() {
		fmt.Printf("%-21v %.2f %.2f %.2f\n", law, law.OneRM(100, 5), law.OneRM(100, 8), law.OneRM(100, 10))
	}
	// Output:
	// Brzycki 1993          112.50 124.14 133.33
	// Epley 1985            116.67 126.67 133.33
	// Lander 1985           113.71 125.11 134.07
	// Lombardi 1989         117.46 123.11 125.89
	// Mayhew et al. 1992    119.01 126.29 130.93
	// O'Conner et al. 1989  112.50 120.00 125.00
	// Wathen 1994           116.58 127.67 134.75
}

// Cells of the association's chart as published (secondary copy).
func ExampleNSCAShare() {
	fmt.Printf("%.0f %.1f %.1f\n", 100*equation.NSCAShare(3), 140*equation.NSCAShare(5), 230*equation.NSCAShare(7))
	// Output:
	// 93 121.8 190.9
}

// The means of the study's abstract at 75 %, and halfway to 85 %.
func ExampleWolfeReps() {
	fmt.Printf("%.1f %.1f %.1f\n", equation.WolfeReps(equation.WolfeSquat, 0.75),
		equation.WolfeReps(equation.WolfeBench, 0.75), equation.WolfeReps(equation.WolfeDeadlift, 0.75))
	fmt.Printf("%.2f\n", equation.WolfeReps(equation.WolfeSquat, 0.80))
	// Output:
	// 18.0 14.4 15.7
	// 14.15
}

func ExampleRepsInReserve() {
	for _, rpe := range []float64{10, 9, 8, 7} {
		fmt.Print(equation.RepsInReserve(rpe), " ")
	}
	// Output: 0 1 2 3
}

func TestRepLawsAtTheirEdges(t *testing.T) {
	for _, law := range equation.RepLaws() {
		near(t, law.String()+": one repetition", law.OneRM(100, 1), 100, 0)
		if s := law.Share(0.5); !math.IsNaN(s) {
			t.Errorf("%v: half a repetition has share %v", law, s)
		}
		if r := law.Reps(1.01); r != 0 {
			t.Errorf("%v: %v repetitions above the maximum", law, r)
		}
		near(t, law.String()+": at the maximum", law.Reps(1), 1, 0.5)
		for reps := 2.0; reps <= 20; reps++ {
			near(t, law.String()+": inverse", law.Reps(law.Share(reps)), reps, 1e-9)
			if law.Share(reps) >= law.Share(reps-1) {
				t.Errorf("%v: share does not fall at %v", law, reps)
			}
		}
	}
	for _, law := range []equation.RepLaw{equation.Brzycki, equation.Lander} {
		if s := law.Share(40); !math.IsNaN(s) {
			t.Errorf("%v: forty repetitions have share %v", law, s)
		}
	}
	for law, floor := range map[equation.RepLaw]float64{equation.Mayhew: 0.522, equation.Wathen: 0.488} {
		if r := law.Reps(floor); !math.IsInf(r, 1) {
			t.Errorf("%v: %v repetitions at its floor", law, r)
		}
	}
}

// Only Brzycki and Lombardi return the load itself at one repetition without
// being told to: just above one, the others jump.
func TestWhichLawsMeetOneAtOne(t *testing.T) {
	for _, law := range equation.RepLaws() {
		meets := math.Abs(law.OneRM(100, 1+1e-9)-100) < 1e-3
		want := law == equation.Brzycki || law == equation.Lombardi
		if meets != want && law.Share(1+1e-9) < 1 {
			t.Errorf("%v: meets its load at one repetition: %v", law, meets)
		}
	}
}

// How far the laws part, as the largest over the smallest maximum from the same
// set: 6 to 8.4 % at 2 to 10 repetitions, 25 % at 15, where most are past their
// range.
func TestRepLawsAgainstEachOther(t *testing.T) {
	spread := func(reps float64) float64 {
		low, high := math.Inf(1), math.Inf(-1)
		for _, law := range equation.RepLaws() {
			m := law.OneRM(100, reps)
			low, high = min(low, m), max(high, m)
		}
		return high/low - 1
	}
	for reps := 2.0; reps <= 15; reps++ {
		s := spread(reps)
		t.Logf("%2.0f repetitions: laws part by %.1f %%", reps, 100*s)
		if reps <= 10 && s > 0.084 || s > 0.25 {
			t.Errorf("%v repetitions: laws part by %.3f", reps, s)
		}
	}
}

// The association's chart lies among the laws up to 10 repetitions, give or
// take 2 % of the maximum.
func TestChartAgainstLaws(t *testing.T) {
	for reps := 2.0; reps <= 10; reps++ {
		low, high := math.Inf(1), math.Inf(-1)
		for _, law := range equation.RepLaws() {
			low, high = min(low, law.Share(reps)), max(high, law.Share(reps))
		}
		if s := equation.NSCAShare(reps); s < low-0.02 || s > high+0.02 {
			t.Errorf("%v repetitions: chart %v, laws %.3f to %.3f", reps, s, low, high)
		}
		near(t, "chart inverse", equation.NSCAReps(equation.NSCAShare(reps)), reps, 1e-9)
	}
	for _, share := range []float64{0.5, 1.2, math.NaN()} {
		if r := equation.NSCAReps(share); !math.IsNaN(r) {
			t.Errorf("chart at %v: %v repetitions", share, r)
		}
	}
	if s := equation.NSCAShare(11); !math.IsNaN(s) {
		t.Errorf("chart at 11: %v", s)
	}
}

// Two published pictures of the same thing: the women of Wolfe did 1.25 to 2.05
// times as many repetitions as the chart allows at 75 to 95 %.
func TestWolfeAgainstChart(t *testing.T) {
	for _, lift := range []equation.WolfeLift{equation.WolfeSquat, equation.WolfeBench, equation.WolfeDeadlift} {
		for _, share := range []float64{0.75, 0.85, 0.95} {
			r := equation.WolfeReps(lift, share) / equation.NSCAReps(share)
			t.Logf("lift %d at %.2f: %.2f times the chart", lift, share, r)
			if r < 1.2 || r > 2.1 {
				t.Errorf("lift %d at %.2f: %.2f times the chart", lift, share, r)
			}
		}
	}
	if r := equation.WolfeReps(equation.WolfeBench, 0.5); !math.IsNaN(r) {
		t.Errorf("bench at half: %v", r)
	}
}

func TestReserveIsHeldToTheScale(t *testing.T) {
	near(t, "above the scale", equation.RepsInReserve(12), 0, 0)
	near(t, "below the scale", equation.RepsInReserve(-3), 9, 0)
	near(t, "two left", equation.ReserveRPE(2), 8, 0)
	near(t, "many left", equation.ReserveRPE(30), 1, 0)
}
