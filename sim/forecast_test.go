package sim_test

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"roomful"
	"roomful/sim"
)

// crowd is a piece with five different people.
func crowd() roomful.ForecastRequest {
	q := ask(roomful.RoundsInTime{Window: minutes(8)}, of(reps("pull-up", 5), loaded("thruster", 8, 43), metres("row", 150)))
	for i, id := range []string{"b", "c", "d", "e"} {
		e := q.Entrants[0]
		e.ID, e.Name = id, strings.ToUpper(id)
		e.Abilities = person(0.12, map[roomful.Capacity]float64{roomful.CapVO2max: 40 + 3*float64(i), roomful.OwnMax("pull-up"): 6 + 4*float64(i)})
		q.Entrants = append(q.Entrants, e)
	}
	q.Runs = 1000
	return q
}

// run forecasts a request with the default constants.
func run(t *testing.T, q roomful.ForecastRequest) roomful.Forecast {
	t.Helper()
	f, err := sim.New(lexicon).Forecast(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestSameSeedSameBytes: the whole answer is the same on any number of workers,
// and another with another seed.
func TestSameSeedSameBytes(t *testing.T) {
	q := crowd()
	var first []byte
	for _, q.Workers = range []int{1, 2, 7} {
		b, err := json.Marshal(run(t, q))
		if err != nil {
			t.Fatal(err)
		}
		if first == nil {
			first = b
		} else if string(b) != string(first) {
			t.Errorf("%d workers give other bytes", q.Workers)
		}
	}
	q.Seed++
	if b, _ := json.Marshal(run(t, q)); string(b) == string(first) {
		t.Error("another seed gives the same")
	}
}

// TestPeopleAreIndependent: neither the order of people nor who else is there
// changes anybody's answer, and a person's runs are a prefix of more runs.
func TestPeopleAreIndependent(t *testing.T) {
	q := crowd()
	q.Runs = 300
	all := run(t, q).Athletes
	slices.Reverse(q.Entrants)
	back := run(t, q).Athletes
	slices.Reverse(back)
	if d := cmp.Diff(all, back); d != "" {
		t.Errorf("in another order:\n%s", d)
	}
	slices.Reverse(q.Entrants)
	q.Entrants = q.Entrants[2:3]
	if d := cmp.Diff(all[2:3], run(t, q).Athletes); d != "" {
		t.Errorf("alone:\n%s", d)
	}
	q.Runs = 700
	if d := cmp.Diff(all[2].Scores, run(t, q).Athletes[0].Scores[:300]); d != "" {
		t.Errorf("of more runs:\n%s", d)
	}
}

// TestBuildIsDeterministic: loads found on the day leave no trace in the next
// run, on whichever worker it comes.
func TestBuildIsDeterministic(t *testing.T) {
	q := heavy(3, person(0.1, nil), "front-squat")
	q.Runs = 1000
	one := run(t, q)
	q.Workers = 3
	if d := cmp.Diff(one, run(t, q)); d != "" {
		t.Error(d)
	}
}

// TestOnIntent counts the runs inside the effort's window, and says nothing of
// an effort that is only proposed.
func TestOnIntent(t *testing.T) {
	q := crowd()
	q.Effort = roomful.Effort{Low: 4, High: 5, Unit: "rounds"}
	for _, a := range run(t, q).Athletes {
		in := 0
		for _, s := range a.Scores {
			if s >= 4 && s < 6 {
				in++
			}
		}
		if a.OnIntent == nil || *a.OnIntent != float64(in)/1000 {
			t.Errorf("%s: on intent %v, counted %d of 1000", a.Name, a.OnIntent, in)
		}
	}
	q.Effort.Proposed = true
	if a := run(t, q).Athletes[0]; a.OnIntent != nil {
		t.Errorf("a proposed effort is met with %v", *a.OnIntent)
	}
}

// TestText writes scores as people do.
func TestText(t *testing.T) {
	for _, c := range []struct {
		want string
		q    roomful.ForecastRequest
	}{
		{"3+1", ask(roomful.RoundsInTime{Window: minutes(1)}, of(reps("squat-two", 5), reps("hop", 4)))},
		{"2+14", ask(roomful.RoundsInTime{Window: minutes(1), Ladder: roomful.Ladder{Steps: []int{3, 6, 9}, Open: true}}, of(open("hop"), open("squat-two")))},
		{"2.5", ask(roomful.RoundsInTime{Window: secs(50)}, of(metres("walk-loaded", 25)))},
		{"15", ask(roomful.AmountInTime{Window: secs(31)}, of(open("squat-two")))},
		{"0:31", ask(roomful.AmountInTime{Window: secs(31)}, of(seconds("hang", 0)))},
		{"25 m", ask(roomful.AmountInTime{Window: secs(20)}, of(metres("walk-loaded", 0)))},
		{"0:28", ask(roomful.ForTime{Rounds: 2}, of(reps("squat-two", 3), reps("hop", 4)))},
		{"1:00:00", ask(roomful.ForTime{Rounds: 1}, of(reps("hop", 3600)))},
		{"0:16 cap", ask(roomful.ForTime{Rounds: 1, Cap: secs(16)}, of(metres("walk-loaded", 25)))},
		{"3+3", ask(roomful.Intervals{Count: 2, Work: secs(20), Rest: secs(10)}, of(reps("hop", 3), reps("squat-two", 2)))},
		{"62.5 kg", ask(roomful.Sets{Count: 2}, of(loaded("press-two", 5, 62.5)))},
	} {
		if a := steady(t, c.q); a.Text != c.want {
			t.Errorf("%s: text %q for %v, want %q", c.q.Piece.Format.Name(), a.Text, a.Score.P50, c.want)
		}
	}
}

// TestNearlyWhole: a median just short of the next round is not written as if
// all of its repetitions were done.
func TestNearlyWhole(t *testing.T) {
	if got := roomful.RoundsScore.Text(5.99, 30); got != "5+29" {
		t.Errorf("5.99 rounds of 30 are %q", got)
	}
	if got := roomful.RoundsScore.Text(5.5, 30); got != "5+15" {
		t.Errorf("5.5 rounds of 30 are %q", got)
	}
}

// TestRefusals: what cannot be simulated as it stands is refused by name with a
// next step, never run as something else.
func TestRefusals(t *testing.T) {
	hops := of(reps("hop", 5))
	once := hops
	once.Once = hops.Round
	last := hops
	last.Last = hops.Round
	for _, c := range []struct {
		says string
		q    roomful.ForecastRequest
	}{
		{"rounds-in-time with no window", ask(roomful.RoundsInTime{}, hops)},
		{"rounds-in-time with an amount left open", ask(roomful.RoundsInTime{Window: minutes(5)}, of(reps("hop", 5), open("crawl")))},
		{"amount-in-time with no window", ask(roomful.AmountInTime{}, of(open("hop")))},
		{"amount-in-time with 2 movements", ask(roomful.AmountInTime{Window: minutes(2)}, of(open("hop"), open("crawl")))},
		{"amount-in-time with a once or last", ask(roomful.AmountInTime{Window: minutes(2)}, once)},
		{"for-time with an amount left open", ask(roomful.ForTime{Rounds: 1}, of(open("hop")))},
		{"for-time with a ladder that never ends", ask(roomful.ForTime{Ladder: roomful.Ladder{Steps: []int{3, 6}, Open: true}}, of(open("hop")))},
		{"for-time with nothing to do", ask(roomful.ForTime{Rounds: 1}, roomful.Work{})},
		{"for-time with an amount below nought", ask(roomful.ForTime{Rounds: 1}, of(reps("hop", -3)))},
		{"every with a once or last", ask(roomful.Every{Interval: minutes(1), Count: 5}, last)},
		{"every with no interval", ask(roomful.Every{Count: 5}, hops)},
		{"intervals with a once or last", ask(roomful.Intervals{Count: 5, Rest: minutes(1)}, once)},
		{"intervals with an amount left open", ask(roomful.Intervals{Count: 5, Rest: minutes(1)}, of(open("hop")))},
		{"intervals with no bout", ask(roomful.Intervals{Work: minutes(1)}, of(open("hop")))},
		{"stations with no time", ask(roomful.Stations{Rounds: 3}, of(open("hop")))},
		{"sets with a once or last", ask(roomful.Sets{Count: 5}, last)},
		{"building to a heavy set needs one movement", ask(roomful.Sets{Build: true}, of(loaded("thruster", 3, 0), loaded("front-squat", 3, 0)))},
		{"unscored with no score", ask(roomful.Unscored{Duration: minutes(5)}, hops)},
	} {
		_, err := sim.New(lexicon).Forecast(context.Background(), c.q)
		var refusal *roomful.Error
		switch {
		case !errors.As(err, &refusal):
			t.Errorf("%s: not refused: %v", c.says, err)
		case !strings.Contains(refusal.Summary, c.says) || refusal.Hint == "":
			t.Errorf("want %q, got %q with the hint %q", c.says, refusal.Summary, refusal.Hint)
		}
		if s := sim.New(lexicon).Typical(c.q); len(s) != 1 || !math.IsNaN(s[0]) {
			t.Errorf("%s: typical %v", c.says, s)
		}
	}
	q := ask(roomful.ForTime{Rounds: 1}, hops)
	q.Runs = 0
	if _, err := sim.New(lexicon).Forecast(context.Background(), q); err == nil || roomful.HintOf(err) == "" {
		t.Errorf("no runs: %v", err)
	}
}

// TestCancelled: a cancelled forecast ends with the context's error.
func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	q := crowd()
	q.Runs = 1 << 20
	q.Progress = func(float64) { cancel() }
	if _, err := sim.New(lexicon).Forecast(ctx, q); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}

// TestTooLong: a window beyond four hours ends, as any run does.
func TestTooLong(t *testing.T) {
	q := ask(roomful.RoundsInTime{Window: minutes(5 * 60)}, of(reps("hop", 60), reps("crawl", 20)))
	if s := steady(t, q).Score.P50; math.Abs(s-(115+25.0/80)) > 1e-6 {
		t.Errorf("%v rounds of 125 s and 80 repetitions in four hours", s)
	}
}

// anyTask is a random element with an amount.
func anyTask() *rapid.Generator[roomful.Task] {
	return rapid.Custom(func(t *rapid.T) roomful.Task {
		n := float64(rapid.IntRange(1, 40).Draw(t, "amount"))
		switch rapid.SampledFrom([]string{"reps", "load", "metres", "calories", "seconds", "hold", "rest", "carry"}).Draw(t, "task") {
		case "reps":
			return reps(rapid.SampledFrom([]roomful.MovementID{"pull-up", "push-up", "air-squat", "dip", "hop", "climb"}).Draw(t, "movement"), n)
		case "load":
			return loaded("thruster", n, float64(rapid.IntRange(10, 95).Draw(t, "kg")))
		case "metres":
			return metres(rapid.SampledFrom([]roomful.MovementID{"row", "ski", "bike", "run"}).Draw(t, "movement"), 20*n)
		case "calories":
			return calories(rapid.SampledFrom([]roomful.MovementID{"row", "ski", "bike"}).Draw(t, "movement"), n)
		case "seconds":
			return seconds("push-up", n)
		case "hold":
			return seconds("plank", n)
		case "rest":
			return seconds("rest", n)
		}
		return metres("walk-loaded", n)
	})
}

// drawn makes a random piece of any format.
func drawn(t *rapid.T) roomful.ForecastRequest {
	tasks := rapid.SliceOfN(anyTask(), 1, 4).Draw(t, "round")
	ladder := roomful.Ladder{Steps: rapid.SliceOfN(rapid.IntRange(1, 12), 0, 4).Draw(t, "ladder")}
	count := rapid.IntRange(1, 6).Draw(t, "count")
	length := secs(float64(rapid.IntRange(15, 400).Draw(t, "seconds")))
	rest := secs(float64(rapid.IntRange(0, 90).Draw(t, "rest")))
	format := rapid.SampledFrom([]roomful.Format{
		roomful.RoundsInTime{Window: length}, roomful.ForTime{Rounds: count, Rest: rest}, roomful.ForTime{Rounds: count, Cap: length},
		roomful.RoundsInTime{Window: length, Ladder: roomful.Ladder{Steps: ladder.Steps, Open: true}}, roomful.ForTime{Rounds: len(ladder.Steps), Ladder: ladder},
		roomful.AmountInTime{Window: length}, roomful.AmountInTime{Window: length, Unbroken: true}, roomful.Sets{Build: true, Rest: rest},
		roomful.Every{Interval: length, Count: count}, roomful.Intervals{Count: count, Work: length, Rest: rest},
		roomful.Intervals{Count: count, Rest: rest}, roomful.Stations{Rounds: count, Work: length, Change: rest}, roomful.Sets{Count: count, Rest: rest},
	}).Draw(t, "format")
	end := &tasks[len(tasks)-1]
	free := rapid.Bool().Draw(t, "open")
	w := roomful.Work{Round: tasks}
	switch f := format.(type) {
	case roomful.Every, roomful.Stations:
		if free {
			end.Amount = 0
		}
	case roomful.Intervals:
		if free && f.Work > 0 {
			end.Amount = 0
		}
	case roomful.AmountInTime:
		w.Round = tasks[:1]
	case roomful.Sets:
		if f.Build {
			w.Round = []roomful.Task{loaded("front-squat", float64(count), 0)}
		}
	case roomful.RoundsInTime:
		w.Once = rapid.SliceOfN(anyTask(), 0, 2).Draw(t, "once")
		if len(f.Ladder.Steps) > 0 && end.Unit == roomful.Rep {
			end.Amount = 0
		}
	case roomful.ForTime:
		w.Last = rapid.SliceOfN(anyTask(), 0, 2).Draw(t, "last")
	}
	q := ask(format, w)
	if style := roomful.TeamStyle(rapid.IntRange(0, 3).Draw(t, "team")); style != roomful.Alone {
		q = team(style, q, person(0.2, nil), person(0.2, map[roomful.Capacity]float64{roomful.CapSpeed: 1.3}))
	} else {
		q = who(person(0.2, nil), q)
	}
	q.Piece.ScoreBy = rapid.SampledFrom([]string{"", "lowest", "slowest", "load", "reps", "time"}).Draw(t, "score")
	q.Runs, q.Seed = 8, rapid.Uint64().Draw(t, "seed")
	return q
}

// TestAnyPiece: whatever the piece, scores are numbers unless left out, ordered
// by their percentiles, and nothing is negative or outlasts the window.
func TestAnyPiece(t *testing.T) {
	m := sim.New(lexicon)
	rapid.Check(t, func(t *rapid.T) {
		q := drawn(t)
		f, err := m.Forecast(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		inOrder(t, m, q)
		for _, a := range f.Athletes {
			for i, s := range a.Scores {
				if math.IsInf(s, 0) || s < 0 || math.IsNaN(s) && a.Cannot == 0 {
					t.Fatalf("run %d scores %v, cannot %v", i, s, a.Cannot)
				}
			}
			for _, p := range []roomful.Quantiles{a.Score, a.TotalReps, a.Seconds} {
				if math.IsNaN(p.P50) && a.Cannot > 0 {
					continue
				}
				if !(p.P05 >= 0 && p.P05 <= p.P50 && p.P50 <= p.P95) {
					t.Fatalf("percentiles %+v", p)
				}
			}
			if window := q.Piece.Format.Length(len(q.Piece.Round)).Seconds(); window > 0 && a.Seconds.P95 > window+1e-6 {
				t.Fatalf("over after %v s, the window is %v s", a.Seconds.P95, window)
			}
		}
	})
}

// inOrder checks that a run's steps follow each other and stay in the window.
func inOrder(t *rapid.T, m *sim.Model, q roomful.ForecastRequest) {
	events, _, err := m.Run(q, 0)
	if err != nil {
		t.Fatal(err)
	}
	now, end := 0.0, math.Inf(1)
	if w := q.Piece.Format.Length(len(q.Piece.Round)).Seconds(); w > 0 {
		end = w
	}
	for _, e := range events {
		if e.Start < now-1e-6 || e.End < e.Start-1e-6 || e.End > end+1e-6 || e.Done < 0 {
			t.Fatalf("%+v after %v s, in a window of %v s", e, now, end)
		}
		now = e.End
	}
}

// TestAbilitiesAreDrawn: with 20 % of spread in a maximum, heavy singles spread
// as much: from the 5th to the 95th percentile by e^(2·1.645·0.2) = 1.93 times.
func TestAbilitiesAreDrawn(t *testing.T) {
	task := loaded("heave", 1, 0)
	task.Exists = bars(20, 300, 0.5)
	q := who(person(0.2, nil), ask(roomful.Sets{Build: true}, of(task)))
	q.Runs = 2000
	a := run(t, q).Athletes[0]
	if spread := a.Score.P95 / a.Score.P05; math.Abs(spread/1.93-1) > 0.06 {
		t.Errorf("heavy singles from %v to %v kg, %v times", a.Score.P05, a.Score.P95, spread)
	}
	if math.Abs(a.Score.P50/110-1) > 0.02 {
		t.Errorf("median %v kg, the maximum's is 110", a.Score.P50)
	}
}

// TestLittleKnown: somebody of whom nothing but body mass is known can still be
// forecast.
func TestLittleKnown(t *testing.T) {
	q := who(&roomful.Abilities{MassKg: 75}, ask(roomful.RoundsInTime{Window: minutes(8)}, of(reps("push-up", 10), metres("row", 200), seconds("plank", 20))))
	if a := forecast(t, q); !(a.Score.P50 > 1 && a.Score.P50 < 15) {
		t.Errorf("score %+v", a.Score)
	}
}
