package sim_test

import (
	"math"
	"testing"

	"roomful"
	"roomful/sim"
)

// TestShareOfMaximum: a share of one's own maximum follows the maximum, so
// that nobody meets a load beyond them, and is rounded down to one that exists.
// 77.5 % of 110 kg is 85.25 kg, and the loads go in steps of 5.
func TestShareOfMaximum(t *testing.T) {
	sets := roomful.Sets{Count: 3}
	task := loaded("front-squat", 5, 999) // the load is the day's, whatever is written here
	task.Percent, task.Exists = 77.5, bars(20, 200, 5)
	if got := forecast(t, ask(sets, of(task))); got.Score.P50 != 85 || got.Cannot != 0 {
		t.Errorf("77.5 %% of 110 kg: %+v, cannot %v", got.Score, got.Cannot)
	}
	unknown := forecast(t, who(person(0.2, nil), ask(sets, of(task))))
	if unknown.Cannot != 0 || !(unknown.Score.P05 < 75 && unknown.Score.P95 > 95) {
		t.Errorf("of a maximum that is hardly known: %+v, cannot %v", unknown.Score, unknown.Cannot)
	}
}

// TestRepetitionsInReserve: at RPE 8 two repetitions are left (Zourdos et al.
// 2016), so a set of six is done at a load for eight: 110/(1 + 7/38) = 92.9 kg,
// 92.5 in steps of 2.5. Every set is done; the load falls as the legs tire.
func TestRepetitionsInReserve(t *testing.T) {
	task := loaded("front-squat", 6, 999)
	task.RPE = 8
	splitless := ask(roomful.Sets{Count: 4}, of(task))
	if got := typical(splitless); got != 92.5 {
		t.Errorf("six at RPE 8: %v kg, want 92.5", got)
	}
	got := forecast(t, who(person(0.15, nil), splitless))
	if got.TotalReps.P05 != 24 || got.Score.P05 <= 0 {
		t.Errorf("four sets of six: %v repetitions, %+v kg", got.TotalReps.P05, got.Score)
	}
	harder := splitless
	task.RPE = 10
	harder.Entrants = []roomful.Entrant{{ID: "a", Name: "A", Abilities: person(0, nil), Work: of(task)}}
	if heavier := typical(harder); heavier <= 92.5 {
		t.Errorf("nothing left is no heavier: %v kg", heavier)
	}
}

// TestSchemeByFeel: in 5-3-1 by feel each set has its own load, so the score is
// the single's. At RPE 8 a single leaves two: 110/(1 + 2/38) = 104.5 kg.
func TestSchemeByFeel(t *testing.T) {
	task := loaded("front-squat", 0, 0)
	task.RPE = 8
	got := typical(ask(roomful.Sets{Reps: []int{5, 3, 1}}, of(task)))
	if got < 95 || got > 102.5 {
		t.Errorf("the single of 5-3-1 by feel: %v kg, want a little under 104.5", got)
	}
}

// TestAddedLoad: a body-weight movement with a load on it takes the load that
// leaves the repetitions asked for: fifteen pull-ups are a maximum of 1.5 times
// the body (Johnson 2009), so five are done at 1.5/(1 + 4/28) = 1.3125 times it,
// 25 kg on 80.
func TestAddedLoad(t *testing.T) {
	m := *lexicon["pull-up"]
	m.ID, m.Implement = "pull-up-loaded", roomful.Vest
	lex := toy{"pull-up-loaded": &m}
	got := sim.New(lex).LoadFor(person(0, nil), reps("pull-up-loaded", 5), 5)
	if math.Abs(got-25) > 1e-9 {
		t.Errorf("five pull-ups for somebody of 80 kg who does fifteen: %v kg added, want 25", got)
	}
	if got := sim.New(lex).LoadFor(person(0, nil), reps("pull-up-loaded", 20), 20); got != 0 {
		t.Errorf("twenty for the same person: %v kg", got)
	}
}

// TestUnbrokenRope: in an unbroken window the first trip ends it. Attempts that
// fail one time in ten make runs of nine on average, geometric: half of the
// people have ended by six or seven.
func TestUnbrokenRope(t *testing.T) {
	a := person(0, nil)
	a.Dims = append(a.Dims, roomful.Dim{Capacity: roomful.TripLogit("rope"), Centre: math.Log(0.1 / 0.9)})
	q := who(a, ask(roomful.AmountInTime{Window: minutes(2), Unbroken: true}, of(open("rope"))))
	q.Runs = 2000
	got := forecast(t, q)
	if got.Score.P50 < 5 || got.Score.P50 > 7 {
		t.Errorf("unbroken: %+v", got.Score)
	}
	if mean := average(got.Scores); math.Abs(mean-9) > 0.6 {
		t.Errorf("mean run %v, want 9", mean)
	}
	broken := forecast(t, who(a, ask(roomful.AmountInTime{Window: minutes(2)}, of(open("rope")))))
	if broken.Score.P50 <= got.Score.P95 {
		t.Errorf("with trips allowed %+v, unbroken %+v", broken.Score, got.Score)
	}
}

// TestSlowestInWindow: in a window the slowest bout is the one with the least.
func TestSlowestInWindow(t *testing.T) {
	q := ask(roomful.Intervals{Count: 5, Work: secs(30), Rest: secs(10)}, of(open("push-up")))
	slow, low := forecast(t, by("slowest", q)), forecast(t, by("lowest", q))
	if slow.Score != low.Score || slow.Score.P50 > 30 {
		t.Errorf("slowest %+v, lowest %+v", slow.Score, low.Score)
	}
}
