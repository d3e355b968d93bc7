package prior_test

import (
	"testing"
	"time"

	"roomful"
	"roomful/catalogue"
	"roomful/prior"
	"roomful/sim"
)

// moving is few with what a simulation needs.
func moving() toy {
	lex := few()
	for id, m := range map[roomful.MovementID]struct {
		skilled, body float64
		tires         roomful.Muscles
	}{"push-up": {1.05, 0.23, roomful.Push}, "sit-up": {1.3, 0.18, roomful.Trunk}, "burpee": {3.8, 1.05, roomful.Push}} {
		x := lex.Movement(id)
		x.Pace.Skilled, x.Travel.BodyTravelM = m.skilled, m.body
		x.Demand = []roomful.Demand{{Muscles: m.tires, Weight: 1}}
	}
	return append(lex,
		&roomful.Movement{ID: "row", Modality: roomful.Machine, Implement: roomful.RowMachine, Units: []roomful.Unit{roomful.Metre}},
		&roomful.Movement{ID: "run", Modality: roomful.Running, Units: []roomful.Unit{roomful.Metre}})
}

// most is a piece of most repetitions in a time.
func most(id roomful.MovementID, window time.Duration) (roomful.Part, roomful.Task) {
	return roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.AmountInTime{Window: window}, Round: []roomful.Element{{Movement: id}}},
		roomful.Task{Movement: id}
}

// course is a piece of one distance for time.
func course(id roomful.MovementID, metres float64) (roomful.Part, roomful.Task) {
	e := roomful.Element{Movement: id, Amount: roomful.Amount{By: []float64{metres}, Unit: roomful.Metre}}
	return roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.ForTime{Cap: 2 * time.Hour}, Round: []roomful.Element{e}},
		roomful.Task{Movement: id, Amount: metres, Unit: roomful.Metre}
}

// A figure that somebody told, put back into the simulator as the test it came
// from, gives the figure again: the relations here and the model's own rules
// are one. Times within 3 %, totals within 10 %; the prior pulls extremes a
// little. TestWindowsAreTheModelsOwn says what to change when the model moves.
func TestFiguresComeBackFromTheModel(t *testing.T) {
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	model := sim.New(lex)
	pushUps, pushUp := most("push-up", 2*time.Minute)
	sitUps, sitUp := most("sit-up", 2*time.Minute)
	burpees, burpee := most("burpee", 3*time.Minute)
	rowed, row := course("row", 2000)
	ran, run := course("run", 5000)
	for _, c := range []struct {
		test  roomful.Test
		piece roomful.Part
		task  roomful.Task
		told  []float64
		tol   float64
	}{
		{roomful.TestPushUps, pushUps, pushUp, []float64{10, 20, 30, 40, 55, 70, 80}, 0.10},
		{roomful.TestSitUps, sitUps, sitUp, []float64{25, 40, 55, 70, 80}, 0.10},
		{roomful.TestBurpees, burpees, burpee, []float64{20, 30, 40}, 0.10},
		{roomful.TestRow2k, rowed, row, []float64{410, 440, 480, 520, 560}, 0.03},
		{roomful.TestRun5k, ran, run, []float64{1100, 1300, 1500, 1800, 2000}, 0.03},
	} {
		for _, told := range c.told {
			for _, p := range []roomful.Athlete{person(a, 30, 80, 18, kg(c.test, told)), person(b, 30, 65, 18, kg(c.test, told))} {
				got := model.Typical(roomful.ForecastRequest{Piece: c.piece, Runs: 1, Seed: 1, Entrants: []roomful.Entrant{{
					ID: "wren", Name: p.Name, Division: p.Division, Abilities: prior.Of(p, lex, day), Work: roomful.Work{Round: []roomful.Task{c.task}},
				}}})[0]
				near(t, string(c.test)+" of division "+p.Division.String(), got, told, max(c.tol*told, 1.5))
			}
		}
	}
}
