package sim_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/sim"
)

// toy is a lexicon of movements with round figures, so that splits can be
// worked out by hand: those made by body have no load, no fatigue and no
// energy.
type toy map[roomful.MovementID]*roomful.Movement

func (t toy) Movement(id roomful.MovementID) *roomful.Movement { return t[id] }
func (t toy) Match(words []string) (*roomful.Movement, int) {
	if m := t[roomful.MovementID(strings.Join(words, "-"))]; m != nil {
		return m, len(words)
	}
	return nil, 0
}
func (t toy) Suggest(string) []*roomful.Movement { return nil }
func (t toy) All() []*roomful.Movement           { return nil }

// body returns a movement of repetitions that takes the given seconds.
func body(id roomful.MovementID, seconds float64) *roomful.Movement {
	return &roomful.Movement{ID: id, Modality: roomful.Body, Units: []roomful.Unit{roomful.Rep}, Pace: roomful.Pace{Skilled: seconds}}
}

// on returns a movement that needs something.
func on(need string, m *roomful.Movement) *roomful.Movement {
	m.Needs = []string{need}
	return m
}

// lifted returns a barbell movement bounded by a lift, one muscle group.
func lifted(id roomful.MovementID, lift roomful.Lift, seconds, travel float64) *roomful.Movement {
	return &roomful.Movement{ID: id, Modality: roomful.Loaded, Implement: roomful.Barbell, Units: []roomful.Unit{roomful.Rep},
		Pace: roomful.Pace{Skilled: seconds}, Travel: roomful.Travel{LoadTravelM: travel},
		Bound: &roomful.Bound{Lift: lift, Share: 1, Curve: 38}, Demand: []roomful.Demand{{Muscles: roomful.Squats, Weight: 1}}}
}

// owned returns a body-weight movement bounded by its own maximum.
func owned(id roomful.MovementID, seconds, rise float64, m roomful.Muscles) *roomful.Movement {
	return &roomful.Movement{ID: id, Modality: roomful.Body, Units: []roomful.Unit{roomful.Rep},
		Pace: roomful.Pace{Skilled: seconds}, Travel: roomful.Travel{BodyTravelM: rise},
		Bound: &roomful.Bound{Own: id, Share: 1, Curve: 28, Most: [2]float64{30, 12}}, Demand: []roomful.Demand{{Muscles: m, Weight: 1}}}
}

// engine returns a machine or, without an implement, running.
func engine(id roomful.MovementID, im roomful.Implement) *roomful.Movement {
	mod := roomful.Machine
	if im == roomful.NoImplement {
		mod = roomful.Running
	}
	return &roomful.Movement{ID: id, Modality: mod, Implement: im, Units: []roomful.Unit{roomful.Metre, roomful.Calorie}}
}

// lexicon holds what the tests use.
var lexicon = toy{
	"squat-two": body("squat-two", 2),
	"hop":       body("hop", 1),
	"crawl":     body("crawl", 3),
	"box-two":   on("box", body("box-two", 2)),
	"pull-up":   owned("pull-up", 1.4, 0.43, roomful.Pull),
	"push-up":   owned("push-up", 1.05, 0.25, roomful.Push),
	"air-squat": owned("air-squat", 1.2, 0.45, roomful.Squats),
	"dip":       owned("dip", 2, 0, roomful.Push), // tires, but costs no energy
	"climb":     {ID: "climb", Modality: roomful.Body, Units: []roomful.Unit{roomful.Rep}, Pace: roomful.Pace{Skilled: 2}, Travel: roomful.Travel{JoulesPerKg: 50}},
	"thruster":  lifted("thruster", roomful.Thruster, 1.8, 1.1),
	"press-two": {ID: "press-two", Modality: roomful.Loaded, Implement: roomful.Barbell, Units: []roomful.Unit{roomful.Rep}, Pace: roomful.Pace{Skilled: 2}},
	"heave": {ID: "heave", Modality: roomful.Loaded, Implement: roomful.Barbell, Units: []roomful.Unit{roomful.Rep}, Pace: roomful.Pace{Skilled: 2},
		Bound: &roomful.Bound{Lift: roomful.FrontSquat, Share: 1, Curve: 38}}, // heavy, but tires nobody
	"front-squat": lifted("front-squat", roomful.FrontSquat, 2, 0.5),
	"row":         engine("row", roomful.RowMachine),
	"ski":         engine("ski", roomful.SkiMachine),
	"bike":        engine("bike", roomful.Bike),
	"run":         engine("run", roomful.NoImplement),
	"rest":        {ID: "rest", Modality: roomful.Pause, Units: []roomful.Unit{roomful.Second}},
	"stretch":     {ID: "stretch", Modality: roomful.Easy, Units: []roomful.Unit{roomful.Second}, Pace: roomful.Pace{Skilled: 4}},
	"hang":        {ID: "hang", Modality: roomful.Hold, Units: []roomful.Unit{roomful.Second}, Pace: roomful.Pace{Skilled: 1}},
	"walk-loaded": {ID: "walk-loaded", Modality: roomful.Carrying, Implement: roomful.Dumbbell, Units: []roomful.Unit{roomful.Metre}, Pace: roomful.Pace{Skilled: 0.8}},
	"lunge":       {ID: "lunge", Modality: roomful.Body, Units: []roomful.Unit{roomful.Rep, roomful.Metre}, StrideM: 0.8, Pace: roomful.Pace{Skilled: 2}},
	"rope":        {ID: "rope", Modality: roomful.Body, Units: []roomful.Unit{roomful.Rep}, Pace: roomful.Pace{Skilled: 0.5}, Skill: roomful.Skill{Trips: true}},
	"plank": {ID: "plank", Modality: roomful.Hold, Units: []roomful.Unit{roomful.Second}, Pace: roomful.Pace{Skilled: 1},
		Bound: &roomful.Bound{Own: "plank", Share: 1, Curve: 28}, Demand: []roomful.Demand{{Muscles: roomful.Trunk, Weight: 1}}},
}

// medians are those of the ordinary person of these tests.
var medians = []struct {
	capacity roomful.Capacity
	value    float64
}{
	{roomful.CapVO2max, 48}, {roomful.CapReserve, 1150}, {roomful.CapSpeed, 1}, {roomful.CapPacing, 1},
	{roomful.OneRM(roomful.Thruster), 85}, {roomful.OneRM(roomful.FrontSquat), 110},
	{roomful.OwnMax("pull-up"), 15}, {roomful.OwnMax("push-up"), 40}, {roomful.OwnMax("air-squat"), 90},
	{roomful.OwnMax("plank"), 120}, {roomful.OwnMax("dip"), 20}, {roomful.CapRecovery, 1},
}

// person returns abilities with given medians, everything on one log-sd.
func person(sd float64, values map[roomful.Capacity]float64) *roomful.Abilities {
	a := &roomful.Abilities{MassKg: 80}
	for _, m := range medians {
		v := m.value
		if given, ok := values[m.capacity]; ok {
			v = given
		}
		a.Dims = append(a.Dims, roomful.Dim{Capacity: m.capacity, Centre: math.Log(v), Loads: []roomful.FactorLoad{{Factor: a.Factors, SD: sd}}})
		a.Factors++
	}
	return a
}

// with is a person of fixed abilities who differs in one of them.
func with(c roomful.Capacity, v float64) *roomful.Abilities {
	return person(0, map[roomful.Capacity]float64{c: v})
}

// reps, metres, calories, seconds, open and loaded make tasks.
func reps(id roomful.MovementID, n float64) roomful.Task {
	return roomful.Task{Movement: id, Amount: n, Unit: roomful.Rep}
}

func metres(id roomful.MovementID, n float64) roomful.Task {
	return roomful.Task{Movement: id, Amount: n, Unit: roomful.Metre}
}

func calories(id roomful.MovementID, n float64) roomful.Task {
	return roomful.Task{Movement: id, Amount: n, Unit: roomful.Calorie}
}

func seconds(id roomful.MovementID, n float64) roomful.Task {
	return roomful.Task{Movement: id, Amount: n, Unit: roomful.Second}
}

func open(id roomful.MovementID) roomful.Task { return reps(id, 0) }

func loaded(id roomful.MovementID, n, kg float64) roomful.Task {
	return roomful.Task{Movement: id, Amount: n, Unit: roomful.Rep, Load: roomful.Kg(kg), Implements: 1}
}

// slot puts a task on a slot of an alternating piece.
func slot(n int, t roomful.Task) roomful.Task {
	t.Slot = n
	return t
}

// of is a round's work.
func of(tasks ...roomful.Task) roomful.Work { return roomful.Work{Round: tasks} }

// written returns the elements behind tasks, as a sheet would have them.
func written(tasks []roomful.Task) (es []roomful.Element) {
	for _, t := range tasks {
		e := roomful.Element{Movement: t.Movement, Slot: t.Slot, Amount: roomful.Amount{Unit: t.Unit}}
		if t.Amount > 0 {
			e.Amount.By = []float64{t.Amount}
		}
		es = append(es, e)
	}
	return es
}

// ask returns a request to forecast one person of fixed, ordinary abilities.
func ask(f roomful.Format, w roomful.Work) roomful.ForecastRequest {
	return roomful.ForecastRequest{
		Piece: roomful.Part{Kind: roomful.Main, Scored: true, Format: f,
			Once: written(w.Once), Round: written(w.Round), Last: written(w.Last)},
		Entrants: []roomful.Entrant{{ID: "a", Name: "A", Abilities: person(0, nil), Work: w}},
		Runs:     256, Seed: 7, Workers: 1,
	}
}

// by sets the rule of a request's score.
func by(rule string, q roomful.ForecastRequest) roomful.ForecastRequest {
	q.Piece.ScoreBy = rule
	return q
}

// who replaces a request's person.
func who(a *roomful.Abilities, q roomful.ForecastRequest) roomful.ForecastRequest {
	q.Entrants = append([]roomful.Entrant(nil), q.Entrants...)
	q.Entrants[0].Abilities = a
	return q
}

// team makes a request one for partners of the given abilities.
func team(style roomful.TeamStyle, q roomful.ForecastRequest, as ...*roomful.Abilities) roomful.ForecastRequest {
	q.Piece.Team = roomful.Team{Size: len(as), Style: style}
	w := q.Entrants[0].Work
	q.Entrants = nil
	for i, a := range as {
		id := string(rune('a' + i))
		q.Entrants = append(q.Entrants, roomful.Entrant{ID: id, Name: strings.ToUpper(id), Abilities: a, Work: w})
	}
	return q
}

// forecast runs a request with the default constants and returns the first
// person's answer.
func forecast(t *testing.T, q roomful.ForecastRequest) roomful.AthleteForecast {
	t.Helper()
	f, err := sim.New(lexicon).Forecast(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	return f.Athletes[0]
}

// steady is forecast without a day's or a set's noise, with the constants of
// the hand-made tables.
func steady(t *testing.T, q roomful.ForecastRequest) roomful.AthleteForecast {
	t.Helper()
	c := handConstants()
	c.DayOxygen, c.GymEndurance, c.GymTempo, c.SetSpread, c.BreakSpread = 0, 0, 0, 0, 0
	q.Runs = 3
	f, err := sim.NewWith(lexicon, c).Forecast(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	return f.Athletes[0]
}

// typical returns the first person's score without noise.
func typical(q roomful.ForecastRequest) float64 { return sim.New(lexicon).Typical(q)[0] }

// handConstants are the constants of every split table worked out by hand, so
// that tuning the model leaves the tables alone. Nobody breaks a set by
// choice, and pacing by intent is off in pieces of a minute.
func handConstants() sim.Constants {
	c := sim.Defaults()
	c.TauFast, c.TauSlow = 22, 380
	c.LocalFast, c.SlowGrowth = 25, 0 // local fatigue has one part only
	c.OxygenRun, c.OxygenLift = 25, 35
	c.PhiRun, c.PhiMachine, c.PhiLift = 0.95, 0.88, 0.74
	c.SlowLoad, c.SlowLocal, c.SlowReserve = 1.2, 0.4, 0.2
	c.Sprint, c.SpendTo, c.MachineShare = 60, 0.95, 0.6
	c.BreakBase, c.BreakLocal, c.BreakReserve = -40, 0, 0
	c.BreakSeconds, c.BreakGrowth, c.BreakSpread = 2.5, 0.4, 0.4
	c.Fragment, c.TripFatigue, c.TripSeconds, c.Transition = 0.12, 0, 3, 2.5
	c.PaceCare = math.Sqrt(0.5) // 1 - PaceCare·sqrt(120/60) = 0
	c.RunJoules, c.RowShare, c.RunReserve = 4.18, 0.19, 0.8
	return c
}

// splits checks a run without noise against a table of
//
//	start end movement done
//
// in seconds and the task's unit, and its score. A row of "break" is a rest
// inside a step; breaks are compared only when the table has some.
func splits(t *testing.T, q roomful.ForecastRequest, table string, score float64) {
	t.Helper()
	splitsTo(t, q, table, score, 1e-6)
}

// splitsTo is splits to a tolerance, for tables of less exact figures.
func splitsTo(t *testing.T, q roomful.ForecastRequest, table string, score, tolerance float64) {
	t.Helper()
	events, got, err := sim.NewWith(lexicon, handConstants()).Trace(q, strings.Contains(table, "break"))
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, e := range events {
		name := string(e.Movement)
		if e.Break {
			name = "break"
		}
		lines = append(lines, fmt.Sprintf("%.6f %.6f %s %.6f", e.Start, e.End, name, e.Done))
	}
	var want []string
	for _, line := range strings.Split(strings.TrimSpace(table), "\n") {
		var start, end, done float64
		var name string
		if _, err := fmt.Sscan(line, &start, &end, &name, &done); err != nil {
			t.Fatalf("reading the table's %q: %v", line, err)
		}
		want = append(want, fmt.Sprintf("%.6f %.6f %s %.6f", start, end, name, done))
	}
	for i := range max(len(lines), len(want)) {
		switch {
		case i >= len(lines):
			t.Errorf("missing: %s", want[i])
		case i >= len(want):
			t.Errorf("beyond the table: %s", lines[i])
		case !near(lines[i], want[i], tolerance):
			t.Errorf("row %d: got %s, by hand %s", i+1, lines[i], want[i])
		}
	}
	if math.Abs(got-score) > tolerance {
		t.Errorf("score %.6f, by hand %.6f", got, score)
	}
}

// near reports whether two rows agree.
func near(a, b string, tolerance float64) bool {
	var x, y [3]float64
	var n, m string
	fmt.Sscan(a, &x[0], &x[1], &n, &x[2])
	fmt.Sscan(b, &y[0], &y[1], &m, &y[2])
	for i := range x {
		if math.Abs(x[i]-y[i]) > tolerance+1e-6 { // rows have six decimals
			return false
		}
	}
	return n == m
}

// minutes and secs are lengths of time.
func minutes(n float64) time.Duration { return time.Duration(n * float64(time.Minute)) }
func secs(n float64) time.Duration    { return time.Duration(n * float64(time.Second)) }

// average returns the mean of scores.
func average(v []float64) float64 {
	var s float64
	for _, x := range v {
		s += x
	}
	return s / float64(len(v))
}
