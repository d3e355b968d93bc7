package day_test

import (
	"errors"
	"slices"
	"testing"

	"roomful"
	"roomful/day"
)

// TestChangeRefused: what a change speaks of has to be there.
func TestChangeRefused(t *testing.T) {
	g, q := changed(t)
	for _, c := range []struct {
		change day.Change
		hint   string
		kit    *roomful.Kit
	}{
		{day.Change{Down: []roomful.Place{{Word: "row"}}}, "name the kit file too", nil},
		{day.Change{Down: []roomful.Place{{Word: "rowx"}}}, "it counts row, dumbbell 15 kg", rowers(2)},
		{day.Change{Without: []string{"Nobody"}}, "write the name as the file of people has it", rowers(2)},
		{day.Change{Without: names(q.People)}, "take a name out of --without, or say how many more came with --extra", rowers(2)},
	} {
		q.Kit = c.kit
		_, err := g.Hour(t.Context(), day.HourQuestion{Question: q, Change: c.change})
		var e *roomful.Error
		if !errors.As(err, &e) || e.Hint != c.hint {
			t.Errorf("%s: %v, want the hint %q", c.change, err, c.hint)
		}
	}
}

// TestChange: with the only rower gone everybody is told what they do instead;
// with a guest more the guest is told, and two who stay away wait for nothing.
func TestChange(t *testing.T) {
	g, q := changed(t)
	q.Kit = rowers(1)
	hour, err := g.Hour(t.Context(), day.HourQuestion{Question: q, Change: day.Change{Down: []roomful.Place{{Word: "row"}}}})
	if err != nil {
		t.Fatal(err)
	}
	if len(hour.Changes) != 1 || len(hour.Changes[0].Touches) != 3 {
		t.Errorf("no rower left: %+v", hour.Changes)
	}
	hour, err = g.Hour(t.Context(), day.HourQuestion{Question: q, Change: day.Change{Extra: 1}})
	if err != nil {
		t.Fatal(err)
	}
	if len(hour.Changes) != 1 || !slices.Contains(hour.Changes[0].Touches, "guest 1") || len(hour.Places) != 1 || hour.Places[0].Need != 4 {
		t.Errorf("one more: %+v, %+v", hour.Changes, hour.Places)
	}
	hour, err = g.Hour(t.Context(), day.HourQuestion{Question: q, Change: day.Change{Only: []string{"ann"}}})
	if err != nil || len(hour.Places) != 0 {
		t.Errorf("one alone still waits: %+v, %v", hour.Places, err)
	}
}

// rowers is a kit with so many rowers and a few dumbbells.
func rowers(n int) *roomful.Kit {
	return &roomful.Kit{Stations: map[string]int{"row": n}, Dumbbells: []roomful.Stock{{Mass: roomful.Kg(15), Count: 12}}}
}

// changed is three people on a piece with a rower.
func changed(t *testing.T) (gym, day.Question) {
	t.Helper()
	g := open(t)
	s := g.session(t, "Three\n2027-03-04, 60 min\n\nmain: as many rounds as possible in 10 min\n  12 cal row\n  10 dumbbell snatches 15/15 kg\n")
	return g, day.Question{Session: s, Runs: 16, Seed: 1, People: []roomful.Athlete{{ID: "a", Name: "Ann"}, {ID: "b", Name: "Ben"}, {ID: "c", Name: "Cai"}}}
}

// names are what people are called.
func names(people []roomful.Athlete) (out []string) {
	for _, a := range people {
		out = append(out, a.Name)
	}
	return out
}
