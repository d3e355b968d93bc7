package sim_test

import (
	"testing"

	"roomful"
)

// The tables are worked out by hand: squat-two 2 s, hop 1 s, crawl 3 s, a
// change of element 2.5 s.

// TestEvery: 10 hops and 5 squats take 22.5 s of every 30 s.
func TestEvery(t *testing.T) {
	q := ask(roomful.Every{Interval: secs(30), Count: 3}, of(reps("hop", 10), reps("squat-two", 5)))
	splits(t, q, `
		 0.0 10.0 hop       10
		12.5 22.5 squat-two  5
		30.0 40.0 hop       10
		42.5 52.5 squat-two  5
		60.0 70.0 hop       10
		72.5 82.5 squat-two  5`, 3)
	if a := forecast(t, q); a.Text != "3" {
		t.Errorf("text %q, want 3", a.Text)
	}
}

// TestEveryAlternating: hops on the odd intervals, crawls and squats on the
// even ones.
func TestEveryAlternating(t *testing.T) {
	q := ask(roomful.Every{Interval: secs(30), Count: 5},
		of(slot(1, reps("hop", 10)), slot(2, reps("crawl", 4)), slot(2, reps("squat-two", 3))))
	splits(t, q, `
		  0.0  10.0 hop       10
		 30.0  42.0 crawl      4
		 44.5  50.5 squat-two  3
		 60.0  70.0 hop       10
		 90.0 102.0 crawl      4
		104.5 110.5 squat-two  3
		120.0 130.0 hop       10`, 5)
}

// TestEveryWithRest: an interval of rest alone is held, so that a piece done in
// full scores all of its intervals.
func TestEveryWithRest(t *testing.T) {
	q := ask(roomful.Every{Interval: secs(20), Count: 4}, of(slot(1, reps("hop", 5)), slot(2, roomful.Task{Movement: "rest", Unit: roomful.Second, Slot: 2})))
	splits(t, q, `
		 0  5 hop  5
		20 40 rest 0
		40 45 hop  5
		60 80 rest 0`, 4)
}

// TestEveryLate: 35 hops do not fit 30 s. The first ends at 35 s and eats the
// rest of the second, which starts at once and ends at 70 s; the third starts
// then, and ends at 105 s; the fourth, at 140 s, is cut by the end at 120 s. No
// interval is held.
func TestEveryLate(t *testing.T) {
	q := ask(roomful.Every{Interval: secs(30), Count: 4}, of(reps("hop", 35)))
	splits(t, q, `
		  0  35 hop 35
		 35  70 hop 35
		 70 105 hop 35
		105 120 hop 15`, 0)
}

// TestEveryLateRecovers: the long slot runs 5 s into the short one, which still
// ends in time after a walk: 35 + 2.5 + 10 = 47.5 s of 60. Two of four are held.
func TestEveryLateRecovers(t *testing.T) {
	q := ask(roomful.Every{Interval: secs(30), Count: 4}, of(slot(1, reps("hop", 35)), slot(2, reps("squat-two", 5))))
	splits(t, q, `
		 0.0  35.0 hop       35
		37.5  47.5 squat-two  5
		60.0  95.0 hop       35
		97.5 107.5 squat-two  5`, 2)
}

// TestEveryMissed: 70 hops in intervals of 30 s: at 70 s the second interval
// has passed and is missed unstarted; the third starts late at 70 s and runs to
// 140 s, past the fourth.
func TestEveryMissed(t *testing.T) {
	q := ask(roomful.Every{Interval: secs(30), Count: 5}, of(reps("hop", 70)))
	splits(t, q, `
		  0  70 hop 70
		 70 140 hop 70
		140 150 hop 10`, 0)
}

// TestEveryOpen: what is left of each interval after 10 hops goes into squats,
// which alone are the score: 30 - 12.5 = 17.5 s are 8 squats. There is no rest
// before the second interval, so that its first 2.5 s go into walking back.
func TestEveryOpen(t *testing.T) {
	q := ask(roomful.Every{Interval: secs(30), Count: 2}, of(reps("hop", 10), open("squat-two")))
	splits(t, q, `
		 0.0 10.0 hop       10
		12.5 30.0 squat-two  8
		32.5 42.5 hop       10
		45.0 60.0 squat-two  7`, 15)
	if a := steady(t, q); a.TotalReps.P50 != 35 {
		t.Errorf("%v repetitions in all, the hops included, want 35", a.TotalReps.P50)
	}
	if a := steady(t, by("lowest", q)); a.Score.P50 != 7 {
		t.Errorf("lowest %v, want 7", a.Score.P50)
	}
}

// TestEveryByLoad: the heaviest load of an interval done in time.
func TestEveryByLoad(t *testing.T) {
	q := by("load", ask(roomful.Every{Interval: minutes(2), Count: 3},
		of(slot(1, loaded("front-squat", 3, 60)), slot(2, loaded("front-squat", 3, 70)), slot(3, loaded("front-squat", 3, 80)))))
	if got := typical(q); got != 80 {
		t.Errorf("load %v, want 80", got)
	}
}

// TestHeldFallsWithLoad: the heavier the bar, the fewer intervals are held, and
// between all and none there are steps: a fallback would jump.
func TestHeldFallsWithLoad(t *testing.T) {
	last, between := 13.0, 0
	for kg := 30.0; kg <= 86; kg += 4 {
		q := ask(roomful.Every{Interval: minutes(1), Count: 12}, of(loaded("thruster", 12, kg)))
		held := average(forecast(t, q).Scores)
		if held > last+0.05 {
			t.Errorf("%v kg: %.2f held, %.2f with less", kg, held, last)
		}
		if held > 0.5 && held < 11.5 {
			between++
		}
		last = held
	}
	if last > 0.1 {
		t.Errorf("%.2f held at a load nobody lifts once", last)
	}
	if between < 2 {
		t.Errorf("%d loads at which some intervals are held", between)
	}
}
