package prior_test

import (
	"math"
	"slices"
	"testing"

	"roomful"
	"roomful/catalogue"
	"roomful/prior"
	"roomful/sim"
)

// richer is a lexicon with one movement more, ahead of all others.
type richer struct{ roomful.Lexicon }

func (r richer) All() []*roomful.Movement {
	m := *r.Lexicon.Movement("double-under")
	m.ID, m.Name = "aardvark-hop", "aardvark hop"
	m.Bound = &roomful.Bound{Own: m.ID, Share: 1, Most: [2]float64{20, 20}}
	return append([]*roomful.Movement{&m}, r.Lexicon.All()...)
}

// TestNewMovement: a movement that the catalogue learns changes nobody's luck, so
// that old forecasts stand.
func TestNewMovement(t *testing.T) {
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	on := roomful.Date{Year: 2027, Month: 3, Day: 4}
	q := roomful.ForecastRequest{
		Piece: roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.ForTime{Rounds: 3},
			Round: []roomful.Element{{Movement: "pull-up"}, {Movement: "thruster"}, {Movement: "double-under"}}},
		Runs: 64, Seed: 3, Workers: 1,
	}
	of := func(lex roomful.Lexicon) []float64 {
		who := roomful.Athlete{ID: "a", Name: "Ada", Division: roomful.DivisionB}
		q.Entrants = []roomful.Entrant{{ID: "a", Name: "Ada", Division: who.Division, Abilities: prior.Of(who, lex, on), Work: roomful.Work{Round: []roomful.Task{
			{Movement: "pull-up", Amount: 5}, {Movement: "thruster", Amount: 8, Load: roomful.Kg(25)}, {Movement: "double-under", Amount: 20}}}}}
		f, err := sim.New(lex).Forecast(t.Context(), q)
		if err != nil {
			t.Fatal(err)
		}
		return f.Athletes[0].Scores
	}
	same := func(x, y float64) bool { return x == y || math.IsNaN(x) && math.IsNaN(y) }
	if !slices.EqualFunc(of(lex), of(richer{lex}), same) {
		t.Error("one movement more in the catalogue, and other scores")
	}
}
