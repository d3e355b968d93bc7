package sim_test

import (
	"math"
	"testing"

	"roomful"
	"roomful/sim"
)

// Each table below is worked out by hand: a repetition of squat-two takes 2 s,
// of hop 1 s, of crawl 3 s, a change of element 2.5 s.

// TestRoundsInTime: a round is 10 s, 2.5 s, 4 s, 2.5 s = 19 s. At 57 s three
// are done and 3 s are left: one squat of 2 s. 3 + 1/9.
func TestRoundsInTime(t *testing.T) {
	q := ask(roomful.RoundsInTime{Window: minutes(1)}, of(reps("squat-two", 5), reps("hop", 4)))
	splits(t, q, `
		 0.0 10.0 squat-two 5
		12.5 16.5 hop       4
		19.0 29.0 squat-two 5
		31.5 35.5 hop       4
		38.0 48.0 squat-two 5
		50.5 54.5 hop       4
		57.0 60.0 squat-two 1`, 3+1.0/9)
}

// TestOnceInRounds: once is outside the rounds and its three crawls are no part
// of the score. 45 s: after 9 + 2.5 s a round of 19 s ends at 28 s, the next
// begins at 30.5 s, and 2 of its 4 hops fit after 43 s.
func TestOnceInRounds(t *testing.T) {
	w := of(reps("squat-two", 5), reps("hop", 4))
	w.Once = []roomful.Task{reps("crawl", 3)}
	splits(t, ask(roomful.RoundsInTime{Window: secs(45)}, w), `
		 0.0  9.0 crawl     3
		11.5 21.5 squat-two 5
		24.0 28.0 hop       4
		30.5 40.5 squat-two 5
		43.0 45.0 hop       2`, 1+7.0/9)
}

// TestLadderInTime: 3-6-9-… and so on in a minute. 2 rounds and 14 of 18.
func TestLadderInTime(t *testing.T) {
	q := ask(roomful.RoundsInTime{Window: minutes(1), Ladder: roomful.Ladder{Steps: []int{3, 6, 9}, Open: true}},
		of(open("hop"), open("squat-two")))
	splits(t, q, `
		 0.0  3.0 hop       3
		 5.5 11.5 squat-two 3
		14.0 20.0 hop       6
		22.5 34.5 squat-two 6
		37.0 46.0 hop       9
		48.5 60.0 squat-two 5`, 2+14.0/18)
}

// TestClosedLadderInTime: a ladder with an end that the window outlasts.
func TestClosedLadderInTime(t *testing.T) {
	q := ask(roomful.RoundsInTime{Window: minutes(1), Ladder: roomful.Ladder{Steps: []int{3, 2, 1}}}, of(open("hop")))
	splits(t, q, `
		0 3 hop 3
		3 5 hop 2
		5 6 hop 1`, 3)
}

// TestRoundsOfMetres: with nothing to count, the part of a round is distance:
// 25 m of a loaded walk at 0.8 s a metre take 20 s; 10 s are left of 50 s, 12.5 m.
func TestRoundsOfMetres(t *testing.T) {
	q := ask(roomful.RoundsInTime{Window: secs(50)}, of(metres("walk-loaded", 25)))
	splits(t, q, `
		 0 20 walk-loaded 25
		20 40 walk-loaded 25
		40 50 walk-loaded 12.5`, 2.5)
}

// TestRestInRounds: a rest element takes its time and nothing is walked to or
// from it. 5 + 5 s a round; the third is cut after 4 of 5.
func TestRestInRounds(t *testing.T) {
	q := ask(roomful.RoundsInTime{Window: secs(24)}, of(reps("hop", 5), seconds("rest", 5)))
	splits(t, q, `
		 0  5 hop  5
		 5 10 rest 0
		10 15 hop  5
		15 20 rest 0
		20 24 hop  4`, 2.8)
}

// TestTimedInRounds: ten seconds of crawling at 3 s are three crawls; they
// take ten seconds and are no repetitions. A round is 10 + 2.5 + 4 + 2.5 s.
func TestTimedInRounds(t *testing.T) {
	q := ask(roomful.RoundsInTime{Window: secs(40)}, of(seconds("crawl", 10), reps("hop", 4)))
	splits(t, q, `
		 0.0 10.0 crawl 3
		12.5 16.5 hop   4
		19.0 29.0 crawl 3
		31.5 35.5 hop   4
		38.0 40.0 crawl 0`, 2)
}

// TestAmountInTime: whole repetitions only; what is left of the window is lost.
func TestAmountInTime(t *testing.T) {
	splits(t, ask(roomful.AmountInTime{Window: secs(31)}, of(open("squat-two"))), `0 31 squat-two 15`, 15)
}

// TestHoldInTime: a hold is counted in seconds and cut anywhere.
func TestHoldInTime(t *testing.T) {
	splits(t, ask(roomful.AmountInTime{Window: secs(30.5)}, of(seconds("hang", 0))), `0 30.5 hang 30.5`, 30.5)
}

// TestUnbrokenAmount: N = 4 dips, so that body mass is 1/(1 + 3/28) = 28/31 of
// the heaviest dip, and a fresh one takes 2·(1 + 1.2·(28/31 - 0.5)) = 2.967742 s.
// Each adds a quarter to the fatigue L and takes 1 + 0.4·L² times that: 1, 1.025,
// 1.1, 1.225, in all 4.35 times 2.967742 s = 12.909677 s. At L = 1 the set ends,
// and with it the piece.
func TestUnbrokenAmount(t *testing.T) {
	q := who(with(roomful.OwnMax("dip"), 4), ask(roomful.AmountInTime{Window: minutes(1), Unbroken: true}, of(open("dip"))))
	splits(t, q, `0 12.909677 dip 4`, 4)
}

// TestUnbrokenIsNoMore: people do at least as much in two minutes when they may
// break, since the unbroken set leaves most of the window.
func TestUnbrokenIsNoMore(t *testing.T) {
	for _, m := range []roomful.MovementID{"push-up", "pull-up", "dip"} {
		once := forecast(t, ask(roomful.AmountInTime{Window: minutes(2), Unbroken: true}, of(open(m))))
		more := forecast(t, ask(roomful.AmountInTime{Window: minutes(2)}, of(open(m))))
		for i := range once.Scores {
			if once.Scores[i] > more.Scores[i] {
				t.Errorf("%s, run %d: %v unbroken, %v in all", m, i, once.Scores[i], more.Scores[i])
				break
			}
		}
		if once.Score.P50 >= more.Score.P50 {
			t.Errorf("%s: median %v unbroken, %v in all", m, once.Score.P50, more.Score.P50)
		}
	}
}

// TestLongerWindow: more time never lowers anybody's score, run by run.
func TestLongerWindow(t *testing.T) {
	last := make([]float64, 256)
	for _, w := range []float64{4, 6, 9, 14, 20} {
		a := forecast(t, ask(roomful.RoundsInTime{Window: minutes(w)}, of(reps("pull-up", 5), reps("push-up", 10), reps("air-squat", 15))))
		worse := 0
		for i, s := range a.Scores {
			if s < last[i] {
				worse++
			}
		}
		if worse > 0 {
			t.Errorf("%v min: %d of %d runs did less than in the shorter window", w, worse, len(last))
		}
		last = a.Scores
	}
}

// TestOnceShrinksRounds: once leaves what would be done in a window shorter by
// its time, and tires nobody when it costs nothing.
func TestOnceShrinksRounds(t *testing.T) {
	w := of(reps("squat-two", 5), reps("hop", 4))
	plain := typical(ask(roomful.RoundsInTime{Window: minutes(10)}, w))
	w.Once = []roomful.Task{reps("crawl", 19)} // 57 s and 2.5 s to the round
	if got, want := typical(ask(roomful.RoundsInTime{Window: minutes(10) + secs(59.5)}, w)), plain; got != want {
		t.Errorf("with once %v, want the %v of the window without it", got, want)
	}
	if got := typical(ask(roomful.RoundsInTime{Window: minutes(10)}, w)); got >= plain {
		t.Errorf("with once %v in the same window, without %v", got, plain)
	}
}

// TestLadderSums: in every run the repetitions of each completed round of a
// ladder are exactly its own, twice its step here, and those of the next round
// are its part of the score.
func TestLadderSums(t *testing.T) {
	l := roomful.Ladder{Steps: []int{3, 6, 9}, Open: true}
	q := who(person(0.15, nil), ask(roomful.RoundsInTime{Window: minutes(7), Ladder: l}, of(loaded("thruster", 0, 43), open("pull-up"))))
	for n := range 50 {
		events, score, err := sim.New(lexicon).Run(q, n)
		if err != nil {
			t.Fatal(err)
		}
		done := make([]float64, int(score)+1)
		for _, e := range events {
			done[e.Round] += e.Done
		}
		for r, got := range done {
			count, _ := l.Step(r)
			want := 2 * float64(count) * min(1, score-float64(r))
			if math.Abs(got-want) > 1e-6 {
				t.Fatalf("run %d, score %v: %v repetitions in round %d, want %v", n, score, got, r+1, want)
			}
		}
	}
}
