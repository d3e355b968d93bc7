package version_test

import (
	"testing"

	"roomful"
	"roomful/version"
)

// TestWhoseRatio goes down the order: what the sheet states, the gym's ratio,
// the catalogue's, the same time for the person. The toy runs and rides at one
// speed, and a ring row takes about as long as a pull-up.
func TestWhoseRatio(t *testing.T) {
	bare := &roomful.Kit{Rings: 6, Stations: map[string]int{"lane": 1, "bike": 1}} // no bar to hang from, no rower
	chart := roomful.Ratios{"pull-up": {"ring-row": 1.5, "towel-row": 2}, "row": {"run": 0.8, "bike": 2}}
	instead := func(of roomful.MovementID, e roomful.Element) []roomful.Instead {
		return []roomful.Instead{{Movement: of, Options: []roomful.Element{e}}}
	}
	sore := []roomful.Limit{{What: "back", Pain: 4}}
	for _, c := range []struct {
		name   string
		asked  roomful.Element
		offers []roomful.Instead
		ratios roomful.Ratios
		limits []roomful.Limit
		kit    *roomful.Kit
		does   roomful.MovementID
		amount float64
	}{
		{"the sheet's own figure", reps("pull-up", 12, nil), instead("pull-up", reps("ring-row", 20, nil)), chart, nil, bare, "ring-row", 20},
		{"the gym's, for what the sheet offers", reps("pull-up", 12, nil), instead("pull-up", roomful.Element{Movement: "ring-row"}), chart, nil, bare, "ring-row", 18},
		{"the gym's before the catalogue's", reps("pull-up", 12, nil), nil, chart, nil, &roomful.Kit{}, "towel-row", 24},
		{"the catalogue's", reps("pull-up", 12, nil), nil, nil, nil, &roomful.Kit{}, "towel-row", 12},
		{"the gym's, in metres", metres("row", 500), instead("row", roomful.Element{Movement: "run"}), chart, nil, bare, "run", 400},
		{"the same time", metres("row", 500), instead("row", roomful.Element{Movement: "run"}), nil, nil, bare, "run", 500},
		{"calories go by calories", roomful.Element{Movement: "row", Amount: amountOf(20, roomful.Calorie)}, instead("row", roomful.Element{Movement: "bike"}), chart, nil, bare, "bike", 20},
		{"a sore back rides the whole distance", metres("row", 500), nil, chart, sore, nil, "bike", 1000},
		{"and does no more than half as many again", reps("front-squat", 10, nil), nil,
			roomful.Ratios{"front-squat": {"air-squat": 3, "goblet-squat": 3}}, sore, &roomful.Kit{}, "air-squat", 15},
	} {
		t.Run(c.name, func(t *testing.T) {
			y, g := newToy(), roomful.DefaultGym()
			g.Ratios = c.ratios
			who := version.Person{Athlete: roomful.Athlete{ID: "o", Name: "Oda", Division: roomful.DivisionA, Limits: c.limits,
				Skills: []roomful.SkillLevel{{Movement: "pull-up", Level: roomful.SolidSkill}}}, Abilities: able(100, 150, 15, 40)}
			l, err := version.Propose(t.Context(), version.Request{
				Piece:  roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.ForTime{Rounds: 1}, Round: []roomful.Element{c.asked}, Instead: c.offers},
				People: []version.Person{who}, Kit: c.kit, Gym: g, Seed: 1, Lexicon: y.lex, Forecaster: y})
			if err != nil {
				t.Fatal(err)
			}
			if got := l.Versions[0].Choices[0].Task; got.Movement != c.does || got.Amount != c.amount {
				t.Errorf("%v %s of %s, want %v of %s", got.Amount, got.Unit, got.Movement, c.amount, c.does)
			}
		})
	}
}
