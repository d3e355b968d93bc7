package room

import (
	"math"
	"testing"
	"time"

	"roomful"
	"roomful/catalogue"
	"roomful/prior"
	"roomful/sim"
)

// short asks for a piece that eight people do with so many rowers.
func short(t *testing.T, f roomful.Format, rowers int, round ...roomful.Task) (*house, Piece) {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	p := Piece{Part: roomful.Part{Kind: roomful.Main, Scored: true, Format: f}}
	for _, task := range round {
		p.Round = append(p.Round, roomful.Element{Movement: task.Movement})
	}
	for i := range 8 {
		who := roomful.Athlete{ID: string(rune('a' + i)), Division: roomful.DivisionA, Known: []roomful.Known{{Test: roomful.TestVO2max, Value: 45}}}
		p.Entrants = append(p.Entrants, roomful.Entrant{ID: who.ID, Name: who.ID,
			Abilities: prior.Of(who, lex, roomful.Date{Year: 2027}), Work: roomful.Work{Round: round}})
	}
	h, err := newHouse(t.Context(), Request{Forecaster: sim.New(lex), Lexicon: lex, Pieces: []Piece{p}, Seed: 1, Runs: 48,
		Kit: &roomful.Kit{Stations: map[string]int{"row": rowers}}})
	if err != nil {
		t.Fatal(err)
	}
	return h, p
}

// row and burpees are what is done.
func row(calories float64, slot int) roomful.Task {
	return roomful.Task{Movement: "row", Amount: calories, Unit: roomful.Calorie, Slot: slot}
}
func burpees(n float64, slot int) roomful.Task {
	return roomful.Task{Movement: "burpee", Amount: n, Unit: roomful.Rep, Slot: slot}
}

// loadOf is what is asked of the rowers.
func loadOf(t *testing.T, h *house, p Piece) float64 {
	t.Helper()
	uses, err := h.uses(t.Context(), p)
	if err != nil || len(uses) != 1 || uses[0].Word != "row" {
		t.Fatalf("%+v, %v", uses, err)
	}
	return uses[0].Load
}

// TestLoad: what is asked of a place counts the clock and the rests of a piece, in
// which nobody needs it. What one person takes each time, alone in the room, is what
// the sums are made of.
func TestLoad(t *testing.T) {
	minute := time.Minute
	for _, c := range []struct {
		name   string
		format roomful.Format
		rowers int
		round  []roomful.Task
		want   func(each float64) float64
	}{
		{"three slots on the minute: every 3 min", roomful.Every{Interval: minute, Count: 15}, 2,
			[]roomful.Task{row(10, 1), burpees(5, 2), burpees(5, 3)}, func(each float64) float64 { return 8 * each / (2 * 180) }},
		{"on the minute alone", roomful.Every{Interval: minute, Count: 15}, 3,
			[]roomful.Task{row(10, 0)}, func(each float64) float64 { return 8 * each / (3 * 60) }},
		{"5 bouts with 2 min of rest, none after the last", roomful.Intervals{Count: 5, Rest: 2 * minute}, 3,
			[]roomful.Task{row(10, 0)}, func(each float64) float64 { return 8 * 5 * each / (3 * (5*each + 4*120)) }},
		{"nothing but rowing: all want one all the time", roomful.ForTime{Rounds: 1}, 4,
			[]roomful.Task{row(60, 0)}, func(float64) float64 { return 2 }},
		{"as far as you can in 3 min", roomful.AmountInTime{Window: 3 * minute}, 4,
			[]roomful.Task{row(0, 0)}, func(float64) float64 { return 2 }},
	} {
		h, p := short(t, c.format, c.rowers, c.round...)
		one := p
		one.Entrants = p.Entrants[:1]
		alone, err := h.Forecaster.Forecast(t.Context(), h.request(one))
		if err != nil {
			t.Fatal(err)
		}
		want := c.want(alone.Athletes[0].Elements[0].Seconds)
		if got := loadOf(t, h, p); math.Abs(got-want) > 0.05*want {
			t.Errorf("%s: %.2f, want %.2f", c.name, got, want)
		}
	}
}

// TestLoadClaim: where the load is above 1 no arrangement without more time leaves
// nobody waiting, and where little is asked some do: the claim is neither made in vain
// nor always.
func TestLoadClaim(t *testing.T) {
	seen := map[bool]int{}
	for rowers := 1; rowers <= 4; rowers++ {
		h, p := short(t, roomful.RoundsInTime{Window: 10 * time.Minute}, rowers, row(10, 0), burpees(8, 0), burpees(8, 0))
		over := loadOf(t, h, p) > 1
		seen[over]++
		least := h.goes[p.Name()].wait
		all, err := h.candidates(t.Context(), p, h.goes[p.Name()].forecast())
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range all {
			if a.heats > 1 || a.waves > 1 {
				continue // take more time
			}
			o, err := h.try(t.Context(), p, a)
			if err != nil {
				t.Fatal(err)
			}
			least = min(least, o.wait)
		}
		if over && least < smallWait {
			t.Errorf("%d rowers: a load above 1, and yet each waits %v", rowers, least)
		}
	}
	if seen[true] == 0 || seen[false] == 0 {
		t.Errorf("above 1 or not: %v", seen)
	}
}

// TestLeaveNobody: a place that nobody needs in the piece itself, as one of the piece
// before it, has nobody to leave it.
func TestLeaveNobody(t *testing.T) {
	h, p := short(t, roomful.RoundsInTime{Window: 10 * time.Minute}, 2, row(10, 0), burpees(8, 0))
	h.Else = func(string, roomful.Task) []roomful.Choice { return nil }
	if got, err := h.leavers(t.Context(), p, "ski"); err != nil || len(got) > 0 {
		t.Errorf("%v leave the ski machines, %v", got, err)
	}
}
