package sim_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"roomful"
	"roomful/sim"
)

// anything is a request out of few enough that the same crews come again, each time with
// something else changed.
func anything(t *rapid.T) roomful.ForecastRequest {
	oneOf := func(what string, n int) int { return rapid.IntRange(0, n-1).Draw(t, what) }
	q := roomful.ForecastRequest{Seed: uint64(oneOf("seed", 2)), Workers: 1 + oneOf("workers", 2), Keep: true}
	q.Piece = roomful.Part{Kind: roomful.Main, Scored: true, Round: written(of(reps("pull-up", 5), reps("push-up", 10)).Round), Format: []roomful.Format{
		roomful.RoundsInTime{Window: 6 * time.Minute}, roomful.RoundsInTime{Window: 7 * time.Minute},
		roomful.ForTime{Rounds: 4, Cap: 9 * time.Minute}, roomful.Every{Interval: time.Minute, Count: 6},
	}[oneOf("format", 4)]}
	if oneOf("team", 4) == 0 {
		q.Piece.Team = roomful.Team{Size: 2, Style: []roomful.TeamStyle{roomful.Shared, roomful.Alternating}[oneOf("style", 2)]}
	}
	q.Piece.ScoreBy = []string{"", "", "reps", "lowest"}[oneOf("score", 4)]
	if oneOf("effort", 2) == 0 {
		q.Effort = roomful.Effort{Low: 3, High: 5, Unit: "rounds"}
	}
	if oneOf("lead", 3) == 0 {
		q.Lead = []roomful.Part{{Kind: roomful.Main, Scored: true, Letter: "a", Format: roomful.RoundsInTime{Window: time.Duration(1+oneOf("before", 2)) * time.Minute}, Round: written(of(reps("burpee", 5)).Round)}}
	}
	for i := range 1 + oneOf("people", 3) {
		e := roomful.Entrant{ID: fmt.Sprint(i), Name: fmt.Sprint("Person ", i), Abilities: person(0.1, map[roomful.Capacity]float64{roomful.CapVO2max: 40 + float64(oneOf("oxygen", 2))}),
			Work: of(reps("pull-up", float64(4+oneOf("pulls", 3))), reps("push-up", 10))}
		if oneOf("loaded", 3) == 0 {
			e.Work.Round[1] = loaded("thruster", 10, 30+10*float64(oneOf("kg", 2)))
		}
		for range q.Lead {
			e.Lead = append(e.Lead, of(reps("burpee", float64(4+oneOf("burpees", 2)))))
		}
		switch oneOf("otherwise", 8) {
		case 0:
			e.Wait = time.Minute
		case 1:
			e.Dose = roomful.Dose{StopAt: 4 * time.Minute, Rounds: 3, Say: "less today"}
		case 2:
			if q.Piece.Team.Size > 1 {
				break // partners change together
			}
			e.Segments = []roomful.Segment{{From: 2 * time.Minute, Work: of(reps("pull-up", 2), reps("push-up", 5))}}
		case 3:
			e.Division = []roomful.Division{roomful.DivisionA, roomful.DivisionB}[oneOf("division", 2)]
			e.Abilities.Dims = slices.DeleteFunc(e.Abilities.Dims, func(d roomful.Dim) bool { return d.Capacity == roomful.OwnMax("pull-up") })
		case 4:
			e.Abilities.MassKg = 60
		}
		q.Entrants = append(q.Entrants, e)
	}
	return q
}

// nearly changes one thing of a request.
func nearly(t *rapid.T, q *roomful.ForecastRequest) {
	q.Entrants = slices.Clone(q.Entrants)
	e := &q.Entrants[0]
	switch rapid.IntRange(0, 9).Draw(t, "change") {
	case 0:
		e.ID += "'"
	case 1:
		e.Division = (e.Division + 1) % 3
	case 2:
		e.Wait += time.Second
	case 3:
		e.Dose.StopAt += 3 * time.Minute
	case 4:
		for i := range e.Lead {
			e.Lead = slices.Clone(e.Lead)
			e.Lead[i] = of(reps("burpee", e.Lead[i].Round[0].Amount+1))
		}
	case 5:
		e.Work = of(e.Work.Round[0], reps("push-up", e.Work.Round[1].Amount+1))
	case 6:
		a := *e.Abilities
		a.Dims = slices.Clone(a.Dims)
		a.Dims[0].Centre += 0.1
		e.Abilities = &a
	case 7:
		a := *e.Abilities
		n := rapid.IntRange(0, 3).Draw(t, "named")
		a.Keys = make([]string, a.Factors)
		for i := range a.Keys {
			a.Keys[i] = fmt.Sprint("factor ", i, n)
		}
		e.Abilities = &a
	case 8:
		q.Seed++
	}
}

// TestKept asks a model that remembers the same and nearly the same again and again: what
// it answers is to the bit what a model answers that was never asked before.
func TestKept(t *testing.T) {
	m := sim.New(lexicon)
	rapid.Check(t, func(t *rapid.T) {
		q := anything(t)
		for n := range 4 {
			if n > 0 {
				nearly(t, &q)
			}
			q.Runs = rapid.SampledFrom([]int{1, 7, 16, 40, 96, 256, 300, 600}).Draw(t, "runs")
			fresh := q
			fresh.Keep = false
			got, err := m.Forecast(context.Background(), q)
			want, wrong := sim.New(lexicon).Forecast(context.Background(), fresh)
			if diff := cmp.Diff(want, got, cmpopts.EquateNaNs()); diff != "" || fmt.Sprint(err) != fmt.Sprint(wrong) {
				t.Fatalf("kept is not fresh (%v, %v):\n%s", err, wrong, diff)
			}
			if diff := cmp.Diff(sim.New(lexicon).Typical(fresh), m.Typical(q), cmpopts.EquateNaNs()); diff != "" {
				t.Fatalf("a kept score is not a fresh one:\n%s", diff)
			}
		}
	})
}

// TestKeptSpares counts the steps of a second answer by its time alone: what was made is not
// made again, and more runs cost no more than what is added.
func TestKeptSpares(t *testing.T) {
	m, q := sim.New(lexicon), twenty(4096)
	took := func(keep bool) time.Duration {
		q.Keep = keep
		least := time.Duration(math.MaxInt64)
		for range 3 {
			began := time.Now()
			if _, err := m.Forecast(t.Context(), q); err != nil {
				t.Fatal(err)
			}
			least = min(least, time.Since(began))
		}
		return least
	}
	fresh, kept := took(false), took(true)
	if kept > fresh/4 {
		t.Errorf("asked again it takes %v of %v", kept, fresh)
	}
}
