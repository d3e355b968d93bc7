package kernel

import (
	"math"
	"testing"

	"roomful/equation"
)

// round is a set of round constants.
func round() *Constants {
	return &Constants{TauFast: 22, TauSlow: 380, LocalFast: 25, LocalSlow: 200, SlowGrowth: 1,
		OxygenRun: 25, OxygenLift: 35, Sprint: 60, SpendTo: 0.95, RunReserve: 0.8, MachineShare: 0.6, SlowLocal: 0.4, SlowReserve: 0.2}
}

// fresh returns a rested body that takes up supply W/kg and holds a reserve of
// w J/kg.
func fresh(supply, w float64) *Body {
	b := &Body{C: round(), W: w}
	for m := range b.Supply {
		b.Supply[m] = supply
	}
	b.Ready()
	b.Reset()
	return b
}

// within reports whether two numbers agree to a share of the larger.
func within(a, b, share float64) bool {
	return math.Abs(a-b) <= share*max(math.Abs(a), math.Abs(b), 1e-12)
}

func TestExp(t *testing.T) {
	for x := -60.0; x <= 60; x += 0.0137 {
		if got, want := Exp(x), math.Exp(x); !within(got, want, 4e-6) {
			t.Fatalf("e^%v: %v, want %v", x, got, want)
		}
	}
	for _, x := range []float64{-1e4, -760, 760, 1e4, math.Inf(-1), math.Inf(1)} {
		if got, want := Exp(x), math.Exp(x); got != want && !within(got, want, 4e-6) {
			t.Errorf("e^%v: %v, want %v", x, got, want)
		}
	}
}

func TestFade(t *testing.T) {
	for x := 0.0; x < 20; x += 0.0037 {
		if got, want := fade(x), math.Exp(-x); !within(got, want, 5e-5) {
			t.Fatalf("e^-%v: %v, want %v", x, got, want)
		}
	}
	if fade(0) != 1 {
		t.Errorf("e^0: %v", fade(0))
	}
	if got := fade(math.Inf(1)); got != 0 {
		t.Errorf("e^-Inf: %v", got)
	}
}

// TestDecay puts the solution back into the equation it solves.
func TestDecay(t *testing.T) {
	b := fresh(10, 1000)
	for _, fast := range []float64{0, 0.1, 0.5, 0.9} {
		for _, slow := range []float64{0, 0.05, 0.4} {
			for _, target := range []float64{0.05, 0.2, 0.7, 0.95} {
				x := b.decay(fast, slow, target)
				left := fast*math.Exp(-x/25) + slow*math.Exp(-x/200)
				switch {
				case fast+slow <= target:
					if x != 0 {
						t.Errorf("%v and %v are below %v, wait %v s", fast, slow, target, x)
					}
				case math.Abs(left-target) > 3e-5: // fade's own error, and 1e-6
					t.Errorf("%v and %v after %v s are %v, want %v", fast, slow, x, left, target)
				}
			}
		}
	}
}

// TestRecoveryWaits: after the wait that Recovery names the fatigue is at its
// target.
func TestRecoveryWaits(t *testing.T) {
	b := fresh(10, 1000)
	a := Act{Seconds: 2, N: 10, Slow: 1, Parts: []Part{{Group: 1, Weight: 1}, {Group: 2, Weight: 0.3}}}
	a.Ready()
	b.Do(&a, 9, 2, 2)
	if l := b.Local(&a); !within(l, 0.9, 1e-12) {
		t.Fatalf("nine of ten units leave a fatigue of %v", l)
	}
	b.Rest(b.Recovery(&a, 0.4))
	if l := b.Local(&a); math.Abs(l-0.4) > 5e-5 {
		t.Errorf("after the wait %v, want 0.4", l)
	}
	if wait := b.Recovery(&a, 0.5); wait != 0 {
		t.Errorf("already recovered, but wait %v s", wait)
	}
}

// TestBooksClose: while nothing recovers, the reserve spent is what the work
// cost less what oxygen supplied: with a lag τ, ∫A·(1 - e^(-t/τ)) dt =
// A·(t - τ·(1 - e^(-t/τ))), in one step or in many.
func TestBooksClose(t *testing.T) {
	const watts, supply, w, seconds = 25.0, 12.0, 1150.0, 40.0
	want := (watts*seconds - supply*(seconds-35*(1-math.Exp(-seconds/35)))) / w
	for _, steps := range []int{1, 4, 40, 400} {
		b := fresh(supply, w)
		for range steps {
			b.Bout(Lift, watts, seconds/float64(steps))
		}
		if got := b.Spent(); !within(got, want, 2e-4) {
			t.Errorf("%d steps: %v of the reserve spent, want %v", steps, got, want)
		}
		if !within(b.Now(), seconds, 1e-9) || b.PeakD != b.Spent() {
			t.Errorf("%d steps: at %v s, peak %v", steps, b.Now(), b.PeakD)
		}
	}
}

// TestRecovery: at rest the two halves of the reserve come back with 22 and
// 380 s (Chorley et al. 2022), and oxygen falls with its own lag.
func TestRecovery(t *testing.T) {
	for _, seconds := range []float64{5, 30, 120, 600} {
		b := fresh(1e-9, 1000)
		b.Bout(Lift, 80, 10) // 800 of 1000 J/kg
		spent, oxygen := b.Spent(), b.Oxygen()
		b.Rest(seconds)
		want := spent / 2 * (math.Exp(-seconds/22) + math.Exp(-seconds/380))
		if !within(b.Spent(), want, 1e-4) {
			t.Errorf("after %v s %v, want %v", seconds, b.Spent(), want)
		}
		if want := oxygen * math.Exp(-seconds/35); !within(b.Oxygen(), want, 1e-4) {
			t.Errorf("after %v s oxygen %v, want %v", seconds, b.Oxygen(), want)
		}
	}
}

// TestEasyWorkRecovers: work below the supply recovers by the unused share of
// it: at half the supply, half as fast as at rest.
func TestEasyWorkRecovers(t *testing.T) {
	b := fresh(12, 1000)
	b.Bout(Lift, 12, 1000) // until oxygen flows
	b.fast, b.slow = 0.3, 0.3
	b.Bout(Lift, 6, 100)
	if want := 0.3 * (math.Exp(-50.0/22) + math.Exp(-50.0/380)); !within(b.Spent(), want, 1e-3) {
		t.Errorf("%v, want %v", b.Spent(), want)
	}
}

// TestWalkIsWork: a walk before work counts with it, and lets nothing recover.
func TestWalkIsWork(t *testing.T) {
	b := fresh(10, 1000)
	b.Bout(Lift, 60, 10)
	before := b.Spent()
	b.Walk(2.5)
	if b.Spent() != before || b.Now() != 12.5 {
		t.Errorf("a walk leaves %v of %v spent, at %v s", b.Spent(), before, b.Now())
	}
}

// TestCriticalPower: with a constant supply the model is that of H. Monod and J.
// Scherrer 1965, Ergonomics 8:329-338: a power P can be kept for W'/(P - CP).
// CP 250 W and W' 20 kJ: 400, 200 and 133.33 s at 300, 350 and 400 W.
func TestCriticalPower(t *testing.T) {
	const kg = 80
	cp := equation.CriticalPower{Watts: 250, ReserveJoules: 20000}
	for _, watts := range []float64{300, 350, 400} {
		b := fresh(cp.Watts/kg, cp.ReserveJoules/kg)
		b.C.OxygenLift = 1e-3
		b.Ready()
		for b.Spent() < 1 {
			b.Bout(Lift, watts/kg, 0.25)
		}
		if want := cp.Seconds(watts); !within(b.Now(), want, 0.02) {
			t.Errorf("%v W last %v s, want %v s", watts, b.Now(), want)
		}
	}
}

// TestPowerFor: what a body chooses for a bout spends what may be spent by its
// end, if the bout fills the time it plans for.
func TestPowerFor(t *testing.T) {
	for _, tau := range []float64{40, 120, 600} {
		for _, m := range []Mode{Machine, Lift} {
			b := fresh(13, 1150)
			b.Bout(m, b.PowerFor(m, tau, tau), tau)
			if !within(b.Spent(), 0.95, 1e-3) {
				t.Errorf("mode %v, %v s: %v of the reserve spent, want 0.95", m, tau, b.Spent())
			}
		}
	}
	b := fresh(13, 1150)
	if run, row := b.PowerFor(Run, 100, 100), b.PowerFor(Machine, 100, 100); run >= row {
		t.Errorf("running draws %v W/kg, a machine %v", run, row)
	}
	if soon, late := b.PowerFor(Machine, 100, 100), b.PowerFor(Machine, 100, 900); soon <= late {
		t.Errorf("%v W/kg with 100 s left, %v with 900 s", soon, late)
	}
}

// TestUnitSeconds: slower with local fatigue squared and with reserve spent,
// never faster than intended, nor than energy allows; a hold's second is one.
func TestUnitSeconds(t *testing.T) {
	b := fresh(12, 1000)
	a := Act{Seconds: 2, N: 10}
	a.Ready()
	at := func(local float64) float64 { s, _ := b.UnitSeconds(&a, local, 1); return s }
	if at(0) != 2 || !within(at(0.5), 2*1.1, 1e-12) {
		t.Errorf("%v s fresh, %v s at half", at(0), at(0.5))
	}
	b.fast, b.slow = 0.25, 0.25
	if !within(at(0), 2*1.1, 1e-12) {
		t.Errorf("%v s with half the reserve spent", at(0))
	}
	a.Floor = 5
	if s, busy := b.UnitSeconds(&a, 0, 1); s != 5 || !within(busy, 2.2, 1e-12) {
		t.Errorf("%v s paced, %v s of it busy", s, busy)
	}
	a.Floor, a.Joules = 0, 100
	// No oxygen yet; 1000/60·(0.95 - 0.5) = 7.5 W/kg of reserve.
	if !within(at(0), 100/7.5, 1e-9) {
		t.Errorf("%v s for 100 J/kg", at(0))
	}
	if hold := (Act{Seconds: 1, Joules: 100, Floor: 3, Still: true}); true {
		if s, _ := b.UnitSeconds(&hold, 0.9, 1.3); s != 1 {
			t.Errorf("a second of holding takes %v s", s)
		}
	}
}

// TestSlack: in the time that a paced repetition leaves them, muscles recover
// as at rest.
func TestSlack(t *testing.T) {
	a := Act{Seconds: 2, N: 10, Parts: []Part{{Group: 0, Weight: 1}}}
	a.Ready()
	b := fresh(10, 1000)
	b.Do(&a, 5, 4, 2)
	if got, want := b.Local(&a), 0.5*math.Exp(-10.0/25); !within(got, want, 1e-4) {
		t.Errorf("five units with 10 s of slack leave %v, want %v", got, want)
	}
}

// TestStreams: numbers are those of their key, whatever was drawn before
// (SplitMix64: Steele, Lea and Flood 2014; its first two words from 0 are those
// of the reference implementation, from memory).
func TestStreams(t *testing.T) {
	var s Stream
	if a, b := s.Uint64(), s.Uint64(); a != 0xe220a8397b1dcdaf || b != 0x6e789e6aa1b965f4 {
		t.Errorf("the stream starts %#x, %#x", a, b)
	}
	s.Seek(42)
	first := s.Uint64()
	s.Uint64()
	s.Seek(42)
	if s.Uint64() != first {
		t.Error("a key gives other numbers the second time")
	}
	seen := map[uint64]bool{}
	for i := range uint64(100) {
		for j := range uint64(100) {
			seen[Mix(i, j)] = true
		}
	}
	if len(seen) != 100*100 {
		t.Errorf("%d keys out of 10000 pairs", len(seen))
	}
}

// TestHazard rises with local fatigue and with reserve spent; a trip is likelier
// the more tired one is.
func TestHazard(t *testing.T) {
	b := fresh(10, 1000)
	b.C.BreakBase, b.C.BreakLocal, b.C.BreakReserve, b.C.TripFatigue = -7, 7, 1.5, 2
	if got, want := b.Hazard(0.5), math.Exp(-3.5); !within(got, want, 1e-6) {
		t.Errorf("hazard %v, want %v", got, want)
	}
	a := Act{Trip: -3, Trips: true}
	p := 1 / (1 + math.Exp(3-2*0.5))
	if got, want := b.TripRate(&a, 0.5), -math.Log(1-p); !within(got, want, 1e-6) {
		t.Errorf("trip rate %v, want %v", got, want)
	}
	b.fast = 0.4
	if b.Hazard(0.5) <= math.Exp(-3.5) || b.TripRate(&a, 0.5) <= -math.Log(1-p) {
		t.Error("a spent reserve makes no difference")
	}
}
