package sim_test

import (
	"context"
	"strconv"
	"testing"
	"time"

	"roomful"
	"roomful/sim"
)

// twenty is a 20-minute piece of 5, 10 and 15 repetitions, about 600 in all.
func twenty(runs int) roomful.ForecastRequest {
	return roomful.ForecastRequest{
		Piece: roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.RoundsInTime{Window: 20 * time.Minute},
			Round: []roomful.Element{{Movement: "pull-up"}, {Movement: "push-up"}, {Movement: "air-squat"}}},
		Entrants: []roomful.Entrant{{ID: "a", Name: "A", Abilities: person(0.1, nil),
			Work: roomful.Work{Round: []roomful.Task{reps("pull-up", 5), reps("push-up", 10), reps("air-squat", 15)}}}},
		Runs: runs, Seed: 1, Workers: 1,
	}
}

// BenchmarkForecast times one athlete on a 20-minute piece on one core; the
// figure of interest is µs/run, and that it does not grow with runs.
func BenchmarkForecast(b *testing.B) {
	m := sim.New(lexicon)
	for _, runs := range []int{256, 1024, 4096} {
		b.Run(strconv.Itoa(runs), func(b *testing.B) {
			q := twenty(runs)
			for b.Loop() {
				if _, err := m.Forecast(context.Background(), q); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/float64(runs), "µs/run")
		})
	}
}

// BenchmarkRowing times a 20-minute piece of 500 m of rowing and twice twelve
// repetitions.
func BenchmarkRowing(b *testing.B) {
	m := sim.New(lexicon)
	q := twenty(1024)
	w := of(metres("row", 500), loaded("thruster", 12, 35), reps("push-up", 12))
	q.Piece.Round, q.Entrants[0].Work = written(w.Round), w
	for b.Loop() {
		if _, err := m.Forecast(context.Background(), q); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/1024, "µs/run")
}

// class is 24 different people in 20 minutes of 500 m of rowing and twice twelve
// repetitions, with twelve rowers.
func class(runs int) roomful.ForecastRequest {
	w := of(metres("row", 500), loaded("thruster", 12, 35), reps("push-up", 12))
	q := roomful.ForecastRequest{
		Piece: roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.RoundsInTime{Window: 20 * time.Minute}, Round: written(w.Round)},
		Kit:   &roomful.Kit{Stations: map[string]int{"row": 12}},
		Runs:  runs, Seed: 1,
	}
	for i := range 24 {
		a := person(0.1, map[roomful.Capacity]float64{roomful.CapVO2max: 36 + float64(i), roomful.OwnMax("push-up"): 15 + 2*float64(i)})
		q.Entrants = append(q.Entrants, roomful.Entrant{ID: strconv.Itoa(100 + i), Name: strconv.Itoa(i), Abilities: a, Work: w})
	}
	return q
}

// BenchmarkClass times that class, on all cores.
func BenchmarkClass(b *testing.B) {
	m := sim.New(lexicon)
	for _, runs := range []int{200, 10000} {
		b.Run(strconv.Itoa(runs), func(b *testing.B) {
			q := class(runs)
			for b.Loop() {
				if _, err := m.Forecast(b.Context(), q); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(24*runs)/1e3, "µs/person-run")
		})
	}
}

// BenchmarkScreen looks at many versions of a 20-minute piece without noise, 40 for each
// of 26 people, as choosing among them does.
func BenchmarkScreen(b *testing.B) {
	m := sim.New(lexicon)
	q := twenty(0)
	q.Workers, q.Entrants = 0, nil
	for i := range 26 {
		a := person(0.1, map[roomful.Capacity]float64{roomful.CapVO2max: 36 + float64(i)})
		for n := range 40 {
			q.Entrants = append(q.Entrants, roomful.Entrant{ID: strconv.Itoa(i), Abilities: a,
				Work: roomful.Work{Round: []roomful.Task{reps("pull-up", 5), reps("push-up", 10), loaded("thruster", 15, 10+float64(n))}}})
		}
	}
	for b.Loop() {
		m.Typical(q)
	}
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(q.Entrants))/1e3, "µs/version")
}
