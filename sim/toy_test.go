package sim_test

import (
	"math"
	"strings"

	"roomful"
)

// toy is a lexicon of movements with round figures, so that splits can be
// worked out by hand: it has no loads, no fatigue and no energy unless a test
// says so.
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
		Bound: &roomful.Bound{Own: id, Share: 1, Curve: 28}, Demand: []roomful.Demand{{Muscles: m, Weight: 1}}}
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
	"squat-two":   body("squat-two", 2),
	"hop":         body("hop", 1),
	"crawl":       body("crawl", 3),
	"pull-up":     owned("pull-up", 1.4, 0.43, roomful.Pull),
	"push-up":     owned("push-up", 1.05, 0.25, roomful.Push),
	"air-squat":   owned("air-squat", 1.2, 0.45, roomful.Squats),
	"thruster":    lifted("thruster", roomful.Thruster, 1.8, 1.1),
	"front-squat": lifted("front-squat", roomful.FrontSquat, 2, 0.5),
	"row":         engine("row", roomful.RowMachine),
	"run":         engine("run", roomful.NoImplement),
	"rest":        {ID: "rest", Modality: roomful.Pause, Units: []roomful.Unit{roomful.Second}},
	"plank":       {ID: "plank", Modality: roomful.Hold, Units: []roomful.Unit{roomful.Second}, Pace: roomful.Pace{Skilled: 1}, Bound: &roomful.Bound{Own: "plank", Share: 1, Curve: 28}, Demand: []roomful.Demand{{Muscles: roomful.Trunk, Weight: 1}}},
}

// person returns abilities with given medians, everything on one log-sd.
func person(sd float64, values map[roomful.Capacity]float64) *roomful.Abilities {
	a := &roomful.Abilities{MassKg: 80}
	base := map[roomful.Capacity]float64{
		roomful.CapVO2max: 48, roomful.CapReserve: 1150, roomful.CapSpeed: 1, roomful.CapPacing: 1,
		roomful.OneRM(roomful.Thruster): 85, roomful.OneRM(roomful.FrontSquat): 110,
		roomful.OwnMax("pull-up"): 15, roomful.OwnMax("push-up"): 40, roomful.OwnMax("air-squat"): 90, roomful.OwnMax("plank"): 120,
	}
	for c, v := range values {
		base[c] = v
	}
	for _, c := range []roomful.Capacity{roomful.CapVO2max, roomful.CapReserve, roomful.CapSpeed, roomful.CapPacing,
		roomful.OneRM(roomful.Thruster), roomful.OneRM(roomful.FrontSquat),
		roomful.OwnMax("pull-up"), roomful.OwnMax("push-up"), roomful.OwnMax("air-squat"), roomful.OwnMax("plank")} {
		a.Dims = append(a.Dims, roomful.Dim{Capacity: c, Centre: math.Log(base[c]), Loads: []roomful.FactorLoad{{Factor: a.Factors, SD: sd}}})
		a.Factors++
	}
	return a
}

// reps, metres and loaded make tasks.
func reps(id roomful.MovementID, n float64) roomful.Task {
	return roomful.Task{Movement: id, Amount: n, Unit: roomful.Rep}
}

func metres(id roomful.MovementID, n float64) roomful.Task {
	return roomful.Task{Movement: id, Amount: n, Unit: roomful.Metre}
}

func loaded(id roomful.MovementID, n, kg float64) roomful.Task {
	return roomful.Task{Movement: id, Amount: n, Unit: roomful.Rep, Load: roomful.Kg(kg), Implements: 1}
}
