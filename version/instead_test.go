package version_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"roomful"
	"roomful/catalogue"
	"roomful/prior"
	"roomful/sim"
	"roomful/version"
)

// ordinary is a usual member: 35 years, 80 kg, a year and a half of training.
func ordinary() roomful.Athlete {
	return roomful.Athlete{ID: "o", Name: "Oda", Division: roomful.DivisionA, Born: roomful.Date{Year: 1991, Month: 1, Day: 1}, MassKg: 80, Months: months(18)}
}

// askInstead asks with the real catalogue, priors and model.
func askInstead(t *testing.T, of roomful.Element, why roomful.Reason, who roomful.Athlete, kit *roomful.Kit) ([]roomful.StandIn, roomful.Lexicon) {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	on := roomful.Date{Year: 2027, Month: 3, Day: 4}
	got, err := version.Instead(version.InsteadQuestion{Of: of, Reason: why, Person: version.Person{Athlete: who, Abilities: prior.Of(who, lex, on)},
		Kit: kit, Gym: roomful.DefaultGym(), On: on, Seed: 1, Lexicon: lex, Forecaster: sim.New(lex)})
	if err != nil {
		t.Fatal(err)
	}
	return got, lex
}

func amountOf(v float64, u roomful.Unit) roomful.Amount {
	return roomful.Amount{By: []float64{v}, Unit: u}
}

// bodyWords give away that something of somebody's is behind a change.
var bodyWords = []string{"pain", "sore", "hurt", "injur", "pregnan", "back", "knee", "shoulder", "wrist", "hip", "ankle", "elbow", "neck", "belly", "body", "of 10 today"}

// checkBodyless holds that a line says nothing of bodies, the names of movements
// apart.
func checkBodyless(t *testing.T, lex roomful.Lexicon, who, why string) {
	t.Helper()
	var names []string
	for _, m := range lex.All() {
		names = append(names, m.Plural, m.Name)
	}
	slices.SortFunc(names, func(a, b string) int { return len(b) - len(a) })
	rest := why
	for _, n := range names {
		if len(n) > 3 {
			rest = strings.ReplaceAll(rest, n, "it")
		}
	}
	for _, w := range bodyWords {
		if strings.Contains(rest, w) {
			t.Errorf("%s: %q gives away %q", who, why, w)
		}
	}
}

// TestInsteadOfARow exchanges a 450 m row for what the trade takes to be the
// same time for an ordinary member: each within a quarter (common practice, no
// source; charts disagree by more).
func TestInsteadOfARow(t *testing.T) {
	got, _ := askInstead(t, roomful.Element{Movement: "row", Amount: amountOf(450, roomful.Metre)}, roomful.ForNoMachine, ordinary(), nil)
	want := map[roomful.MovementID]float64{"ski": 450, "bike": 900, "run": 400}
	for _, s := range got {
		if n, ok := want[s.Movement]; ok {
			if math.Abs(s.Amount-n) > n/4 || s.Unit != roomful.Metre || s.Basis != roomful.ByTime {
				t.Errorf("%v %s of %s by %s, want %v m within a quarter", s.Amount, s.Unit, s.Movement, s.Basis, n)
			}
			delete(want, s.Movement)
		}
	}
	if len(want) > 0 {
		t.Errorf("not offered: %v", want)
	}
	back, _ := askInstead(t, roomful.Element{Movement: "run", Amount: amountOf(400, roomful.Metre)}, roomful.ForKnee, ordinary(), nil)
	if i := slices.IndexFunc(back, func(s roomful.StandIn) bool { return s.Movement == "ski" }); i < 0 || math.Abs(back[i].Amount-450) > 450.0/4 {
		t.Errorf("400 m run for a knee: %+v", back)
	}
}

// TestInsteadTakesTheSameTime times what stands in for a run by the model itself:
// within a tenth of the run's time, the grain of the amount included.
func TestInsteadTakesTheSameTime(t *testing.T) {
	for _, who := range []roomful.Athlete{{}, ordinary()} {
		got, lex := askInstead(t, roomful.Element{Movement: "run", Amount: amountOf(800, roomful.Metre)}, roomful.ForImpact, who, nil)
		model := sim.New(lex)
		ab := prior.Of(who, lex, roomful.Date{Year: 2027, Month: 3, Day: 4})
		seconds := func(m roomful.MovementID, metres float64) float64 {
			task := roomful.Task{Movement: m, Amount: metres, Unit: roomful.Metre}
			return model.Typical(roomful.ForecastRequest{Piece: roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.ForTime{Rounds: 1},
				Round: []roomful.Element{{Movement: m, Amount: amountOf(metres, roomful.Metre)}}}, Seed: 1,
				Entrants: []roomful.Entrant{{ID: "o", Abilities: ab, Division: who.Division, Work: roomful.Work{Round: []roomful.Task{task}}}}})[0]
		}
		run := seconds("run", 800)
		for _, s := range got {
			if s.Basis != roomful.ByTime || s.Unit != roomful.Metre || lex.Movement(s.Movement).Modality != roomful.Machine {
				continue
			}
			if took := seconds(s.Movement, s.Amount); math.Abs(took-run) > run/10 {
				t.Errorf("%v m of %s take %.0f s, an 800 m run %.0f s", s.Amount, s.Movement, took, run)
			}
		}
	}
}

// TestInsteadLoads takes deadlifts to other loads by hand. 80 kg on a bar is about
// 54 kg in two dumbbells (0.67, common practice): a pair of 25 where there is one.
func TestInsteadLoads(t *testing.T) {
	strong := ordinary()
	strong.Known = []roomful.Known{{Test: roomful.TestDeadlift, Value: 220}}
	kit := &roomful.Kit{Dumbbells: []roomful.Stock{{Mass: roomful.Kg(25), Count: 2}, {Mass: roomful.Kg(30), Count: 2}}}
	got, lex := askInstead(t, roomful.Element{Movement: "deadlift", Amount: amountOf(12, roomful.Rep), Load: roomful.Masses{roomful.Kg(80)}}, roomful.ForNoKit, strong, kit)
	seen := map[roomful.MovementID]roomful.StandIn{}
	for _, s := range got {
		seen[s.Movement] = s
		checkBodyless(t, lex, "Oda", s.Why)
	}
	if s := seen["dumbbell-deadlift"]; !s.Possible || s.Load != roomful.Kg(25) || s.Implements != 2 || s.Amount != 12 || s.Basis != roomful.ByCount {
		t.Errorf("dumbbells: %+v", s)
	}
	if s := seen["backpack-deadlift"]; s.Amount != 18 || s.Basis != roomful.ByLostLoad { // 1.5 times, for a load taken away
		t.Errorf("a backpack: %+v", s)
	}
	if s := seen["kettlebell-deadlift"]; s.Possible || s.Amount != 0 || s.Why != "no kettlebell here" {
		t.Errorf("no kettlebells are owned: %+v", s)
	}
}

// TestInsteadKeepsLimits leaves out what another limit of the person rules out,
// in words that anybody may read, and refuses whoever is sent to a professional.
func TestInsteadKeepsLimits(t *testing.T) {
	who := ordinary()
	who.Limits = []roomful.Limit{{What: "shoulder", Pain: 4}}
	got, lex := askInstead(t, roomful.Element{Movement: "run", Amount: amountOf(400, roomful.Metre)}, roomful.ForKnee, who, nil)
	for _, s := range got {
		checkBodyless(t, lex, who.Name, s.Why)
		if bad := lex.Movement(s.Movement).Loads(roomful.StressShoulder); bad == s.Possible {
			t.Errorf("%s is possible %v: %+v", s.Movement, s.Possible, s)
		}
	}
	who.Limits = []roomful.Limit{{What: "back", Pain: 7}}
	_, err := version.Instead(version.InsteadQuestion{Of: roomful.Element{Movement: "run"}, Person: version.Person{Athlete: who}, Gym: roomful.DefaultGym(), Lexicon: lex, Forecaster: sim.New(lex)})
	if err == nil || !strings.Contains(err.Error(), "see a professional") {
		t.Errorf("pain of 7: %v", err)
	}
}

// TestInsteadOfEverything resolves every swap of the catalogue for a stranger:
// in its order, each with an amount, a load where one is held, and a reason that
// gives nothing away.
func TestInsteadOfEverything(t *testing.T) {
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	model := sim.New(lex)
	for _, m := range lex.All() {
		u := m.Units[0]
		of := roomful.Element{Movement: m.ID, Amount: amountOf(map[roomful.Unit]float64{roomful.Metre: 200, roomful.Second: 40}[u]+12, u)}
		got, err := version.Instead(version.InsteadQuestion{Of: of, Person: version.Person{Abilities: prior.Of(roomful.Athlete{}, lex, roomful.Date{})},
			Gym: roomful.DefaultGym(), Seed: 1, Lexicon: lex, Forecaster: model})
		if err != nil || len(got) != len(m.Swaps) {
			t.Fatalf("%s: %d of %d swaps, %v", m.ID, len(got), len(m.Swaps), err)
		}
		for i, s := range got {
			to := lex.Movement(s.Movement)
			checkBodyless(t, lex, string(m.ID), s.Why)
			switch {
			case s.Movement != m.Swaps[i].To || s.Neighbour != m.Swaps[i].Neighbour:
				t.Errorf("%s: %s stands where %s does in the catalogue", m.ID, s.Movement, m.Swaps[i].To)
			case !s.Possible:
			case s.Amount <= 0 || s.Basis == "" || !slices.Contains(to.Units, s.Unit) || to.TakesLoad() && to.Bound != nil && s.Load.Value <= 0:
				t.Errorf("%s to %+v", m.ID, s)
			case m.Swaps[i].Ratio > 0 && s.Basis != roomful.ByCatalogue && s.Unit == of.Amount.Unit:
				t.Errorf("%s to %s has a ratio and goes by %s", m.ID, s.Movement, s.Basis)
			}
		}
	}
}
