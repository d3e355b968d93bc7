package sim_test

import (
	"math"
	"testing"

	"roomful"
)

// The tables are worked out by hand: squat-two 2 s, hop 1 s, crawl 3 s, a
// change of element 2.5 s.

// TestIntervals: 20 s of work and 10 s of rest, three times. The rest after the
// last is no part of the piece.
func TestIntervals(t *testing.T) {
	q := ask(roomful.Intervals{Count: 3, Work: secs(20), Rest: secs(10)}, of(open("hop")))
	splits(t, q, `
		 0 20 hop 20
		30 50 hop 20
		60 80 hop 20`, 60)
	if a := forecast(t, q); a.Seconds.P50 != 80 {
		t.Errorf("over after %v s, want 80", a.Seconds.P50)
	}
}

// TestLowestInterval: each bout is 7 crawls of 3 s but the last element of the
// list may differ; the lowest of equal bouts is a third of their sum.
func TestLowestInterval(t *testing.T) {
	q := by("lowest", ask(roomful.Intervals{Count: 3, Work: secs(20), Rest: secs(10)}, of(open("crawl"))))
	splits(t, q, `
		 0 20 crawl 6
		30 50 crawl 6
		60 80 crawl 6`, 6)
}

// TestIntervalsThen: a fixed amount, then as much as the bout allows; the open
// element is the score. 15 s of squats, 2.5 s, 12.5 s of hops.
func TestIntervalsThen(t *testing.T) {
	q := ask(roomful.Intervals{Count: 2, Work: secs(30), Rest: secs(15)}, of(reps("squat-two", 7), open("hop")))
	splits(t, q, `
		 0.0 14.0 squat-two  7
		16.5 30.0 hop       13
		45.0 59.0 squat-two  7
		61.5 75.0 hop       13`, 26)
}

// TestLoopingIntervals: several elements with amounts go round and round, and
// every bout starts at the top. A round is 3 + 2.5 + 4 + 2.5 = 12 s; 20 s hold
// one, then 3 hops and, after 17.5 s, one of two squats: 4 repetitions of 5.
func TestLoopingIntervals(t *testing.T) {
	q := ask(roomful.Intervals{Count: 2, Work: secs(20), Rest: secs(10)}, of(reps("hop", 3), reps("squat-two", 2)))
	splits(t, q, `
		 0.0  3.0 hop       3
		 5.5  9.5 squat-two 2
		12.0 15.0 hop       3
		17.5 20.0 squat-two 1
		30.0 33.0 hop       3
		35.5 39.5 squat-two 2
		42.0 45.0 hop       3
		47.5 50.0 squat-two 1`, 2*(1+4.0/5))
	if a := steady(t, q); len(a.Rounds) != 2 || math.Abs(a.Rounds[1].Seconds-9.5) > 1e-9 {
		t.Errorf("rounds %+v, want two of 9.5 s", a.Rounds)
	}
	if low := typical(by("lowest", q)); math.Abs(low-1.8) > 1e-9 {
		t.Errorf("lowest bout %v rounds, want 1.8", low)
	}
}

// TestAmountIntervals: five hops and three squats, 20 s of rest, three times.
// The score is the sum of the bouts, 13.5 s each, without the rests.
func TestAmountIntervals(t *testing.T) {
	q := ask(roomful.Intervals{Count: 3, Rest: secs(20)}, of(reps("hop", 5), reps("squat-two", 3)))
	table := `
		 0.0  5.0 hop       5
		 7.5 13.5 squat-two 3
		33.5 38.5 hop       5
		41.0 47.0 squat-two 3
		67.0 72.0 hop       5
		74.5 80.5 squat-two 3`
	splits(t, q, table, 3*13.5)
	splits(t, by("sum", q), table, 3*13.5)
	splits(t, by("slowest", q), table, 13.5)
}

// TestRestRaisesIntervals: with more rest people do more in the same bouts, and
// the same amounts faster. (A rest so short that breathing stays up is worth about
// as much as one of a minute when a bout is all oxygen: runs start at 45 s.)
func TestRestRaisesIntervals(t *testing.T) {
	const slack = 0.2 // repetitions, for ties
	for _, w := range []roomful.Work{of(open("push-up")), of(open("pull-up")), of(loaded("thruster", 0, 43))} {
		last := 0.0
		for _, rest := range []float64{10, 30, 60, 120} {
			total := average(forecast(t, ask(roomful.Intervals{Count: 6, Work: secs(30), Rest: secs(rest)}, w)).Scores)
			if total < last-slack {
				t.Errorf("%s: %.1f with %v s of rest, %.1f with less", w.Round[0].Movement, total, rest, last)
			}
			last = total
		}
	}
	for _, w := range []roomful.Work{of(metres("row", 500)), of(metres("run", 400)), of(reps("pull-up", 15), reps("push-up", 20))} {
		last := math.Inf(1)
		for _, rest := range []float64{45, 120, 240, 480} {
			total := average(forecast(t, ask(roomful.Intervals{Count: 5, Rest: secs(rest)}, w)).Scores)
			if total > last {
				t.Errorf("%s: %.1f s with %v s of rest, %.1f with less", w.Round[0].Movement, total, rest, last)
			}
			last = total
		}
	}
}

// TestSlowestBout lies between the mean bout and the sum, in every run.
func TestSlowestBout(t *testing.T) {
	f, w := roomful.Intervals{Count: 4, Rest: minutes(1)}, of(reps("pull-up", 15), reps("push-up", 20))
	sum, slow := forecast(t, ask(f, w)), forecast(t, by("slowest", ask(f, w)))
	for i := range sum.Scores {
		if s := slow.Scores[i]; s < sum.Scores[i]/4-1e-6 || s > sum.Scores[i] {
			t.Fatalf("run %d: slowest %v s of %v s in all", i, s, sum.Scores[i])
		}
	}
}

// TestLowestIsBelowMean: the lowest bout is at most the mean, in every run.
func TestLowestIsBelowMean(t *testing.T) {
	f, w := roomful.Intervals{Count: 8, Work: secs(20), Rest: secs(10)}, of(open("air-squat"))
	sum, low := forecast(t, ask(f, w)), forecast(t, by("lowest", ask(f, w)))
	below := 0
	for i := range sum.Scores {
		if low.Scores[i] > sum.Scores[i]/8+1e-9 {
			t.Fatalf("run %d: lowest %v of %v in all", i, low.Scores[i], sum.Scores[i])
		}
		if low.Scores[i] < sum.Scores[i]/8-0.5 {
			below++
		}
	}
	if below == 0 {
		t.Error("no run in which the bouts differ")
	}
}
