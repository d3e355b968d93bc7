package sim_test

import (
	"context"
	"slices"
	"testing"

	"roomful"
	"roomful/sim"
)

// A repetition of press-two takes 2 s whatever the load, and tires nobody.

// TestSets: three sets of five, a minute between them.
func TestSets(t *testing.T) {
	q := ask(roomful.Sets{Count: 3, Rest: minutes(1)}, of(loaded("press-two", 5, 50)))
	splits(t, q, `
		  0  10 press-two 5
		 70  80 press-two 5
		140 150 press-two 5`, 50)
	if a := steady(t, q); a.Text != "50 kg" {
		t.Errorf("text %q", a.Text)
	}
}

// TestSetsOnAClock: sets every two minutes.
func TestSetsOnAClock(t *testing.T) {
	splits(t, ask(roomful.Sets{Count: 3, Every: minutes(2)}, of(loaded("press-two", 5, 50))), `
		  0  10 press-two 5
		120 130 press-two 5
		240 250 press-two 5`, 50)
}

// TestScheme: sets of 5-5-3, with the usual rest of two and a half minutes.
func TestScheme(t *testing.T) {
	splits(t, ask(roomful.Sets{Count: 3, Reps: []int{5, 5, 3}}, of(loaded("press-two", 0, 50))), `
		  0  10 press-two 5
		160 170 press-two 5
		320 326 press-two 3`, 50)
}

// TestDropSet: several elements are one set; between them 2.5 s to change
// plates. The score is the heaviest.
func TestDropSet(t *testing.T) {
	splits(t, ask(roomful.Sets{Count: 2, Rest: minutes(1)}, of(loaded("press-two", 4, 60), loaded("press-two", 6, 50), loaded("press-two", 8, 40))), `
		  0   8   press-two 4
		 10.5 22.5 press-two 6
		 25  41   press-two 8
		101 109   press-two 4
		111.5 123.5 press-two 6
		126 142   press-two 8`, 60)
}

// TestTempo: 31X1 is 3 + 1 + 1 + 1 = 6 s a repetition.
func TestTempo(t *testing.T) {
	slow := loaded("press-two", 3, 50)
	slow.Tempo = &roomful.Tempo{Lower: 3, Bottom: 1, Lift: 0, Top: 1}
	slow.Tempo.Lift = 1
	splits(t, ask(roomful.Sets{Count: 2, Rest: minutes(1)}, of(slow)), `
		 0 18 press-two 3
		78 96 press-two 3`, 50)
}

// TestFailedSet: a load that is done only in part does not count. 110 kg at
// most: at 100 kg N = 1 + 38·(110/100 - 1) = 4.8, four of five, at 90 kg 9.4.
func TestFailedSet(t *testing.T) {
	q := ask(roomful.Sets{Count: 1}, of(loaded("front-squat", 5, 90), loaded("front-squat", 5, 100)))
	events, score, err := sim.NewWith(lexicon, handConstants()).Trace(q, false)
	if err != nil {
		t.Fatal(err)
	}
	if score != 90 || events[0].Done != 5 || events[1].Done >= 5 || events[1].Done < 1 {
		t.Errorf("score %v with sets of %v and %v, want 90 with all and part", score, events[0].Done, events[1].Done)
	}
}

// bars are the loads of the tests that build.
func bars(from, to, step float64) (out []roomful.Mass) {
	for kg := from; kg <= to; kg += step {
		out = append(out, roomful.Kg(kg))
	}
	return out
}

// heavy is building to a heavy set.
func heavy(reps float64, a *roomful.Abilities, m roomful.MovementID) roomful.ForecastRequest {
	task := loaded(m, reps, 0)
	task.Exists = bars(20, 200, 2.5)
	return who(a, ask(roomful.Sets{Build: true, Rest: minutes(2)}, of(task)))
}

// TestBuild: a heavy three with 110 kg at most and bars of tens. N = 1 +
// 38·(110/w - 1) is at least 3 up to 110/(1 + 2/38) = 104.5 kg, so 100 is likely.
// From three fifths of that, each next load is at least half way: 60, 80, 90,
// 100. A repetition takes 2·(1 + 1.2·(w/110 - 0.5)) s; two minutes between sets.
func TestBuild(t *testing.T) {
	task := loaded("heave", 3, 0)
	task.Exists = bars(40, 110, 10)
	splits(t, ask(roomful.Sets{Build: true, Rest: minutes(2)}, of(task)), `
		  0.000000   6.327273 heave 3
		126.327273 133.963636 heave 3
		253.963636 262.254545 heave 3
		382.254545 391.200000 heave 3`, 100)
}

// TestBuildRisesWithStrength: a heavy three rises with the maximum, run by run,
// and never exceeds it.
func TestBuildRisesWithStrength(t *testing.T) {
	c := roomful.OneRM(roomful.FrontSquat)
	var last []float64
	for _, kg := range []float64{60, 75, 90, 110, 140} {
		now := forecast(t, heavy(3, with(c, kg), "front-squat")).Scores
		if most := slices.Max(now); most > kg || slices.Min(now) < 0.6*kg {
			t.Errorf("maximum %v kg: heavy threes from %v to %v kg", kg, slices.Min(now), most)
		}
		for i := range last {
			if now[i] < last[i] {
				t.Fatalf("maximum %v kg, run %d: %v kg, %v with less strength", kg, i, now[i], last[i])
			}
		}
		last = now
	}
}

// TestBuildFallsWithReps: a heavy one is at least a heavy three, that a heavy
// five, run by run; in the middle they differ.
func TestBuildFallsWithReps(t *testing.T) {
	a := person(0.1, nil)
	one, three, five := forecast(t, heavy(1, a, "front-squat")), forecast(t, heavy(3, a, "front-squat")), forecast(t, heavy(5, a, "front-squat"))
	for i := range one.Scores {
		if one.Scores[i] < three.Scores[i] || three.Scores[i] < five.Scores[i] {
			t.Fatalf("run %d: one %v kg, three %v kg, five %v kg", i, one.Scores[i], three.Scores[i], five.Scores[i])
		}
	}
	if one.Score.P50 <= three.Score.P50 || three.Score.P50 <= five.Score.P50 {
		t.Errorf("medians %v, %v, %v kg", one.Score.P50, three.Score.P50, five.Score.P50)
	}
}

// TestBuildUsesWhatExists: every score is one of the loads that exist, per
// dumbbell of a pair.
func TestBuildUsesWhatExists(t *testing.T) {
	task := roomful.Task{Movement: "front-squat", Amount: 3, Unit: roomful.Rep, Implements: 2,
		Exists: []roomful.Mass{roomful.Kg(35), roomful.Kg(42.5), roomful.Kg(50), roomful.Kg(57.5)}}
	a := forecast(t, who(person(0.15, nil), ask(roomful.Sets{Build: true}, of(task))))
	for _, s := range a.Scores {
		if !slices.Contains([]float64{0, 35, 42.5, 50, 57.5}, s) {
			t.Fatalf("a score of %v kg per dumbbell", s)
		}
	}
	if a.Score.P05 == a.Score.P95 {
		t.Errorf("everybody builds to %v kg", a.Score.P50)
	}
}

// TestMoreRestMoreReps: strength sets to failure keep more repetitions the
// longer the rest between them.
func TestMoreRestMoreReps(t *testing.T) {
	last := 0.0
	for _, rest := range []float64{30, 60, 120, 300} {
		q := by("reps", ask(roomful.Sets{Count: 3, Rest: secs(rest)}, of(loaded("front-squat", 0, 80))))
		f, err := sim.New(lexicon).Forecast(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		if r := f.Athletes[0].TotalReps.P50; r <= last {
			t.Errorf("%v repetitions with %v s of rest, %v with less", r, rest, last)
		} else {
			last = r
		}
	}
}
