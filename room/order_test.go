package room

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"roomful"
	"roomful/catalogue"
	"roomful/prior"
	"roomful/sim"
)

// paced is a forecaster by whom everybody takes their own time, and a heat as long as
// its slowest.
type paced struct {
	roomful.Forecaster
	seconds map[string]float64
}

func (p paced) Forecast(_ context.Context, q roomful.ForecastRequest) (roomful.Forecast, error) {
	f := roomful.Forecast{Kind: roomful.TimeScore}
	for _, e := range q.Entrants {
		s := p.seconds[e.ID]
		f.Athletes = append(f.Athletes, roomful.AthleteForecast{Name: e.Name, Score: roomful.Quantiles{P50: s}})
		f.Over.P95 = max(f.Over.P95, s)
	}
	return f, nil
}

// assignments calls back with every way to put n people into groups of given sizes.
func assignments(sizes []int, n int, each func(group []int)) {
	group := make([]int, n)
	left := append([]int{}, sizes...)
	var put func(i int)
	put = func(i int) {
		if i == n {
			each(group)
			return
		}
		for g := range left {
			if left[g] > 0 {
				left[g]--
				group[i] = g
				put(i + 1)
				left[g]++
			}
		}
	}
	put(0)
}

// TestHeatsBrute compares heats of the quickest together with every other way to put
// up to six people into two or three heats: none is shorter in all.
func TestHeatsBrute(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	part := roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.ForTime{Rounds: 3}}
	for range 200 {
		n, heats := 2+r.IntN(5), 2+r.IntN(2)
		f := paced{seconds: map[string]float64{}}
		p := Piece{Part: part}
		for i := range n {
			id := string(rune('a' + i))
			f.seconds[id] = float64(300 + r.IntN(600))
			p.Entrants = append(p.Entrants, roomful.Entrant{ID: id, Name: id})
		}
		h := &house{Request: Request{Forecaster: f}}
		all, _ := f.Forecast(t.Context(), roomful.ForecastRequest{Entrants: p.Entrants})
		a := together
		a.heats = heats
		got, err := h.try(t.Context(), p, a.ordered(quickest(p, all), "the quickest together"))
		if err != nil {
			t.Fatal(err)
		}
		var sizes []int
		for k := range heats {
			sizes = append(sizes, len(share(p.Entrants, k, heats, 1)))
		}
		least := time.Duration(math.MaxInt64)
		assignments(sizes, n, func(group []int) {
			slowest := make([]float64, heats)
			for i, g := range group {
				slowest[g] = max(slowest[g], f.seconds[p.Entrants[i].ID])
			}
			whole := time.Duration(0) // of lengths as a coach says them
			for _, s := range slowest {
				whole += (seconds(s) + half - 1).Truncate(half)
			}
			least = min(least, whole)
		})
		over := time.Duration(0)
		for _, one := range got.heat {
			over += one.length
		}
		if over != least {
			t.Errorf("%d people in %d heats: %s, and %s is possible", n, heats, over, least)
		}
	}
}

// sixPeople of different fitness do rounds of some tasks for twelve minutes.
func sixPeople(lex *catalogue.Catalogue, round ...roomful.Task) Piece {
	p := Piece{Part: roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.RoundsInTime{Window: 12 * time.Minute}}}
	for _, t := range round {
		p.Round = append(p.Round, roomful.Element{Movement: t.Movement})
	}
	for i := range 6 {
		who := roomful.Athlete{ID: string(rune('a' + i)), Division: roomful.DivisionA, Known: []roomful.Known{{Test: roomful.TestVO2max, Value: 34 + 5*float64(i*i%6)}}}
		p.Entrants = append(p.Entrants, roomful.Entrant{ID: who.ID, Name: who.ID, Abilities: prior.Of(who, lex, roomful.Date{Year: 2027}), Work: roomful.Work{Round: round}})
	}
	return p
}

// TestWavesBrute lays the three orders of a second wave beside every way to send
// three of six people later, all simulated with the same random numbers: the best of
// them leaves at most a tenth more waiting than the best way there is, or 2 s.
func TestWavesBrute(t *testing.T) {
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	p := sixPeople(lex, roomful.Task{Movement: "row", Amount: 400, Unit: roomful.Metre}, roomful.Task{Movement: "burpee", Amount: 10, Unit: roomful.Rep})
	h := &house{Request: Request{Forecaster: sim.New(lex), Lexicon: lex, Kit: &roomful.Kit{Stations: map[string]int{"row": 3}}, Seed: 1, Runs: 48}}
	all, err := h.Forecaster.Forecast(t.Context(), h.request(p))
	if err != nil {
		t.Fatal(err)
	}
	a := together
	a.waves, a.gap = 2, 45*time.Second
	wait := func(order []int) time.Duration {
		o, err := h.try(t.Context(), p, a.ordered(order, ""))
		if err != nil {
			t.Fatal(err)
		}
		return o.wait
	}
	ours := min(wait(nil), wait(quickest(p, all)), wait(backwards(quickest(p, all))))
	least, tried := time.Duration(math.MaxInt64), 0
	assignments([]int{3, 3}, 6, func(group []int) {
		var order []int
		for wave := range 2 {
			for i, g := range group {
				if g == wave {
					order = append(order, i)
				}
			}
		}
		least, tried = min(least, wait(order)), tried+1
	})
	t.Logf("%d ways: %s of waiting each at best, %s with the three orders", tried, least, ours)
	if tried != 20 || ours > least+max(least/10, 2*time.Second) {
		t.Errorf("%d ways: %s of waiting each at best, %s with the three orders", tried, least, ours)
	}
}

// TestTurnsBrute lays the groups that start at different elements beside every way to
// have each of six people start at one of three elements, all simulated with the same
// random numbers: the best group leaves at most a tenth more waiting than the best way
// there is, or 2 s.
func TestTurnsBrute(t *testing.T) {
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	rep := func(id roomful.MovementID, n float64) roomful.Task {
		return roomful.Task{Movement: id, Amount: n, Unit: roomful.Rep}
	}
	for rowers := 2; rowers <= 3; rowers++ {
		p := sixPeople(lex, roomful.Task{Movement: "row", Amount: 300, Unit: roomful.Metre}, rep("burpee", 12), rep("air-squat", 40))
		h := &house{Request: Request{Forecaster: sim.New(lex), Lexicon: lex, Kit: &roomful.Kit{Stations: map[string]int{"row": rowers}}, Seed: 1, Runs: 16}}
		all, err := h.Forecaster.Forecast(t.Context(), h.request(p))
		if err != nil {
			t.Fatal(err)
		}
		ours := time.Duration(math.MaxInt64)
		for _, a := range h.turnsOf(p, all, together, quickest(p, all)) {
			o, err := h.try(t.Context(), p, a)
			if err != nil {
				t.Fatal(err)
			}
			ours = min(ours, o.wait)
		}
		least, tried := time.Duration(math.MaxInt64), 0
		for code := range 3 * 3 * 3 * 3 * 3 * 3 {
			one := p
			one.Entrants = slices.Clone(p.Entrants)
			for i, rest := 0, code; i < 6; i, rest = i+1, rest/3 {
				one.Entrants[i].Work.Round = turned(p.Entrants[i].Work.Round, rest%3)
			}
			o, err := h.try(t.Context(), one, together)
			if err != nil {
				t.Fatal(err)
			}
			least, tried = min(least, o.wait), tried+1
		}
		t.Logf("%d rowers, %d ways: %s of waiting each at best, %s with ours", rowers, tried, least, ours)
		if ours > least+max(least/10, 2*time.Second) {
			t.Errorf("%d rowers, %d ways: %s of waiting each at best, %s with ours", rowers, tried, least, ours)
		}
	}
}
