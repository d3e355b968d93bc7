package sim_test

import (
	"testing"

	"roomful"
)

// The tables are worked out by hand: squat-two 2 s, hop 1 s, crawl 3 s.

// TestStations: two rounds of two stations of 20 s, 5 s to change, none after
// the last of a round but a rest of 30 s. People change in that time.
func TestStations(t *testing.T) {
	q := ask(roomful.Stations{Rounds: 2, Work: secs(20), Change: secs(5), Rest: secs(30)}, of(open("hop"), open("squat-two")))
	splits(t, q, `
		 0  20 hop       20
		25  45 squat-two 10
		75  95 hop       20
		100 120 squat-two 10`, 60)
	a := forecast(t, q)
	if len(a.Rounds) != 2 || a.Rounds[1].Seconds != 45 {
		t.Errorf("rounds %+v, want two of 45 s", a.Rounds)
	}
	if want := q.Piece.Format.Length(2).Seconds(); a.Seconds.P50 != want {
		t.Errorf("over after %v s, the format lasts %v s", a.Seconds.P50, want)
	}
}

// TestStationsResting: time between stations called rest follows the last one
// of a round too: 2·(20 + 10) = 60 s a round.
func TestStationsResting(t *testing.T) {
	q := ask(roomful.Stations{Rounds: 2, Work: secs(20), Change: secs(10), Resting: true}, of(open("hop"), open("squat-two")))
	splits(t, q, `
		 0  20 hop       20
		30  50 squat-two 10
		60  80 hop       20
		90 110 squat-two 10`, 60)
}

// TestStationsAtOnce: with no time to change, the walk of 2.5 s is lost from
// the work: 17.5 s are 8 squats.
func TestStationsAtOnce(t *testing.T) {
	q := ask(roomful.Stations{Rounds: 1, Work: secs(20)}, of(open("hop"), open("squat-two")))
	splits(t, q, `
		 0.0 20 hop       20
		22.5 40 squat-two  8`, 28)
}

// TestRestStation: a station may be a rest, and one may hold two elements.
func TestRestStation(t *testing.T) {
	q := ask(roomful.Stations{Rounds: 2, Work: secs(30)},
		of(slot(1, reps("hop", 10)), slot(1, open("squat-two")), slot(2, roomful.Task{Movement: "rest", Unit: roomful.Second})))
	splits(t, q, `
		 0.0  10 hop       10
		12.5  30 squat-two  8
		30.0  60 rest       0
		60.0  70 hop       10
		72.5  90 squat-two  8
		90.0 120 rest       0`, 16)
}

// TestLowestRound: a score by the lowest round is at most the mean of the
// rounds, in every run, and the rounds do differ.
func TestLowestRound(t *testing.T) {
	f, w := roomful.Stations{Rounds: 4, Work: secs(40), Change: secs(10)}, of(open("push-up"), open("air-squat"), open("pull-up"))
	total, low := forecast(t, ask(f, w)), forecast(t, by("lowest", ask(f, w)))
	below := 0
	for i := range total.Scores {
		if low.Scores[i] > total.Scores[i]/4+1e-9 {
			t.Fatalf("run %d: lowest %v of %v in all", i, low.Scores[i], total.Scores[i])
		}
		if low.Scores[i] < total.Scores[i]/4-1 {
			below++
		}
	}
	if below < len(total.Scores)/4 {
		t.Errorf("the lowest round is clearly below the mean in only %d of %d runs", below, len(total.Scores))
	}
}

// TestRestRaisesStations: more time between stations, more repetitions.
func TestRestRaisesStations(t *testing.T) {
	last := 0.0
	for _, rest := range []float64{0, 15, 40, 90} {
		total := average(forecast(t, ask(roomful.Stations{Rounds: 3, Work: secs(40), Change: secs(rest)}, of(open("push-up"), open("air-squat")))).Scores)
		if total < last {
			t.Errorf("%.1f with %v s between stations, %.1f with less", total, rest, last)
		}
		last = total
	}
}
