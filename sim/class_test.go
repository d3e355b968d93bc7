package sim_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/sim"
)

// together makes a request one for several people of given abilities, who share
// a kit.
func together(q roomful.ForecastRequest, kit *roomful.Kit, as ...*roomful.Abilities) roomful.ForecastRequest {
	w := q.Entrants[0].Work
	q.Entrants, q.Kit = nil, kit
	for i, a := range as {
		id := string(rune('a' + i))
		q.Entrants = append(q.Entrants, roomful.Entrant{ID: id, Name: strings.ToUpper(id), Abilities: a, Work: w})
	}
	return q
}

// boxes returns a kit with so many boxes.
func boxes(n int) *roomful.Kit {
	return &roomful.Kit{Boxes: []roomful.BoxStock{{HeightsCm: []float64{60}, Count: n}}}
}

// clones returns so many people of the same fixed abilities.
func clones(n int) (out []*roomful.Abilities) {
	for range n {
		out = append(out, person(0, nil))
	}
	return out
}

// TestClassTable: two people, one box, two rounds of ten on it and ten hops. The
// walk takes 2.5 s and stepping off and on 3 s.
//
//	A has the box at 0, B at 20 + 3. A is back at 22.5 + 10 + 2.5 = 35, the box
//	is free at 43, so A has it at 46. B is back at 58, has it at 66 + 3.
func TestClassTable(t *testing.T) {
	q := together(ask(roomful.ForTime{Rounds: 2}, of(reps("box-two", 10), reps("hop", 10))), boxes(1), clones(2)...)
	did, waited, err := sim.NewWith(lexicon, handConstants()).Class(q)
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{
		"A": "0-20 box-two, 22.5-32.5 hop, 46-66 box-two, 68.5-78.5 hop",
		"B": "23-43 box-two, 45.5-55.5 hop, 69-89 box-two, 91.5-101.5 hop",
	}
	for name, events := range did {
		var got []string
		for _, e := range events {
			got = append(got, fmt.Sprintf("%v-%v %s", e.Start, e.End, e.Movement))
		}
		if got := strings.Join(got, ", "); got != want[name] {
			t.Errorf("%s: %s, want %s", name, got, want[name])
		}
	}
	if diff := cmp.Diff(map[string]float64{"A": 11, "B": 34}, waited); diff != "" {
		t.Error(diff)
	}
}

// TestClassWindow: who has no box before the window closes leaves without one,
// and holds up nobody: a window of 30 s is over while B is on it.
func TestClassWindow(t *testing.T) {
	q := together(ask(roomful.RoundsInTime{Window: secs(30)}, of(reps("box-two", 10), reps("hop", 30))), boxes(1), clones(3)...)
	f, err := sim.NewWith(lexicon, handConstants()).Forecast(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	var done []float64
	for _, a := range f.Athletes {
		done = append(done, math.Round(a.TotalReps.P50))
	}
	// A: 10 and, from 22.5 s, 7 hops. B: from 23 s 3 on the box. C: none.
	if want := []float64{17, 3, 0}; !slices.Equal(done, want) {
		t.Errorf("repetitions %v, want %v", done, want)
	}
	if c := f.Athletes[2]; c.WaitMean != 30 {
		t.Errorf("C waits %v s of 30", c.WaitMean)
	}
}

// TestBottleneck compares with the bottleneck law of closed queues: N people who
// spend S at one of c places and Z away finish min(N/(S+Z), c/S) rounds a second
// (Denning and Buzen 1978, The operational analysis of queueing network models,
// ACM Computing Surveys 10:225). On the box S = 20 s and 3 s to change over, 20 s
// when nobody waits; Z = 10 s of hops and two walks of 2.5 s.
func TestBottleneck(t *testing.T) {
	const window = 3000.0
	for _, c := range []struct{ people, boxes int }{{1, 1}, {2, 1}, {3, 1}, {4, 2}, {8, 2}, {8, 3}, {12, 6}, {12, 12}} {
		q := together(ask(roomful.RoundsInTime{Window: secs(window)}, of(reps("box-two", 10), reps("hop", 10))), boxes(c.boxes), clones(c.people)...)
		q.Runs = 2
		k := handConstants()
		k.DayOxygen, k.GymEndurance, k.GymTempo, k.SetSpread, k.BreakSpread = 0, 0, 0, 0, 0
		f, err := sim.NewWith(lexicon, k).Forecast(t.Context(), q)
		if err != nil {
			t.Fatal(err)
		}
		var rounds float64
		for _, a := range f.Athletes {
			rounds += a.Score.P50
		}
		n, places := float64(c.people), float64(c.boxes)
		alone, busy := window*n/35, window*places/23
		if want := min(alone, busy); math.Abs(rounds/want-1) > 0.03 {
			t.Errorf("%d people, %d boxes: %.1f rounds, the law gives %.1f", c.people, c.boxes, rounds, want)
		}
		if busy < 0.9*alone && f.Places[0].Busy < 0.97 {
			t.Errorf("%d people, %d boxes: the boxes are in use %.2f of the time", c.people, c.boxes, f.Places[0].Busy)
		}
	}
}

// roomOf is a class of different people on a piece with rowing and boxes.
func roomOf(n int, kit *roomful.Kit) roomful.ForecastRequest {
	var as []*roomful.Abilities
	for i := range n {
		as = append(as, person(0.1, map[roomful.Capacity]float64{roomful.CapVO2max: 38 + float64(i), roomful.OwnMax("push-up"): 15 + 3*float64(i)}))
	}
	q := together(ask(roomful.RoundsInTime{Window: minutes(12)}, of(metres("row", 300), reps("box-two", 12), reps("push-up", 10))), kit, as...)
	q.Runs = 40
	return q
}

// scores returns everybody's runs by id.
func scores(t *testing.T, q roomful.ForecastRequest) map[string][]float64 {
	t.Helper()
	f, err := sim.New(lexicon).Forecast(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]float64{}
	for i, a := range f.Athletes {
		out[q.Entrants[i].ID] = a.Scores
	}
	return out
}

// TestClassSameBits: neither the number of workers nor the order of the file
// shows, and where nothing is short everybody is as alone.
func TestClassSameBits(t *testing.T) {
	tight := boxes(3)
	tight.Stations = map[string]int{"row": 4}
	q := roomOf(9, tight)
	want := scores(t, q)
	for _, workers := range []int{2, 7} {
		q.Workers = workers
		if diff := cmp.Diff(want, scores(t, q)); diff != "" {
			t.Fatalf("%d workers: %s", workers, diff)
		}
	}
	slices.Reverse(q.Entrants)
	if diff := cmp.Diff(want, scores(t, q)); diff != "" {
		t.Fatalf("in reverse: %s", diff)
	}
	roomy := boxes(9)
	roomy.Stations = map[string]int{"row": 9}
	if diff := cmp.Diff(scores(t, roomOf(9, nil)), scores(t, roomOf(9, roomy))); diff != "" {
		t.Fatalf("nothing short: %s", diff)
	}
}

// TestFewerPlaces: the fewer rowers, the longer the waiting and the less is done
// in all.
func TestFewerPlaces(t *testing.T) {
	last, waited := math.Inf(1), -1.0
	for _, rowers := range []int{9, 6, 4, 3, 2, 1} {
		q := roomOf(9, &roomful.Kit{Stations: map[string]int{"row": rowers}})
		f, err := sim.New(lexicon).Forecast(t.Context(), q)
		if err != nil {
			t.Fatal(err)
		}
		var done, wait float64
		for _, a := range f.Athletes {
			done, wait = done+average(a.Scores), wait+a.WaitMean
		}
		if done > last || wait < waited {
			t.Errorf("%d rowers: %.1f rounds and %.0f s of waiting; with more %.1f and %.0f", rowers, done, wait, last, waited)
		}
		last, waited = done, wait
	}
}

// TestWaves: who starts later does the same in the same window, and a wave one
// row apart takes the waiting for a single rower away.
func TestWaves(t *testing.T) {
	one := ask(roomful.RoundsInTime{Window: minutes(8)}, of(reps("hop", 30), reps("push-up", 10)))
	later := one
	later.Entrants = slices.Clone(one.Entrants)
	later.Entrants[0].Wait = 90 * time.Second
	if a, b := forecast(t, one), forecast(t, later); average(a.Scores) != average(b.Scores) {
		t.Errorf("%v at once, %v a minute and a half later", average(a.Scores), average(b.Scores))
	}
	q := together(ask(roomful.ForTime{Rounds: 1}, of(reps("box-two", 10), reps("hop", 10))), boxes(1), clones(2)...)
	q.Entrants[1].Wait = 21 * time.Second
	_, waited, err := sim.NewWith(lexicon, handConstants()).Class(q)
	if err != nil || waited["A"] != 0 || waited["B"] != 0 {
		t.Errorf("waited %v, %v", waited, err)
	}
}

// TestPartnersHold: partners who share the work need one place between them, and
// those who move together one each.
func TestPartnersHold(t *testing.T) {
	for style, need := range map[roomful.TeamStyle]int{roomful.Shared: 2, roomful.Alternating: 2, roomful.Synchronised: 4} {
		q := together(ask(roomful.RoundsInTime{Window: minutes(5)}, of(reps("box-two", 10), reps("hop", 10))), boxes(1), clones(4)...)
		q.Piece.Team = roomful.Team{Size: 2, Style: style}
		f, err := sim.New(lexicon).Forecast(t.Context(), q)
		if err != nil {
			t.Fatal(err)
		}
		if len(f.Places) != 1 || f.Places[0].Need != need {
			t.Errorf("%v: short of %+v, want a need of %d", style, f.Places, need)
		}
	}
}
