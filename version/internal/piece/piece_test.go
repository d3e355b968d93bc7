package piece_test

import (
	"testing"

	"roomful"
	"roomful/version/internal/piece"
)

// words is a lexicon by id.
type words map[roomful.MovementID]*roomful.Movement

func (w words) Movement(id roomful.MovementID) *roomful.Movement { return w[id] }
func (w words) Match([]string) (*roomful.Movement, int)          { return nil, 0 }
func (w words) Suggest(string) []*roomful.Movement               { return nil }
func (w words) All() []*roomful.Movement                         { return nil }

func lexicon() words {
	squat, hinge := []roomful.Pattern{roomful.Squat}, []roomful.Pattern{roomful.Hinge}
	return words{
		"squat": {ID: "squat", Plural: "squats", Patterns: squat, Implement: roomful.Barbell, Modality: roomful.Loaded, Easier: []roomful.MovementID{"goblet"},
			Swaps: []roomful.Swap{{To: "goblet", Ratio: 1.5}}},
		"goblet": {ID: "goblet", Plural: "goblets", Patterns: squat, Implement: roomful.Kettlebell, Modality: roomful.Loaded},
		"sit":    {ID: "sit", Plural: "sits", Patterns: squat},
		"swing":  {ID: "swing", Plural: "swings", Patterns: hinge, Implement: roomful.Kettlebell, Modality: roomful.Loaded},
	}
}

// TestOrder holds the order in which a coach lets go: load before repetitions
// before height before a simpler form before another movement of the same
// pattern, and the pattern last (common practice, no source).
func TestOrder(t *testing.T) {
	lex := lexicon()
	p := roomful.Part{Round: []roomful.Element{{Movement: "squat", Amount: roomful.Amount{By: []float64{10}}}}}
	c := &piece.Cost{Lines: piece.Lines(p, lex), Lexicon: lex}
	w := roomful.Task{Movement: "squat", Amount: 10, Load: roomful.Kg(60), HeightCm: 50}
	change := func(f func(*roomful.Task)) float64 {
		task := w
		f(&task)
		return c.Change([]roomful.Task{w}, []roomful.Task{task})
	}
	order := []float64{
		change(func(*roomful.Task) {}),
		change(func(t *roomful.Task) { t.Load = roomful.Kg(55) }),
		change(func(t *roomful.Task) { t.Load = roomful.Kg(30) }),
		change(func(t *roomful.Task) { t.Amount = 8 }),
		change(func(t *roomful.Task) { t.Amount = 5 }),
		change(func(t *roomful.Task) { t.HeightCm = 40 }),
		change(func(t *roomful.Task) { t.Movement = "goblet" }),
		change(func(t *roomful.Task) { t.Movement = "sit" }),
		change(func(t *roomful.Task) { t.Movement = "swing" }),
	}
	for i := range order[1:] {
		if order[i] >= order[i+1] || order[0] != 0 {
			t.Errorf("step %d: %v", i, order)
		}
	}
	c.Protect = "load"
	lighter := change(func(t *roomful.Task) { t.Load = roomful.Kg(55) })
	aside := change(func(t *roomful.Task) { t.Movement, t.Load = "goblet", roomful.Kg(24) })
	heavier := change(func(t *roomful.Task) { t.Load = roomful.Kg(65) })
	if lighter < order[5] || aside < lighter || heavier > order[3] {
		t.Errorf("a protected load: lighter %v, with something lighter %v, heavier %v", lighter, aside, heavier)
	}
}

// TestEasier takes the catalogue's ratio for an easier form, and one for one
// without.
func TestEasier(t *testing.T) {
	lex := lexicon()
	l := piece.Lines(roomful.Part{Round: []roomful.Element{{Movement: "squat"}}}, lex)[0]
	if f := l.Easier(lex["squat"], lex["goblet"]); f.Ratio != 1.5 {
		t.Errorf("ratio %v", f.Ratio)
	}
	if f := l.Easier(lex["squat"], lex["sit"]); f.Ratio != 1 {
		t.Errorf("ratio %v", f.Ratio)
	}
}

// TestReadInTheOtherUnit: a sheet in pounds and inches is as written in a room of
// kilograms where the nearest load or box reads as it; a step off is a change.
func TestReadInTheOtherUnit(t *testing.T) {
	task := func(m roomful.Mass, cm float64) roomful.Task {
		return roomful.Task{Movement: "hang-power-clean", Amount: 15, Load: m, HeightCm: cm}
	}
	for _, c := range []struct {
		w, t roomful.Task
		same bool
	}{
		{task(roomful.Lb(65), 0), task(roomful.Kg(30), 0), true},
		{task(roomful.Lb(95), 0), task(roomful.Kg(42.5), 0), true},
		{task(roomful.Lb(95), 0), task(roomful.Kg(40), 0), false},
		{task(roomful.Kg(42.5), 0), task(roomful.Kg(42), 0), false}, // one unit is exact
		{task(roomful.Mass{}, 60.96), task(roomful.Mass{}, 60), true},
		{task(roomful.Mass{}, 60.96), task(roomful.Mass{}, 50), false},
	} {
		if got := piece.Same(c.w, c.t); got != c.same {
			t.Errorf("%s and %s, %v and %v cm: same %v", c.w.Load, c.t.Load, c.w.HeightCm, c.t.HeightCm, got)
		}
		if got := piece.Easier(c.w, c.t); got == c.same {
			t.Errorf("%s for %s, %v for %v cm: easier %v", c.t.Load, c.w.Load, c.t.HeightCm, c.w.HeightCm, got)
		}
	}
}
