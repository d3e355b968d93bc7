package room_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"roomful"
	"roomful/room"
)

// wanted is one bar of weight 1 without a ceiling.
func wanted(name string, bar, target roomful.Mass) roomful.WantedBar {
	return roomful.WantedBar{Name: name, Bar: bar, Target: target, Weight: 1}
}

// stock is pairs of kilogram discs.
func stock(pairs int, masses ...float64) []roomful.Stock {
	var out []roomful.Stock
	for _, m := range masses {
		out = append(out, roomful.Stock{Mass: roomful.Kg(m), Count: 2 * pairs})
	}
	return out
}

func answer(t *testing.T, q roomful.BarQuestion) roomful.BarAnswer {
	t.Helper()
	a, err := room.Plates(q, room.UsualSteps(len(q.Wanted)))
	if err != nil {
		t.Fatalf("%v (%s)", err, roomful.HintOf(err))
	}
	return a
}

// shown writes who lifts what.
func shown(a roomful.BarAnswer) string {
	var all []string
	for _, b := range a.Bars {
		line := fmt.Sprint(b.Name, " ", b.Load, " ", b.PerSide)
		if len(b.With) > 0 {
			line += " with " + strings.Join(b.With, ", ")
		}
		all = append(all, line)
	}
	return strings.Join(all, "; ")
}

// TestPlates has the trade's plate arithmetic: 42.5 kg on a 20 kg bar is 10 and
// 1.25 a side; 95 lb on 45 is a 25 a side, 135 lb a 45 (common practice). A 45 lb
// bar with two 20 kg discs is 60.41165665 kg, a pound being 0.45359237 kg by
// definition.
func TestPlates(t *testing.T) {
	lb := func(pairs int, masses ...float64) []roomful.Stock {
		var out []roomful.Stock
		for _, m := range masses {
			out = append(out, roomful.Stock{Mass: roomful.Lb(m), Count: 2 * pairs})
		}
		return out
	}
	for _, c := range []struct {
		name   string
		plates []roomful.Stock
		bar    roomful.WantedBar
		want   string
		off    float64
	}{
		{"kilograms", stock(2, 10, 5, 2.5, 1.25), wanted("Pia", roomful.Kg(20), roomful.Kg(42.5)), "Pia 42.5 kg [10 kg 1.25 kg]", 0},
		{"pounds", lb(2, 45, 25, 10), wanted("Pia", roomful.Lb(45), roomful.Lb(95)), "Pia 95 lb [25 lb]", 0},
		{"one big disc", lb(2, 45, 25, 10), wanted("Pia", roomful.Lb(45), roomful.Lb(135)), "Pia 135 lb [45 lb]", 0},
		{"kilograms on a pound bar", stock(1, 20), wanted("Pia", roomful.Lb(45), roomful.Kg(60)), "Pia 60.412 kg [20 kg]", 0.41165665},
		{"nothing but the bar", nil, wanted("Pia", roomful.Kg(15), roomful.Kg(30)), "Pia 15 kg []", 15},
		{"an odd disc makes no pair", []roomful.Stock{{Mass: roomful.Kg(10), Count: 1}}, wanted("Pia", roomful.Kg(20), roomful.Kg(40)), "Pia 20 kg []", 20},
		{"two odd ones do", []roomful.Stock{{Mass: roomful.Kg(10), Count: 1}, {Mass: roomful.Kg(10), Count: 1}}, wanted("Pia", roomful.Kg(20), roomful.Kg(40)), "Pia 40 kg [10 kg]", 0},
	} {
		a := answer(t, roomful.BarQuestion{Plates: c.plates, Wanted: []roomful.WantedBar{c.bar}})
		if got := shown(a); got != c.want || math.Abs(a.Deviation-c.off) > 1e-12 || !a.Proven || a.Bound != a.Deviation {
			t.Errorf("%s: %s, off %v, bound %v; want %s, off %v", c.name, got, a.Deviation, a.Bound, c.want, c.off)
		}
	}
}

// TestCollars counts them into the load and against the ceiling (2.5 kg each,
// international weightlifting rules).
func TestCollars(t *testing.T) {
	q := roomful.BarQuestion{Plates: stock(1, 10), Collars: roomful.Kg(5), Wanted: []roomful.WantedBar{wanted("Pia", roomful.Kg(20), roomful.Kg(45))}}
	if a := answer(t, q); shown(a) != "Pia 45 kg [10 kg]" {
		t.Error(shown(a))
	}
	q.Wanted[0].Ceiling = roomful.Kg(24)
	if _, err := room.Plates(q, 1); err == nil || !strings.Contains(err.Error(), "with its collars is above the ceiling of 24 kg") {
		t.Error(err)
	}
}

// TestShort says which discs are too few, for whom, and what would be near.
func TestShort(t *testing.T) {
	a := answer(t, roomful.BarQuestion{Plates: stock(1, 10, 1.25), Wanted: []roomful.WantedBar{
		wanted("Odo", roomful.Kg(20), roomful.Kg(42.5)), wanted("Pia", roomful.Kg(20), roomful.Kg(43))}})
	if got := fmt.Sprint(a.Short); got != "[{disc 10 kg 2 4 [Pia]} {disc 1.25 kg 2 4 [Pia]}]" {
		t.Error(got)
	}
	if b := a.Bars[1]; b.Below != roomful.Kg(42.5) || b.Above != roomful.Kg(45) || a.Bars[0].Below.Value != 0 {
		t.Errorf("%+v", b)
	}
}

// TestMostUnder asks before it strips a bar: with one pair of tens, the sum is
// served either way, and the cap decides.
func TestMostUnder(t *testing.T) {
	heavy := wanted("Odo", roomful.Kg(20), roomful.Kg(60))
	heavy.Weight = 2
	q := roomful.BarQuestion{Plates: stock(1, 15, 5), Wanted: []roomful.WantedBar{heavy, wanted("Pia", roomful.Kg(20), roomful.Kg(30))}}
	if a := answer(t, q); shown(a) != "Odo 60 kg [15 kg 5 kg]; Pia 20 kg []" || a.Questions != nil {
		t.Error(shown(a), a.Questions)
	}
	q.MostUnder = roomful.Kg(10)
	if a := answer(t, q); shown(a) != "Odo 60 kg [15 kg 5 kg]; Pia 20 kg []" || a.Questions != nil {
		t.Error(shown(a), a.Questions)
	}
	q.MostUnder = roomful.Kg(9)
	a := answer(t, q)
	if shown(a) != "Odo 60 kg [15 kg 5 kg]; Pia 20 kg []" || len(a.Questions) != 1 || a.Questions[0] != "Pia gets 20 kg, 10 kg under: is that all right?" {
		t.Error(shown(a), a.Questions)
	}
	q.Plates = stock(1, 15, 5, 5)
	if a := answer(t, q); shown(a) != "Odo 60 kg [15 kg 5 kg]; Pia 30 kg [5 kg]" || a.Questions != nil {
		t.Error(shown(a), a.Questions)
	}
}

// TestPrevious leaves on what is on from the heat before, and counts discs.
func TestPrevious(t *testing.T) {
	w := wanted("Pia", roomful.Kg(20), roomful.Kg(70))
	w.Previous = []roomful.Mass{roomful.Kg(10), roomful.Kg(10)}
	q := roomful.BarQuestion{Plates: stock(2, 20, 10, 5), Wanted: []roomful.WantedBar{w}}
	if a := answer(t, q); shown(a) != "Pia 70 kg [10 kg 10 kg 5 kg]" || a.Moved != 2 || a.Bars[0].Moved != 1 || !a.Proven {
		t.Error(shown(a), a.Moved)
	}
	q.Wanted[0].Previous = []roomful.Mass{roomful.Kg(11)}
	if _, err := room.Plates(q, 1); err == nil || err.Error() != "Pia: 11 kg was on the bar and is not among the discs" {
		t.Error(err)
	}
}

// TestShare puts people of similar load and height on one bar when bars are
// short, and nobody who may not.
func TestShare(t *testing.T) {
	person := func(name string, target, height float64) roomful.WantedBar {
		w := wanted(name, roomful.Mass{}, roomful.Kg(target))
		w.MayShare, w.HeightCm = true, height
		return w
	}
	q := roomful.BarQuestion{
		Plates: stock(4, 20, 10, 5, 2.5), Rack: []roomful.Stock{{Mass: roomful.Kg(20), Count: 2}},
		Wanted: []roomful.WantedBar{person("Ann", 100, 170), person("Ben", 60, 190), person("Cal", 60, 172), person("Dot", 65, 168)},
	}
	a := answer(t, q)
	want := "Ann 100 kg [20 kg 20 kg]; Ben 60 kg [20 kg]; Cal 60 kg [20 kg] with Dot; Dot 65 kg [20 kg 2.5 kg] with Cal"
	if got := shown(a); got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	if got := fmt.Sprint(a.Short); got != "[{bar 20 kg 2 3 [Ann Ben Cal Dot]}]" {
		t.Error(got)
	}
	q.Wanted[3].MayShare = false
	if a := answer(t, q); a.Bars[3].With != nil {
		t.Error(shown(a))
	}
}

// TestRefusals are clear and name who or what.
func TestRefusals(t *testing.T) {
	good := func() roomful.BarQuestion {
		return roomful.BarQuestion{Plates: stock(1, 10), Wanted: []roomful.WantedBar{wanted("Pia", roomful.Kg(20), roomful.Kg(40))}}
	}
	for _, c := range []struct {
		name string
		bad  func(*roomful.BarQuestion)
		want string
	}{
		{"nobody", func(q *roomful.BarQuestion) { q.Wanted = nil }, "no bar is asked for"},
		{"no name", func(q *roomful.BarQuestion) { q.Wanted[0].Name = "" }, "a bar has no name"},
		{"twice", func(q *roomful.BarQuestion) { q.Wanted = append(q.Wanted, q.Wanted[0]) }, `two bars are called "Pia"`},
		{"no target", func(q *roomful.BarQuestion) { q.Wanted[0].Target.Value = 0 }, "Pia: a target is missing or cannot be right"},
		{"no number", func(q *roomful.BarQuestion) { q.Wanted[0].Target.Value = math.NaN() }, "Pia: a target is missing or cannot be right"},
		{"endless", func(q *roomful.BarQuestion) { q.Wanted[0].Ceiling.Value = math.Inf(1) }, "Pia: this ceiling cannot be right"},
		{"below zero", func(q *roomful.BarQuestion) { q.Wanted[0].Weight = -1 }, "Pia: this weight cannot be right"},
		{"too heavy a bar", func(q *roomful.BarQuestion) { q.Wanted[0].Ceiling = roomful.Kg(15) }, "Pia: the bare bar of 20 kg is above the ceiling of 15 kg"},
		{"discs below zero", func(q *roomful.BarQuestion) { q.Plates[0].Count = -2 }, "-2 discs of 10 kg cannot be right"},
		{"discs without end", func(q *roomful.BarQuestion) { q.Plates[0].Count = 1 << 40 }, "1099511627776 discs of 10 kg cannot be right"},
		{"empty rack", func(q *roomful.BarQuestion) { q.Rack, q.Wanted[0].Bar = []roomful.Stock{}, roomful.Mass{} }, "Pia: there is no bar in the rack"},
		{"bars below zero", func(q *roomful.BarQuestion) { q.Rack = []roomful.Stock{{Mass: roomful.Kg(20), Count: -1}} }, "-1 bars of 20 kg cannot be right"},
		{"weightless", func(q *roomful.BarQuestion) { q.Plates[0].Mass.Value = 0 }, "2 discs of 0 kg cannot be right"},
		{"crowd", func(q *roomful.BarQuestion) { q.Wanted = make([]roomful.WantedBar, 201) }, "201 bars are asked for, more than 200"},
	} {
		q := good()
		c.bad(&q)
		_, err := room.Plates(q, 1)
		if err == nil || err.Error() != c.want || roomful.HintOf(err) == "" {
			t.Errorf("%s: %v (%s), want %s", c.name, err, roomful.HintOf(err), c.want)
		}
	}
}

// TestWeights may be of any fineness: where they must be rounded to be added up,
// the bound stays below the sum and nothing is called proven that is not.
func TestWeights(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := roomful.BarQuestion{SleevePlates: 4}
		for _, m := range []roomful.Mass{roomful.Kg(20), roomful.Lb(25), roomful.Kg(2.5), roomful.Lb(2.5)} {
			q.Plates = append(q.Plates, roomful.Stock{Mass: m, Count: rapid.IntRange(0, 6).Draw(t, "count")})
		}
		for i := range rapid.IntRange(1, 5).Draw(t, "bars") {
			w := wanted(fmt.Sprint(i), roomful.Kg(20), roomful.Kg(rapid.Float64Range(20, 120).Draw(t, "target")))
			w.Weight = rapid.Float64Range(0, 10).Draw(t, "weight")
			q.Wanted = append(q.Wanted, w)
		}
		a, err := room.Plates(q, 100_000)
		if err != nil {
			if !strings.Contains(err.Error(), "too finely") {
				t.Fatal(err)
			}
			return
		}
		sum := 0.0
		for _, b := range a.Bars {
			load := b.Bar.Kg()
			for _, m := range b.PerSide {
				load += 2 * m.Kg()
			}
			if math.Abs(load-b.Load.Kg()) > 1e-9 {
				t.Fatalf("%s: %v on the bar and %v said", b.Name, load, b.Load)
			}
			sum += b.Weight * math.Abs(load-b.Target.Kg())
		}
		if math.Abs(sum-a.Deviation) > 1e-6 || a.Bound > a.Deviation || a.Proven && a.Bound != a.Deviation {
			t.Fatalf("off by %v, said %v, bound %v, proven %v", sum, a.Deviation, a.Bound, a.Proven)
		}
	})
}
