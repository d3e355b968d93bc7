package rack_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"roomful"
	"roomful/version/internal/rack"
)

// owned is a small gym: 15 and 20 kg bars with 2.5, 5 and 10 kg plates, and
// bells of 12 and 20 kg.
func owned() *roomful.Kit {
	return &roomful.Kit{
		Bars:        []roomful.Stock{{Mass: roomful.Kg(15), Count: 2}, {Mass: roomful.Kg(20), Count: 2}},
		Plates:      []roomful.Stock{{Mass: roomful.Kg(2.5), Count: 2}, {Mass: roomful.Kg(5), Count: 2}, {Mass: roomful.Kg(10), Count: 4}},
		Kettlebells: []roomful.Stock{{Mass: roomful.Kg(12), Count: 2}, {Mass: roomful.Kg(20), Count: 2}},
		Dumbbells:   []roomful.Stock{{Mass: roomful.Kg(10), Count: 0}},
	}
}

func TestLoads(t *testing.T) {
	gym := roomful.DefaultGym()
	usual := rack.New(nil, gym, roomful.DivisionB, roomful.Kilogram)
	given := rack.New(owned(), gym, roomful.DivisionB, roomful.Kilogram)
	pounds := rack.New(nil, gym, roomful.DivisionA, roomful.Pound)
	show := func(m roomful.Mass, ok bool) string { return fmt.Sprint(m, " ", ok) }
	for _, c := range []struct{ what, got, want string }{
		{"a tie is rounded down", show(usual.Nearest(rack.Tool{Implement: roomful.Barbell}, 41.25)), "40 kg true"},
		{"the nearer above", show(usual.Nearest(rack.Tool{Implement: roomful.Barbell}, 41.3)), "42.5 kg true"},
		{"below is never above", show(usual.Below(rack.Tool{Implement: roomful.Barbell}, 42.4)), "40 kg true"},
		{"the bare bar of division b is 15 kg", show(usual.Lightest(rack.Tool{Implement: roomful.Barbell})), "15 kg true"},
		{"nothing is lighter than the bare bar", show(usual.Below(rack.Tool{Implement: roomful.Barbell}, 14)), "0 kg false"},
		{"one step down", show(usual.Lighter(rack.Tool{Implement: roomful.Barbell}, roomful.Kg(42.5))), "40 kg true"},
		{"one step up", show(usual.Heavier(rack.Tool{Implement: roomful.Barbell}, roomful.Kg(42.5))), "45 kg true"},
		{"between two bells the lighter", show(given.Nearest(rack.Tool{Implement: roomful.Kettlebell}, 16)), "12 kg true"},
		{"the next bell", show(given.Heavier(rack.Tool{Implement: roomful.Kettlebell}, roomful.Kg(12))), "20 kg true"},
		{"none counted is none owned", show(given.Nearest(rack.Tool{Implement: roomful.Dumbbell}, 10)), "0 kg false"},
		{"a sheet in pounds has pound steps", show(pounds.Below(rack.Tool{Implement: roomful.Barbell}, 45.4)), "100 lb true"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %s, want %s", c.what, c.got, c.want)
		}
	}
}

// TestPairs counts only what there are two of where two are held.
func TestPairs(t *testing.T) {
	kit := &roomful.Kit{Dumbbells: []roomful.Stock{{Mass: roomful.Kg(10), Count: 2}, {Mass: roomful.Kg(15), Count: 1}},
		Kettlebells: []roomful.Stock{{Mass: roomful.Kg(16), Count: 1}, {Mass: roomful.Kg(16), Count: 1}}}
	s := rack.New(kit, roomful.DefaultGym(), roomful.DivisionA, roomful.Kilogram)
	for _, c := range []struct {
		tool rack.Tool
		want string
	}{
		{rack.Tool{Implement: roomful.Dumbbell}, "[10 kg 15 kg]"},
		{rack.Tool{Implement: roomful.Dumbbell, Count: 2}, "[10 kg]"},
		{rack.Tool{Implement: roomful.Kettlebell, Count: 2}, "[16 kg]"},
		{rack.Tool{Implement: roomful.Kettlebell, Count: 3}, "[]"},
	} {
		if got := fmt.Sprint(s.Of(c.tool)); got != c.want {
			t.Errorf("%v: %s, want %s", c.tool, got, c.want)
		}
	}
	pair := &roomful.Movement{Implement: roomful.Kettlebell, Pair: true, Bound: &roomful.Bound{}}
	if w := s.Lacks(pair); w != "" {
		t.Errorf("two single bells are a pair: %q", w)
	}
	kit.Kettlebells = kit.Kettlebells[:1]
	if w := rack.New(kit, roomful.DefaultGym(), roomful.DivisionA, roomful.Kilogram).Lacks(pair); w != "pair of kettlebells" {
		t.Errorf("one bell: lacks %q", w)
	}
}

// TestPlain leaves out odd loads beside usual ones: four 45 lb plates make 60.82
// kg beside 60, and 40.82 beside 40. With nothing beside them they stay.
func TestPlain(t *testing.T) {
	kit := &roomful.Kit{Bars: []roomful.Stock{{Mass: roomful.Kg(20), Count: 1}},
		Plates: []roomful.Stock{{Mass: roomful.Kg(20), Count: 4}, {Mass: roomful.Kg(1.25), Count: 2}, {Mass: roomful.Lb(45), Count: 2}}}
	s := rack.New(kit, roomful.DefaultGym(), roomful.DivisionA, roomful.Kilogram)
	if got, want := fmt.Sprint(s.Of(rack.Tool{Implement: roomful.Barbell})), "[20 kg 22.5 kg 60 kg 62.5 kg 100 kg 102.5 kg 140.82 kg 143.32 kg]"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
	kit.Plates = kit.Plates[2:]
	s = rack.New(kit, roomful.DefaultGym(), roomful.DivisionA, roomful.Kilogram)
	if got, want := fmt.Sprint(s.Of(rack.Tool{Implement: roomful.Barbell})), "[20 kg 60.82 kg]"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

// TestSide loads bars from the plates. 62.5 kg on a 20 kg bar is 20 and 1.25 a
// side; 95 lb on 45 and 135 on 45 are 25 and 45 a side, 65 on 35 is 15 (common
// practice).
func TestSide(t *testing.T) {
	for _, c := range []struct {
		kit      *roomful.Kit
		division roomful.Division
		load     roomful.Mass
		want     string
	}{
		{nil, roomful.DivisionA, roomful.Kg(62.5), "20 kg [20 kg 1.25 kg] true"},
		{nil, roomful.DivisionB, roomful.Kg(42.5), "15 kg [10 kg 2.5 kg 1.25 kg] true"},
		{nil, roomful.DivisionA, roomful.Lb(95), "45 lb [25 lb] true"},
		{nil, roomful.DivisionA, roomful.Lb(135), "45 lb [45 lb] true"},
		{nil, roomful.DivisionB, roomful.Lb(65), "35 lb [15 lb] true"},
		{owned(), roomful.DivisionA, roomful.Kg(55), "20 kg [10 kg 5 kg 2.5 kg] true"},
		{owned(), roomful.DivisionA, roomful.Kg(15), "15 kg [] true"},
		{owned(), roomful.DivisionA, roomful.Kg(95), "0 kg [] false"},
		{owned(), roomful.DivisionA, roomful.Kg(41), "0 kg [] false"},
	} {
		s := rack.New(c.kit, roomful.DefaultGym(), c.division, c.load.Unit)
		bar, side, ok := s.Side(c.division, c.load)
		if got := fmt.Sprint(bar, " ", side, " ", ok); got != c.want {
			t.Errorf("%s: %s, want %s", c.load, got, c.want)
		}
	}
}

// TestSideAdds holds that bar and plates weigh what was asked, largest first,
// and that no plate is used that is not there.
func TestSideAdds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kit := &roomful.Kit{Bars: []roomful.Stock{{Mass: roomful.Kg(20), Count: 1}}}
		for _, kg := range []float64{1.25, 2.5, 5, 10, 15, 20} {
			kit.Plates = append(kit.Plates, roomful.Stock{Mass: roomful.Kg(kg), Count: rapid.IntRange(0, 5).Draw(t, "plates")})
		}
		s := rack.New(kit, roomful.DefaultGym(), roomful.DivisionA, roomful.Kilogram)
		load := rapid.SampledFrom(s.Of(rack.Tool{Implement: roomful.Barbell})).Draw(t, "load")
		bar, side, ok := s.Side(roomful.DivisionA, load)
		if !ok {
			if load.Kg() <= 60 {
				t.Fatalf("%s is listed and cannot be loaded", load)
			}
			return // more discs than a sleeve takes
		}
		sum, used := bar.Kg(), map[roomful.Mass]int{}
		for i, p := range side {
			sum += 2 * p.Kg()
			used[p] += 2
			if i > 0 && p.Kg() > side[i-1].Kg() {
				t.Fatalf("%v is not largest first", side)
			}
		}
		if d := sum - load.Kg(); d > 0.01 || d < -0.01 {
			t.Fatalf("%s weighs %v", load, sum)
		}
		for _, p := range kit.Plates {
			if used[p.Mass] > p.Count {
				t.Fatalf("%d of %d discs of %s", used[p.Mass], p.Count, p.Mass)
			}
		}
	})
}

// TestSensible gives the usual tests: light 21, moderate 12, heavier 7 times
// fresh, and never more than a set has use for (common practice, no source).
func TestSensible(t *testing.T) {
	for _, c := range []struct {
		count float64
		feel  string
		want  float64
	}{
		{0, "steady", 12}, {0, "a sprint", 21}, {0, "heavy,", 7},
		{9, "steady", 9}, {15, "steady", 12}, {5, "steady", 7}, {2, "steady", 4},
		{21, "fast", 21}, {10, "fast", 12}, {5, "heavy", 7}, {12, "heavy", 7},
	} {
		if got := rack.Sensible(c.count, c.feel); got != c.want {
			t.Errorf("%v, %s: %v, want %v", c.count, c.feel, got, c.want)
		}
	}
}
