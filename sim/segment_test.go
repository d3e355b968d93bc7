package sim_test

import (
	"math"
	"testing"
	"time"

	"roomful"
	"roomful/sim"
)

// TestSegmentTable: three rounds of ten hops, 1 s each; from 12 s on, squats of 2 s.
// The second round has begun by then, the third is squats.
func TestSegmentTable(t *testing.T) {
	q := ask(roomful.ForTime{Rounds: 3}, of(reps("hop", 10)))
	q.Entrants[0].Segments = []roomful.Segment{{From: secs(12), Work: of(reps("squat-two", 10))}}
	splits(t, q, `
		 0 10 hop       10
		10 20 hop       10
		22.5 42.5 squat-two 10`, 42.5)
}

// TestSegmentShape: a change keeps the elements one for one.
func TestSegmentShape(t *testing.T) {
	q := ask(roomful.ForTime{Rounds: 3}, of(reps("hop", 10)))
	q.Entrants[0].Segments = []roomful.Segment{{From: secs(12), Work: of(reps("hop", 10), reps("squat-two", 10))}}
	if _, err := sim.New(lexicon).Forecast(t.Context(), q); err == nil {
		t.Error("a change to two elements is not refused")
	}
}

// slowHeavy is a piece whose thrusters are heavy for the person.
func slowHeavy(kg float64) roomful.Work {
	return of(loaded("thruster", 15, kg), reps("push-up", 10))
}

// TestGiven: of people whose strength is hardly known, those count who had done as
// little by 4:00 as was seen; they end lower than the others, and a lighter load
// from then on brings more without touching what came before.
func TestGiven(t *testing.T) {
	forecastOf := func(done float64, change *roomful.Work, from time.Duration, kg float64) roomful.AthleteForecast {
		q := who(person(0.3, nil), ask(roomful.RoundsInTime{Window: minutes(12)}, slowHeavy(kg)))
		q.Runs = 1024
		if change != nil {
			q.Entrants[0].Segments = []roomful.Segment{{From: from, Work: *change}}
		}
		if done > 0 {
			q.Given = &roomful.Progress{At: minutes(4), Done: done}
		}
		return forecast(t, q)
	}
	light := slowHeavy(40)
	everybody := forecastOf(0, nil, 0, 55)
	slow := forecastOf(25, nil, 0, 55)
	cut := forecastOf(25, &light, minutes(4), 55)
	if math.Abs(slow.Reached.P50-25) > 3 {
		t.Errorf("asked for 25 by 4:00, got %+v", slow.Reached)
	}
	if slow.Score.P50 >= everybody.Score.P50 {
		t.Errorf("ends at %.1f rounds like everybody's %.1f", slow.Score.P50, everybody.Score.P50)
	}
	if cut.Score.P50 <= slow.Score.P50*1.05 {
		t.Errorf("a lighter load ends at %.2f rounds, none at %.2f", cut.Score.P50, slow.Score.P50)
	}
	if cut.Reached != slow.Reached {
		t.Errorf("what was done before the change differs: %+v, %+v", cut.Reached, slow.Reached)
	}
}
