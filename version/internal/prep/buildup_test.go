package prep_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"roomful"
	"roomful/version/internal/prep"
	"roomful/version/internal/rack"
)

// kit has a 20 and a 15 kg bar, two to six of every usual disc, dumbbells and
// bells, as a small gym.
func kit() *roomful.Kit {
	stock := func(count int, kg ...float64) (out []roomful.Stock) {
		for _, v := range kg {
			out = append(out, roomful.Stock{Mass: roomful.Kg(v), Count: count})
		}
		return out
	}
	return &roomful.Kit{Bars: stock(4, 20, 15), Plates: stock(6, 25, 20, 15, 10, 5, 2.5, 1.25),
		Dumbbells: stock(2, 5, 7.5, 10, 12.5, 15, 17.5, 20, 22.5), Kettlebells: stock(2, 8, 12, 16, 20, 24, 32)}
}

// aim is a front squat at a load on the kit's 20 kg bar, by somebody whose best is
// 120 kg, with a proof set of 12.
func aim(kg float64, change func(*prep.Aim)) prep.Aim {
	a := prep.Aim{
		Movement: &roomful.Movement{ID: "front-squat", Name: "front squat", Implement: roomful.Barbell, Pace: roomful.Pace{Ordinary: 3}},
		Load:     roomful.Kg(kg), MostKg: 120, Reps: 12, Division: roomful.DivisionA,
		Stock: rack.New(kit(), roomful.DefaultGym(), roomful.DivisionA, roomful.Kilogram),
	}
	if change != nil {
		change(&a)
	}
	return a
}

// written writes sets as "20 x 8 [], 40 x 5 [10]" with the plates on one side.
func written(b *roomful.BuildUp) string {
	if b == nil {
		return "none"
	}
	var out []string
	for _, s := range b.Sets {
		words := fmt.Sprintf("%s x %d", roomful.Figure(s.Load.Value), s.Reps)
		if s.Plates.Bar.Value > 0 {
			var side []string
			for _, p := range s.Plates.PerSide {
				side = append(side, roomful.Figure(p.Value))
			}
			words += " [" + strings.Join(side, " ") + "]"
		}
		if s.Proof {
			words += " proof"
		}
		out = append(out, words)
	}
	return strings.Join(out, ", ")
}

func strength(a *prep.Aim) { a.Strength, a.Reps = true, 5 }

// TestBuildUp holds the sets to some worked out by hand from the steps: before a
// clock the bar, two thirds for 5, 85 % for 3; for strength the bar, 40, 60, 75 and
// 88 %. Each is rounded down to plates, up to a tenth further for fewer of them.
func TestBuildUp(t *testing.T) {
	hand := func(im roomful.Implement, n int) func(*prep.Aim) {
		return func(a *prep.Aim) { a.Movement.Implement, a.Implements, a.MostKg = im, n, 0 }
	}
	for name, c := range map[string]struct {
		aim  prep.Aim
		want string
	}{
		// 40 of 60 is a 10 a side. 51 is 50 with a 5 more; the last 5 makes 60.
		"60 kg before a clock": {aim(60, nil), "20 x 8 [], 40 x 5 [10], 50 x 3 [10 5], 60 x 12 [10 5 5] proof"},
		// 66.7 and down to 60 is 60 with one 20; 85 and down to 76.5 is 80 with a 10 more.
		"100 kg before a clock":                  {aim(100, nil), "20 x 8 [], 60 x 5 [20], 80 x 3 [20 10], 100 x 12 [20 10 10] proof"},
		"one and a half bars need the bar alone": {aim(30, nil), "20 x 8 [], 30 x 12 [5] proof"},
		// 26.7 is 25. 34 is 32.5, since 30 is more than a tenth under it; one off and a 5
		// on make 40.
		"two bars":                {aim(40, func(a *prep.Aim) { a.MostKg = 100 }), "20 x 8 [], 25 x 5 [2.5], 32.5 x 3 [2.5 2.5 1.25], 40 x 12 [2.5 2.5 5] proof"},
		"the bare bar is its own": {aim(20, nil), "20 x 12 [] proof"},
		"light for this person":   {aim(60, func(a *prep.Aim) { a.MostKg = 180 }), "20 x 8 [], 40 x 5 [10], 60 x 12 [10 10] proof"},
		// half is 30, 70 % is 42 and 85 % is 51; one off and a 10 on make 60
		"lighter steps": {aim(60, func(a *prep.Aim) { a.Careful = true }), "20 x 8 [], 30 x 5 [5], 40 x 5 [5 5], 50 x 3 [5 5 5], 60 x 12 [5 5 10] proof"},
		// 40, 60, 75 and 88 of 100: 40, 60, 70 (with one plate more than 75 needs two) and 80
		"100 kg for strength": {aim(100, strength), "20 x 8 [], 40 x 5 [10], 60 x 3 [10 10], 70 x 2 [10 10 5], 80 x 1 [10 10 5 5]"},
		// built to 100: the bar, 40 and 60, then the sets begin at 75
		"sets that build": {aim(100, func(a *prep.Aim) { strength(a); a.Heaviest = true }), "20 x 8 [], 40 x 5 [10], 60 x 3 [10 10]"},
		// 55 % of 22.5 is 12.375, so 10; 80 % is 18, so 17.5
		"dumbbells that exist": {aim(22.5, hand(roomful.Dumbbell, 2)), "10 x 5, 17.5 x 3, 22.5 x 12 proof"},
		"one lighter bell":     {aim(12, hand(roomful.Kettlebell, 1)), "8 x 3, 12 x 12 proof"},
		"no lighter bell":      {aim(8, hand(roomful.Kettlebell, 1)), "none"},
		"a machine":            {aim(0, hand(roomful.RowMachine, 0)), "none"},
	} {
		t.Run(name, func(t *testing.T) {
			if diff := cmp.Diff(c.want, written(prep.BuildUp(c.aim))); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// TestBuildUpTakes holds the times of a ramp to what is usual: 3 to 5 minutes for
// a load of a conditioning piece, 8 to 12 for strength (common practice, no
// source), and to the sheet's own length.
func TestBuildUpTakes(t *testing.T) {
	for name, c := range map[string]struct {
		aim         prep.Aim
		least, most time.Duration
	}{
		"conditioning":         {aim(80, nil), 3 * time.Minute, 5 * time.Minute},
		"strength":             {aim(100, strength), 8 * time.Minute, 12 * time.Minute},
		"what the sheet gives": {aim(100, func(a *prep.Aim) { strength(a); a.Most = 6 * time.Minute }), 4 * time.Minute, 6 * time.Minute},
		"too little for all":   {aim(100, func(a *prep.Aim) { strength(a); a.Most = 3 * time.Minute }), 2 * time.Minute, 3 * time.Minute},
	} {
		b := prep.BuildUp(c.aim)
		if b.Length < c.least || b.Length > c.most {
			t.Errorf("%s: %v for %s, want %v to %v", name, b.Length, written(b), c.least, c.most)
		}
		sum := time.Duration(0)
		for _, s := range b.Sets {
			sum += s.Work + s.Rest
		}
		if sum != b.Length {
			t.Errorf("%s: the sets take %v of %v", name, sum, b.Length)
		}
	}
	// 8 at 3 s and 5 s to set up is 29 s.
	if first := prep.BuildUp(aim(60, nil)).Sets[0]; first.Work != 29*time.Second {
		t.Errorf("the first set takes %v", first.Work)
	}
}

// TestBuildUpHolds: for any load, sets grow, exist on the bar they name, no set is
// the load itself but the proof, and repetitions never grow before it.
func TestBuildUpHolds(t *testing.T) {
	base := aim(20, nil)
	loads := base.Stock.Of(rack.Tool{Implement: roomful.Barbell})
	rapid.Check(t, func(t *rapid.T) {
		a := base
		a.Load = rapid.SampledFrom(loads).Draw(t, "load")
		a.MostKg = rapid.SampledFrom([]float64{0, 80, 160}).Draw(t, "most")
		a.Strength = rapid.Bool().Draw(t, "strength")
		a.Careful = rapid.Bool().Draw(t, "careful")
		a.Heaviest = a.Strength && rapid.Bool().Draw(t, "heaviest")
		a.Division = rapid.SampledFrom([]roomful.Division{roomful.DivisionA, roomful.DivisionB}).Draw(t, "division")
		a.Most = time.Duration(rapid.IntRange(0, 12).Draw(t, "minutes")) * time.Minute
		b := prep.BuildUp(a)
		if b == nil {
			return
		}
		last, reps := 0.0, 100
		for i, s := range b.Sets {
			on := s.Plates.Bar.Kg()
			for _, p := range s.Plates.PerSide {
				on += 2 * p.Kg()
			}
			switch {
			case on < s.Load.Kg()-0.01 || on > s.Load.Kg()+0.01:
				t.Fatalf("%s: %v kg on the bar for %s", written(b), on, s.Load)
			case s.Load.Kg() <= last:
				t.Fatalf("%s: set %d does not grow", written(b), i+1)
			case !s.Proof && (s.Reps > reps || s.Load.Kg() >= a.Load.Kg()):
				t.Fatalf("%s: set %d", written(b), i+1)
			case s.Proof != (!a.Strength && i == len(b.Sets)-1):
				t.Fatalf("%s: set %d is the proof: %v", written(b), i+1, s.Proof)
			}
			last, reps = s.Load.Kg(), s.Reps
		}
	})
}
