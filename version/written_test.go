package version_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/version"
)

// TestAsWritten reads single lines for one person: front squat 100 kg, deadlift
// 150 kg, 75 kg of body mass. The toy's maximum for n repetitions is
// 1RM / (1 + (n − 1)/30).
func TestAsWritten(t *testing.T) {
	home := &roomful.Kit{Home: true, Bars: []roomful.Stock{{Mass: roomful.Kg(20), Count: 1}},
		Plates: []roomful.Stock{{Mass: roomful.Kg(10), Count: 2}, {Mass: roomful.Kg(5), Count: 2}}}
	build := roomful.Sets{Count: 5, Build: true}
	for _, c := range []struct {
		name     string
		element  roomful.Element
		division roomful.Division
		format   roomful.Format
		kit      *roomful.Kit
		want     roomful.Task
	}{
		{name: "the first figure of a pair", division: roomful.DivisionA,
			element: reps("front-squat", 9, roomful.Masses{roomful.Kg(60), roomful.Kg(42.5)}),
			want:    roomful.Task{Movement: "front-squat", Amount: 9, Load: roomful.Kg(60)}},
		{name: "the second figure for anybody else",
			element: reps("front-squat", 9, roomful.Masses{roomful.Kg(60), roomful.Kg(42.5)}),
			want:    roomful.Task{Movement: "front-squat", Amount: 9, Load: roomful.Kg(42.5)}},
		{name: "a stated mass stays even between the usual steps", division: roomful.DivisionA,
			element: reps("front-squat", 9, roomful.Masses{roomful.Kg(43)}),
			want:    roomful.Task{Movement: "front-squat", Amount: 9, Load: roomful.Kg(43)}},
		{name: "pounds stay pounds", division: roomful.DivisionA,
			element: reps("front-squat", 9, roomful.Masses{roomful.Lb(95)}),
			want:    roomful.Task{Movement: "front-squat", Amount: 9, Load: roomful.Lb(95)}},
		{name: "a kit has what it has: 20, 30, 40 and 50 kg", division: roomful.DivisionA, kit: home,
			element: reps("front-squat", 9, roomful.Masses{roomful.Kg(43)}),
			want:    roomful.Task{Movement: "front-squat", Amount: 9, Load: roomful.Kg(40)}},
		{name: "of two equally near the lighter", division: roomful.DivisionA, kit: home,
			element: reps("front-squat", 9, roomful.Masses{roomful.Kg(45)}),
			want:    roomful.Task{Movement: "front-squat", Amount: 9, Load: roomful.Kg(40)}},
		{name: "a share of the maximum", division: roomful.DivisionA,
			element: reps("front-squat", 5, roomful.Percent(75)),
			want:    roomful.Task{Movement: "front-squat", Amount: 5, Load: roomful.Kg(75), Percent: 75}},
		{name: "a share between two loads is rounded down on a tie: 71.25", division: roomful.DivisionA,
			element: reps("front-squat", 5, roomful.Percent(71.25)),
			want:    roomful.Task{Movement: "front-squat", Amount: 5, Load: roomful.Kg(70), Percent: 71.25}},
		{name: "and up when that is nearer: 72", division: roomful.DivisionA,
			element: reps("front-squat", 5, roomful.Percent(72)),
			want:    roomful.Task{Movement: "front-squat", Amount: 5, Load: roomful.Kg(72.5), Percent: 72}},
		{name: "three quarters of 75 kg is 56.25", division: roomful.DivisionA,
			element: reps("deadlift", 5, roomful.BodyFraction{0.75}),
			want:    roomful.Task{Movement: "deadlift", Amount: 5, Load: roomful.Kg(55)}},
		{name: "fresh 12: 100/(1 + 11/30) = 73.2, down", division: roomful.DivisionA,
			element: reps("front-squat", 9, roomful.Fresh(12)),
			want:    roomful.Task{Movement: "front-squat", Amount: 9, Load: roomful.Kg(72.5), Fresh: 12}},
		{name: "five at RPE 8 leave two: N = 7, 100/1.2 = 83.3, down", division: roomful.DivisionA,
			element: reps("front-squat", 5, roomful.RPE(8)),
			want:    roomful.Task{Movement: "front-squat", Amount: 5, Load: roomful.Kg(82.5), RPE: 8}},
		{name: "own choice is moderate, 12 or more", division: roomful.DivisionA,
			element: reps("deadlift", 10, nil),
			want:    roomful.Task{Movement: "deadlift", Amount: 10, Load: roomful.Kg(107.5)}},
		{name: "own choice follows a fresh rule", division: roomful.DivisionA,
			element: reps("kettlebell-swing", 10, nil), // 75/(1 + 20/30) = 45
			want:    roomful.Task{Movement: "kettlebell-swing", Amount: 10, Load: roomful.Kg(40)}},
		{name: "building finds its load on the day", division: roomful.DivisionA, format: build,
			element: reps("front-squat", 3, nil),
			want:    roomful.Task{Movement: "front-squat", Amount: 3}},
		{name: "metres are kept in metres", division: roomful.DivisionA,
			element: roomful.Element{Movement: "run", Amount: roomful.Amount{By: []float64{0.4}, Unit: roomful.Kilometre}},
			want:    roomful.Task{Movement: "run", Amount: 400, Unit: roomful.Metre}},
		{name: "no amount is as much as the window allows", division: roomful.DivisionA,
			element: roomful.Element{Movement: "row"},
			want:    roomful.Task{Movement: "row", Unit: roomful.Metre}},
		{name: "the usual box of division a", division: roomful.DivisionA,
			element: reps("box-jump", 10, nil), want: roomful.Task{Movement: "box-jump", Amount: 10, HeightCm: 60}},
		{name: "and of anybody else",
			element: reps("box-jump", 10, nil), want: roomful.Task{Movement: "box-jump", Amount: 10, HeightCm: 50}},
		{name: "a stated box, in inches", division: roomful.DivisionA,
			element: roomful.Element{Movement: "box-jump", Amount: roomful.Amount{By: []float64{10}}, Heights: []roomful.Length{{Value: 20, Unit: roomful.Inch}}},
			want:    roomful.Task{Movement: "box-jump", Amount: 10, HeightCm: 50.8}},
		{name: "what nobody knows keeps its figures", division: roomful.DivisionA,
			element: reps("heron-walk", 10, roomful.Masses{roomful.Kg(10)}),
			want:    roomful.Task{Movement: "heron-walk", Amount: 10, Load: roomful.Kg(10)}},
	} {
		t.Run(c.name, func(t *testing.T) {
			y := newToy()
			part := roomful.Part{Kind: roomful.Main, Format: roomful.ForTime{Rounds: 1}, Round: []roomful.Element{c.element}}
			if c.format != nil {
				part.Format = c.format
			}
			got := version.AsWritten(version.Question{Part: part, Kit: c.kit, Gym: roomful.DefaultGym(),
				Effort:    roomful.Effort{Fresh: []roomful.FreshRule{{Movement: "kettlebell-swing", Reps: 21}}},
				Athlete:   roomful.Athlete{Name: "Ines", Division: c.division},
				Abilities: able(100, 150, 10, 45), Lexicon: y.lex, Forecaster: y})
			if diff := cmp.Diff(roomful.Work{Round: []roomful.Task{c.want}}, got); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}

// TestAsWrittenKnowsNothing reads loads that rest on a maximum for somebody of
// whom nothing is believed.
func TestAsWrittenKnowsNothing(t *testing.T) {
	y := newToy()
	got := version.AsWritten(version.Question{Lexicon: y.lex, Forecaster: y, Gym: roomful.DefaultGym(),
		Part: roomful.Part{Round: []roomful.Element{reps("front-squat", 5, roomful.Percent(75)), reps("front-squat", 5, roomful.RPE(8))}}})
	for _, task := range got.Round {
		if task.Load.Value != 0 {
			t.Errorf("a load out of nothing: %v", task.Load)
		}
	}
}
