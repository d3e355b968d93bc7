package room_test

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/catalogue"
	"roomful/notation"
	"roomful/room"
	"roomful/sim"
)

// lexicon is the catalogue.
var lexicon = func() *catalogue.Catalogue {
	c, err := catalogue.Load()
	if err != nil {
		panic(err)
	}
	return c
}()

// slow is a forecaster by whom every piece is over after so many seconds, and
// nobody waits.
type slow float64

func (s slow) Forecast(_ context.Context, q roomful.ForecastRequest) (roomful.Forecast, error) {
	f := roomful.Forecast{Over: roomful.Quantiles{P05: float64(s) / 2, P50: float64(s), P95: float64(s)}}
	for _, e := range q.Entrants {
		f.Athletes = append(f.Athletes, roomful.AthleteForecast{Name: e.Name})
	}
	return f, nil
}
func (slow) Typical(roomful.ForecastRequest) []float64                 { return nil }
func (slow) Unbroken(*roomful.Abilities, roomful.Task) float64         { return 0 }
func (slow) LoadFor(*roomful.Abilities, roomful.Task, float64) float64 { return 0 }

// ask reads a sheet and asks for its hour with some people.
func ask(t testing.TB, sheet string, people int, f roomful.Forecaster) room.Request {
	t.Helper()
	s, ds := notation.Read(sheet, lexicon)
	for _, d := range ds {
		if d.Severity == roomful.Fault {
			t.Fatalf("%s: %s", d.Summary, sheet)
		}
	}
	q := room.Request{Session: s, Gym: roomful.DefaultGym(), Lexicon: lexicon, Forecaster: f, Seed: 1, Workers: 1}
	for _, p := range s.Parts {
		if !p.Scored {
			continue
		}
		piece := room.Piece{Part: p, Lead: s.Lead(p)}
		for i := range people {
			piece.Entrants = append(piece.Entrants, entrant(i, p))
		}
		q.Pieces = append(q.Pieces, piece)
	}
	return q
}

// entrant is somebody who does a piece as written for division a.
func entrant(i int, p roomful.Part) roomful.Entrant {
	tasks := func(es []roomful.Element) (out []roomful.Task) {
		for _, e := range es {
			t := roomful.Task{Movement: e.Movement, Amount: e.Amount.For(roomful.DivisionA), Unit: e.Amount.Unit, Slot: e.Slot}
			if m, ok := e.Load.(roomful.Masses); ok {
				t.Load, t.Implements = m.For(roomful.DivisionA), max(1, e.Implements)
			}
			out = append(out, t)
		}
		return out
	}
	return roomful.Entrant{ID: fmt.Sprintf("p%02d", i), Name: fmt.Sprintf("P%d", i), Abilities: &roomful.Abilities{MassKg: 75},
		Work: roomful.Work{Once: tasks(p.Once), Round: tasks(p.Round), Last: tasks(p.Last)}}
}

// lines writes the lines of an hour, start and what.
func lines(h roomful.Hour) string {
	var b strings.Builder
	for _, l := range h.Lines {
		fmt.Fprintf(&b, "%s %s\n", roomful.Clock(l.Start.Seconds()), l.What)
	}
	fmt.Fprintf(&b, "%s end", roomful.Clock(h.Ends().Seconds()))
	return b.String()
}

const plain = `Plain
2027-03-04, 60 min
warm-up: 2 rounds, 30 s each
  easy row
  air squat
  push-up
  inchworm
ramp: front squat to working load, 8 min
main: as many rounds as possible in 14 min
  9 front squats 60/42.5 kg
  12 pull-ups
mobility: 6 min
  couch stretch 60 s a side
`

// TestPlan: with the usual settings, briefing 4 min for up to four movements;
// warm-up 2·4·30 s = 4 min; ramp 8; water 2; main 14; scores 3; mobility 6; the
// bars 1 and the room 3: 45 min in all.
func TestPlan(t *testing.T) {
	h, err := room.Plan(t.Context(), ask(t, plain, 3, slow(500)))
	if err != nil {
		t.Fatal(err)
	}
	want := `0:00 briefing
4:00 warm-up
8:00 ramp front squat
16:00 set up, water
18:00 main: rounds-in-time
32:00 scores
35:00 mobility
41:00 reset the room
45:00 end`
	if got := lines(h); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if !h.Fits() || len(h.Fixes) > 0 {
		t.Errorf("fits %v, fixes %v", h.Fits(), h.Fixes)
	}
}

// TestPlanFillsIn: what the sheet leaves out has the gym's usual length; a piece
// for time lasts until the last is done, at most to its cap; a second piece has
// words and a changeover before it, and one on the same clock has none.
func TestPlanFillsIn(t *testing.T) {
	for _, c := range []struct{ name, sheet, want string }{
		{"bare", "main: 5 rounds for time\n  10 push-ups\n", `0:00 briefing
4:00 warm-up
12:00 set up, water
14:00 main: for-time
20:30 scores
23:30 mobility
28:30 reset the room
31:30 end`},
		{"cap", "main: 5 rounds for time, cap 6 min\n  10 push-ups\nmobility: 4 min\n  couch stretch\n", `0:00 briefing
4:00 warm-up
12:00 set up, water
14:00 main: for-time
20:00 scores
23:00 mobility
27:00 reset the room
30:00 end`},
		{"bars", "strength: 5 x 5 back squats @ 75%, every 3 min\nmain: as many rounds as possible in 10 min\n  10 push-ups\n  10 sit-ups\n", `0:00 briefing
4:00 warm-up
12:00 set up, water
14:00 load the bars
16:00 strength: sets
31:00 change over and brief main
35:00 main: rounds-in-time
45:00 scores
48:00 mobility
53:00 reset the room
57:00 end`},
	} {
		h, err := room.Plan(t.Context(), ask(t, c.sheet, 2, slow(370)))
		if err != nil {
			t.Fatal(err)
		}
		if got := lines(h); got != c.want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}

// TestHeats: two heats of fourteen minutes with two between them.
func TestHeats(t *testing.T) {
	q := ask(t, plain, 5, slow(500))
	q.Heats = 2
	h, err := room.Plan(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	if want := 45*time.Minute + 16*time.Minute; h.Ends() != want || h.Fits() {
		t.Errorf("ends at %v, want %v; fits %v", h.Ends(), want, h.Fits())
	}
	if len(h.Heats) != 2 || h.Heats[1].Start != 34*time.Minute || len(h.Heats[0].People)+len(h.Heats[1].People) != 5 {
		t.Errorf("heats %+v", h.Heats)
	}
}

// TestTooLong: 61 minutes for 60: each cut that gives the minute back is offered,
// and the briefing and the ramp are in none.
func TestTooLong(t *testing.T) {
	q := ask(t, plain, 5, slow(500))
	q.Heats = 2
	h, err := room.Plan(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, f := range h.Fixes {
		got = append(got, f.What)
		if f.Costs != -time.Minute {
			t.Errorf("%s gives %v", f.What, f.Costs)
		}
	}
	for _, want := range []string{"main: 13:30 instead of 14 min", "scores: 2 min, the rest by message", "mobility: 5 min instead of 6 min"} {
		if !slices.Contains(got, want) {
			t.Errorf("no %q among %q", want, got)
		}
	}
}

// TestLate: seven minutes behind at minute 24. The plan has minute 17 then, the
// water before the piece, which ends at 18 + 7 = 25. The hour would end at 52, so
// nothing is cut; in a class of 45 minutes seven go: a warm-up is over, and the
// piece comes down to its least, 14·0.6 = 8.4, so 8 min, gives 6; scores give 1.
func TestLate(t *testing.T) {
	q := ask(t, plain, 3, slow(500))
	behind := room.Behind{By: 7 * time.Minute, At: 24 * time.Minute}
	h, err := room.Late(t.Context(), q, behind)
	if err != nil {
		t.Fatal(err)
	}
	if h.Ends() != 52*time.Minute || len(h.Dropped) > 0 {
		t.Errorf("ends at %v, cut %q", h.Ends(), h.Dropped)
	}
	over := room.Behind{By: 7 * time.Minute, At: 99 * time.Minute}
	if _, err := room.Late(t.Context(), q, over); err == nil || !strings.Contains(err.Error(), "minute 99") {
		t.Errorf("late at minute 99 of 60: %v", err)
	}
	q.Session.Minutes = 45
	if h, err = room.Late(t.Context(), q, behind); err != nil {
		t.Fatal(err)
	}
	want := `0:00 briefing
4:00 warm-up
8:00 ramp front squat
16:00 set up, water
25:00 main: 8 min
33:00 scores
35:00 mobility
41:00 reset the room
45:00 end`
	if got := lines(h); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if want := []string{"main: 8 min instead of 14 min", "scores: 2 min, the rest by message"}; !slices.Equal(h.Dropped, want) {
		t.Errorf("cut %q, want %q", h.Dropped, want)
	}
}

// TestLateOrder: with ever less time, cuts come in order, and the briefing and the
// ramp keep their length to the last.
func TestLateOrder(t *testing.T) {
	sheet := "x\n2027-03-04, 60 min\nramp: back squat, 8 min\nstrength: 7 x 3 back squats @ 80%, every 2 min\nmain: 5 rounds for time, cap 12 min\n  10 push-ups\nmobility: 5 min\n  couch stretch\n"
	q := ask(t, sheet, 2, slow(2000))
	last := 0
	for _, by := range []time.Duration{1, 3, 6, 9, 12, 14} {
		h, err := room.Late(t.Context(), q, room.Behind{By: by * time.Minute, At: by*time.Minute + 5*time.Minute})
		if err != nil {
			t.Fatal(err)
		}
		if len(h.Dropped) < last {
			t.Errorf("%d min late: cut only %q", by, h.Dropped)
		}
		last = len(h.Dropped)
		if h.NoMore != (h.Ends() > h.Length) || h.NoMore && last < 5 {
			t.Errorf("%d min late: ends at %v, nothing more to cut: %v of %q", by, h.Ends(), h.NoMore, h.Dropped)
		}
		for i, part := range []string{"warm-up", "strength", "main", "scores", "mobility"}[:last] {
			if !strings.HasPrefix(h.Dropped[i], part) {
				t.Errorf("%d min late: cut %q, want %s at %d", by, h.Dropped, part, i+1)
			}
		}
		for _, l := range h.Lines {
			if l.Kind == roomful.HourRamp && l.Length() != 8*time.Minute {
				t.Errorf("the ramp lasts %v", l.Length())
			}
		}
	}
	if last < 4 {
		t.Errorf("14 min late cuts only %d things", last)
	}
}

const rowing = `Rowing
2027-03-04, 60 min
main: as many rounds as possible in 20 min
  500 m row
  12 push-ups
  12 air squats
`

// TestOneShort is a machine short: thirteen came and there are twelve rowers. What
// is offered first costs the clock nothing and touches few.
func TestOneShort(t *testing.T) {
	q := ask(t, rowing, 13, sim.New(lexicon))
	for i := range q.Pieces[0].Entrants {
		q.Pieces[0].Entrants[i].Abilities = able(i)
	}
	q.Kit = &roomful.Kit{Stations: map[string]int{"row": 9, "bike": 2}}
	q.Else = func(string, roomful.Task) []roomful.Choice {
		return []roomful.Choice{{Task: roomful.Task{Movement: "bike", Amount: 1000, Unit: roomful.Metre}}}
	}
	h, err := room.Plan(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	if len(h.Short) != 1 || h.Short[0].What != "row" || h.Short[0].Have != 9 || h.Short[0].Need != 13 {
		t.Fatalf("short %+v", h.Short)
	}
	if len(h.Fixes) == 0 || len(h.Fixes) > 6 {
		t.Fatalf("%d fixes", len(h.Fixes))
	}
	for i, f := range h.Fixes {
		if f.Say == "" || f.What == "" || f.Why == "" || len(f.Touches) == 0 {
			t.Errorf("fix without words: %+v", f)
		}
		if i > 0 && max(0, f.Costs) < max(0, h.Fixes[i-1].Costs) {
			t.Errorf("%q stands behind %q and is cheaper", f.What, h.Fixes[i-1].What)
		}
	}
	if h.Fixes[0].Costs > 0 {
		t.Errorf("first is %q, which costs %v", h.Fixes[0].What, h.Fixes[0].Costs)
	}
	again, err := room.Plan(t.Context(), q)
	if err != nil || fmt.Sprint(again) != fmt.Sprint(h) {
		t.Errorf("the same request gives another hour: %v", err)
	}
}

// TestUntold: where nobody has said what there is, nothing is missing.
func TestUntold(t *testing.T) {
	q := ask(t, rowing, 3, sim.New(lexicon))
	for i := range q.Pieces[0].Entrants {
		q.Pieces[0].Entrants[i].Abilities = able(i)
	}
	q.Kit = nil
	h, err := room.Plan(t.Context(), q)
	if err != nil || len(h.Short) > 0 {
		t.Errorf("short %+v, %v", h.Short, err)
	}
	q.Kit = &roomful.Kit{}
	if h, err = room.Plan(t.Context(), q); err != nil || len(h.Short) != 1 || h.Short[0].Have != 0 {
		t.Errorf("in an empty room %+v is short, %v", h.Short, err)
	}
}

// able is somebody of ordinary fitness, a little fitter with each number.
func able(i int) *roomful.Abilities {
	a := &roomful.Abilities{MassKg: 75}
	for _, m := range []struct {
		c roomful.Capacity
		v float64
	}{{roomful.CapVO2max, 38 + float64(i)}, {roomful.CapReserve, 1100}, {roomful.CapSpeed, 1}, {roomful.CapPacing, 1},
		{roomful.OwnMax("push-up"), 30}, {roomful.OwnMax("air-squat"), 80}} {
		a.Dims = append(a.Dims, roomful.Dim{Capacity: m.c, Centre: math.Log(m.v), Loads: []roomful.FactorLoad{{Factor: a.Factors, SD: 0.08}}})
		a.Factors++
	}
	return a
}

// TestNoOrderHelps: with two rowers for twelve, more is asked of them than they can
// give: the load is above 1.
func TestNoOrderHelps(t *testing.T) {
	q := ask(t, rowing, 12, sim.New(lexicon))
	for i := range q.Pieces[0].Entrants {
		q.Pieces[0].Entrants[i].Abilities = able(i)
	}
	for _, c := range []struct {
		rowers int
		over   bool
	}{{2, true}, {11, false}} {
		q.Kit = &roomful.Kit{Stations: map[string]int{"row": c.rowers}}
		h, err := room.Plan(t.Context(), q)
		if err != nil {
			t.Fatal(err)
		}
		if len(h.Places) != 1 || h.Places[0].Load > 1 != c.over {
			t.Errorf("%d rowers: %+v", c.rowers, h.Places)
		}
	}
}
