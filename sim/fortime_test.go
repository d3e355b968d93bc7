package sim_test

import (
	"math"
	"testing"

	"roomful"
	"roomful/sim"
)

// The tables are worked out by hand: squat-two 2 s, hop 1 s, crawl 3 s, a
// change of element 2.5 s.

// TestForTime: two rounds of 3 squats and 4 hops: 6 + 2.5 + 4 + 2.5 + 6 + 2.5 + 4 s.
func TestForTime(t *testing.T) {
	q := ask(roomful.ForTime{Rounds: 2}, of(reps("squat-two", 3), reps("hop", 4)))
	splits(t, q, `
		 0.0  6.0 squat-two 3
		 8.5 12.5 hop       4
		15.0 21.0 squat-two 3
		23.5 27.5 hop       4`, 27.5)
}

// TestChipper: one round of several elements, with a hold and a carry:
// 10 s of squats, 12 s of hanging, 20 m at 0.8 s a metre.
func TestChipper(t *testing.T) {
	q := ask(roomful.ForTime{Rounds: 1}, of(reps("squat-two", 5), seconds("hang", 12), metres("walk-loaded", 20)))
	splits(t, q, `
		 0.0 10.0 squat-two    5
		12.5 24.5 hang        12
		27.0 43.0 walk-loaded 20`, 43)
}

// TestStride: 8 m of lunges at 0.8 m a stride are ten lunges of 2 s.
func TestStride(t *testing.T) {
	splits(t, ask(roomful.ForTime{Rounds: 1}, of(metres("lunge", 8))), `0 20 lunge 8`, 20)
}

// TestLadderForTime: 4-2-1 of hops and squats, both by the ladder; three crawls
// have their own amount.
func TestLadderForTime(t *testing.T) {
	q := ask(roomful.ForTime{Rounds: 3, Ladder: roomful.Ladder{Steps: []int{4, 2, 1}}}, of(open("hop"), open("squat-two"), reps("crawl", 3)))
	splits(t, q, `
		 0.0  4.0 hop       4
		 6.5 14.5 squat-two 4
		17.0 26.0 crawl     3
		28.5 30.5 hop       2
		33.0 37.0 squat-two 2
		39.5 48.5 crawl     3
		51.0 52.0 hop       1
		54.5 56.5 squat-two 1
		59.0 68.0 crawl     3`, 68)
}

// TestLadderAmounts: the repetitions of a ladder add up exactly, in every run:
// 2 x (21 + 15 + 9) = 90 and 10 + 9 + … + 1 = 55.
func TestLadderAmounts(t *testing.T) {
	for _, c := range []struct {
		steps []int
		want  float64
	}{
		{[]int{21, 15, 9}, 90},
		{[]int{10, 9, 8, 7, 6, 5, 4, 3, 2, 1}, 110},
	} {
		q := ask(roomful.ForTime{Rounds: len(c.steps), Ladder: roomful.Ladder{Steps: c.steps}}, of(loaded("thruster", 0, 43), open("pull-up")))
		a := forecast(t, who(person(0.1, nil), q))
		if a.TotalReps.P05 != c.want || a.TotalReps.P95 != c.want {
			t.Errorf("%v: %+v repetitions, want %v", c.steps, a.TotalReps, c.want)
		}
		if len(a.Rounds) != len(c.steps) {
			t.Errorf("%v: %d rounds", c.steps, len(a.Rounds))
		}
	}
}

// TestCap: the run of TestForTime cut at 25 s, one hop into the last four.
func TestCap(t *testing.T) {
	q := ask(roomful.ForTime{Rounds: 2, Cap: secs(25)}, of(reps("squat-two", 3), reps("hop", 4)))
	splits(t, q, `
		 0.0  6.0 squat-two 3
		 8.5 12.5 hop       4
		15.0 21.0 squat-two 3
		23.5 25.0 hop       1`, 25)
	a := steady(t, q)
	if a.Capped != 1 || a.Seconds.P50 != 25 {
		t.Errorf("capped %v after %v s, want 1 after 25 s", a.Capped, a.Seconds.P50)
	}
	if want := "0:25 cap, 11 done"; a.Text != want {
		t.Errorf("text %q, want %q", a.Text, want)
	}
}

// TestCapCutsTheSameRun: a cap truncates one and the same run. Until it, every
// run goes as it would without; the score is the smaller of time and cap.
func TestCapCutsTheSameRun(t *testing.T) {
	m := sim.New(lexicon)
	pieces := map[string]roomful.Work{
		"couplet": of(loaded("thruster", 21, 43), reps("pull-up", 21)),
		"engines": of(metres("row", 500), reps("push-up", 20), metres("run", 400)),
	}
	for name, w := range pieces {
		free := who(person(0.15, nil), ask(roomful.ForTime{Rounds: 3}, w))
		limit := typical(free)
		capped := who(person(0.15, nil), ask(roomful.ForTime{Rounds: 3, Cap: secs(limit)}, w))
		limit = math.Floor(limit*1e9) / 1e9
		cut := 0
		for n := range 60 {
			all, time, err := m.Run(free, n)
			if err != nil {
				t.Fatal(err)
			}
			part, score, err := m.Run(capped, n)
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(score-min(time, limit)) > 1e-6 {
				t.Fatalf("%s, run %d: %v s capped, %v s without", name, n, score, time)
			}
			if time > limit {
				cut++
			}
			for i, e := range part {
				if e.End < limit-1e-6 && e != all[i] {
					t.Fatalf("%s, run %d: %+v with the cap, %+v without", name, n, e, all[i])
				}
			}
		}
		if cut < 10 || cut > 50 {
			t.Errorf("%s: %d of 60 runs were cut, the test wants some of each", name, cut)
		}
	}
}

// TestRestBetweenRounds: ten seconds of rest, in which people walk back to the
// first element; it counts in the time and not in a round.
func TestRestBetweenRounds(t *testing.T) {
	q := ask(roomful.ForTime{Rounds: 3, Rest: secs(10)}, of(reps("squat-two", 3), reps("hop", 4)))
	splits(t, q, `
		 0.0  6.0 squat-two 3
		 8.5 12.5 hop       4
		22.5 28.5 squat-two 3
		31.0 35.0 hop       4
		45.0 51.0 squat-two 3
		53.5 57.5 hop       4`, 57.5)
	for _, r := range steady(t, q).Rounds {
		if math.Abs(r.Seconds-12.5) > 1e-9 {
			t.Errorf("round %d: %v s, 12.5 s of work", r.N, r.Seconds)
		}
	}
}

// TestRestMakesRoundsFaster: rest between rounds adds its time, and people come
// back fresher: the piece is longer, by less than the rest.
func TestRestMakesRoundsFaster(t *testing.T) {
	w := of(reps("pull-up", 12), loaded("thruster", 15, 43))
	straight := forecast(t, ask(roomful.ForTime{Rounds: 4}, w))
	rested := forecast(t, ask(roomful.ForTime{Rounds: 4, Rest: minutes(2)}, w))
	if d := rested.Score.P50 - straight.Score.P50; d <= 0 || d >= 3*120 {
		t.Errorf("three rests of 120 s change %v s by %v s", straight.Score.P50, d)
	}
	for i := 1; i < 4; i++ {
		if rested.Rounds[i].Seconds >= straight.Rounds[i].Seconds {
			t.Errorf("round %d: %v s rested, %v s straight", i+1, rested.Rounds[i].Seconds, straight.Rounds[i].Seconds)
		}
	}
}

// TestOnceAndLast: both add their time and a change of element, and neither is
// a round.
func TestOnceAndLast(t *testing.T) {
	w := of(reps("squat-two", 3), reps("hop", 4))
	w.Once, w.Last = []roomful.Task{reps("crawl", 2)}, []roomful.Task{reps("crawl", 1), reps("hop", 5)}
	q := ask(roomful.ForTime{Rounds: 2}, w)
	splits(t, q, `
		 0.0  6.0 crawl     2
		 8.5 14.5 squat-two 3
		17.0 21.0 hop       4
		23.5 29.5 squat-two 3
		32.0 36.0 hop       4
		38.5 41.5 crawl     1
		44.0 49.0 hop       5`, 49)
	a := steady(t, q)
	if len(a.Rounds) != 2 {
		t.Errorf("%d rounds, want 2", len(a.Rounds))
	}
	if a.TotalReps.P50 != 2+14+6 {
		t.Errorf("%v repetitions in all, want 22", a.TotalReps.P50)
	}
}

// TestTwoPartScore: a second piece starts on the clock where the first one's
// window closed, with the fatigue it left, and has its own score.
func TestTwoPartScore(t *testing.T) {
	q := ask(roomful.ForTime{Rounds: 1}, of(reps("squat-two", 3), reps("hop", 4)))
	lead := ask(roomful.RoundsInTime{Window: secs(30)}, of(reps("hop", 4), reps("crawl", 2)))
	q.Lead, q.Entrants[0].Lead = []roomful.Part{lead.Piece}, []roomful.Work{lead.Entrants[0].Work}
	// The lead: rounds of 4 + 2.5 + 6 + 2.5 s, so that the second ends at 27.5 s and
	// a walk takes it to 30 s. Then 2.5 s to the squats.
	splits(t, q, `
		 0.0  4.0 hop       4
		 6.5 12.5 crawl     2
		15.0 19.0 hop       4
		21.5 27.5 crawl     2
		30.0 30.0 hop       0
		32.5 38.5 squat-two 3
		41.0 45.0 hop       4`, 15)
}

// TestLeadTires: what comes first makes what follows slower.
func TestLeadTires(t *testing.T) {
	q := ask(roomful.ForTime{Rounds: 3}, of(reps("pull-up", 12), reps("push-up", 15)))
	alone := forecast(t, q)
	lead := ask(roomful.RoundsInTime{Window: minutes(6)}, of(reps("pull-up", 8), loaded("thruster", 10, 43)))
	q.Lead, q.Entrants[0].Lead = []roomful.Part{lead.Piece}, []roomful.Work{lead.Entrants[0].Work}
	if after := forecast(t, q); after.Score.P50 <= alone.Score.P50 {
		t.Errorf("%v s after a hard lead, %v s alone", after.Score.P50, alone.Score.P50)
	}
}

// TestSlowestRound: a score by the slowest round is that round's time, at least
// the mean and less than the whole.
func TestSlowestRound(t *testing.T) {
	f := roomful.ForTime{Rounds: 5, Rest: minutes(1)}
	w := of(reps("pull-up", 10), reps("push-up", 15))
	whole, slow := forecast(t, ask(f, w)), forecast(t, by("slowest", ask(f, w)))
	for i, s := range slow.Scores {
		mean := (whole.Scores[i] - 4*60) / 5
		if s < mean-1e-6 || s > whole.Scores[i] {
			t.Fatalf("run %d: slowest %v s, mean %v s", i, s, mean)
		}
	}
}

// TestTransitionBetweenRounds: one element over and over needs no walk.
func TestTransitionBetweenRounds(t *testing.T) {
	splits(t, ask(roomful.ForTime{Rounds: 2}, of(reps("hop", 4))), `
		0 4 hop 4
		4 8 hop 4`, 8)
}
