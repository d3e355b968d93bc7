package sim_test

import (
	"context"
	"math"
	"testing"

	"roomful"
	"roomful/sim"
)

// half is somebody who takes twice as long for everything.
func half() *roomful.Abilities { return with(roomful.CapSpeed, 2) }

// usual is the ordinary person of these tests.
func usual() *roomful.Abilities { return person(0, nil) }

// The tables are worked out by hand for A at 2 s a squat and 1 s a hop, and B
// at twice that.

// TestShared: shared work alternates sets of a quarter: 2 squats of A in 4 s, 2
// of B in 8 s, and again: 24 s; then single hops: 1 + 2 + 1 + 2 s.
func TestShared(t *testing.T) {
	q := team(roomful.Shared, ask(roomful.ForTime{Rounds: 1}, of(reps("squat-two", 8), reps("hop", 4))), usual(), half())
	splits(t, q, `
		 0.0 24.0 squat-two 8
		26.5 32.5 hop       4`, 32.5)
}

// TestSharedByThree: sets of a sixth: A and C take 4 s for 2 squats, B 8 s.
func TestSharedByThree(t *testing.T) {
	q := team(roomful.Shared, ask(roomful.ForTime{Rounds: 1}, of(reps("squat-two", 12))), usual(), half(), usual())
	splits(t, q, `0 32 squat-two 12`, 32)
}

// TestAlternating: you go, I go by rounds: 6 + 2.5 + 2 s of A, 12 + 2.5 + 4 s of
// B, and 2.5 s to change over.
func TestAlternating(t *testing.T) {
	q := team(roomful.Alternating, ask(roomful.ForTime{Rounds: 4}, of(reps("squat-two", 3), reps("hop", 2))), usual(), half())
	splits(t, q, `
		 0.0  6.0 squat-two 3
		 8.5 10.5 hop       2
		13.0 25.0 squat-two 3
		27.5 31.5 hop       2
		34.0 40.0 squat-two 3
		42.5 44.5 hop       2
		47.0 59.0 squat-two 3
		61.5 65.5 hop       2`, 65.5)
	events, _, err := sim.NewWith(lexicon, handConstants()).Trace(q, false)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range events {
		if e.Person != e.Round%2 {
			t.Errorf("round %d is done by person %d", e.Round, e.Person)
		}
	}
}

// TestSynchronised: every repetition takes the slower partner's time.
func TestSynchronised(t *testing.T) {
	q := team(roomful.Synchronised, ask(roomful.ForTime{Rounds: 1}, of(reps("squat-two", 5), reps("hop", 4))), usual(), half())
	splits(t, q, `
		 0.0 20.0 squat-two 5
		22.5 30.5 hop       4`, 30.5)
}

// TestEveryInTurns: partners take every other interval.
func TestEveryInTurns(t *testing.T) {
	q := team(roomful.Alternating, ask(roomful.Every{Interval: secs(30), Count: 3}, of(reps("squat-two", 5))), usual(), half())
	splits(t, q, `
		 0 10 squat-two 5
		30 50 squat-two 5
		60 70 squat-two 5`, 3)
}

// pieces are what partners are compared on.
func pieces() map[string]roomful.Work {
	return map[string]roomful.Work{
		"body":    of(reps("pull-up", 10), reps("push-up", 15)),
		"barbell": of(loaded("thruster", 12, 43), reps("air-squat", 20)),
		"engine":  of(metres("row", 150), reps("push-up", 12)),
	}
}

// TestYouGoIGo: in a window, partners who alternate rounds do more than one of
// them alone, since each recovers, and less than two people at once. For time, a
// pair's rounds take longer than one person's half of them alone and at most
// twice as long, and less than all of them alone.
func TestYouGoIGo(t *testing.T) {
	for name, w := range pieces() {
		solo := ask(roomful.RoundsInTime{Window: minutes(16)}, w)
		pair := team(roomful.Alternating, solo, usual(), usual())
		one, two := forecast(t, solo), forecast(t, pair)
		if a, b := average(one.Scores), average(two.Scores); b <= a || b >= 2*a {
			t.Errorf("%s: %v rounds in turns, %v alone", name, b, a)
		}
		share := forecast(t, ask(roomful.ForTime{Rounds: 4}, w)).Score.P50
		alone := forecast(t, ask(roomful.ForTime{Rounds: 8}, w)).Score.P50
		turns := forecast(t, team(roomful.Alternating, ask(roomful.ForTime{Rounds: 8}, w), usual(), usual())).Score.P50
		if turns <= share || turns > 2*share+8*2.5 || turns >= alone {
			t.Errorf("%s: eight rounds in turns %v s, half of them alone %v s, all alone %v s", name, turns, share, alone)
		}
	}
}

// TestSharedIsFaster: sharing halves the work between people who recover
// meanwhile: faster than alone, and not below half.
func TestSharedIsFaster(t *testing.T) {
	for name, w := range pieces() {
		solo := ask(roomful.ForTime{Rounds: 4}, w)
		one := forecast(t, solo).Score.P50
		two := forecast(t, team(roomful.Shared, solo, usual(), usual())).Score.P50
		three := forecast(t, team(roomful.Shared, solo, usual(), usual(), usual())).Score.P50
		if two >= one || two <= one/2 || three > two*1.02 {
			t.Errorf("%s: alone %v s, by two %v s, by three %v s", name, one, two, three)
		}
	}
}

// TestSynchronisedWaits: never faster than the slower partner alone, and the
// same as alone when partners are equal. A bout's time is solved to 1e-4 of it.
func TestSynchronisedWaits(t *testing.T) {
	people := []*roomful.Abilities{usual(), half(), with(roomful.OwnMax("pull-up"), 5), with(roomful.CapVO2max, 36), with(roomful.OneRM(roomful.Thruster), 60)}
	for name, w := range pieces() {
		solo := ask(roomful.ForTime{Rounds: 3}, w)
		for i, a := range people {
			for j, b := range people {
				slower := max(typical(who(a, solo)), typical(who(b, solo)))
				both := typical(team(roomful.Synchronised, solo, a, b))
				if i == j && math.Abs(both-slower) > 1e-6 {
					t.Errorf("%s: equal partners %d take %v s, alone %v s", name, i, both, slower)
				}
				if both < slower*(1-1e-4) {
					t.Errorf("%s: partners %d and %d take %v s, the slower alone %v s", name, i, j, both, slower)
				}
			}
		}
	}
}

// TestMissingPartner: somebody without a partner works with a copy of
// themselves, and everybody of a pair has the pair's score.
func TestMissingPartner(t *testing.T) {
	w := pieces()["body"]
	for _, style := range []roomful.TeamStyle{roomful.Shared, roomful.Alternating, roomful.Synchronised} {
		q := team(style, ask(roomful.ForTime{Rounds: 4}, w), usual(), usual(), usual())
		q.Piece.Team.Size = 2
		f, err := sim.New(lexicon).Forecast(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		if len(f.Athletes) != 3 {
			t.Fatalf("%v: %d answers for 3 people", style, len(f.Athletes))
		}
		if f.Athletes[0].Score != f.Athletes[1].Score {
			t.Errorf("%v: partners score %v and %v", style, f.Athletes[0].Score, f.Athletes[1].Score)
		}
		q.Entrants = q.Entrants[:1]
		pair := team(style, ask(roomful.ForTime{Rounds: 4}, w), usual(), usual())
		if alone, two := typical(q), typical(pair); alone != two {
			t.Errorf("%v: with a copy %v, with an equal %v", style, alone, two)
		}
	}
}

// TestPassedOver: of partners who share, the one who cannot do an element leaves
// it to the other, and only when neither can is it a cannot.
func TestPassedOver(t *testing.T) {
	w := of(loaded("thruster", 10, 60), reps("push-up", 20))
	weak := with(roomful.OneRM(roomful.Thruster), 50)
	q := ask(roomful.ForTime{Rounds: 3}, w)
	one, both := forecast(t, q), forecast(t, team(roomful.Shared, q, usual(), usual()))
	pair := forecast(t, team(roomful.Shared, q, usual(), weak))
	if pair.Cannot != 0 || pair.Score.P50 <= both.Score.P50 || pair.Score.P50 >= one.Score.P50 {
		t.Errorf("cannot %v; %v s with a partner who cannot, %v s with one who can, %v s alone", pair.Cannot, pair.Score.P50, both.Score.P50, one.Score.P50)
	}
	if none := forecast(t, team(roomful.Shared, q, weak, weak)); none.Cannot != 1 {
		t.Errorf("neither can, cannot %v", none.Cannot)
	}
	if sync := forecast(t, team(roomful.Synchronised, q, usual(), weak)); sync.Cannot != 1 {
		t.Errorf("synchronised with one who cannot, cannot %v", sync.Cannot)
	}
}

// TestPartnersUnlike: a partner whose version has another movement in a place
// does their own. A rows 100 cal or B hops 50 times, shared: each takes two
// turns of a quarter. B's hops take 1 s; 13, 13 of 50 are two quarters, rounded
// up. Nobody waits for a machine they do not use.
func TestPartnersUnlike(t *testing.T) {
	a, b := of(calories("row", 40)), of(reps("hop", 50))
	for _, style := range []roomful.TeamStyle{roomful.Shared, roomful.Alternating, roomful.Synchronised} {
		q := ask(roomful.ForTime{Rounds: 2, Cap: minutes(20)}, a)
		q = team(style, q, person(0, nil), person(0, nil))
		q.Entrants[1].Work = b
		alone := typical(ask(roomful.ForTime{Rounds: 2}, a))
		got := forecast(t, q)
		if math.IsNaN(got.Score.P50) || got.Capped > 0 {
			t.Fatalf("%v: %+v", style, got)
		}
		switch hops := 50.0; style {
		case roomful.Shared, roomful.Alternating:
			// Half of the rowing, and the hops.
			if got.Score.P50 < alone/2*0.8+hops*0.9 || got.Score.P50 > alone/2*1.3+hops*1.6 {
				t.Errorf("%v: %v s, rowing alone %v s", style, got.Score.P50, alone)
			}
		case roomful.Synchronised:
			if got.Score.P50 < max(alone*0.9, 2*hops*0.9) {
				t.Errorf("%v: %v s, rowing alone %v s", style, got.Score.P50, alone)
			}
		}
	}
}

// TestPairsTakeTheirOwnFigure: in turns, a partner of the other division does
// their own amount: 10 hops and 6 hops in turn, 1 s each.
func TestPairsTakeTheirOwnFigure(t *testing.T) {
	q := team(roomful.Alternating, ask(roomful.ForTime{Rounds: 4}, of(reps("hop", 10))), person(0, nil), person(0, nil))
	q.Entrants[1].Work = of(reps("hop", 6))
	splits(t, q, `
		 0 10 hop 10
		10 16 hop 10
		16 26 hop 10
		26 32 hop 10`, 32)
}

// TestHardlyOne: a partner whose maximum is hardly more than one repetition
// takes their turns as singles, and the piece comes to an end.
func TestHardlyOne(t *testing.T) {
	q := ask(roomful.RoundsInTime{Window: minutes(12)}, of(loaded("front-squat", 10, 109.9), reps("hop", 10)))
	q = team(roomful.Shared, q, person(0, nil), person(0, nil), person(0, nil))
	if got := forecast(t, q); got.TotalReps.P50 < 10 {
		t.Errorf("%+v", got.TotalReps)
	}
}
