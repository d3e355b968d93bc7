package sim_test

import (
	"context"
	"fmt"
	"math"
	"testing"

	"roomful"
	"roomful/sim"
)

// dozen are pieces of many kinds that an ordinary person can do.
func dozen() []roomful.ForecastRequest {
	ladder := roomful.Ladder{Steps: []int{21, 15, 9}}
	return []roomful.ForecastRequest{
		ask(roomful.RoundsInTime{Window: minutes(20)}, of(reps("pull-up", 5), reps("push-up", 10), reps("air-squat", 15))),
		ask(roomful.RoundsInTime{Window: minutes(12)}, of(loaded("thruster", 8, 43), metres("row", 200))),
		ask(roomful.RoundsInTime{Window: minutes(7)}, of(reps("push-up", 10), reps("air-squat", 15))),
		ask(roomful.ForTime{Rounds: 3, Ladder: ladder}, of(loaded("thruster", 0, 43), open("pull-up"))),
		ask(roomful.ForTime{Rounds: 5}, of(metres("run", 400), loaded("front-squat", 10, 50))),
		ask(roomful.ForTime{Rounds: 1}, of(metres("row", 2000))),
		ask(roomful.ForTime{Rounds: 1}, of(reps("air-squat", 100), reps("push-up", 60), reps("pull-up", 30))),
		ask(roomful.ForTime{Rounds: 4, Rest: minutes(1)}, of(reps("pull-up", 12), reps("push-up", 20))),
		ask(roomful.AmountInTime{Window: minutes(3)}, of(open("push-up"))),
		ask(roomful.Intervals{Count: 6, Work: minutes(1), Rest: minutes(1)}, of(loaded("thruster", 0, 43))),
		ask(roomful.Intervals{Count: 5, Rest: minutes(2)}, of(metres("row", 500))),
		ask(roomful.Stations{Rounds: 3, Work: minutes(1), Change: secs(15)}, of(open("air-squat"), open("push-up"), calories("row", 0))),
		ask(roomful.Every{Interval: minutes(2), Count: 6}, of(reps("push-up", 15), open("air-squat"))),
	}
}

// name says which piece of a table it is.
func name(i int, q roomful.ForecastRequest) string {
	return fmt.Sprintf("%d %s", i, q.Piece.Format.Name())
}

// TestTypical bounds how far the run without noise, which screens candidates,
// is from the median of runs with noise for a person of known abilities.
func TestTypical(t *testing.T) {
	for i, q := range dozen() {
		q.Runs, q.Workers = 4000, 0
		f, err := sim.New(lexicon).Forecast(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		median, quiet := f.Athletes[0].Score.P50, typical(q)
		gap := quiet/median - 1
		t.Logf("%-22s median %8.2f, without noise %8.2f: %+.1f %%", name(i, q), median, quiet, 100*gap)
		if math.Abs(gap) > 0.03 {
			t.Errorf("%s: median %v, without noise %v: %+.1f %%", name(i, q), median, quiet, 100*gap)
		}
	}
}

// TestChunks bounds what is lost by stepping several repetitions at a time, in
// the mean of the same runs.
func TestChunks(t *testing.T) {
	mean := func(m *sim.Model, q roomful.ForecastRequest) float64 {
		f, err := m.Forecast(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		return average(f.Athletes[0].Scores)
	}
	m := sim.New(lexicon)
	for i, q := range dozen() {
		q.Workers = 0
		many, one := mean(m, q), mean(m.OneByOne(), q)
		gap := many/one - 1
		t.Logf("%-22s stepped %8.2f, singly %8.2f: %+.2f %%", name(i, q), many, one, 100*gap)
		if math.Abs(gap) > 0.01 {
			t.Errorf("%s: stepped %v, singly %v: %+.2f %%", name(i, q), many, one, 100*gap)
		}
	}
}

// TestScout bounds what is lost by not walking long windows to their end in the
// free pass, in the mean of the same runs.
func TestScout(t *testing.T) {
	m := sim.New(lexicon)
	for _, long := range []float64{16, 18, 20, 30, 45} {
		for i, w := range []roomful.Work{
			of(reps("pull-up", 5), reps("push-up", 10), reps("air-squat", 15)),
			of(metres("row", 500), loaded("thruster", 12, 35), reps("push-up", 12)),
			of(loaded("thruster", 21, 40), reps("pull-up", 21)),
			of(reps("burpee", 10)),
			of(metres("row", 1500), reps("push-up", 60)), // few, long rounds
		} {
			q := twenty(512)
			q.Piece.Format = roomful.RoundsInTime{Window: minutes(long)}
			q.Piece.Round, q.Entrants[0].Work = written(w.Round), w
			part, err := m.Forecast(t.Context(), q)
			if err != nil {
				t.Fatal(err)
			}
			whole, err := m.Patient().Forecast(t.Context(), q)
			if err != nil {
				t.Fatal(err)
			}
			a, b := average(part.Athletes[0].Scores), average(whole.Athletes[0].Scores)
			t.Logf("%v min, piece %d: %.3f for %.3f, %+.2f %%", long, i, a, b, 100*(a/b-1))
			if math.Abs(a/b-1) > 0.005 {
				t.Errorf("%v min, piece %d: %v rounds scouting, %v walking all of it", long, i, a, b)
			}
		}
	}
}
