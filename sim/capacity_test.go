package sim_test

import (
	"math"
	"slices"
	"testing"

	"roomful"
	"roomful/catalogue"
	"roomful/equation"
	"roomful/sim"
)

// TestUnbroken: N = 1 + 38·(85/43 - 1) thrusters; one's own maximum of a body
// weight movement; seconds of a hold; no end of a machine.
func TestUnbroken(t *testing.T) {
	m := sim.New(lexicon)
	vest := reps("pull-up", 5)
	vest.Load, vest.Implements = roomful.Kg(8), 1
	for _, c := range []struct {
		task roomful.Task
		want float64
	}{
		{loaded("thruster", 10, 43), 1 + 38*(85.0/43-1)},
		{loaded("thruster", 10, 85), 1},
		{loaded("thruster", 10, 120), 0},
		{reps("pull-up", 5), 15},
		// 8 kg on 80: the maximum is 1 + 14/28 = 1.5 body masses, N = 1 + 28·(1.5/1.1 - 1).
		{vest, 1 + 28*(1.5/1.1-1)},
		{seconds("plank", 30), 120},
		{metres("row", 500), math.Inf(1)},
		{reps("hop", 5), 1000},
	} {
		if got := m.Unbroken(usual(), c.task); math.Abs(got-c.want) > 1e-9 && got != c.want {
			t.Errorf("%s at %v: %v unbroken, want %v", c.task.Movement, c.task.Load, got, c.want)
		}
	}
}

// TestLoadFor is the inverse of Unbroken.
func TestLoadFor(t *testing.T) {
	m := sim.New(lexicon)
	for _, n := range []float64{1, 3, 5, 12, 40} {
		kg := m.LoadFor(usual(), loaded("front-squat", 0, 0), n)
		if got := m.Unbroken(usual(), loaded("front-squat", 0, kg)); math.Abs(got-n) > 1e-9 {
			t.Errorf("%v kg for %v repetitions allow %v", kg, n, got)
		}
	}
	if kg := m.LoadFor(usual(), loaded("front-squat", 0, 0), 1); math.Abs(kg-110) > 1e-9 {
		t.Errorf("%v kg for one, the maximum is 110", kg)
	}
	if kg := m.LoadFor(usual(), reps("pull-up", 0), 5); kg != 0 {
		t.Errorf("a load of %v kg for a movement without a lift", kg)
	}
}

// TestRepetitionsToFailure: with the catalogue's own curves, repetitions at 75,
// 85 and 95 % of the maximum lie between the chart of the NSCA and the means of
// Wolfe 2024 (equation.NSCAReps, equation.WolfeReps), or within half a
// repetition of the nearer.
func TestRepetitionsToFailure(t *testing.T) {
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		movement roomful.MovementID
		lift     roomful.Lift
		curve    equation.WolfeLift
	}{
		{"back-squat", roomful.BackSquat, equation.WolfeSquat},
		{"front-squat", roomful.FrontSquat, equation.WolfeSquat},
		{"bench-press", roomful.BenchPress, equation.WolfeBench},
		{"press", roomful.Press, equation.WolfeBench},
		{"deadlift", roomful.Deadlift, equation.WolfeDeadlift},
	} {
		if lex.Movement(c.movement) == nil {
			t.Errorf("no %s in the catalogue", c.movement)
			continue
		}
		a := &roomful.Abilities{MassKg: 80, Dims: []roomful.Dim{{Capacity: roomful.OneRM(c.lift), Centre: math.Log(100)}}}
		for _, share := range []float64{0.75, 0.85, 0.95} {
			got := sim.New(lex).Unbroken(a, loaded(c.movement, 0, 100*share))
			one, other := equation.NSCAReps(share), equation.WolfeReps(c.curve, share)
			if low, high := min(one, other)-0.5, max(one, other)+0.5; got < low || got > high {
				t.Errorf("%s at %v: %.2f repetitions, published %.1f to %.1f", c.movement, share, got, low+0.5, high-0.5)
			}
		}
	}
}

// TestDirection: with common random numbers, more of an ability is never worse
// on the whole, and each makes a difference where it matters.
func TestDirection(t *testing.T) {
	couplet := of(loaded("thruster", 15, 43), reps("pull-up", 10), metres("row", 400))
	q := ask(roomful.ForTime{Rounds: 4}, couplet)
	base := average(forecast(t, q).Scores)
	for _, c := range []struct {
		capacity roomful.Capacity
		better   float64
	}{
		{roomful.CapVO2max, 54}, {roomful.CapReserve, 1400}, {roomful.CapSpeed, 0.9}, {roomful.CapRecovery, 0.7},
		{roomful.OneRM(roomful.Thruster), 100}, {roomful.OwnMax("pull-up"), 22},
	} {
		if now := average(forecast(t, who(with(c.capacity, c.better), q)).Scores); now >= base {
			t.Errorf("%s %v: %.1f s, %.1f s without", c.capacity, c.better, now, base)
		}
	}
	if now := average(forecast(t, who(with(roomful.OneRM(roomful.FrontSquat), 200), q)).Scores); now != base {
		t.Errorf("a lift that is not in the piece changes %v s to %v s", base, now)
	}
}

// TestRecoveryIsTheModels: somebody whose muscles take twice as long is somebody like
// the others in a model where everybody's do.
func TestRecoveryIsTheModels(t *testing.T) {
	q := ask(roomful.ForTime{Rounds: 4}, of(loaded("thruster", 15, 43), reps("pull-up", 10)))
	slow := sim.Defaults()
	slow.LocalFast, slow.LocalSlow = 2*slow.LocalFast, 2*slow.LocalSlow
	want, err := sim.NewWith(lexicon, slow).Forecast(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	got := forecast(t, who(with(roomful.CapRecovery, 2), q)).Scores
	if !slices.Equal(got, want.Athletes[0].Scores) {
		t.Errorf("%.1f s, %.1f s where everybody is slow", average(got), average(want.Athletes[0].Scores))
	}
}

// TestHeavierIsSlower: in expectation a heavier bar never makes a piece faster.
func TestHeavierIsSlower(t *testing.T) {
	last := 0.0
	for kg := 20.0; kg <= 70; kg += 5 {
		now := average(forecast(t, ask(roomful.ForTime{Rounds: 3}, of(loaded("thruster", 15, kg), reps("push-up", 15)))).Scores)
		if now < last*(1-1e-3) {
			t.Errorf("%v kg: %.1f s, %.1f s with less", kg, now, last)
		}
		last = now
	}
}

// TestMoreIsSlower: more repetitions, metres or rounds take longer in every run.
func TestMoreIsSlower(t *testing.T) {
	var last []float64
	for n := 2; n <= 6; n++ {
		now := forecast(t, ask(roomful.ForTime{Rounds: n}, of(reps("pull-up", 8), metres("run", 200), reps("air-squat", 20)))).Scores
		for i := range last {
			if now[i] <= last[i] {
				t.Fatalf("run %d: %d rounds %v s, one fewer %v s", i, n, now[i], last[i])
			}
		}
		last = now
	}
}

// TestCannot: nobody lifts 90 kg of 85. In a window the person stays at that
// element, to a cap they meet it, and without either the run is left out.
func TestCannot(t *testing.T) {
	w := of(reps("push-up", 10), loaded("thruster", 5, 90))
	window := forecast(t, ask(roomful.RoundsInTime{Window: minutes(8)}, w))
	if window.Cannot != 1 || window.Score.P05 != 10.0/15 || window.Score.P95 != 10.0/15 {
		t.Errorf("in a window: cannot %v, score %+v, want 1 and 10 of 15", window.Cannot, window.Score)
	}
	capped := forecast(t, ask(roomful.ForTime{Rounds: 3, Cap: minutes(8)}, w))
	if capped.Cannot != 1 || capped.Capped != 1 || capped.Score.P50 != 480 || capped.TotalReps.P95 != 10 {
		t.Errorf("to a cap: cannot %v, capped %v after %v s and %v repetitions", capped.Cannot, capped.Capped, capped.Score.P50, capped.TotalReps.P95)
	}
	free := forecast(t, ask(roomful.ForTime{Rounds: 3}, w))
	if free.Cannot != 1 || !math.IsNaN(free.Score.P50) || free.Text != "" {
		t.Errorf("without a cap: cannot %v, score %v %q", free.Cannot, free.Score.P50, free.Text)
	}
	if s := typical(ask(roomful.RoundsInTime{Window: minutes(8)}, w)); !math.IsNaN(s) {
		t.Errorf("typical %v", s)
	}
}

// TestSometimesCannot: near the maximum some runs are left out and the others
// keep their scores.
func TestSometimesCannot(t *testing.T) {
	q := who(person(0.1, nil), ask(roomful.ForTime{Rounds: 1}, of(loaded("thruster", 3, 80))))
	a := forecast(t, q)
	left := 0
	for _, s := range a.Scores {
		if math.IsNaN(s) {
			left++
		}
	}
	if share := float64(left) / float64(len(a.Scores)); share != a.Cannot || share < 0.1 || share > 0.6 {
		t.Errorf("%v of runs left out, cannot %v", share, a.Cannot)
	}
	if !(a.Score.P05 > 0 && a.Score.P05 <= a.Score.P50 && a.Score.P50 <= a.Score.P95) {
		t.Errorf("score %+v", a.Score)
	}
}

// TestLeadCannot: who cannot do the first of two pieces to a clock gets no
// further in it, and does the second.
func TestLeadCannot(t *testing.T) {
	q := ask(roomful.ForTime{Rounds: 1}, of(reps("push-up", 10)))
	lead := ask(roomful.RoundsInTime{Window: minutes(3)}, of(loaded("thruster", 5, 90)))
	q.Lead, q.Entrants[0].Lead = []roomful.Part{lead.Piece}, []roomful.Work{lead.Entrants[0].Work}
	if a := forecast(t, q); a.Cannot != 1 || !(a.Score.P50 > 5 && a.Score.P50 < 60) {
		t.Errorf("cannot %v, score %+v", a.Cannot, a.Score)
	}
	q.Lead[0].Format = roomful.ForTime{Rounds: 1}
	if a := forecast(t, q); !math.IsNaN(a.Score.P50) {
		t.Errorf("behind a lead without an end: %+v", a.Score)
	}
}
