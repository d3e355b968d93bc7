package prior_test

import (
	"errors"
	"math"
	"testing"

	"roomful"
	"roomful/catalogue"
	"roomful/equation"
	"roomful/prior"
	"roomful/sim"
)

// lifter is somebody of whom no figure is known, with the real catalogue and model.
func lifter(t *testing.T) (*roomful.Abilities, *catalogue.Catalogue, *sim.Model) {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	return prior.Of(person(roomful.DivisionB, 34, 65, 18), lex, day), lex, sim.New(lex)
}

// with is belief after a set that must be taken.
func with(t *testing.T, a *roomful.Abilities, s roomful.KnownSet, lex *catalogue.Catalogue, f *sim.Model) *roomful.Abilities {
	t.Helper()
	out, err := prior.WithSet(a, s, lex.Movement(s.Movement), f)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestWithSet: a set moves what is possible so often nearly to its load. Between
// people of a kind loads differ by a log-sd of 0.16 or so, a remembered set errs by
// 0.05, so nine tenths of the way: 0.16² / (0.16² + 0.05²) = 0.91. A set read off a
// score errs by 0.10: 0.72 of the way. A longer set says less of the maximum.
func TestWithSet(t *testing.T) {
	a, lex, f := lifter(t)
	fives := roomful.KnownSet{Movement: "front-squat", Reps: 5, Load: roomful.Kg(50)}
	task := roomful.Task{Movement: "front-squat", Amount: 5, Unit: roomful.Rep}
	before := math.Log(f.LoadFor(a, task, 5))
	way := func(ab *roomful.Abilities) float64 {
		return (math.Log(f.LoadFor(ab, task, 5)) - before) / (math.Log(50) - before)
	}
	told := with(t, a, fives, lex, f)
	within(t, "the way to a remembered set", way(told), 0.87, 0.96)
	scored := fives
	scored.From = "Wet Felt, 2027-03-01"
	read := with(t, a, scored, lex, f)
	within(t, "the way to a set read off a score", way(read), 0.62, way(told)-0.05)
	one := roomful.OneRM(roomful.FrontSquat)
	if d := read.Dims[read.Index(one)]; len(d.Informed) != 1 || d.Informed[0] != scored.From {
		t.Errorf("the maximum rests on %q, want the score", d.Informed)
	}
	if d := told.Dims[told.Index(one)]; len(d.Informed) != 1 || d.Informed[0] != "5 x 50 kg" {
		t.Errorf("the maximum rests on %q, want the set", d.Informed)
	}
	if now := math.Log(f.LoadFor(a, task, 5)); now != before || len(a.Dims[a.Index(one)].Informed) > 0 {
		t.Error("what was believed before has changed too")
	}
	if d := with(t, a, roomful.KnownSet{Movement: "deadlift", Reps: 30, Load: roomful.Kg(40)}, lex, f).Dims[a.Index(roomful.OneRM(roomful.Deadlift))]; len(d.Informed) != 1 {
		t.Errorf("after thirty deadlifts the maximum rests on %q", d.Informed)
	}
	twenties := with(t, a, roomful.KnownSet{Movement: "front-squat", Reps: 20, Load: roomful.Kg(36)}, lex, f)
	if long, short := twenties.SD(one), told.SD(one); !(long > short*1.2) {
		t.Errorf("after twenty the maximum is known to %.3f, after five to %.3f", long, short)
	}
}

// TestWithSetAmongLaws: the maximum behind a set is one that the published laws would
// give, to 5 % beyond their own spread, up to ten repetitions.
func TestWithSetAmongLaws(t *testing.T) {
	a, _, f := lifter(t)
	for _, id := range []roomful.MovementID{"back-squat", "front-squat", "deadlift", "bench-press", "press", "power-clean"} {
		task := roomful.Task{Movement: id, Amount: 1, Unit: roomful.Rep}
		one := f.LoadFor(a, task, 1)
		for reps := 2.0; reps <= 10; reps++ {
			low, high := math.Inf(1), 0.0
			for _, l := range equation.RepLaws() {
				low, high = min(low, l.OneRM(1, reps)), max(high, l.OneRM(1, reps))
			}
			if got := one / f.LoadFor(a, task, reps); got < low*0.95 || got > high*1.05 {
				t.Errorf("%s: a set of %g at 1 kg makes a maximum of %.3f kg, the laws %.3f to %.3f", id, reps, got, low, high)
			}
		}
	}
}

// TestWithSetRefuses what cannot be believed or says nothing.
func TestWithSetRefuses(t *testing.T) {
	a, lex, f := lifter(t)
	for _, s := range []roomful.KnownSet{
		{Movement: "front-squat", Reps: 5, Load: roomful.Kg(400)},
		{Movement: "front-squat", Reps: 5, Load: roomful.Kg(2)},
		{Movement: "air-squat", Reps: 5, Load: roomful.Kg(20)},
		{Movement: "row", Reps: 5, Load: roomful.Kg(20)},
	} {
		_, err := prior.WithSet(a, s, lex.Movement(s.Movement), f)
		var refused *roomful.Error
		if !errors.As(err, &refused) || refused.Hint == "" {
			t.Errorf("%s of %s: %v, want a refusal with a hint", s, s.Movement, err)
		}
	}
}
