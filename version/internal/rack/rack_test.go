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
		{"a tie is rounded down", show(usual.Nearest(roomful.Barbell, 41.25)), "40 kg true"},
		{"the nearer above", show(usual.Nearest(roomful.Barbell, 41.3)), "42.5 kg true"},
		{"below is never above", show(usual.Below(roomful.Barbell, 42.4)), "40 kg true"},
		{"the bare bar of division b is 15 kg", show(usual.Lightest(roomful.Barbell)), "15 kg true"},
		{"nothing is lighter than the bare bar", show(usual.Below(roomful.Barbell, 14)), "0 kg false"},
		{"one step down", show(usual.Lighter(roomful.Barbell, roomful.Kg(42.5))), "40 kg true"},
		{"one step up", show(usual.Heavier(roomful.Barbell, roomful.Kg(42.5))), "45 kg true"},
		{"between two bells the lighter", show(given.Nearest(roomful.Kettlebell, 16)), "12 kg true"},
		{"the next bell", show(given.Heavier(roomful.Kettlebell, roomful.Kg(12))), "20 kg true"},
		{"none counted is none owned", show(given.Nearest(roomful.Dumbbell, 10)), "0 kg false"},
		{"a sheet in pounds has pound steps", show(pounds.Below(roomful.Barbell, 45.4)), "100 lb true"},
	} {
		if c.got != c.want {
			t.Errorf("%s: %s, want %s", c.what, c.got, c.want)
		}
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
		load := rapid.SampledFrom(s.Of(roomful.Barbell)).Draw(t, "load")
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
